import type { Circuit } from '@setwright/circuit';
import type { WindingsTurned } from '../coil-matrix.ts';
import { crystalCurrent } from '../crystal-law.ts';
import { type Alignment, alignedAt, type TunedSet, tunedSet } from '../small-signal/aligned-at.ts';
import { lastDetector, radioWay } from '../small-signal/detector-port.ts';
import type { EliminationPlan } from '../small-signal/elimination-plan.ts';
import { fedModes } from '../small-signal/fed-modes.ts';
import { intermediateResponse } from '../small-signal/intermediate-response.ts';
import { exactModes, modelModes } from '../small-signal/modes-off.ts';
import { neutralized } from '../small-signal/neutralizing.ts';
import {
  type ReducedNetwork,
  reduceAt,
  reducedNetwork,
  remainderLength,
} from '../small-signal/reduced-network.ts';
import { findRoot, logSlopeOf } from '../small-signal/root-search.ts';
import { mistuned, type Shaft, shaftsOf } from '../small-signal/shafts.ts';
import { isOfRole, tubePoints } from '../small-signal/signal-chain.ts';
import type { SignalSystem, Tuning } from '../small-signal/signal-system.ts';
import type { SmallSignal } from '../small-signal/small-signal.ts';
import { type MatrixAt, stationModel } from '../small-signal/station-model.ts';
import { stationsOf } from '../small-signal/stations.ts';
import {
  type ComplexFrequency,
  eliminateAt,
  solveDriven,
  tunedSystem,
} from '../small-signal/tuned-system.ts';
import { worstTuning } from '../small-signal/worst-tuning.ts';
import { type AudioAxis, audioAxis, audioWinding } from './audio-winding.ts';
import { detectorPorts, detectorVolts, type TwoPoints, turnedVolts } from './detector-ports.ts';

/** How a sound set is listened to: what its faulty self is compared with, and how it is tuned. */
export interface Listening {
  readonly circuit: Circuit;
  /** Hertz: the station it is heard at, and the one at the short waves where squealing is judged. */
  readonly station: number;
  readonly shortest: number;
  /** Neutralizing condensers as balanced. */
  readonly fixed: Tuning;
  readonly tuned: TunedSet;
  readonly shafts: readonly Shaft[];
  /** The dials in tune with the station. */
  readonly tuning: Tuning;
  /** The dials in tune with the shortest station. */
  readonly shortAlignment: Alignment;
  /** The part that the radio signal ends at, and the one that audio comes from. */
  readonly detector: string | undefined;
  readonly audioDetector: string | undefined;
  /** The mixer and the intermediate frequency of a superheterodyne. */
  readonly intermediate: { readonly mixer: string; readonly frequency: number } | undefined;
  /** The mode that an oscillator's stage keeps going. */
  readonly oscillator: ComplexFrequency | undefined;
  /** What sounds: the phones or loudspeaker that most current comes to. */
  readonly output: string | undefined;
  readonly axis: AudioAxis | undefined;
  /** What brings a set of one circuit to the edge: a winding or condenser, turned right up. */
  readonly regeneration: Regeneration | undefined;
  /** Where a winding stands that had to be turned back for the set not to oscillate. */
  readonly turned: WindingsTurned;
  /** What is left of the network at the shortest station, to know one that is no other. */
  readonly shortMatrix: Float64Array | undefined;
  /** Shares by which the shafts are off where the sound set is nearest to squealing. */
  readonly apart: readonly number[] | undefined;
  /** The sound set's equations. */
  readonly system: SignalSystem;
  /** Plans by which it is drawn together onto its condensers. */
  readonly shortPlans: readonly EliminationPlan[];
  readonly sound: Heard;
}

/** A control by which a set is brought to the edge of oscillation. */
export interface Regeneration {
  readonly part: string;
  /** Of a winding its share of full coupling, of a condenser its farads, turned right up. */
  readonly turned: number;
  /** The same turned right back. */
  readonly back: number;
  readonly kind: 'winding' | 'condenser';
}

