import { type Margin, margin, type Stability, stability } from '@setwright/analysis';
import type { Finding, Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { trfExample } from '../examples/trf-example.ts';
import { floatingGrids } from '../grids/floating-grid.ts';
import { feedbacks } from '../radio/feedback.ts';
import { areSignalsKnown } from '../radio/signals-known.ts';
import { isQuietAt, type Squeal, squealsOf } from '../radio/squealing.ts';
import { USUAL_QUALITY } from '../radio/strengthened.ts';
import { tamerOf } from '../radio/taming.ts';
import { type Played, partsPlayed } from '../sizes/parts-played.ts';
import type { Study } from '../study.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';
import { gridBiasedPositive } from './grid-biased-positive.ts';
import { gridReturnSide } from './grid-return-side.ts';
import { gridWithoutDcReturn } from './grid-without-dc-return.ts';
import { neutralizerOutOfRange } from './neutralizer-out-of-range.ts';
import { neutralizingSense } from './neutralizing-sense.ts';

/** Roles of the stages that carry a radio signal and should only amplify it. */
const amplifying: readonly string[] = ['radio', 'intermediate'];

/** More stages than any set has: the work grows faster than their number. */
const MOST_STAGES = 10;

/** Roles of the stages whose tubes may oscillate on purpose. */
const onPurpose: readonly string[] = ['detector', 'mixer', 'oscillator'];

/** What says better why a stage squeals, or makes its figures worthless. */
const moreBasic: readonly Check[] = [
  gridWithoutDcReturn,
  gridReturnSide,
  gridBiasedPositive,
  neutralizingSense,
  neutralizerOutOfRange,
];

/** A radio or intermediate stage that oscillates by itself. */
export const stageOscillates: Check = {
  id: 'stage-oscillates',
  group: 'Radio frequency',
  severity: 'warning',
  summary:
    'A radio or intermediate stage that oscillates by itself, in tune or with the dials a few percent apart. Coils are taken as not seeing each other.',
  why: 'A stage that oscillates whistles on every station, drowns the weak ones, and can send through the aerial.',
  silent: [
    'Detectors and oscillators that keep the oscillation going: with a tickler they must.',
    'A control that stops it at every station is only information: a stabilizing potentiometer, a rheostat as volume control, a plate resistor, a tickler backed off.',
    'A rheostat that would have to starve its tubes for it, and is not called a volume control, does not count as one.',
    'What another position of a switch, selector or jack cures is only information.',
    'A neutralizing condenser that the text does not set is taken as balanced.',
    'What only oscillates with the losses of the wire alone, and not with coils of a Q of 100, is only information.',
    'Coils, condensers or tubes of which too little is known.',
    'More than ten radio and intermediate stages, which no set of the time has.',
    'A floating grid, a grid returned to the wrong side, or a neutralizing condenser that cannot balance: those come first.',
  ],
  source: 'common practice',
  needsWholeText: true,
  thorough: {
    asks: 'whether a radio stage squeals',
    examines: (study) => onlyAmplifying(study, examined(study)).length > 0,
  },
  fails: trfExample({}).replace(/resistor R[12] 1500 ohms from/g, 'wire'),
  passes: trfExample({}),
  find,
};

/** The tubes that carry a radio signal; none where they cannot be judged. */
function examined(study: Study): readonly TubeAt[] {
  const carriers = study.tubes.filter(({ roles }) =>
    roles.some((role) => amplifying.includes(role)),
  );
  if (carriers.length === 0 || carriers.length > MOST_STAGES) return [];
  if (!carriers.every(({ part }) => hasCapacities(part))) return [];
  return areSignalsKnown(study, carriers, study.operating) ? carriers : [];
}

function find(study: Study): readonly Finding[] {
  const carriers = examined(study);
  if (carriers.length === 0) return [];
  const { circuit, operating: point } = study;
  const amplifiers = new Set(onlyAmplifying(study, carriers).map(({ part }) => part.name));
  // The wire alone is the least that a coil can lose: what is steady with that is steady.
  const least = stability(circuit, point);
  const squeals = squealsOf(least, amplifiers);
  if (squeals.length === 0 || isSaidBetter(study, carriers)) return [];
  const options = { quality: USUAL_QUALITY };
  const usual = stability(circuit, point, options);
  const usually = squealsOf(usual, amplifiers);
  if (usually.length === 0) {
    const isKnown = usual.stations.every((each) => isQuietAt(each, amplifiers));
    return isKnown ? [mayOscillate(study, least, squeals)] : [];
  }
  const tamer = tamerOf(study, {
    stations: usually.map(({ station }) => station),
    amplifiers,
    tuners: new Set(
      usual.stations.flatMap(({ alignment }) =>
        alignment.circuits.map(({ condenser }) => condenser),
      ),
    ),
    options,
  });
  const control = tamer?.control;
  return [
    finding({
      ...said(study, usual, usually),
      severity: tamer ? 'information' : 'warning',
      message: `${subject(study, usually)} ${where(usual, usually)}${tamer ? ', as the set is drawn' : ''}.`,
      cure: tamer
        ? `Nothing, if it is meant: it is quiet with ${tamer.words}.`
        : cureOf(study, usually, USUAL_QUALITY),
      related: [
        ...alsoTubes(study, usually),
        ...(control ? [alsoPart(control, 'the control that stops it')] : []),
      ],
    }),
  ];
}

function hasCapacities({ tubeType }: Part): boolean {
  return tubeType?.capacitances['grid plate'] !== undefined;
}

/** The tubes that should only amplify: none that detects, or feeds its own grid on purpose. */
function onlyAmplifying(study: Study, carriers: readonly TubeAt[]): readonly TubeAt[] {
  const ticklers = new Set(
    feedbacks(study).flatMap(({ tube, helps, isMovable }) =>
      isMovable || helps === undefined || helps > 0 ? [tube] : [],
    ),
  );
  return carriers.filter(
    (tube) => !ticklers.has(tube) && !tube.roles.some((role) => onPurpose.includes(role)),
  );
}

function isSaidBetter(study: Study, carriers: readonly TubeAt[]): boolean {
  const { circuit, conduction, tubes } = study;
  const radio = tubes.filter(
    (tube) => carriers.includes(tube) || tube.roles.some((role) => onPurpose.includes(role)),
  );
  const floating = floatingGrids(conduction, tubes).tubes;
  if (radio.some((tube) => floating.has(tube))) return true;
  const concerned = new Set([
    ...radio.map(({ part }) => part.name),
    ...circuit.parts.flatMap(({ name, words }) => (words.has('neutralizing') ? [name] : [])),
  ]);
  return moreBasic.some((check) =>
    check
      .find(study)
      .some(
        ({ severity, parts }) =>
          (severity === 'error' || severity === 'warning') &&
          parts.some((part) => concerned.has(part)),
      ),
  );
}

/** What every finding of this check has in common. */
function said(study: Study, { neutralized }: Stability, squeals: readonly Squeal[]) {
  const names = tubesOf(study, squeals);
  const first = strongestOf(study, squeals);
  const balancing = neutralized.flatMap(({ condenser, tube }) =>
    names.includes(tube) ? [condenser] : [],
  );
  return {
    check: 'stage-oscillates',
    why: 'It whistles on the stations there and can send through the aerial. Coils are taken as not seeing each other.',
    place: first?.place ?? study.circuit.namePlace,
    parts: [...names, ...balancing],
  };
}

function mayOscillate(study: Study, least: Stability, squeals: readonly Squeal[]): Finding {
  return finding({
    ...said(study, least, squeals),
    severity: 'information',
    message: `${subject(study, squeals, 'may oscillate')} ${where(least, squeals)}: with the losses of the wire alone, not with coils of a Q of ${USUAL_QUALITY}.`,
    cure: `Nothing, if it is quiet. ${cureOf(study, squeals, undefined)}`,
    related: alsoTubes(study, squeals),
  });
}

/** All tubes that take part, in the order of the text. */
function tubesOf({ tubes }: Study, squeals: readonly Squeal[]): readonly string[] {
  const all = new Set(squeals.flatMap((each) => each.tubes));
  return tubes.flatMap(({ part }) => (all.has(part.name) ? [part.name] : []));
}

/** The tube that does most in the fastest oscillation. */
function strongestOf({ circuit }: Study, squeals: readonly Squeal[]): Part | undefined {
  const fastest = [...squeals].sort((a, b) => b.mode.growth - a.mode.growth)[0];
  return circuit.partNamed.get(fastest?.tubes[0] ?? '');
}

function alsoTubes(study: Study, squeals: readonly Squeal[]): Finding['related'] {
  const first = strongestOf(study, squeals);
  return tubesOf(study, squeals).flatMap((name) => {
    const part = study.circuit.partNamed.get(name);
    return part && part !== first ? [alsoPart(part, 'it keeps the oscillation going too')] : [];
  });
}

function subject(study: Study, squeals: readonly Squeal[], verb?: string): string {
  const names = tubesOf(study, squeals);
  const does = verb ?? (names.length > 1 ? 'oscillate' : 'oscillates');
  return `${listed(names)} ${does} by ${names.length > 1 ? 'themselves' : 'itself'}`;
}

const kilocycles = (hertz: number): string => `${Math.round(hertz / 1e4) * 10} kc`;

/** At which stations, and how the dials stand: `in tune with 910 and 1150 kc`. */
function where({ stations }: Stability, squeals: readonly Squeal[]): string {
  const inTune = squeals.filter(({ isInTune }) => isInTune);
  const apart = squeals.filter(({ isInTune }) => !isInTune);
  const named = (some: readonly Squeal[]): string =>
    some.length === stations.length && some.length > 2
      ? 'the whole band'
      : listed(some.map(({ station }) => kilocycles(station)));
  return [
    inTune.length > 0 ? `in tune with ${named(inTune)}` : '',
    apart.length > 0 ? `with the dials a few percent apart near ${named(apart)}` : '',
  ]
    .filter((words) => words !== '')
    .join(', and ');
}

/** What would cure it, reckoned at the one station that needs most. */
function cureOf(study: Study, squeals: readonly Squeal[], quality: number | undefined): string {
  const names = tubesOf(study, squeals);
  const needed = neededAtWorst(study, squeals, quality);
  const ohms = needed?.seriesResistance;
  const isKnown =
    ohms !== undefined && ohms > 0 && names.every((name) => needed?.tubes.includes(name));
  // The figure holds with as much before every grid of the chain, at the pin itself.
  const before = isKnown ? (needed?.tubes ?? []) : names;
  const stoppers = stoppersOf(partsPlayed(study), before);
  const leads = listed(before.map((name) => `${name}.grid`));
  const into = `Put a losser into the lead of ${before.length > 1 ? 'each of ' : ''}${leads}`;
  const size = isKnown ? formatQuantity(roundedUp(ohms), 'resistance') : '';
  const losser = !isKnown
    ? into
    : stoppers.length === before.length
      ? `Add ${size} to ${listed(stoppers)}, which should do`
      : `${into}: ${size} should do`;
  const isScreened = names.some((name) => study.circuit.partNamed.get(name)?.tubeType?.screen);
  if (isScreened) return `${losser}, or take fewer turns for what its plate feeds.`;
  const excess = needed?.gridPlate;
  const balanced =
    isKnown && excess !== undefined && excess < 0
      ? `, so that at least ${formatQuantity(-excess, 'capacitance', 'period', 2)} between grid and plate are balanced`
      : '';
  return `${losser}, or neutralize ${listed(before)}${balanced}.`;
}

/**
 * The margin at the station that needs most. What a losser takes grows as the square of the
 * frequency, so that growth is weighed by that.
 */
function neededAtWorst(
  { circuit, operating }: Study,
  squeals: readonly Squeal[],
  quality: number | undefined,
): Margin | undefined {
  const need = ({ mode, station }: Squeal): number => mode.growth / station ** 2;
  const worst = [...squeals].sort((a, b) => need(b) - need(a))[0];
  if (!worst) return undefined;
  const options = quality === undefined ? {} : { quality };
  return margin(circuit, operating, { ...options, stations: [worst.station] });
}

/** The resistors that are already in the leads of the tubes' grids. */
function stoppersOf(
  played: ReadonlyMap<string, Played>,
  names: readonly string[],
): readonly string[] {
  return [...played].flatMap(([part, { role, tube }]) =>
    role === 'grid stopper' && names.includes(tube) ? [part] : [],
  );
}

/** To the next 50 ohms, above 500 to the next 100. */
function roundedUp(ohms: number): number {
  const step = ohms > 500 ? 100 : 50;
  return Math.ceil(ohms / step) * step;
}
