import type { Part } from '@setwright/circuit';
import { listed } from '../../text/words.ts';
import type { Grounds } from '../grounds.ts';
import { plainOverlay, type Telling, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';
import { inWords, named } from '../wiring.ts';
import { gainWords } from './gains.ts';

/** How the signal comes in, what taps do, and what arrives at the first grid or crystal. */
export function aerialStep(grounds: Grounds): TourStep | undefined {
  const { circuit, overlay } = grounds;
  const entrance = circuit.parts.find(({ kind, words }) => kind === 'post' && words.has('aerial'));
  const loop = circuit.parts.find(({ kind }) => kind === 'loop');
  const way = overlay('radio')?.paths.find(({ kind }) => kind === 'radio');
  if (!entrance && !loop) return undefined;
  const tell = telling(grounds, 'aerial', entrance ? 'The aerial comes in' : 'The loop');
  const first = way?.steps.findIndex(({ part }) => {
    const kind = circuit.partNamed.get(part)?.kind;
    return kind === 'tube' || kind === 'crystal';
  });
  const steps = way?.steps.slice(0, first === -1 ? undefined : first) ?? [];
  const path = way && { ...way, steps };
  if (path) {
    const { to: _to, ...open } = path;
    tell.path(open);
  }
  if (!way) {
    tell.say(
      `${named((entrance ?? loop) as Part)} is where the signal comes in, but no way from there to a detector was found.`,
    );
    tell.missing('a way from the aerial to a detector');
  } else if (entrance) throughAerial(tell, entrance, steps);
  else if (loop)
    tell.say(
      `${named(loop)} is aerial and tuned winding in one: the wave induces the signal in its turns, and no ground is wanted for that.`,
    );
  const next = grounds.places.find(({ isOnWay }) => isOnWay);
  if (next) {
    const from = entrance?.name ?? loop?.name ?? '';
    const to = next.part.kind === 'tube' ? `${next.part.name}.grid` : next.part.name;
    const gains = gainWords(tell, from, to);
    if (gains)
      tell.say(
        `In tune, one volt in ${entrance ? 'the aerial' : 'the loop'} makes ${gains.volts} at ${to}${gains.bound}.`,
      );
  }
  if (loop && !entrance)
    tell.lesson('aerial 1', 'It hears best along its own plane, and least from the side.');
  tell.parts(...(entrance ? [entrance.name] : []), ...(loop ? [loop.name] : []));
  const { to: _none, ...drawn } = path ?? { kind: 'radio' as const, heading: '', steps: [] };
  return tell.done(
    path
      ? plainOverlay('The aerial comes in', [], [drawn])
      : plainOverlay('The aerial comes in', [(entrance ?? loop)?.name ?? '']),
  );
}

function throughAerial(
  tell: Telling,
  entrance: Part,
  steps: readonly { readonly part: string; readonly coupled?: boolean }[],
): void {
  const { circuit } = tell.grounds;
  const at = steps.findIndex(({ coupled }) => coupled);
  const wired = (at < 0 ? steps : steps.slice(0, at)).map(({ part }) => part);
  const into = at < 0 ? undefined : steps[at]?.part;
  const from = at < 0 ? undefined : steps[at - 1]?.part;
  const selector = wired
    .map((name) => circuit.partNamed.get(name))
    .find((part) => part?.kind === 'selector');
  const by = [...new Set(wired)];
  const ground = circuit.parts.find(({ kind, words }) => kind === 'post' && words.has('ground'));
  const home = ground ? ` to ${ground.name}` : '';
  const isHome =
    ground !== undefined &&
    from !== undefined &&
    (circuit.partNamed
      .get(from)
      ?.ends.some(({ junction }) => junction === ground.ends[0]?.junction) ??
      false);
  if (into !== undefined && from !== undefined) {
    tell.say(
      `The signal comes in at ${named(entrance)} and runs through ${listed(by)}${isHome ? home : ''}.`,
    );
    const k = couplingOf(tell, from, into);
    tell.say(
      `${into} takes it up by the field of ${from}${k ? `, with a coupling of ${k}` : ''}; no wire carries it over.`,
    );
  } else
    tell.say(
      by.length > 0
        ? `The signal comes in at ${named(entrance)} and goes on through ${listed(by)}, by wire all the way.`
        : `The signal comes in at ${named(entrance)}, straight on the first circuit.`,
    );
  if (selector) {
    const stands = selector.positions[selector.drawnAt];
    const choices = selector.positions.length;
    tell.say(
      `${named(selector)} stands at ${stands} and has ${inWords(choices)} places: as a rule more turns in the aerial's lead are louder and less selective.`,
    );
  }
}

/** The coupling of two windings, whichever of them the coil names first. */
export function couplingOf(tell: Telling, one: string, other: string): string | undefined {
  const isThere = (part: string, to: string): boolean =>
    tell.grounds.rows.some(
      (row) => row.part === part && row.to === to && row.quantity === 'coupling',
    );
  if (isThere(one, other)) return tell.value(one, 'coupling', { to: other });
  return isThere(other, one) ? tell.value(other, 'coupling', { to: one }) : undefined;
}
