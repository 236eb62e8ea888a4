import type { Heard, Listening, TubeInChange } from '@setwright/analysis';
import { type Circuit, type Part, partsAt, rolesOf } from '@setwright/circuit';
import type { Symptom } from '../faults/fault.ts';
import type { Click, FaultEffect, Squeals } from './effect.ts';

/** Decibels of loudness lost from which on a set is told as weak, faint or silent. */
export const WEAK = 6;
export const FAINT = 34;
const SILENT = 60;

/**
 * A detector makes audio by the square of a weak signal and in proportion to a strong one; a
 * station that one listens to lies between. Common practice.
 */
const DETECTOR_POWER = 1.5;

/** A dial that is felt loses so many decibels in a twentieth of its condenser; a dead one so few. */
const FELT = 2;
const DEAD = 0.5;

/** Tuning is broad when all dials together lose so little of what they did. */
export const BROAD = 0.55;

/** Of the loudest click of the sound set so much is still one, at audio and by way of the radio. */
const LEAST_CLICK = 1e-4;
const LEAST_RADIO_CLICK = 1e-3;

/** Hertz below which a growing audio mode putters and does not howl. */
const PUTTER = 30;

function decibels(share: number | undefined): number {
  if (share === undefined) return 0;
  return share > 0 ? 20 * Math.log10(share) : Number.NEGATIVE_INFINITY;
}

/** A number of a faulty set as a share of the sound set's; undefined where the latter has none. */
export function shareOf(now: number | undefined, before: number | undefined): number | undefined {
  if (now === undefined || before === undefined || !(before > 0)) return undefined;
  return now / before;
}

/** How much of the sound is left, in decibels. */
function loudness(
  radio: number | undefined,
  detection: number | undefined,
  audio: number | undefined,
): number {
  return DETECTOR_POWER * decibels(radio) + decibels(detection) + decibels(audio);
}

/** How a faulty set squeals, where the sound one did not. */
export function squealsOf(now: Heard, { sound }: Listening): Squeals {
  const grows = (growth: number | undefined): boolean => growth !== undefined && growth > 0;
  if ((now.howls?.count ?? 0) > (sound.howls?.count ?? 0)) return 'audio';
  if (grows(now.growth.station) && !grows(sound.growth.station)) return 'all over';
  if (grows(now.growth.shortest) && !grows(sound.growth.shortest)) return 'short waves';
  if (grows(now.growth.apart) && !grows(sound.growth.apart)) return 'dials apart';
  return sound.howls !== undefined && now.howls === undefined ? 'unknown' : 'no';
}

/** Dials, or condensers without one, that did something in the sound set and do no more. */
export function deadDialsOf(circuit: Circuit, now: Heard, { sound }: Listening): readonly string[] {
  // Where no signal comes through it cannot be told what a dial would do.
  if (!((now.detectorVolts ?? 0) > 0)) return [];
  const dead = [...sound.sharpness].flatMap(([condenser, before]) =>
    before >= FELT && (now.sharpness.get(condenser) ?? 0) < DEAD ? [condenser] : [],
  );
  const all = new Set(dead);
  return [
    ...new Set(
      dead.flatMap((condenser) => {
        // A dial that turns two circuits does nothing only when both do nothing.
        const others = circuit.gangs.find(({ members }) => members.includes(condenser))?.members;
        const isAll = (others ?? [condenser]).every(
          (each) => all.has(each) || !sound.sharpness.has(each),
        );
        return isAll ? [dialOf(circuit, condenser)] : [];
      }),
    ),
  ];
}

/**
 * By dial, or condenser without one, what is left of its sharpness, as a share of the sound set's;
 * those that were never felt are left out.
 */
export function dialsLeftOf(
  circuit: Circuit,
  now: Heard,
  { sound }: Listening,
): ReadonlyMap<string, number> {
  const left = new Map<string, number>();
  if (!((now.detectorVolts ?? 0) > 0)) return left;
  for (const [condenser, before] of sound.sharpness) {
    if (before < FELT) continue;
    const dial = dialOf(circuit, condenser);
    const share = Math.max(0, now.sharpness.get(condenser) ?? 0) / before;
    // A dial that turns two circuits is as sharp as the sharper of them.
    left.set(dial, Math.max(left.get(dial) ?? 0, Math.min(1, share)));
  }
  return left;
}