/** What is heard of a set at a station. */
export interface Heard {
  /** Volts at the detector for one volt in the aerial; of a superheterodyne at its second. */
  readonly detectorVolts: number | undefined;
  /** Farads of the condensers that are turned, in tune. */
  readonly farads: ReadonlyMap<string, number>;
  /** Decibels that a condenser changes when it is a twentieth off, by its name. */
  readonly sharpness: ReadonlyMap<string, number>;
  /** Amperes in the output for one volt that the detector's tube amplifies, at 1000 cycles. */
  readonly audio: number | undefined;
  /** Amperes in the output at 1000 cycles for each volt squared that the detector rectifies. */
  readonly rectified: number | undefined;
  /** Amperes in the output for one volt at each tube's grid, at 1000 cycles. */
  readonly clicks: ReadonlyMap<string, number>;
  /**
   * Nepers per second of the fastest mode near a station: at the station, at the shortest one,
   * and there with the dials apart in the worst way. Undefined where none is found.
   */
  readonly growth: {
    readonly station: number | undefined;
    readonly shortest: number | undefined;
    readonly apart: number | undefined;
  };
  /** Growing modes below radio, of which the fastest in hertz; undefined where not known. */
  readonly howls: { readonly count: number; readonly frequency: number } | undefined;
  /** Whether the oscillator oscillates; undefined for a set without one. */
  readonly oscillates: boolean | undefined;
  /** Whether it can be brought to oscillate; undefined for a set without a control for it. */
  readonly regenerates: boolean | undefined;
}

const MIDDLE_AUDIO = 1000;
const AUDIO_LOW = 2;
const DIVIDE = 50e3;
/** A condenser is turned by this share of what it has to know how sharply it tunes. */
const OFF_TUNE = 0.05;
/** Steps of the intermediate frequency about what was best, and how far to either side. */
const INTERMEDIATE_STEPS = 12;
const INTERMEDIATE_REACH = 1.08;
/** A network whose every entry is off by less than this share tunes and squeals alike. */
const ALIKE = 1e-3;

/** The same set with windings turned to shares of full coupling. */
export type TurnedUp = (turned: ReadonlyMap<string, number>) => SmallSignal;

/** Makes ready to listen to a set and its faulty selves. Never throws. */
export function listeningTo(drawn: SmallSignal, turnedUp: TurnedUp): Listening {
  const { circuit } = drawn;
  const stations = stationsOf(drawn, 3);
  const station = stations[1] ?? stations[0] ?? 1e6;
  const shortest = stations.at(-1) ?? station;
  const balanced = new Map(
    neutralized(drawn, station).map(({ condenser, farads }) => [condenser, farads]),
  );
  const tuned = tunedSet(drawn);
  const shafts = shaftsOf(tuned);
  const regeneration = regenerationOf(drawn, tuned);
  const { set, fixed, turned } = turnedBack(
    drawn,
    station,
    balanced,
    tuned,
    regeneration,
    turnedUp,
  );
  const aligned = alignedAt(set, station, fixed, tuned);
  const way = radioWay(set, station, aligned.tuning);
  const between = intermediateResponse(set, aligned.tuning);
  const audioDetector = lastDetector(set) ?? way.detector;
  const oscillators = tubePoints(set).some(({ part }) => isOfRole(set, part, 'oscillator'));
  const meant = oscillators
    ? fedModes(set, aligned.tuning, DIVIDE, 5 * shortest).modes.find(({ tubes }) =>
        tubes?.every((name) => {
          const part = circuit.partNamed.get(name);
          return part !== undefined && isOfRole(set, part, 'oscillator');
        }),
      )
    : undefined;
  const shortAlignment = alignedAt(set, shortest, fixed, tuned);
  const base = {
    circuit,
    station,
    shortest,
    fixed,
    tuned,
    shafts,
    tuning: aligned.tuning,
    shortAlignment,
    detector: way.detector?.part.name,
    audioDetector: audioDetector?.part.name,
    intermediate: between && { mixer: between.mixer, frequency: between.frequency },
    oscillator: meant && { growth: meant.growth, radians: 2 * Math.PI * meant.frequency },
    output: undefined,
    axis: undefined,
    shortMatrix: undefined,
    apart: undefined,
    system: set.system,
    shortPlans: [],
    regeneration,
    turned,
  };
  const output = loudest(set, { ...base, sound: unheard });
  const whole = {
    ...base,
    output,
    axis: audioAxis(tunedSystem(set.system, aligned.tuning), AUDIO_LOW, DIVIDE, (low, high) =>
      fedModes(set, aligned.tuning, low, high),
    ),
    sound: unheard,
  };
  const sound = heardOf(set, whole, turnedUp);
  const network =
    tuned.condensers.length > 0 ? reducedNetwork(set.system, tuned.condensers, fixed) : undefined;
  const shortMatrix = network && shortMatrixOf(network, shortest);
  return {
    ...whole,
    sound,
    shortMatrix,
    apart: worstOffsets(set, whole),
    shortPlans: network?.tuned.plans ?? [],
  };
}

