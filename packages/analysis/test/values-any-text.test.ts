import { readFileSync } from 'node:fs';
import { readReceivers } from '@setwright/language';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coilMatrix, dialTable, tunedAt, tunedCircuits, tunedDial } from '../src/index.ts';

const texts = ['neutralized-five', 'superheterodyne', 'two-tube'].map((file) =>
  readFileSync(new URL(`../../../examples/${file}.receiver`, import.meta.url), 'utf8'),
);

/** Every number within plain data, but for the parts of the circuit itself. */
function numbersIn(data: unknown, depth = 0): number[] {
  if (typeof data === 'number') return [data];
  if (data === null || typeof data !== 'object' || depth > 5) return [];
  return Object.entries(data).flatMap(([key, inner]) =>
    key === 'part' || key === 'edge' ? [] : numbersIn(inner, depth + 1),
  );
}

describe('a set with lines lost and numbers garbled', () => {
  const odd = fc.constantFrom('0', '-1', '1e9', '9999', '.0000001', 'GND', 'B+67', '0 in');

  it('gives values that are numbers, or none', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...texts),
        fc.array(fc.nat(200), { maxLength: 8 }),
        fc.array(fc.tuple(fc.nat(700), odd), { maxLength: 8 }),
        (text, lost, garbled) => {
          const lines = text.split('\n').filter((_, index) => !lost.includes(index));
          const words = lines.join('\n').split(' ');
          for (const [at, word] of garbled) if (at < words.length) words[at] = word;
          for (const circuit of readReceivers(words.join(' '), 'garbled.receiver').circuits) {
            const found: unknown[] = circuit.parts.map(({ name }) => coilMatrix(circuit, name));
            for (const tuned of tunedCircuits(circuit)) {
              const dial = tunedDial(circuit, tuned);
              found.push(tuned, tunedAt(tuned, 1e6), dial && dialTable(dial));
            }
            expect(numbersIn(found).filter((number) => !Number.isFinite(number))).toEqual([]);
          }
        },
      ),
      { numRuns: 60 },
    );
  });
});