/** Dials that still do something, across which a station is broader than in the sound set. */
export function broadDialsOf({
  dialsLeft,
  deadDials,
}: Pick<FaultEffect, 'dialsLeft' | 'deadDials'>): readonly string[] {
  return [...dialsLeft].flatMap(([dial, left]) =>
    left < BROAD && !deadDials.includes(dial) ? [dial] : [],
  );
}

/** The dial that turns a condenser, or itself. */
function dialOf(circuit: Circuit, condenser: string): string {
  const gang = circuit.gangs.find(({ members }) => members.includes(condenser));
  const dial = circuit.dials.find(({ drives }) =>
    drives.some((each) => each === condenser || each === gang?.name),
  );
  return dial?.name ?? condenser;
}

/**
 * By tube, by how many decibels a tap on its grid is louder than in the sound set, as it is or by
 * way of the detector; tubes that were never heard are left out.
 */
export function clicksOf(
  now: Heard,
  { sound }: Listening,
  detection: number | undefined,
  audio: number | undefined,
): ReadonlyMap<string, number> {
  const direct = wellHeard(sound.clicks, LEAST_CLICK);
  const detected = wellHeard(sound.radioClicks, LEAST_RADIO_CLICK);
  return new Map(
    [...new Set([...sound.radioClicks.keys(), ...sound.clicks.keys()])].flatMap((tube) => {
      const [before, radioBefore] = [direct.get(tube), detected.get(tube)];
      if (before === undefined && radioBefore === undefined) return [];
      const louder =
        before === undefined
          ? Number.NEGATIVE_INFINITY
          : decibels(shareOf(now.clicks.get(tube) ?? 0, before));
      const radio = shareOf(now.radioClicks.get(tube) ?? 0, radioBefore);
      const byDetector =
        radio === undefined ? Number.NEGATIVE_INFINITY : loudness(radio, detection, audio);
      return [[tube, Math.max(louder, byDetector)] as const];
    }),
  );
}

/** Every way in which a tap may be heard, the loudest first. */
export const CLICKS: readonly Click[] = ['heard', 'faint', 'silent'];

/** What is said of each. */
export const clickWords: Readonly<Record<Click, string>> = {
  heard: 'a click',
  faint: 'a faint click',
  silent: 'no click',
};

/** The tubes of which a tap is heard in one of these ways, in the order of the text. */
export function tubesClicking(
  clicks: ReadonlyMap<string, number>,
  ...wanted: readonly Click[]
): string[] {
  return [...clicks].flatMap(([tube, louder]) => (wanted.includes(clickOf(louder)) ? [tube] : []));
}

/** How a tap is heard that is by so many decibels louder than in the sound set. */
export function clickOf(louder: number): Click {
  if (louder > 0 - WEAK) return 'heard';
  return louder >= 0 - FAINT ? 'faint' : 'silent';
}

/** Those that come near enough to the loudest. */
function wellHeard(
  clicks: ReadonlyMap<string, number>,
  least: number,
): ReadonlyMap<string, number> {
  const loudest = Math.max(0, ...clicks.values());
  return new Map([...clicks].filter(([, each]) => each > loudest * least));
}

/** What is heard of a faulty set besides what its row of the catalogue says. */
export function symptomsOf(
  circuit: Circuit,
  now: Heard,
  listening: Listening,
  tubes: readonly TubeInChange[],
  soundTubes: readonly TubeInChange[],
  radio: number | undefined,
  detection: number | undefined,
  audio: number | undefined,
): readonly Symptom[] {
  const { sound } = listening;
  const found: Symptom[] = [];
  const isStopped = sound.oscillates === true && now.oscillates === false;
  const lost = isStopped ? Number.NEGATIVE_INFINITY : loudness(radio, detection, audio);
  if (lost <= 0 - SILENT) found.push('silent');
  else if (lost <= 0 - FAINT) found.push('faint');
  else if (lost <= 0 - WEAK) found.push('weak');
  const isHeard = lost > 0 - SILENT;
  // What the loudspeaker does not get nobody hears.
  const sounds = audio === undefined || decibels(audio) > 0 - SILENT;
  switch (sounds ? squealsOf(now, listening) : 'no') {
    case 'audio':
      found.push((now.howls?.frequency ?? 0) < PUTTER ? 'putters' : 'squeals all over');
      break;
    case 'all over':
      found.push('squeals all over');
      break;
    case 'short waves':
    case 'dials apart':
      found.push('squeals at short waves');
      break;
    default:
  }
  if (isHeard && isBroad(now, sound)) found.push('broad');
  if (isHeard && deadDialsOf(circuit, now, listening).length > 0) found.push('one dial dead');
  if (sound.regenerates === true && now.regenerates === false) found.push('no regeneration');
  found.push(...fromTubes(circuit, listening, tubes, soundTubes, isHeard));
  return found;
}

