import { type Circuit, emitterOf, type Part, rolesOf } from '@setwright/circuit';
import type { OperatingPoint } from './operating-point.ts';
import { response, type StationResponse } from './small-signal/response.ts';
import type { Tuning } from './small-signal/signal-system.ts';
import {
  type Phasor,
  type SignalAt,
  type SignalSource,
  type SmallSignal,
  type SmallSignalOptions,
  smallSignal,
  solveAt,
} from './small-signal/small-signal.ts';

/** What becomes of a signal from one place on its way to the next. */
export interface SignalGain {
  /** Where it begins: the tube at whose grid it stands, the aerial's post, a loop or a crystal. */
  readonly from: string;
  /** Where it ends: a grid such as `V2.grid`, a crystal, phones or a loudspeaker. */
  readonly to: string;
  /** Hertz. */
  readonly frequency: number;
  readonly use: 'radio' | 'intermediate' | 'audio';
  /** Volts there for one volt here; undefined for a set that oscillates at this tuning. */
  readonly gain: number | undefined;
  /** Condensers that stand at their stops because they do not reach the station. */
  readonly atStop: readonly string[];
}

/** What every stage of a set makes of the signal. */
export interface SignalGains {
  readonly gains: readonly SignalGain[];
  /** Whether a way of the radio signal to its detector was found. */
  readonly isReceiving: boolean;
  /** Parts that were left out because the text does not tell their size, and why. */
  readonly lacks: readonly { readonly part: string; readonly why: string }[];
}

/** Cycles at which audio stages are told of: the middle and the ends of what was asked of them. */
const AUDIO: readonly number[] = [100, 1000, 5000];

/**
 * What every stage of a set makes of the signal. Radio stages at the given stations in hertz, every
 * circuit in tune and turned for the most signal; intermediate stages where they pass most; audio
 * stages at 100, 1000 and 5000 cycles, the detector taken as a tube that amplifies what audio
 * voltage its grid has.
 *
 * By the losses of the wire alone where `quality` is not given: an upper bound for radio and
 * intermediate stages. Never throws.
 */
export function signalGains(
  circuit: Circuit,
  point: OperatingPoint,
  stations: readonly number[],
  options: SmallSignalOptions = {},
): SignalGains {
  const set = smallSignal(circuit, point, options);
  const heard = response(circuit, point, { ...options, stations });
  const rest = heard.stations[Math.floor(heard.stations.length / 2)];
  const radio = heard.stations.flatMap((station) => radioSteps(set, station, heard.stations));
  const tuning = rest?.alignment.tuning ?? new Map();
  const between = heard.intermediate;
  return {
    gains: [
      ...radio,
      ...(between
        ? stepsOn(set, tuning, {
            use: 'intermediate',
            frequencies: [between.frequency],
            first: between.mixer,
            roles: ['intermediate', 'detector'],
            isSteady: !between.oscillates,
          })
        : []),
      ...audioSteps(set, tuning),
    ],
    isReceiving: radio.length > 0,
    lacks: set.lacks,
  };
}

/** From the aerial to the detector at one station. */
function radioSteps(
  set: SmallSignal,
  { frequency, stages, alignment, oscillates, detectorVolts }: StationResponse,
  all: readonly StationResponse[],
): readonly SignalGain[] {
  const atStop = alignment.circuits.flatMap(({ reaches, condenser }) =>
    reaches ? [] : [condenser],
  );
  const entrance = set.entrance?.part;
  if (entrance === undefined) return [];
  const use = 'radio' as const;
  if (oscillates !== undefined) {
    // The stages are those of a station at which the set is quiet.
    const quiet = all.find((each) => each.stages !== undefined && each.stages.length > 0);
    const steps = quiet
      ? radioSteps(set, { ...quiet, frequency }, [])
      : [{ from: entrance, to: 'the detector', frequency, use }];
    return steps.map((each) => ({ ...each, gain: undefined, atStop }));
  }
  const crystal = set.circuit.parts.find(({ kind }) => kind === 'crystal');
  const places = [
    { name: entrance, volts: 1, to: '' },
    ...(stages ?? []).map(({ tube, gridVolts }) => ({
      name: tube,
      volts: gridVolts,
      to: `${tube}.grid`,
    })),
    ...(crystal && detectorVolts !== undefined
      ? [{ name: crystal.name, volts: detectorVolts, to: crystal.name }]
      : []),
  ];
  return places.slice(1).flatMap(({ volts, to }, index) => {
    const from = places[index];
    return from && from.volts > 0
      ? [{ from: from.name, to, frequency, use, gain: volts / from.volts, atStop }]
      : [];
  });
}

/** A row of stages that are solved one after another at some frequencies. */
interface Row {
  readonly use: 'intermediate' | 'audio';
  readonly frequencies: readonly number[];
  /** The tube or crystal that the row begins with. */
  readonly first: string;
  readonly roles: readonly string[];
  readonly isSteady: boolean;
}

