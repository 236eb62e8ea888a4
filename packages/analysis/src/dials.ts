import type { Circuit, Dial } from '@setwright/circuit';
import {
  capacitanceAtDial,
  dialAtCapacitance,
  dialFraction,
  dialReading,
  resonanceProduct,
  resonantFrequency,
  type VariableCondenser,
} from '@setwright/physics';
import { acrossAt, condenserAt } from './capacity-law.ts';
import { lawOfPlates } from './plate-law.ts';
import type { TunedCircuit } from './tuned-circuits.ts';

/** How a tuned circuit answers to the turn of its condenser. */
export interface TunedDial {
  readonly circuit: TunedCircuit;
  /** Undefined for a condenser that the text gives no dial. */
  readonly dial: Dial | undefined;
  readonly plates: VariableCondenser;
  /** What law the plates are taken to have; undefined where the text says it. */
  readonly assumed: string | undefined;
}

/** One line of a dial's table. */
export interface DialEntry {
  readonly reading: number;
  /** Hertz. */
  readonly frequency: number;
}

/** The scale that is read where the text tells of no dial: 0 to 100. */
const USUAL_SCALE = { low: 0, high: 100, reversed: false };

/** The dial of a tuned circuit; undefined where it has no tuner or its numbers are not known. */
export function tunedDial(circuit: Circuit, tuned: TunedCircuit): TunedDial | undefined {
  const part = tuned.tuner === undefined ? undefined : circuit.partNamed.get(tuned.tuner);
  if (!part || !tuned.law || tuned.inductance.value === undefined) return undefined;
  const { law, assumed } = lawOfPlates(circuit, part);
  return {
    circuit: tuned,
    dial: circuit.dials.find(({ name }) => name === tuned.dial),
    plates: { minimum: tuned.law.least, maximum: tuned.law.most, law },
    assumed,
  };
}

/** Hertz at a turn of the plates, 0 out to 1 in; undefined outside that. */
export function frequencyAtTurn(of: TunedDial, turn: number): number | undefined {
  const farads = capacitanceAtDial(of.plates, turn);
  const { law, inductance } = of.circuit;
  if (farads === undefined || !law || inductance.value === undefined) return undefined;
  return resonantFrequency(inductance.value, acrossAt(law, farads));
}

/** Turn of the plates for a frequency in hertz; undefined where it does not reach it. */
export function turnAtFrequency(of: TunedDial, frequency: number): number | undefined {
  const { law, inductance } = of.circuit;
  const product = resonanceProduct(frequency);
  if (product === undefined || !law || !inductance.value) return undefined;
  const farads = condenserAt(law, product / inductance.value);
  return farads === undefined ? undefined : dialAtCapacitance(of.plates, farads);
}

/** Hertz at a reading of the dial (0 to 100 where the text tells of none). */
export function frequencyAtReading(of: TunedDial, reading: number): number | undefined {
  const { low, high, reversed } = of.dial ?? USUAL_SCALE;
  const turn = dialFraction(reading, low, high, reversed);
  return turn === undefined ? undefined : frequencyAtTurn(of, turn);
}

/** The reading of the dial for a frequency in hertz; undefined where it does not reach it. */
export function readingAtFrequency(of: TunedDial, frequency: number): number | undefined {
  const { low, high, reversed } = of.dial ?? USUAL_SCALE;
  const turn = turnAtFrequency(of, frequency);
  return turn === undefined ? undefined : dialReading(turn, low, high, reversed);
}

/** Readings in even steps over the whole scale, ends included. At least two lines, at most 1001. */
export function dialTable(of: TunedDial, steps = 10): readonly DialEntry[] {
  const { low, high, reversed } = of.dial ?? USUAL_SCALE;
  const count = Math.min(1000, Math.max(1, Math.round(steps) || 1));
  return Array.from({ length: count + 1 }, (_, step) => step / count).flatMap((share) => {
    const reading = low + share * (high - low);
    const frequency = frequencyAtTurn(of, reversed ? 1 - share : share);
    return frequency === undefined ? [] : [{ reading, frequency }];
  });
}