/** A set that its listener has turned back from oscillation. */
interface TurnedBack {
  readonly set: SmallSignal;
  readonly fixed: Tuning;
  readonly turned: WindingsTurned;
}

/** Of the damping with no regeneration at all a listener leaves this share. Common practice. */
const LEFT = 0.2;
const HALVINGS = 7;

/** A set that oscillates as drawn is turned back until it just does not, as one listens to it. */
function turnedBack(
  drawn: SmallSignal,
  station: number,
  balanced: Tuning,
  tuned: TunedSet,
  regeneration: Regeneration | undefined,
  turnedUp: TurnedUp,
): TurnedBack {
  const asDrawn: TurnedBack = { set: drawn, fixed: balanced, turned: new Map() };
  const growth = ({ set, fixed }: TurnedBack): number | undefined => {
    const alignment = alignedAt(set, station, fixed, tuned);
    return exactModes({ tuned, shafts: [], alignment }, () =>
      tunedSystem(set.system, alignment.tuning),
    )([])?.growth;
  };
  if (!regeneration || !isGrowing(growth(asDrawn))) return asDrawn;
  const { part, turned, back, kind } = regeneration;
  const at = (value: number): TurnedBack =>
    kind === 'winding'
      ? {
          set: turnedUp(new Map([[part, value]])),
          fixed: balanced,
          turned: new Map([[part, value]]),
        }
      : { ...asDrawn, fixed: new Map([...balanced, [part, value]]) };
  const least = growth(at(back));
  if (least === undefined || least >= 0) return asDrawn;
  let [low, high] = [back, turned];
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = (low + high) / 2;
    if ((growth(at(middle)) ?? 0) < LEFT * least) low = middle;
    else high = middle;
  }
  return at(low);
}

/** A winding that turns or a condenser that tunes nothing, in a detector's stage or in none. */
function regenerationOf(set: SmallSignal, tuned: TunedSet): Regeneration | undefined {
  const { circuit, system } = set;
  for (const part of circuit.parts) {
    const isDriven = circuit.dials.some(({ drives }) => drives.includes(part.name));
    const isWinding = part.kind === 'winding' || part.kind === 'variometer';
    if (isWinding && (part.setting !== undefined || isDriven))
      return { part: part.name, turned: 1, back: 0, kind: 'winding' };
    const most = part.ranges.capacitance?.high.value;
    const least = part.ranges.capacitance?.low.value ?? 0;
    if (part.kind !== 'condenser' || !part.words.has('variable') || most === undefined) continue;
    if (tuned.condensers.includes(part.name) || !system.turned.has(part.name)) continue;
    const roles = circuit.stages.find(({ name }) => name === part.stage)?.roles ?? ['detector'];
    if (roles.includes('detector') && !roles.includes('mixer'))
      return { part: part.name, turned: most, back: least, kind: 'condenser' };
  }
  return undefined;
}

const unheard: Heard = {
  detectorVolts: undefined,
  farads: new Map(),
  sharpness: new Map(),
  audio: undefined,
  rectified: undefined,
  clicks: new Map(),
  growth: { station: undefined, shortest: undefined, apart: undefined },
  howls: undefined,
  oscillates: undefined,
  regenerates: undefined,
};

