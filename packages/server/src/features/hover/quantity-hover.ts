import type { Circuit, Value } from '@setwright/circuit';
import type { UnitStyle } from '@setwright/report';
import { formatQuantity, SPEED_OF_LIGHT } from '@setwright/units';
import { plainWords } from '../../text/markdown.ts';

/** A quantity of the text that stands at an offset. */
export function quantityAt(circuit: Circuit, offset: number): Value | undefined {
  const isHere = ({ place }: Value): boolean => place.start <= offset && offset <= place.end;
  const facts = [circuit.year, circuit.tunes?.low, circuit.tunes?.high];
  for (const value of facts) if (value && isHere(value)) return value;
  for (const part of circuit.parts) {
    const windings = part.winding;
    const all = [
      ...Object.values(part.values),
      ...Object.values(part.ranges).flatMap(({ low, high }) => [low, high]),
      ...part.supplyTaps.flatMap(({ said }) => said ?? []),
      ...[windings?.turns, windings?.length, windings?.form, windings?.spaced, windings?.paper],
    ];
    for (const value of all) if (value && isHere(value)) return value;
  }
  for (const { entries } of circuit.benches)
    for (const { value, range } of entries)
      for (const each of [value, range]) if (each && isHere(each)) return each;
  return undefined;
}

/** The same quantity in the units of the time and in SI, where that says anything new. */
export function quantityHover(value: Value, units: UnitStyle): string | undefined {
  const { dimension, text } = value;
  if (dimension === 'number' || dimension === 'ratio' || dimension === 'turns') return undefined;
  const styles: readonly UnitStyle[] = units === 'si' ? ['si', 'period'] : ['period', 'si'];
  const ways = styles.map((style) => formatQuantity(value.value, dimension, style));
  if (dimension === 'frequency' && value.value > 0)
    ways.push(formatQuantity(SPEED_OF_LIGHT / value.value, 'wavelength', units));
  const other = [...new Set(ways)].filter((way) => way !== text);
  if (other.length === 0) return undefined;
  return `${plainWords(text)} = ${other.map((way) => `**${plainWords(way)}**`).join(' = ')}`;
}
