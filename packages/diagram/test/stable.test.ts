import { describe, expect, it } from 'vitest';
import { drawCircuit, layoutEngine, overlayOf } from '../src/index.ts';
import { circuitOf, exampleTexts } from './examples.ts';
import { isBefore, places } from './reading-order.ts';

const engine = layoutEngine();
const [, five] = exampleTexts.find(([name]) => name === 'five-tube-trf')!;

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

it.each(exampleTexts)('in one row the signal of %s runs on to the right', async (_name, text) => {
  const circuit = circuitOf(text);
  const spots = places(await drawCircuit(circuit, engine, { rows: 'one' }));
  const paths = ['radio', 'audio']
    .flatMap((id) => overlayOf(circuit, id)?.paths ?? [])
    .filter(({ kind }) => kind === 'radio' || kind === 'audio');
  // In a reflex set the signal comes back to tubes that it has passed.
  const passed = new Set<string>();
  const backwards: string[] = [];
  for (const { steps } of paths) {
    const fresh = steps.map(({ part }) => part).filter((part) => !passed.has(part));
    for (const part of fresh) passed.add(part);
    const shown = fresh.filter((part) => /^(V|CR)\d/.test(part) && spots.has(part));
    for (const [at, part] of shown.entries()) {
      const before = shown[at - 1];
      if (before && spots.get(before)!.x >= spots.get(part)!.x) {
        backwards.push(`${part} stands before ${before}`);
      }
    }
  }
  expect([...passed].some((part) => /^(V|CR)\d/.test(part))).toBe(true);
  expect(backwards).toEqual([]);
});