/** What is heard of a set that may have a fault, with every circuit that can be in tune in tune. */
export function heardOf(set: SmallSignal, listening: Listening, turnedUp: TurnedUp): Heard {
  const present = presentTuned(set, listening);
  const fixed = standing(set, listening, listening.fixed);
  const short = shortReduction(set, listening, present, fixed);
  const aligned = alignedAt(set, listening.station, fixed, present);
  const at = new Map([...standing(set, listening, listening.tuning), ...aligned.tuning]);
  // What is no other at the short waves is no other at the station.
  const growth = short?.isAlike
    ? listening.sound.growth.station
    : growthAt(set, listening, present, at);
  const radio = radioOf(set, listening, at, present);
  return {
    // Of a set that oscillates there is no steady signal to speak of.
    detectorVolts: isGrowing(growth) ? undefined : radio.volts,
    farads: new Map(present.condensers.map((name) => [name, at.get(name) ?? 0])),
    sharpness: radio.sharpness,
    ...audioOf(set, listening, at),
    growth: { station: growth, ...growthOf(set, listening, present, fixed, short) },
    howls:
      listening.axis &&
      audioWinding(tunedSystem(set.system, at), listening.axis, (low, high) =>
        fedModes(set, at, low, high),
      ),
    oscillates: oscillatesOf(set, listening, at),
    regenerates: regeneratesOf(set, listening, present, at, turnedUp),
  };
}

function isGrowing(growth: number | undefined): boolean {
  return growth !== undefined && growth > 0;
}

/** A tuning without the condensers that a fault has set otherwise. */
function standing(set: SmallSignal, { circuit }: Listening, tuning: Tuning): Tuning {
  return new Map(
    [...tuning].filter(
      ([name]) =>
        circuit.partNamed.get(name)?.values.set === set.circuit.partNamed.get(name)?.values.set,
    ),
  );
}

/** Those of the tuned circuits whose condenser still is in the network. */
function presentTuned(set: SmallSignal, { tuned }: Listening): TunedSet {
  const { turned } = set.system;
  const kept = tuned.condensers.flatMap((name, at) => (turned.has(name) ? at : []));
  if (kept.length === tuned.condensers.length) return tuned;
  const only = (all: Float64Array) => Float64Array.from(kept, (at) => all[at] as number);
  return {
    circuits: kept.flatMap((at) => tuned.circuits[at] ?? []),
    condensers: kept.flatMap((at) => tuned.condensers[at] ?? []),
    reach: { least: only(tuned.reach.least), most: only(tuned.reach.most) },
  };
}

/** The two points of a part that detects or mixes: grid and cathode, or a crystal's two ends. */
function portOf(set: SmallSignal, name: string | undefined): TwoPoints | undefined {
  const part = set.circuit.partNamed.get(name ?? '');
  if (part?.kind === 'tube') {
    const tube = tubePoints(set).find((each) => each.part.name === name);
    return tube && { plus: tube.grid, minus: tube.reference };
  }
  const [first, second] = part?.ends ?? [];
  const plus = set.pointOf(first?.id ?? '');
  const minus = set.pointOf(second?.id ?? '');
  return plus === undefined || minus === undefined ? undefined : { plus, minus };
}

/** The radio signal at the detector, and how sharply each condenser tunes it. */
function radioOf(
  set: SmallSignal,
  listening: Listening,
  tuning: Tuning,
  present: TunedSet,
): Pick<Heard, 'sharpness'> & { readonly volts: number | undefined } {
  const sharpness = new Map<string, number>();
  if (listening.detector === undefined) return { volts: undefined, sharpness };
  const port = portOf(set, listening.detector);
  if (!port || port.plus === port.minus) return { volts: 0, sharpness };
  const ports = detectorPorts(set, tuning, present.condensers, listening.station, port);
  if (!ports) return { volts: undefined, sharpness };
  const volts = detectorVolts(ports);
  for (const [at, name] of ports.condensers.entries()) {
    const farads = OFF_TUNE * (ports.farads[at] as number);
    const most = Math.max(
      ...[farads, 0 - farads].map((each) => {
        const off = turnedVolts(ports, at, each);
        return volts > 0 && off > 0 ? Math.abs(20 * Math.log10(volts / off)) : 0;
      }),
    );
    sharpness.set(name, most);
  }
  const passed = intermediateOf(set, listening, tuning);
  return { volts: passed === undefined ? volts : volts * passed, sharpness };
}

