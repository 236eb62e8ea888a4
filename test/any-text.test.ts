import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { checkCircuit } from '@setwright/checks';
import { formatText, readReceivers } from '@setwright/language';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const folder = join(import.meta.dirname, '../examples');
const lines = readdirSync(folder)
  .filter((name) => name.endsWith('.receiver'))
  .flatMap((name) => readFileSync(join(folder, name), 'utf8').split('\n'))
  .filter((line) => line.trim() !== '' && !line.includes('receiver "'));

function tellsNothingOfItself(text: string) {
  const { circuits, remarks } = readReceivers(text, 'any.receiver');
  for (const found of [...remarks, ...circuits.flatMap((one) => checkCircuit(one).findings)]) {
    const said = `${found.message} ${found.why} ${found.cure}`;
    expect(said).not.toMatch(/failed on this set|undefined|NaN|Infinity|\[object/);
    expect(found.place.end).toBeLessThanOrEqual(text.length);
  }
  formatText(text);
}

describe('reading, checking and formatting a set put together at random', () => {
  it('from lines of other sets: no check falls over, no figure is nonsense', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...lines), { minLength: 5, maxLength: 60 }), (some) =>
        tellsNothingOfItself(`receiver "Any" {\n${some.join('\n')}\n}\n`),
      ),
      { numRuns: 300 },
    );
  });

  it('from absurd sizes: no check falls over, no figure is nonsense', () => {
    const number = fc.constantFrom('0', '-5', '.0000001', '1/0', '999999999999', '1e12', '2 3/4');
    const base = readFileSync(join(folder, 'five-tube-trf.receiver'), 'utf8');
    fc.assert(
      fc.property(
        fc.array(number, { minLength: 10, maxLength: 10 }),
        fc.nat(200),
        (numbers, from) => {
          let at = 0;
          const text = base.replace(/(?<= )[.\d][\d./]*(?= )/g, (old) => {
            at += 1;
            return at >= from && at < from + 10 ? (numbers[at - from] ?? old) : old;
          });
          tellsNothingOfItself(text);
        },
      ),
      { numRuns: 100 },
    );
  });
});