function audioSteps(set: SmallSignal, tuning: Tuning): readonly SignalGain[] {
  const { circuit } = set;
  const detector =
    tubesOf(circuit, ['detector']).findLast((tube) => !rolesOf(circuit, tube).includes('mixer')) ??
    circuit.parts.find(({ kind }) => kind === 'crystal');
  if (!detector) return [];
  const roles = ['audio', 'output'];
  const row = { use: 'audio', first: detector.name, roles, isSteady: true } as const;
  return stepsOn(set, tuning, { ...row, frequencies: AUDIO });
}

function stepsOn(set: SmallSignal, tuning: Tuning, row: Row): readonly SignalGain[] {
  const { circuit } = set;
  const first = circuit.partNamed.get(row.first);
  if (!first) return [];
  const stages = [first, ...tubesOf(circuit, row.roles).filter((tube) => tube !== first)];
  const ends = [
    ...stages.slice(1).flatMap((tube) => gridOf(tube) ?? []),
    ...(row.use === 'audio' ? circuit.parts.flatMap((part) => outputOf(part) ?? []) : []),
  ];
  const cold: SmallSignal = { ...set, system: set.cold };
  const middle = row.frequencies[Math.floor(row.frequencies.length / 2)] ?? 1000;
  const links = stages.flatMap((stage) => {
    // The intermediate frequency ends in the second detector.
    const isEnd = row.use === 'intermediate' && rolesOf(circuit, stage).includes('detector');
    if (isEnd && stage !== first) return [];
    const heard = solveAt(cold, middle, driveOf(stage, 1), tuning);
    const own = gridOf(stage)?.plus;
    const reached = ends
      .filter(({ plus }) => plus !== own)
      .map((end) => ({ end, volts: across(heard, end) ?? 0 }))
      .sort((a, b) => b.volts - a.volts)[0];
    const begin = gridOf(stage) ?? crystalOf(stage);
    // What a crystal hands to phones is no gain of anything.
    if (stage.kind === 'crystal' && reached?.end.named !== reached?.end.plus) return [];
    return begin && reached && reached.volts > 0 ? [{ stage, begin, end: reached.end }] : [];
  });
  return row.frequencies.flatMap((frequency) => {
    const at = solveAt(set, frequency, driveOf(first, slopeOf(set, first)), tuning);
    return links.flatMap(({ stage, begin, end }): readonly SignalGain[] => {
      // What drives the row stands for the signal at its first place.
      const here = stage === first ? 1 : across(at, begin);
      const there = across(at, end);
      if (here === undefined || there === undefined || !(here > 0)) return [];
      const gain = row.isSteady ? there / here : undefined;
      return [{ from: stage.name, to: end.named, frequency, use: row.use, gain, atStop: [] }];
    });
  });
}

/** Two terminals that a signal is told between, and what people call the place. */
interface Place {
  readonly plus: string;
  readonly minus: string;
  readonly named: string;
}

function gridOf(tube: Part): Place | undefined {
  const plus = tube.ends.find(({ name }) => name === 'grid');
  const minus = tube.kind === 'tube' ? emitterOf(tube) : undefined;
  return plus && minus && { plus: plus.id, minus: minus.id, named: plus.id };
}

function outputOf(part: Part): Place | undefined {
  const speaks = part.kind === 'phones' || part.kind === 'horn' || part.kind === 'speaker';
  return speaks ? betweenEnds(part) : undefined;
}

function crystalOf(part: Part): Place | undefined {
  return part.kind === 'crystal' ? betweenEnds(part) : undefined;
}

function betweenEnds({ ends, name }: Part): Place | undefined {
  const [plus, minus] = ends;
  return plus && minus && { plus: plus.id, minus: minus.id, named: name };
}

/** A current out of a tube's plate, or through a crystal. */
function driveOf(part: Part, amperes: number): readonly SignalSource[] {
  const plate = part.ends.find(({ name }) => name === 'plate')?.id;
  const emitter = part.kind === 'tube' ? emitterOf(part)?.id : undefined;
  const [first, second] = part.kind === 'tube' ? [emitter, plate] : part.ends.map(({ id }) => id);
  if (first === undefined || second === undefined) return [];
  return [{ kind: 'current', into: first, outOf: second, amperes }];
}

/** Amperes that one volt makes: by a tube's slope, or through a crystal. */
function slopeOf({ point, network }: SmallSignal, { kind, name }: Part): number {
  if (kind === 'crystal')
    return network.conductances.find(({ origin }) => origin?.part === name)?.siemens ?? 0;
  return point.tubes.find(({ tube }) => tube === name)?.transconductance?.value ?? 0;
}

function across(at: SignalAt | undefined, { plus, minus }: Place): number | undefined {
  const volts: Phasor | undefined = at?.voltage(plus, minus);
  return volts && Math.hypot(volts.re, volts.im);
}

function tubesOf(circuit: Circuit, roles: readonly string[]): readonly Part[] {
  return circuit.parts.filter(
    (part) => part.kind === 'tube' && rolesOf(circuit, part).some((role) => roles.includes(role)),
  );
}
