import { resonanceProduct } from '@setwright/physics';
import { condenserAt } from '../capacity-law.ts';
import type { TunedCircuit } from '../tuned-circuits.ts';
import { tunedCircuits } from '../tuned-circuits.ts';
import { type Reach, resonate } from './resonating.ts';
import type { Tuning } from './signal-system.ts';
import type { SmallSignal } from './small-signal.ts';
import { tuningPorts } from './tuning-ports.ts';

/** One tuned circuit of a set, tuned to a station. */
export interface AlignedCircuit {
  readonly name: string;
  readonly condenser: string;
  readonly farads: number;
  /** Whether the condenser reaches the station, or stands at its stop. */
  readonly reaches: boolean;
}

/** A set tuned to a station. */
export interface Alignment {
  /** Hertz. */
  readonly frequency: number;
  readonly circuits: readonly AlignedCircuit[];
  readonly tuning: Tuning;
}

/** The circuits of a set that are turned to a station, with the reach of their condensers. */
export interface TunedSet {
  readonly circuits: readonly TunedCircuit[];
  readonly condensers: readonly string[];
  readonly reach: Reach;
}

/** Circuits of a set that are tuned at most; the work goes as the cube of them. */
const MOST_CIRCUITS = 16;

/**
 * The circuits that a condenser tunes to the station. Those that the text tunes to a frequency of
 * their own, and those of an oscillator's stage, are not among them.
 */
export function tunedSet(set: SmallSignal): TunedSet {
  const { circuit, point, system } = set;
  const circuits = tunedCircuits(circuit, point.settings).filter(
    ({ tuner, law, stated }) =>
      tuner !== undefined &&
      law !== undefined &&
      stated === undefined &&
      system.turned.has(tuner) &&
      !isOfOscillator(set, tuner),
  );
  const condensers = [...new Set(circuits.map(({ tuner }) => tuner ?? ''))].slice(0, MOST_CIRCUITS);
  const lawOf = (name: string) => circuits.find(({ tuner }) => tuner === name)?.law;
  return {
    circuits: condensers.flatMap((name) => circuits.find(({ tuner }) => tuner === name) ?? []),
    condensers,
    reach: {
      least: Float64Array.from(condensers, (name) => lawOf(name)?.least ?? 0),
      most: Float64Array.from(condensers, (name) => lawOf(name)?.most ?? 0),
    },
  };
}

function isOfOscillator({ circuit }: SmallSignal, condenser: string): boolean {
  const stage = circuit.partNamed.get(condenser)?.stage;
  return circuit.stages.some(({ name, roles }) => name === stage && roles.includes('oscillator'));
}

/**
 * The capacities at which every tuned circuit of a set is in tune at a frequency in hertz: each
 * condenser sees a pure resistance, with the aerial, the plates and its neighbours loading it, the
 * tubes amplifying nothing. A condenser that does not reach stands at its stop.
 *
 * @param fixed how other condensers stand, such as neutralizing ones
 * @param tuned what there is to be tuned, where it has been found before
 */
export function alignedAt(
  set: SmallSignal,
  frequency: number,
  fixed: Tuning = new Map(),
  tuned: TunedSet = tunedSet(set),
): Alignment {
  const { circuits, condensers, reach } = tuned;
  const product = resonanceProduct(frequency);
  const farads = Float64Array.from(circuits, ({ law, inductance }, at) => {
    const wanted =
      law && product !== undefined && inductance.value
        ? condenserAt(law, product / inductance.value)
        : undefined;
    return wanted ?? Math.sqrt((reach.least[at] as number) * (reach.most[at] as number));
  });
  const entrance = set.entrance?.series;
  const ports = tuningPorts(set.cold, condensers, frequency, entrance, fixed);
  if (ports) resonate(ports, reach, farads);
  return alignment(frequency, circuits, reach, farads, fixed);
}

/** An alignment as data. */
export function alignment(
  frequency: number,
  circuits: readonly TunedCircuit[],
  { least, most }: Reach,
  farads: Float64Array,
  fixed: Tuning,
): Alignment {
  const aligned = circuits.map(({ name, tuner }, at) => {
    const value = farads[at] as number;
    const reaches = value > (least[at] as number) && value < (most[at] as number);
    return { name, condenser: tuner ?? '', farads: value, reaches };
  });
  return {
    frequency,
    circuits: aligned,
    tuning: new Map([...fixed, ...aligned.map((each) => [each.condenser, each.farads] as const)]),
  };
}
