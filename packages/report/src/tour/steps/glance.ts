import { listed } from '../../text/words.ts';
import type { Grounds } from '../grounds.ts';
import type { Place, PlaceUse } from '../places.ts';
import { soNumber, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';
import { countOf } from '../wiring.ts';

/** What stands before us: the kind of set, its stages, its dials, who does what. */
export function glanceStep(grounds: Grounds): TourStep {
  const { circuit, places } = grounds;
  const tell = telling(grounds, 'glance', 'The set at a glance');
  const tubes = circuit.parts.filter(({ kind }) => kind === 'tube');
  const tuning = tuningDials(grounds);
  const count = tubes.length > 0 ? countOf(tubes.length, 'tube') : 'no tube';
  const isDialled = tuning.some((name) => circuit.dials.some((dial) => dial.name === name));
  const dials =
    tuning.length > 0
      ? `${countOf(tuning.length, isDialled ? 'tuning dial' : 'tuning condenser')}, ${listed(tuning)}`
      : 'nothing that the text says is tuned by hand';
  const year = circuit.year ? ` (${circuit.year.text})` : '';
  const title = circuit.title === '' ? 'This set' : circuit.title;
  tell.say(`${title}${year} is ${article(kindOfSet(grounds))}: ${count} and ${dials}.`);
  tell.say(jobsOf(places));
  tell.say(tuneWords(grounds, tell));
  const { stages } = circuit;
  if (stages.length > 0) {
    const shaded = stages.map(({ name, title: words }) =>
      words === undefined ? name : `${name} (${words})`,
    );
    tell.say(
      `${stages.length > 1 ? `The ${countOf(stages.length, 'shaded piece')} of the drawing are its stages` : 'The shaded piece of the drawing is its one stage'}: ${listed(shaded)}.`,
    );
  }
  if (tubes.length > 0)
    tell.say(
      'Currents are told and drawn from + to −; inside the tubes the electrons go the other way.',
    );
  tell.parts(...tubes.map(({ name }) => name));
  return tell.done(grounds.overlay('whole'), { shadesStages: true });
}

/** The dials, or condensers without one, that tune to the station. */
export function tuningDials({
  circuit,
  tuned,
}: Pick<Grounds, 'circuit' | 'tuned'>): readonly string[] {
  const turned = tuned.flatMap(({ tuner, beside }) =>
    [...(tuner === undefined ? [] : [tuner]), ...beside].filter((name) =>
      circuit.partNamed.get(name)?.words.has('variable'),
    ),
  );
  const isWanted = (name: string): boolean => turned.includes(name);
  return [
    ...new Set(
      circuit.parts
        .map(({ name }) => name)
        .filter(isWanted)
        .map((name) => {
          const gang = circuit.gangs.find(({ members }) => members.includes(name))?.name;
          const dial = circuit.dials.find(
            ({ drives }) => drives.includes(name) || (gang !== undefined && drives.includes(gang)),
          );
          return dial?.name ?? gang ?? name;
        }),
    ),
  ];
}

function article(words: string): string {
  return `${/^[aeio]/.test(words) ? 'an' : 'a'} ${words}`;
}

/** What a restorer calls a set wired like this one. */
export function kindOfSet({
  circuit,
  places,
  overlay,
}: Pick<Grounds, 'circuit' | 'places' | 'overlay'>): string {
  const uses = places.filter(({ isOnWay }) => isOnWay);
  const tubes = circuit.parts.filter(({ kind }) => kind === 'tube');
  const has = (use: PlaceUse): boolean => places.some((place) => place.use === use);
  const crystal = circuit.parts.some(({ kind }) => kind === 'crystal');
  if (tubes.length === 0) return crystal ? 'crystal set' : 'set without a tube or crystal';
  if (has('mixer') && (has('oscillator') || has('intermediate'))) return 'superheterodyne';
  const isTwice = uses.some(({ part }, at) => uses.findIndex((each) => each.part === part) !== at);
  if (isTwice) return 'reflex set';
  const radio = uses.filter(({ use }) => use === 'radio');
  const feeds = overlay('radio')?.paths.some(({ kind }) => kind === 'feedback') ?? false;
  if (radio.length > 0) {
    const isNeutral = circuit.parts.some(({ words }) => words.has('neutralizing'));
    const isScreened = radio.some(({ part }) => part.tubeType?.screen);
    if (isScreened) return 'tuned-radio-frequency set with screen-grid tubes';
    if (isNeutral) return 'neutralized tuned-radio-frequency set';
    return feeds ? 'tuned-radio-frequency set that regenerates' : 'tuned-radio-frequency set';
  }
  const audio = uses.filter(({ use }) => use === 'audio').length;
  if (uses.length === 0) return 'set in which no way for a signal was found';
  const behind = audio > 0 ? ` with ${countOf(audio, 'audio stage')}` : '';
  if (feeds) return `regenerative set${behind}`;
  return crystal ? `crystal set${behind}` : `detector set${behind}`;
}

/** Who selects, who detects, who makes louder. */
function jobsOf(places: readonly Place[]): string | undefined {
  const by = (use: PlaceUse): readonly string[] => [
    ...new Set(
      places
        .filter((place) => place.use === use && place.isOnWay)
        .flatMap(({ part, twins }) => [part.name, ...twins.map(({ name }) => name)]),
    ),
  ];
  const job = (use: PlaceUse, one: string, many: string): string[] => {
    const names = by(use);
    return names.length > 0 ? [`${listed(names)} ${names.length > 1 ? many : one}`] : [];
  };
  const oscillators = places.filter(({ use }) => use === 'oscillator').map(({ part }) => part.name);
  const jobs = [
    ...job('radio', 'raises the radio signal', 'raise the radio signal'),
    ...(oscillators.length > 0 ? [`${listed(oscillators)} oscillates beside the station`] : []),
    ...job('mixer', 'mixes the station with it', 'mix the station with it'),
    ...job('intermediate', 'raises the difference', 'raise the difference'),
    ...job('detector', 'detects', 'detect'),
    ...job('audio', 'makes the audio louder', 'make the audio louder'),
  ];
  const [only, second] = jobs;
  if (only === undefined) return undefined;
  if (second === undefined && by('detector').length > 0)
    return `${only}, and nothing amplifies before it or behind it.`;
  return `In the order of the signal ${listed(jobs)}.`;
}

function tuneWords(grounds: Grounds, tell: ReturnType<typeof telling>): string | undefined {
  const { tunes } = grounds.circuit;
  if (!tunes) return undefined;
  const [low, high] = (['low', 'high'] as const).map((edge) =>
    soNumber(
      tell,
      `${edge === 'low' ? 'lowest' : 'highest'} frequency to be tuned`,
      tunes[edge].value,
      'frequency',
      'as the text says',
      { from: 'band', edge },
    ),
  );
  return `It is to tune from ${low} to ${high}.`;
}
