import {
  type OperatingPoint,
  operatingPoint,
  type Regeneration,
  regeneration,
  regenerationControls,
} from '@setwright/analysis';
import type { Circuit, Finding, Part } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { regenerativeExample } from '../examples/regenerative-example.ts';
import { rewound } from '../fixes/edits.ts';
import { floatingGrids } from '../grids/floating-grid.ts';
import { type Feedback, feedbacks } from '../radio/feedback.ts';
import { isAirWinding } from '../radio/radio-use.ts';
import { areSignalsKnown } from '../radio/signals-known.ts';
import { FEEDBACK_ERROR, strengthened, USUAL_QUALITY } from '../radio/strengthened.ts';
import { turnsWanted } from '../radio/turns-wanted.ts';
import type { Study } from '../study.ts';
import { partsAt, type TubeAt } from '../tubes/tubes.ts';
import { standingWords } from '../wiring/positions.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';
import { detectorPlateUnbypassed } from './detector-plate-unbypassed.ts';
import { filamentUnderVoltage } from './filament-under-voltage.ts';
import { gridReturnSide } from './grid-return-side.ts';
import { gridWithoutDcReturn } from './grid-without-dc-return.ts';
import { plateWithoutSupply } from './plate-without-supply.ts';
import { ticklerBypassed } from './tickler-bypassed.ts';
import { ticklerSense } from './tickler-sense.ts';

/** Stations that a band is judged at, a little inside of its ends, where strays decide. */
const STATIONS = 4;
const INSIDE = 1.03;

/** Shares of its travel at which a control is tried. A winding may be turned past right angles. */
const PLATES: readonly number[] = [0, 0.5, 1];
const TURNS: readonly number[] = [-1, -0.5, 0, 0.5, 1];

/** Condensers that are tried as controls at most, and positions of switches. */
const MOST_CONTROLS = 3;
const MOST_POSITIONS = 8;

/** What says better why a set does not regenerate. */
const moreBasic: readonly Check[] = [
  gridWithoutDcReturn,
  plateWithoutSupply,
  gridReturnSide,
  filamentUnderVoltage,
  ticklerSense,
  ticklerBypassed,
  detectorPlateUnbypassed,
];

/** A detector with a tickler that does not oscillate however it is turned, or always does. */
export const regenerationOutOfReach: Check = {
  id: 'regeneration-out-of-reach',
  group: 'Radio frequency',
  severity: 'warning',
  summary:
    'A regenerative detector that oscillates nowhere in a part of its band, however its control is turned, or that cannot be kept from it there.',
  why: 'A detector is most sensitive just short of oscillation: where it cannot come near, that end of the dial is deaf; where it cannot be kept off, it only whistles.',
  silent: [
    'A tickler or a tuned coil of which the text does not tell the make, or a tube without published points.',
    'What a tube stronger or weaker by a quarter, or a coupling so much closer or looser, would put right: no reckoning is better than that.',
    'It is too weak only where it would be so with the losses of the wire alone; it is too strong only where it would be so with coils of a Q of 100.',
    'Parts of the band that its circuit does not reach: `band-not-covered` tells of those.',
    'A fixed tickler with no control of its own that always oscillates: it is kept back by its rheostat.',
    'A throttle condenser beside phones, a loudspeaker or a transformer with no choke between: what their own capacity lets pass is not told.',
    'Where it is the aerial alone that takes the oscillation away, as at its own wave, it is only information.',
    'What another position of a switch, selector or jack cures is only information.',
    'A tickler the wrong way round or passed by, a plate that cannot get its radio current home, a floating or wrongly returned grid, a starved filament: those come first.',
    'Oscillators, and radio stages that do not detect.',
  ],
  source: 'common practice',
  needsWholeText: true,
  thorough: {
    asks: 'whether the detector regenerates over its whole band',
    examines: (study) => examined(study).length > 0,
  },
  fails: regenerativeExample({ ticklerTurns: 2 }),
  passes: regenerativeExample({}),
  find,
};

/** A detector with a tickler, and the stations in hertz that it is judged at. */
interface Examined {
  readonly each: Feedback;
  readonly stations: readonly number[];
}

/** The regenerative detectors of a set; none where they cannot be judged. */
function examined(study: Study): readonly Examined[] {
  const detecting = feedbacks(study).filter(
    ({ tube: { roles }, helps, isMovable }) =>
      (roles.length === 0 || roles.includes('detector')) &&
      !roles.includes('oscillator') &&
      !roles.includes('mixer') &&
      (isMovable || (helps ?? 0) > 0),
  );
  if (detecting.length === 0) return [];
  const tubes = detecting.map(({ tube }) => tube);
  if (!areSignalsKnown(study, tubes, study.operating)) return [];
  return detecting
    .map((each) => ({ each, stations: stationsOf(study, each) }))
    .filter(({ stations }) => stations.length > 0);
}

