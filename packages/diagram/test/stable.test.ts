import { expect, it } from 'vitest';
import { drawCircuit, layoutEngine, type Scene } from '../src/index.ts';
import { circuitOf, exampleTexts } from './examples.ts';

const engine = layoutEngine();
const [, five] = exampleTexts.find(([name]) => name === 'five-tube-trf')!;

/** Left to right places of the parts of the signal path, those of the filaments left out. */
function places({ symbols }: Scene): Map<string, number> {
  return new Map(
    symbols
      .filter(({ symbol }) => !/^(filament|terminal|name)$/.test(symbol))
      .map(({ part, at }) => [part, at.x]),
  );
}

const edits = [
  ['a value changed', five.replace('1500 ohms from L1', '1200 ohms from L1')],
  ['the detector bypass gone', five.replace(/^.*condenser C6 .*$/m, '')],
  ['a losser bridged', five.replace(/resistor R2 .*$/m, 'wire L2.grid.finish to V2.grid')],
  [
    'a bypass more',
    five.replace(/^( *)wire LS2/m, '$1condenser C99 1 mfd from B+90 to NEG\n$1wire LS2'),
  ],
] as const;

it.each(edits)('with %s no two other parts change places', async (_name, text) => {
  expect(text).not.toBe(five);
  const before = places(await drawCircuit(circuitOf(five), engine, { rows: 'one' }));
  const after = places(await drawCircuit(circuitOf(text), engine, { rows: 'one' }));
  const both = [...before.keys()].filter((name) => after.has(name));
  const flipped = both.flatMap((one) =>
    both
      .filter(
        (other) => before.get(one)! < before.get(other)! && after.get(one)! > after.get(other)!,
      )
      .map((other) => `${one} and ${other}`),
  );
  expect(both.length).toBeGreaterThan(20);
  expect(flipped).toEqual([]);
});
