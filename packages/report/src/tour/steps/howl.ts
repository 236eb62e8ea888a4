import type { Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import { regenerationWords } from '../../response/signal-words.ts';
import { cureWords, verdictWords } from '../../response/squeal-words.ts';
import { listed } from '../../text/words.ts';
import type { Grounds } from '../grounds.ts';
import type { Place } from '../places.ts';
import { plainOverlay, type Telling, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';
import { named } from '../wiring.ts';

/** Why the set wants to howl, what it uses against that, and whether it is enough. */
export function howlStep(grounds: Grounds): TourStep | undefined {
  const { circuit, places, response, style, overlay } = grounds;
  const tubes = circuit.parts.filter(({ kind }) => kind === 'tube');
  if (tubes.length === 0) return undefined;
  const tell = telling(grounds, 'howl', 'Why it wants to howl, and what holds it');
  const amplifiers = places.filter(
    ({ use, isOnWay, part }) =>
      isOnWay && part.kind === 'tube' && (use === 'radio' || use === 'intermediate'),
  );
  const feedback = overlay('radio')?.paths.filter(({ kind }) => kind === 'feedback') ?? [];
  tell.say(causeWords(tell, amplifiers));
  for (const path of feedback.slice(0, 1)) {
    tell.path(path);
    const back = path.steps.at(-2)?.part;
    const on = path.steps.at(-1)?.part;
    if (back !== undefined && on !== undefined && path.steps.at(-1)?.coupled)
      tell.say(
        `Here it is done on purpose: ${back} in the plate lead feeds back to ${on}, which makes up for what the tuned circuit loses; too much of it, and the set oscillates and disturbs the neighbors.`,
      );
  }
  const means = meansOf(grounds, amplifiers);
  const told = [
    ...(means.lossers.length > 0
      ? [
          `${listed(means.lossers.map(named))} in the grid ${means.lossers.length > 1 ? 'leads' : 'lead'}`,
        ]
      : []),
    ...(means.balances.length > 0
      ? [
          `${listed(means.balances.map(named))}, which ${means.balances.length > 1 ? 'feed' : 'feeds'} as much back the other way about and so ${means.balances.length > 1 ? 'cancel' : 'cancels'} the feedback, with the tubes for which ${means.balances.length > 1 ? 'they are' : 'it is'} set`,
        ]
      : []),
    ...(means.stabilizers.length > 0
      ? [
          `${listed(means.stabilizers.map(named))}, which can turn the grids positive so that they take current and damp`,
        ]
      : []),
    ...(means.screens.length > 0
      ? [
          `the ${means.screens.length > 1 ? 'screens' : 'screen'} of ${listed(means.screens.map(({ name }) => name))} between plate and grid`,
        ]
      : []),
  ];
  if (told.length > 0) tell.say(`Against it this set has ${listed(told)}.`);
  else if (amplifiers.length > 0) tell.say('The text tells of nothing that was put in against it.');
  if (response.missing.length === 0) {
    // What is told of a set that regenerates holds for one stand of its control.
    const regenerates = regenerationWords(response, style);
    tell.quote(regenerates);
    tell.quote(verdictWords(response, style));
    if (regenerates === '') tell.quote(cureWords(response, style));
  } else {
    for (const each of response.missing) tell.missing(each);
    tell.say(`How far it is from howling cannot be told, for want of ${listed(response.missing)}.`);
  }
  if (tell.said() < 2 && amplifiers.length === 0 && feedback.length === 0)
    tell.say(
      `With no tuned circuit before and behind the same tube there is little to feed back at radio frequency.`,
    );
  const lit = [
    ...amplifiers.map(({ part }) => part.name),
    ...[...means.lossers, ...means.balances, ...means.stabilizers].map(({ name }) => name),
  ];
  tell.parts(...lit);
  const shown = feedback.slice(0, 1);
  const names = lit.length > 0 || shown.length > 0 ? lit : tubes.map(({ name }) => name);
  return tell.done(plainOverlay('What feeds back', names, shown));
}

function causeWords(tell: Telling, amplifiers: readonly Place[]): string | undefined {
  const [first] = amplifiers;
  if (!first) return undefined;
  const names = amplifiers.map(({ part }) => part.name);
  const farads = first.part.tubeType?.capacitances['grid plate'];
  const isScreened = first.part.tubeType?.screen;
  if (farads === undefined)
    return `Between plate and grid of ${listed(names)} there is some capacity inside the tube, by which the plate can feed the grid; it does most at the short waves.`;
  const size = tell.number({
    words: `capacity from grid to plate of type ${first.part.tubeType?.name}`,
    text: formatQuantity(farads, 'capacitance', tell.grounds.style),
    value: farads,
    because: first.part.tubeType?.source ?? 'the tube library',
    source: { from: 'type', tube: first.part.name, what: 'grid-plate' },
  });
  if (first.use === 'intermediate' && !isScreened)
    return `In ${listed(names)} the plate feeds the grid through ${size} inside the tube, and their circuits stand in tune with one another at every station.`;
  return isScreened
    ? `In ${listed(names)} the screen leaves only ${size} between plate and grid, which is why they can be driven so far.`
    : `In ${listed(names)} the plate feeds the grid through ${size} inside the tube; that does most at the short waves, and with the dials a little apart.`;
}

interface Means {
  readonly lossers: readonly Part[];
  readonly balances: readonly Part[];
  readonly stabilizers: readonly Part[];
  readonly screens: readonly Part[];
}

/** What a set has against howling, found by how it is wired. */
function meansOf({ circuit, overlay }: Grounds, amplifiers: readonly Place[]): Means {
  const lossers = amplifiers.flatMap(({ arrives }) => {
    const last = circuit.partNamed.get(arrives.at(-1)?.part ?? '');
    return last?.kind === 'resistor' ? [last] : [];
  });
  const stabilizers = amplifiers.flatMap(({ part }) =>
    (overlay(`bias ${part.name}`)?.paths ?? []).flatMap(({ steps }) =>
      steps.flatMap((step) => {
        const found = circuit.partNamed.get(step.part);
        return found?.kind === 'potentiometer' ? [found] : [];
      }),
    ),
  );
  return {
    lossers: [...new Set(lossers)],
    balances: circuit.parts.filter(
      ({ kind, words }) => kind === 'condenser' && words.has('neutralizing'),
    ),
    stabilizers: [...new Set(stabilizers)],
    screens: amplifiers.flatMap(({ part }) =>
      part.ends.some(({ name }) => name === 'screen') ? [part] : [],
    ),
  };
}