function find(study: Study): readonly Finding[] {
  return examined(study).flatMap(({ each, stations }) => {
    const controls = controlsOf(study.circuit, each);
    const found =
      tooWeak(study, each, controls, stations) ?? tooStrong(study, each, controls, stations);
    return found && !isSaidBetter(study, each) ? [found] : [];
  });
}

/** Stations in hertz over the band, by equal ratios. */
function stationsOf({ circuit, radio }: Study, { grid }: Feedback): readonly number[] {
  const own = radio.tuned.find(({ windings }) =>
    windings.some(({ edge }) => edge.part === grid.winding.name),
  );
  const low = circuit.tunes?.low.value ?? own?.lowest.value;
  const high = circuit.tunes?.high.value ?? own?.highest.value;
  if (!own || low === undefined || high === undefined || !(low > 0)) return [];
  const [first, last] = [low * INSIDE, high / INSIDE];
  if (!(last > first)) return [Math.sqrt(low * high)];
  return Array.from(
    { length: STATIONS },
    (_, at) => first * (last / first) ** (at / (STATIONS - 1)),
  );
}

/** What turns regeneration up and down: the winding that turns, else condensers that tune nothing. */
function controlsOf(circuit: Circuit, { grid, plate, isMovable }: Feedback): readonly Part[] {
  const all = regenerationControls(circuit);
  const winding = [plate.winding, grid.winding].find((each) => all.includes(each));
  if (isMovable) return winding ? [winding] : [];
  return all.filter(({ kind }) => kind === 'condenser').slice(0, MOST_CONTROLS);
}

const sharesOf = (control: Part | undefined): readonly number[] =>
  control === undefined ? [1] : control.kind === 'condenser' ? PLATES : TURNS;

/** How it is reckoned: with tubes so many times as strong, and coils of some Q. */
interface Reckoning {
  readonly times: number;
  readonly quality?: number;
}

function regenerationsOf(
  circuit: Circuit,
  point: OperatingPoint,
  controls: readonly (Part | undefined)[],
  { times, quality }: Reckoning,
): readonly { readonly control: Part | undefined; readonly by: Regeneration }[] {
  const options = quality === undefined ? {} : { quality };
  return controls.map((control) => ({
    control,
    by: regeneration(circuit, strengthened(point, times), control, options),
  }));
}

/** Stations at which a tube oscillates, or at none of the stands of any control. */
function stationsWhere(
  circuit: Circuit,
  point: OperatingPoint,
  controls: readonly Part[],
  tube: TubeAt,
  stations: readonly number[],
  reckoning: Reckoning,
  wanted: 'nowhere' | 'always',
): readonly number[] {
  const all = controls.length > 0 ? controls : [undefined];
  const found = regenerationsOf(circuit, point, all, reckoning);
  return stations.filter((station) =>
    found.every(({ control, by }) =>
      sharesOf(control).every((share) => {
        const state = by.at(station, share);
        if (!state?.reaches) return false;
        return state.tubes.includes(tube.part.name) === (wanted === 'always');
      }),
    ),
  );
}

function tooWeak(
  study: Study,
  each: Feedback,
  controls: readonly Part[],
  stations: readonly number[],
): Finding | undefined {
  const { circuit, operating } = study;
  const { tube } = each;
  const weakAt = (set: Circuit, point: OperatingPoint, at: readonly number[]) =>
    stationsWhere(set, point, controls, tube, at, { times: FEEDBACK_ERROR }, 'nowhere');
  const weak = weakAt(circuit, operating, stations);
  if (weak.length === 0) return undefined;
  const where = stationWords(weak, stations);
  const who = tube.part.name;
  const subject =
    controls.length > 0
      ? `However ${listed(controls.map(({ name }) => name))} is turned, ${who} does not oscillate ${where}`
      : `${each.plate.winding.name} is too weak: ${who} does not oscillate ${where}`;
  const base = { ...said(each, controls), message: `${subject}.` };
  const why = 'It cannot be brought near oscillation there, and without that it is deaf.';
  const aerial = circuit.parts.find(({ kind, words }) => kind === 'post' && words.has('aerial'));
  if (aerial && weakAt(withoutAerial(circuit), operating, weak).length === 0)
    return finding({
      ...base,
      severity: 'information',
      message: `With the aerial on ${aerial.name} ${who} does not oscillate ${where}.`,
      why: 'It is the aerial alone that takes the oscillation away, as it does near its own wave.',
      cure: 'Nothing, if your aerial is another. Else put a condenser of .0001 to .00025 mfd into its lead, or couple it more loosely.',
    });
  const curedBy = study.everyPosition.slice(1, 1 + MOST_POSITIONS).find(({ settings }) => {
    const point = operatingPoint(circuit, settings, { laws: study.laws });
    return point.converged && weakAt(circuit, point, weak).length === 0;
  });
  if (curedBy)
    return finding({
      ...base,
      severity: 'information',
      why,
      cure: `Nothing, if it is meant: it is not so with ${standingWords(circuit, study.on.settings, curedBy.settings)}.`,
    });
  return finding({ ...base, why, ...cureOf(study, each, controls, weak) });
}

