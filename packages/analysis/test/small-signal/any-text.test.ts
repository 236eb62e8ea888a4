import { readdirSync, readFileSync } from 'node:fs';
import { readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../../src/operating-point.ts';
import { pathAt } from '../../src/small-signal/path-at.ts';
import { response } from '../../src/small-signal/response.ts';
import { smallSignal, solveAt } from '../../src/small-signal/small-signal.ts';
import { stability } from '../../src/small-signal/stability.ts';
import { numbers } from '../dense.ts';

const folder = new URL('../../../../examples/', import.meta.url);
const files = readdirSync(folder).filter((file) => file.endsWith('.receiver'));

/** Every number in what was found. */
function* figuresIn(value: unknown, depth = 0): Generator<number> {
  if (typeof value === 'number') yield value;
  else if (typeof value === 'object' && value !== null && depth < 12) {
    const inside = value instanceof Map ? value.values() : Object.values(value);
    for (const each of inside) yield* figuresIn(each, depth + 1);
  }
}

describe('a set with lines missing', () => {
  it.each(files)('throws nothing and gives no number that is none: %s', (file) => {
    const lines = readFileSync(new URL(file, folder), 'utf8').split('\n');
    const below = numbers(lines.length);
    for (let trial = 0; trial < 4; trial++) {
      const text = lines.filter((line) => /[{}]/.test(line) || below(6) > 0).join('\n');
      for (const circuit of readReceivers(text, file).circuits) {
        const point = operatingPoint(circuit);
        const set = smallSignal(circuit, point);
        const stations = [700e3, 1.3e6];
        const found = [
          response(circuit, point, { stations }),
          stability(circuit, point, { stations }),
        ];
        for (const figure of figuresIn(found)) expect(figure).toSatisfy(Number.isFinite);
        const at = solveAt(set, 1e6, [{ kind: 'aerial', volts: 1 }]);
        for (const terminal of circuit.endNamed.keys()) {
          const volts = at?.voltage(terminal);
          if (volts) expect(volts.re + volts.im).toSatisfy(Number.isFinite);
          pathAt(set, terminal, 1e6);
        }
      }
    }
  });
});
