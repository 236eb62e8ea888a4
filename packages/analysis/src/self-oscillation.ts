import type { Circuit } from '@setwright/circuit';
import { resonanceProduct } from '@setwright/physics';
import { condenserAt } from './capacity-law.ts';
import type { OperatingPoint } from './operating-point.ts';
import { fedModes } from './small-signal/fed-modes.ts';
import { type SmallSignalOptions, smallSignal } from './small-signal/small-signal.ts';
import type { TunedCircuit } from './tuned-circuits.ts';

/** Oscillations are looked for between these shares of what their circuit is tuned to. */
const BELOW = 0.6;
const ABOVE = 1.6;

/** How a set's tubes oscillate by themselves. */
export interface SelfOscillation {
  /** What could not be taken up as the set has it. */
  readonly lacks: readonly { readonly part: string; readonly why: string }[];
  /**
   * Whether a tube oscillates with its circuit tuned to so many hertz; undefined where the circuit
   * does not reach them or the reckoning fails.
   */
  oscillates(tube: string, tuned: TunedCircuit, frequency: number): boolean | undefined;
}

/**
 * Whether a tube keeps its own circuit oscillating, as the local oscillator of a superheterodyne
 * must. Never throws.
 */
export function selfOscillation(
  circuit: Circuit,
  point: OperatingPoint,
  options: SmallSignalOptions = {},
): SelfOscillation {
  const set = smallSignal(circuit, point, options);
  const oscillates: SelfOscillation['oscillates'] = (tube, tuned, frequency) => {
    const { tuner, law, inductance } = tuned;
    const product = resonanceProduct(frequency);
    const henries = inductance.value;
    if (product === undefined || henries === undefined || !(henries > 0)) return undefined;
    const farads = law && condenserAt(law, product / henries);
    if (tuner !== undefined && farads === undefined) return undefined;
    const tuning = new Map(
      tuner !== undefined && farads !== undefined ? [[tuner, farads] as const] : [],
    );
    const { count, modes } = fedModes(set, tuning, BELOW * frequency, ABOVE * frequency);
    if (count === undefined) return undefined;
    return modes.some(({ tubes = [] }) => tubes.includes(tube));
  };
  return { lacks: set.lacks, oscillates };
}