/** By how much the tickler is short, in turns where it is made of turns. */
function cureOf(
  { circuit, operating }: Study,
  { tube, plate, grid }: Feedback,
  controls: readonly Part[],
  weak: readonly number[],
): Pick<Finding, 'cure' | 'fixes'> {
  const reckonedBy = (times: number) => ({ times, quality: USUAL_QUALITY });
  const wanted = turnsWanted(
    plate.winding,
    (times) =>
      stationsWhere(circuit, operating, controls, tube, weak, reckonedBy(times), 'nowhere')
        .length === 0,
  );
  const otherwise = `bring it closer to ${grid.winding.name}, or give the plate of ${tube.part.name} more volts`;
  const cure =
    wanted === undefined
      ? `Look first at what lies between ${tube.part.name}.plate, ${plate.winding.name} and the filament: turns alone will not do. Else ${otherwise}.`
      : `Give ${plate.winding.name} ${wanted.words}, ${otherwise}.`;
  return { cure, fixes: wanted ? rewound(plate.winding, wanted.turns) : [] };
}

function tooStrong(
  study: Study,
  each: Feedback,
  controls: readonly Part[],
  stations: readonly number[],
): Finding | undefined {
  const [control] = controls;
  // With several it may be another that holds it back; with none it is the rheostat.
  if (!control || controls.length > 1) return undefined;
  const { circuit, operating } = study;
  const behind = partsAt(circuit, each.plate.far);
  if (control.kind === 'condenser' && behind.some((part) => hasUntoldCapacity(circuit, part)))
    return undefined;
  const loud = stationsWhere(
    circuit,
    operating,
    controls,
    each.tube,
    stations,
    { times: 1 / FEEDBACK_ERROR, quality: USUAL_QUALITY },
    'always',
  );
  if (loud.length === 0) return undefined;
  const stand = control.kind === 'condenser' ? 'all out' : 'backed off';
  return finding({
    ...said(each, controls),
    message: `${each.tube.part.name} oscillates ${stationWords(loud, stations)} even with ${control.name} ${stand}.`,
    why: 'It cannot be kept just short of oscillation there: it whistles on every station.',
    cure: `Take turns off ${each.plate.winding.name}, move it away from ${each.grid.winding.name}, or give the plate of ${each.tube.part.name} fewer volts.`,
  });
}

/** Henries from which on a choke is on iron, whose own capacity is considerable. */
const LEAST_IRON = 0.5;

/** Whether a part passes radio current by a capacity that no text tells. */
function hasUntoldCapacity(circuit: Circuit, part: Part): boolean {
  if (part.kind === 'choke')
    return !part.words.has('air') && (part.values.inductance?.value ?? 0) >= LEAST_IRON;
  if (part.kind === 'winding') return !isAirWinding(circuit, part);
  return ['phones', 'horn', 'speaker', 'jack'].includes(part.kind);
}

function said({ tube, grid, plate }: Feedback, controls: readonly Part[]) {
  return {
    check: 'regeneration-out-of-reach',
    severity: 'warning' as const,
    place: plate.winding.place,
    related: [
      alsoPart(tube.part, 'the tube that should regenerate'),
      alsoPart(grid.winding, 'the winding that drives its grid'),
      ...controls
        .filter((control) => control !== plate.winding && control !== grid.winding)
        .map((control) => alsoPart(control, 'what turns regeneration up and down')),
    ],
    parts: [...new Set([plate.winding.name, tube.part.name, ...controls.map(({ name }) => name)])],
  };
}

const kilocycles = (hertz: number): string => `${Math.round(hertz / 1e4) * 10} kc`;

function stationWords(some: readonly number[], all: readonly number[]): string {
  return some.length === all.length && all.length > 1
    ? 'anywhere in the band'
    : `near ${listed(some.map(kilocycles))}`;
}

function isSaidBetter(study: Study, { tube, plate }: Feedback): boolean {
  if (floatingGrids(study.conduction, study.tubes).tubes.has(tube)) return true;
  const concerned = [tube.part, plate.winding];
  return moreBasic.some((check) =>
    check
      .find(study)
      .some(
        ({ severity, parts, related }) =>
          (severity === 'error' || severity === 'warning') &&
          concerned.some(
            ({ name, place }) =>
              parts.includes(name) || related.some(({ place: also }) => also === place),
          ),
      ),
  );
}

/** The same set with nothing on its aerial's post. */
function withoutAerial(circuit: Circuit): Circuit {
  const parts = circuit.parts.map((part) =>
    part.kind === 'post' && part.words.has('aerial')
      ? { ...part, words: new Set([...part.words].filter((word) => word !== 'aerial')) }
      : part,
  );
  return { ...circuit, parts, partNamed: new Map(parts.map((part) => [part.name, part])) };
}