function isBroad(now: Heard, before: Heard): boolean {
  if (!((now.detectorVolts ?? 0) > 0)) return false;
  const sum = (all: ReadonlyMap<string, number>): number =>
    [...all.values()].reduce((total, each) => total + Math.max(0, each), 0);
  const whole = sum(before.sharpness);
  return whole > FELT && sum(now.sharpness) < BROAD * whole;
}

/** Of its bias a tube with less than this share draws grid current on loud notes. */
const LITTLE_BIAS = 0.6;
/** Above this many volts a grid draws current on every note. */
const POSITIVE = 0.1;
/** An output tube with less of its plate current than this cannot follow loud notes, or any. */
const STARVED = 0.7;
const CUT_OFF = 0.1;
/** A filament with less of its volts than this gives off nothing. */
const DARK = 0.3;

/** What tubes behind the detector do to loud notes, and a grid that hangs on nothing to strong ones. */
function fromTubes(
  circuit: Circuit,
  { sound, audioDetector }: Listening,
  tubes: readonly TubeInChange[],
  soundTubes: readonly TubeInChange[],
  isHeard: boolean,
): readonly Symptom[] {
  const found: Symptom[] = [];
  const after = new Map(tubes.map((tube) => [tube.tube, tube]));
  for (const was of soundTubes) {
    const now = after.get(was.tube);
    const isDetector = was.tube === audioDetector;
    const part = circuit.partNamed.get(was.tube);
    const roles = part && !isDetector ? rolesOf(circuit, part) : [];
    const isAudio = roles.includes('audio') || roles.includes('output');
    const isDark = !now || Math.abs(now.filamentVolts) < DARK * Math.abs(was.filamentVolts);
    // Of two in push-pull the other goes on alone, with half the power.
    const isPair = part !== undefined && besideOf(circuit, part).some((name) => after.has(name));
    if (isDark) {
      if (isAudio && isHeard && isPair && sound.clicks.has(was.tube)) found.push('distorts loud');
      continue;
    }
    if (now.isGridFree && !was.isGridFree && (isAudio || isDetector)) {
      found.push('chokes on strong');
      continue;
    }
    if (!isAudio || !isHeard || !sound.clicks.has(now.tube)) continue;
    const [bias, biasBefore] = [now.gridVolts, was.gridVolts];
    if (bias !== undefined && biasBefore !== undefined && bias > biasBefore + 0.3) {
      if (bias > POSITIVE) found.push('distorts all');
      else if (bias > LITTLE_BIAS * biasBefore) found.push('distorts loud');
    }
    const share = was.plateAmperes > 0 ? now.plateAmperes / was.plateAmperes : 1;
    if (share < CUT_OFF) found.push(isPair ? 'distorts loud' : 'distorts all');
    else if (share < STARVED) found.push('distorts loud');
  }
  return [...new Set(found)];
}

/** The other parts of a tube's stage; where it stands in none, tubes on the winding that its plate drives. */
function besideOf(circuit: Circuit, tube: Part): readonly string[] {
  const stage = circuit.stages.find(({ parts }) => parts.includes(tube.name));
  if (stage) return stage.parts.filter((name) => name !== tube.name);
  const plate = tube.ends.find(({ name }) => name === 'plate')?.junction ?? -1;
  const windings = partsAt(circuit, plate).filter(({ kind }) => kind === 'winding');
  const ends = new Set(windings.flatMap((winding) => winding.ends.map(({ junction }) => junction)));
  return circuit.parts.flatMap((other) => {
    const isOn = other.ends.some(({ name, junction }) => name === 'plate' && ends.has(junction));
    return other !== tube && isOn ? [other.name] : [];
  });
}