/** Volts at the second detector for one at the mixer's grid, at the frequency that passes best. */
function intermediateOf(
  set: SmallSignal,
  { intermediate, audioDetector }: Listening,
  tuning: Tuning,
): number | undefined {
  if (!intermediate) return undefined;
  const mixer = tubePoints(set).find(({ part }) => part.name === intermediate.mixer);
  const gm = slopeOf(set, intermediate.mixer);
  const port = portOf(set, audioDetector);
  if (!mixer || !port || gm === undefined) return 0;
  const currents = new Map([
    [mixer.plate, [0 - gm, 0] as const],
    [mixer.reference, [gm, 0] as const],
  ]);
  const tuned = tunedSystem(set.system, tuning);
  let most = 0;
  for (let step = 0; step <= INTERMEDIATE_STEPS; step++) {
    const off = (2 * step) / INTERMEDIATE_STEPS - 1;
    const frequency = intermediate.frequency * INTERMEDIATE_REACH ** off;
    const room = eliminateAt(tuned, { growth: 0, radians: 2 * Math.PI * frequency });
    if (!room) continue;
    const { re, im } = solveDriven(set.system, room, { currents });
    most = Math.max(
      most,
      Math.hypot(
        (re[port.plus] as number) - (re[port.minus] as number),
        (im[port.plus] as number) - (im[port.minus] as number),
      ),
    );
  }
  return most;
}

/** Siemens from grid to plate of a tube; 0 for one that is out or dark. */
function slopeOf(set: SmallSignal, name: string): number | undefined {
  return set.point.tubes.find(({ tube }) => tube === name)?.transconductance?.value ?? 0;
}

type Drive = readonly (readonly [point: number, amperes: number])[];

/** Audio: what the detector makes of a volt, and what it makes of a signal, in the output. */
function audioOf(
  set: SmallSignal,
  listening: Listening,
  tuning: Tuning,
): Pick<Heard, 'audio' | 'rectified' | 'clicks'> {
  const nothing = { audio: undefined, rectified: undefined, clicks: new Map<string, number>() };
  const { output, audioDetector } = listening;
  if (output === undefined) return nothing;
  const answer = audioAnswer(set, tuning);
  if (!answer) return nothing;
  const current = (drive: Drive): number => answer(drive, output);
  const drives = audioDrives(set, audioDetector);
  const clicks = new Map(
    tubePoints(set).map(({ part, plate, reference }) => {
      const gm = slopeOf(set, part.name) ?? 0;
      return [
        part.name,
        current([
          [plate, 0 - gm],
          [reference, gm],
        ]),
      ];
    }),
  );
  return {
    audio: drives && current(drives.amplified),
    rectified: drives && current(drives.rectified),
    clicks,
  };
}

/** Amperes at 1000 cycles in a part that sounds, for what is pushed into points. */
function audioAnswer(
  set: SmallSignal,
  tuning: Tuning,
): ((drive: Drive, output: string) => number) | undefined {
  const room = eliminateAt(tunedSystem(set.system, tuning), {
    growth: 0,
    radians: 2 * Math.PI * MIDDLE_AUDIO,
  });
  if (!room) return undefined;
  return (drive, output) => {
    const row = set.system.rowOfSeries.get(output);
    if (row === undefined) return 0;
    const currents = new Map<number, readonly [number, number]>();
    for (const [point, amperes] of drive)
      currents.set(point, [(currents.get(point)?.[0] ?? 0) + amperes, 0]);
    const { re, im } = solveDriven(set.system, room, { currents });
    // Series currents are counted in milliamperes.
    return Math.hypot(re[row + 1] as number, im[row + 1] as number) / 1000;
  };
}

