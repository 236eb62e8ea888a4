import { describe, expect, it } from 'vitest';
import { drawCircuit, layoutEngine, type Scene } from '../src/index.ts';
import { circuitOf, exampleTexts } from './examples.ts';

const engine = layoutEngine();
const [, five] = exampleTexts.find(([name]) => name === 'five-tube-trf')!;

interface Spot {
  readonly row: number;
  readonly x: number;
}

/**
 * Row and place in it of each part; the filament circuit below counts as a row. Terminals are
 * left out.
 */
function places({ symbols }: Scene): Map<string, Spot> {
  const tubes = symbols.filter(({ symbol }) => /^(tube|filament)/.test(symbol));
  // Rows stand farther apart than anything in one row from the tubes of it.
  const levels = [...new Set(tubes.map(({ at }) => at.y))]
    .sort((a, b) => a - b)
    .filter((y, index, all) => index === 0 || y - all[index - 1]! > 120);
  const rowOf = (y: number): number => {
    const away = levels.map((level) => Math.abs(level - y));
    return away.indexOf(Math.min(...away));
  };
  return new Map(
    symbols
      .filter(({ symbol }) => !/^(filament|terminal|name)$/.test(symbol))
      .map(({ part, at }) => [part, { row: rowOf(at.y), x: at.x }]),
  );
}

/** Whether one part is read before another: in an earlier row, or to the left of it. */
const isBefore = (one: Spot, other: Spot): boolean =>
  one.row < other.row || (one.row === other.row && one.x < other.x);

const edits = [
  ['a value changed', five.replace('1500 ohms from L1', '1200 ohms from L1')],
  ['the detector bypass gone', five.replace(/^.*condenser C6 .*$/m, '')],
  ['a losser bridged', five.replace(/resistor R2 .*$/m, 'wire L2.grid.finish to V2.grid')],
  [
    'a bypass more',
    five.replace(/^( *)wire LS2/m, '$1condenser C99 1 mfd from B+90 to NEG\n$1wire LS2'),
  ],
  [
    'a trimmer more',
    five.replace(
      /^( *)resistor R2/m,
      '$1condenser TR2 trimmer 2 to 20 mmfd across L2.grid\n$1resistor R2',
    ),
  ],
  [
    'a resistance across a secondary',
    five.replace(/^( *)tube V4/m, '$1resistor R9 .25 meg across T1.secondary\n$1tube V4'),
  ],
  ['the grid leak led to the bus', five.replace('V3.grid to A+', 'V3.grid to NEG')],
  [
    'the aerial led to the coil without its selector',
    five.replace(/selector S2 .*$/m, 'wire ANT to L1.aerial.finish'),
  ],
  [
    'a rheostat made a cartridge',
    five.replace(/rheostat RH2 .*$/m, 'ballast RH2 5 V .25 A from NEG'),
  ],
  ['another tube in the last socket', five.replace('tube V5 01-A', 'tube V5 12-A')],
  ['the horn unplugged', five.replace(/^.*horn H1 .*$/m, '')],
  [
    'a condenser across the horn',
    five.replace(/^( *)horn H1/m, '$1condenser C9 .006 mfd from LS1 to LS2\n$1horn H1'),
  ],
  ['the radio bypass gone', five.replace(/^.*condenser C5 .*$/m, '').replace(/open C5/, 'open C6')],
] as const;

describe.each(['one', 'page'] as const)('rows: %s', (rows) => {
  it.each(edits)('with %s no two other parts change places', async (_name, text) => {
    expect(text).not.toBe(five);
    const draw = async (of: string) => places(await drawCircuit(circuitOf(of), engine, { rows }));
    const [before, after] = [await draw(five), await draw(text)];
    const both = [...before.keys()].filter((name) => after.has(name));
    const flipped = both.flatMap((one) =>
      both
        .filter(
          (other) =>
            isBefore(before.get(one)!, before.get(other)!) &&
            isBefore(after.get(other)!, after.get(one)!),
        )
        .map((other) => `${one} and ${other}`),
    );
    expect(both.length).toBeGreaterThan(20);
    expect(flipped).toEqual([]);
  });
});
