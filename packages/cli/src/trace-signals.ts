import {
  alignedAt,
  operatingPoint,
  pathAt,
  type SignalStep,
  smallSignal,
  tunedCircuits,
} from '@setwright/analysis';
import { asOn, type Circuit } from '@setwright/circuit';
import { bandOf } from '@setwright/report';
import { formatQuantity } from '@setwright/units';

/** One part that a signal passes, sections of one winding together. */
export interface SignalStepTold {
  readonly part: string;
  readonly from: string;
  readonly to: string;
  /** Ohms, by its size. */
  readonly impedance: number;
  readonly because: string;
}

/** The way of least impedance home for one kind of signal. */
export interface SignalTold {
  readonly kind: 'radio' | 'audio';
  /** Hertz. */
  readonly frequency: number;
  /** Where home is; undefined where there is none. */
  readonly to: string | undefined;
  readonly found: boolean;
  readonly steps: readonly SignalStepTold[];
  readonly impedance: number;
}

/** Cycles that stand for what is heard. Common practice. */
const AUDIO = 1000;

/** Where the set does not say what it tunes: the middle of the broadcast band. */
const RADIO = 1e6;

/**
 * The ways of least impedance that radio and audio currents have home from a terminal, with the
 * set on and tuned to the middle of its band. Never throws.
 */
export function signalsFrom(
  circuit: Circuit,
  terminal: string,
  kinds: readonly SignalTold['kind'][],
): readonly SignalTold[] {
  if (kinds.length === 0) return [];
  const { settings } = asOn(circuit);
  const set = smallSignal(circuit, operatingPoint(circuit, settings));
  const band = bandOf(circuit, tunedCircuits(circuit, settings));
  const radio = band ? roundKilocycles(Math.sqrt(band.low * band.high)) : RADIO;
  const { tuning } = alignedAt(set, radio);
  return kinds.map((kind) => {
    const frequency = kind === 'radio' ? radio : AUDIO;
    const path = pathAt(set, terminal, frequency, undefined, tuning);
    const { to, found, impedance } = path;
    return { kind, frequency, to, found, impedance, steps: merged(path.steps) };
  });
}

/** The nearest ten kilocycles, the spacing of stations. */
function roundKilocycles(hertz: number): number {
  return hertz > 1e5 ? 1e4 * Math.round(hertz / 1e4) : hertz;
}

/** Steps through one part after another become one. */
function merged(steps: readonly SignalStep[]): readonly SignalStepTold[] {
  const told: SignalStepTold[] = [];
  for (const step of steps) {
    const last = told.at(-1);
    if (last?.part !== step.part) {
      const { part, in: from, out: to, impedance, reason } = step;
      told.push({ part, from, to, impedance, because: reason });
      continue;
    }
    const impedance = last.impedance + step.impedance;
    const because = `its sections, ${formatQuantity(impedance, 'resistance')} in all`;
    told[told.length - 1] = { ...last, to: step.out, impedance, because };
  }
  return told;
}