/** What a volt at a detector, and a volt squared of signal, push into the audio stages. */
function audioDrives(
  set: SmallSignal,
  detector: string | undefined,
): { readonly amplified: Drive; readonly rectified: Drive } | undefined {
  const part = set.circuit.partNamed.get(detector ?? '');
  const port = portOf(set, detector);
  if (!part || !port) return detector === undefined ? undefined : { amplified: [], rectified: [] };
  if (part.kind === 'crystal') {
    const [mineral, whisker] = ['mineral', 'whisker'].map(
      (name, at) => (part.ends.find((end) => end.name === name) ?? part.ends[at])?.id ?? '',
    );
    const volts = set.point.voltage(whisker ?? '', mineral ?? '') ?? 0;
    const { slope } = crystalCurrent(volts);
    const bend = (crystalCurrent(volts + 1e-3).slope - crystalCurrent(volts - 1e-3).slope) / 2e-3;
    const flow = (amperes: number): Drive => [
      [port.plus, 0 - amperes],
      [port.minus, amperes],
    ];
    return { amplified: flow(slope), rectified: flow(bend / 4) };
  }
  const tube = tubePoints(set).find((each) => each.part.name === detector);
  if (part.kind !== 'tube' || !tube) return { amplified: [], rectified: [] };
  const gm = slopeOf(set, part.name) ?? 0;
  const { grid = 0, plate = 0 } =
    set.point.tubes.find((each) => each.tube === part.name)?.curvatures ?? {};
  return {
    amplified: [
      [tube.plate, 0 - gm],
      [tube.reference, gm],
    ],
    rectified: [
      [tube.grid, 0 - grid / 4],
      [tube.plate, 0 - plate / 4],
      [tube.reference, (grid + plate) / 4],
    ],
  };
}

/** What sounds: of phones and loudspeakers the one that a volt at the detector moves most. */
function loudest(set: SmallSignal, listening: Listening): string | undefined {
  const answer = audioAnswer(set, listening.tuning);
  const drives = audioDrives(set, listening.audioDetector);
  if (!answer || !drives) return undefined;
  let best: string | undefined;
  let most = 0;
  for (const { name, kind } of set.circuit.parts) {
    if (kind !== 'phones' && kind !== 'horn' && kind !== 'speaker') continue;
    const amperes = answer(drives.amplified, name);
    if (amperes > most) [best, most] = [name, amperes];
  }
  return best;
}

/** Growth of the fastest mode near the station with the set tuned to it. */
function growthAt(
  set: SmallSignal,
  { station, shortAlignment }: Listening,
  present: TunedSet,
  at: Tuning,
): number | undefined {
  if (present.condensers.length === 0) return undefined;
  return exactModes(
    { tuned: present, shafts: [], alignment: { ...shortAlignment, frequency: station } },
    () => tunedSystem(set.system, at),
  )([])?.growth;
}

/**
 * A set that dies away by this share as fast as the sound one, with its dials apart as is worst
 * for that, does not squeal: its own worst is not sought.
 */
const SAFE = 0.7;

/** A set drawn together onto its condensers at the shortest station. */
interface ShortReduction {
  readonly network: ReducedNetwork;
  /** Whether it is the sound set's in all that tunes and squeals. */
  readonly isAlike: boolean;
}

function shortReduction(
  set: SmallSignal,
  { tuned, shortest, shortMatrix, shortPlans, system }: Listening,
  present: TunedSet,
  fixed: Tuning,
): ShortReduction | undefined {
  if (present.condensers.length === 0) return undefined;
  const network = reducedNetwork(set.system, present.condensers, fixed);
  if (!shortMatrix || present !== tuned) return { network, isAlike: false };
  if (set.system.pattern === system.pattern) network.tuned.plans.push(...shortPlans);
  const matrix = shortMatrixOf(network, shortest);
  return { network, isAlike: matrix !== undefined && areAlike(matrix, shortMatrix) };
}

/** Growth of the fastest mode at the shortest station, in tune and with the dials apart. */
function growthOf(
  set: SmallSignal,
  listening: Listening,
  present: TunedSet,
  fixed: Tuning,
  short: ShortReduction | undefined,
): Omit<Heard['growth'], 'station'> {
  const { shortest, shortAlignment, tuned, shafts, sound, apart } = listening;
  if (!short) return { shortest: undefined, apart: undefined };
  if (short.isAlike) return { shortest: sound.growth.shortest, apart: sound.growth.apart };
  const { network } = short;
  const isWhole = present === tuned;
  const names = new Set(present.condensers);
  const circuits = shortAlignment.circuits.filter(({ condenser }) => names.has(condenser));
  const alignment: Alignment = {
    frequency: shortest,
    circuits,
    tuning: new Map([...fixed, ...circuits.map((each) => [each.condenser, each.farads] as const)]),
  };
  const own = isWhole ? shafts : shaftsOf(present);
  const tunedShafts = { tuned: present, shafts: own, alignment };
  const model = stationModel(network.size, matricesOf(network), shortest);
  const systemAt = (tuning: Tuning) => tunedSystem(set.system, tuning);
  const exact = exactModes(tunedShafts, systemAt);
  const inTune = exact(own.map(() => 0));
  const modes = model ? modelModes(tunedShafts, network, model) : exact;
  const there = isWhole && apart ? modes(apart) : undefined;
  const before = sound.growth.apart;
  if (there && before !== undefined && before < 0 && there.growth < SAFE * before)
    return { shortest: inTune?.growth, apart: there.growth };
  const { offsets, mode } = worstTuning(own.length, modes);
  const tuning = mistuned(present, own, alignment, offsets);
  const worst = mode && findRoot(logSlopeOf(systemAt(tuning)), mode);
  return { shortest: inTune?.growth, apart: worst?.growth ?? mode?.growth };
}

