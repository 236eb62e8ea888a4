import { type BenchReading, shownAs } from '@setwright/bench';
import type { Circuit, Part } from '@setwright/circuit';

/** The parts that a reading speaks of: what it was taken across, else what the probes were on. */
export function partsOfReading(circuit: Circuit, reading: BenchReading): readonly Part[] {
  const { across, at, to } = reading;
  if (across !== undefined) {
    const part = circuit.partNamed.get(across);
    return part ? [part] : [];
  }
  const own = circuit.partOfEnd.get(at);
  const other = to === undefined ? undefined : circuit.partOfEnd.get(to);
  return [...new Set([own, other].flatMap((part) => part ?? []))];
}

/** A band as a meter shows it: `40.2 V to 43.4 V`, `open`. */
export function bandWords(
  { low, high, value }: NonNullable<BenchReading['expected']>,
  reading: BenchReading,
): string {
  if (value === Number.POSITIVE_INFINITY) return 'open';
  const [from, to] = [low, high].map((each) => shownAs(each, reading));
  return from === to ? (from ?? '') : `${from} to ${to}`;
}
