import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nearest } from '../src/index.ts';

const WORDS = ['condenser', 'resistor', 'rheostat', 'transformer', 'tube', 'winding', 'wire'];

describe('the nearest name', () => {
  it.each([
    ['condensor', 'condenser'],
    ['codnenser', 'condenser'],
    ['resitor', 'resistor'],
    ['rheostatt', 'rheostat'],
    ['CONDENSER', 'condenser'],
    ['tueb', 'tube'],
    ['wier', 'wire'],
  ])('of %s is %s', (word, name) => {
    expect(nearest(word, WORDS)[0]).toBe(name);
  });

  it.each(['battery', 'x', '', 'tbx'])('of %j is none of these', (word) => {
    expect(nearest(word, WORDS)).toEqual([]);
  });

  it('a swapped pair counts once, so a short word may have one', () => {
    expect(nearest('mmdf', ['mmfd'])).toEqual(['mmfd']);
  });

  it('about a third of the letters may be wrong, and no more', () => {
    expect(nearest('abcxyf', ['abcdef'])).toEqual(['abcdef']);
    expect(nearest('abcxyz', ['abcdef'])).toEqual([]);
  });

  it('the best comes first', () => {
    expect(nearest('winding', ['windinggs', 'windings', 'winding'])).toEqual([
      'winding',
      'windings',
      'windinggs',
    ]);
  });

  it('capitals settle a tie', () => {
    expect(nearest('rh1', ['RH1', 'rH1', 'Rh1', 'rh1'])).toEqual(['rh1', 'Rh1', 'rH1']);
  });

  it('gives three by default and as many as asked for', () => {
    const names = ['C11', 'C12', 'C13', 'C14', 'C15'];
    expect(nearest('C19', names)).toEqual(['C11', 'C12', 'C13']);
    expect(nearest('C19', names, 5)).toEqual(names);
    expect(nearest('C19', names, 0)).toEqual([]);
    expect(nearest('C19', names, Number.NaN)).toEqual([]);
  });

  it('a name given twice is said once', () => {
    expect(nearest('tubb', ['tube', 'tube'])).toEqual(['tube']);
  });

  it('the order of the candidates does not matter', () => {
    const name = fc.string({ unit: fc.constantFrom('a', 'b', 'B'), minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(name, fc.array(name), (word, names) => {
        expect(nearest(word, [...names].reverse())).toEqual(nearest(word, names));
      }),
    );
  });

  it('one slip in any word of four letters or more is found', () => {
    const word = fc.string({
      unit: fc.constantFrom('a', 'b', 'c', 'd'),
      minLength: 4,
      maxLength: 60,
    });
    fc.assert(
      fc.property(
        word,
        fc.nat(),
        fc.constantFrom('swap', 'lose', 'add', 'change'),
        (name, at, slip) => {
          const i = at % (name.length - 1);
          const [head, a, b, tail] = [name.slice(0, i), name[i], name[i + 1], name.slice(i + 2)];
          const typed = {
            swap: `${head}${b}${a}${tail}`,
            lose: `${head}${b}${tail}`,
            add: `${head}${a}z${b}${tail}`,
            change: `${head}z${b}${tail}`,
          }[slip];
          expect(nearest(typed ?? '', [name])).toEqual([name]);
        },
      ),
    );
  });

  it('agrees with the plain full-table distance', () => {
    const name = fc.string({ unit: fc.constantFrom('a', 'b', 'c'), minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(name, name, (word, candidate) => {
        const allowed = Math.round(word.length / 3);
        const isNear = fullTableDistance(word, candidate) <= allowed;
        expect(nearest(word, [candidate])).toEqual(isNear ? [candidate] : []);
      }),
      { numRuns: 500 },
    );
  });

  it('a very long word and very many long candidates are done in good time', () => {
    const long = 'ab'.repeat(32);
    const names = Array.from({ length: 100_000 }, (_, n) => `${long.slice(0, 56)}${n}`);
    expect(nearest('x'.repeat(1_000_000), names)).toEqual([]);
    expect(nearest(long, names).length).toBeLessThanOrEqual(3);
  });

  it('a list without end is left after its bound', () => {
    function* endless() {
      for (let n = 0; ; n += 1) yield `name${n}`;
    }
    expect(nearest('name1', endless())[0]).toBe('name1');
  });
});

/** Optimal string alignment distance over the whole table, as its textbook definition has it. */
function fullTableDistance(a: string, b: string): number {
  const at = (i: number, j: number): number => table.get(`${i},${j}`) ?? Number.POSITIVE_INFINITY;
  const table = new Map<string, number>();
  for (let i = 0; i <= a.length; i += 1) {
    for (let j = 0; j <= b.length; j += 1) {
      const choices = [
        i === 0 ? j : Number.POSITIVE_INFINITY,
        j === 0 ? i : Number.POSITIVE_INFINITY,
      ];
      if (i > 0) choices.push(at(i - 1, j) + 1);
      if (j > 0) choices.push(at(i, j - 1) + 1);
      if (i > 0 && j > 0) choices.push(at(i - 1, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        choices.push(at(i - 2, j - 2) + 1);
      }
      table.set(`${i},${j}`, Math.min(...choices));
    }
  }
  return at(a.length, b.length);
}