/** Shares by which the shafts are off where a sound set is nearest to squealing. */
function worstOffsets(set: SmallSignal, listening: Listening): readonly number[] | undefined {
  const { tuned, shafts, shortAlignment, fixed, shortest } = listening;
  if (tuned.condensers.length === 0) return undefined;
  const network = reducedNetwork(set.system, tuned.condensers, fixed);
  const model = stationModel(network.size, matricesOf(network), shortest);
  if (!model) return undefined;
  const tunedShafts = { tuned, shafts, alignment: shortAlignment };
  return worstTuning(shafts.length, modelModes(tunedShafts, network, model)).offsets;
}

/** The matrices of what is left of a network, at any radians per second. */
function matricesOf(network: ReducedNetwork): MatrixAt {
  const remainder = new Float64Array(remainderLength(network));
  const matrix = remainder.subarray(0, 2 * network.size * network.size);
  return (radians, matrices, start) => {
    if (!reduceAt(network, { growth: 0, radians }, remainder)) return false;
    matrices.set(matrix, start);
    return true;
  };
}

function shortMatrixOf(network: ReducedNetwork, shortest: number): Float64Array | undefined {
  const matrix = new Float64Array(2 * network.size * network.size);
  return matricesOf(network)(2 * Math.PI * shortest, matrix, 0) ? matrix : undefined;
}

/** Whether two reductions are one in all that tunes and squeals. */
function areAlike(one: Float64Array, other: Float64Array): boolean {
  if (one.length !== other.length) return false;
  const size = Math.round(Math.sqrt(one.length / 2));
  const own = Float64Array.from({ length: size }, (_, at) => {
    const diagonal = 2 * (at * size + at);
    return Math.hypot(other[diagonal] as number, other[diagonal + 1] as number);
  });
  return one.every((each, at) => {
    const entry = at >> 1;
    const row = own[Math.floor(entry / size)] as number;
    const scale = Math.sqrt(row * (own[entry % size] as number));
    return Math.abs(each - (other[at] as number)) <= ALIKE * scale;
  });
}

function oscillatesOf(
  set: SmallSignal,
  { oscillator, circuit }: Listening,
  tuning: Tuning,
): boolean | undefined {
  if (!oscillator) return undefined;
  const root = findRoot(logSlopeOf(tunedSystem(set.system, tuning)), oscillator);
  const isNear = root && Math.abs(root.radians / oscillator.radians - 1) < 0.3;
  const hasTube = tubePoints(set).some(
    ({ part }) => isOfRole(set, part, 'oscillator') && circuit.partNamed.has(part.name),
  );
  return hasTube && root !== undefined && isNear === true && root.growth > 0;
}

/** Whether a mode near the station grows once the control is turned right up. */
function regeneratesOf(
  set: SmallSignal,
  { regeneration, station, shortAlignment }: Listening,
  present: TunedSet,
  at: Tuning,
  turnedUp: TurnedUp,
): boolean | undefined {
  if (!regeneration) return undefined;
  const { part, turned, kind } = regeneration;
  const isWinding = kind === 'winding';
  const system = isWinding ? turnedUp(new Map([[part, turned]])).system : set.system;
  const tuning = isWinding ? at : new Map([...at, [part, turned] as const]);
  const mode = exactModes(
    { tuned: present, shafts: [], alignment: { ...shortAlignment, frequency: station } },
    () => tunedSystem(system, tuning),
  )([]);
  return mode !== undefined && mode.growth > 0;
}
