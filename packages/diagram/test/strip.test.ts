import { describe, expect, it } from 'vitest';
import { drawCircuit, layoutEngine, type Scene } from '../src/index.ts';
import { circuitOf, exampleTexts } from './examples.ts';
import { hardFaults } from './hard.ts';

const engine = layoutEngine();
const numbers = (count: number): number[] => Array.from({ length: count }, (_, at) => at + 1);

/** So many tubes, each with a resistor of its own, with air transformers between. */
const chain = (count: number): string => `
receiver "Ten in a line" {
  battery A storage { tap A- 0 V
    tap A+ 6 V }
  battery B dry { tap B-
    tap B+67 67.5 V }
  post ANT aerial
  post GND ground
  bus NEG
  wire B- to A- to GND
  switch S1 from A- to NEG closed
  coil L1 { winding aerial 10 turns from GND to ANT
    winding grid 50 turns from GND to V1.grid }
${numbers(count)
  .map(
    (n) =>
      `  tube V${n} 01-A { filament to A+ }\n  resistor F${n} 4 ohms from NEG to V${n}.filament-`,
  )
  .join('\n')}
${numbers(count - 1)
  .map(
    (n) =>
      `  transformer T${n} air { winding primary 6 mH from V${n}.plate to B+67
    winding secondary 12 mH from NEG to V${n + 1}.grid }`,
  )
  .join('\n')}
  horn H1 from V${count}.plate to B+67
}`;

const levelsOf = ({ symbols }: Scene): number[] => [
  ...new Set(symbols.filter(({ symbol }) => symbol === 'filament').map(({ at }) => at.y)),
];

describe('the filament circuit', () => {
  it('of ten tubes is folded where it is wider than the rows, and reads back', async () => {
    const circuit = circuitOf(chain(10));
    const scene = await drawCircuit(circuit, engine, { rows: 4 });
    expect(levelsOf(scene)).toHaveLength(2);
    expect(hardFaults(circuit, scene)).toEqual([]);
    const one = await drawCircuit(circuit, engine, { rows: 'one' });
    expect(levelsOf(one)).toHaveLength(1);
  });

  it.each(exampleTexts)(
    'of %s has the joined terminals above its lower line',
    async (_name, text) => {
      const scene = await drawCircuit(circuitOf(text), engine);
      const terminals = scene.symbols.filter(({ symbol }) => symbol === 'terminal');
      const lowest = terminals.reduce((low, each) => (each.at.y > low.at.y ? each : low));
      const supply = terminals.find(({ pins }) => pins.some(({ end }) => end === 'A.A-'));
      if (supply) expect(lowest.at.y).toBe(supply.at.y);
    },
  );
});

describe('what nothing is joined to', () => {
  it('stands in a tray of several lines, no wider than a small drawing', async () => {
    const spare = numbers(20).map((n) => `  condenser C${n} .00025 mfd`);
    const text = `receiver "Attic" {\n  post ANT aerial\n  jack J1\n  potentiometer P1 400 ohms\n  transformer T1 ratio 1 to 3\n${spare.join('\n')}\n}`;
    const circuit = circuitOf(text);
    const scene = await drawCircuit(circuit, engine);
    expect(scene.width).toBeLessThan(800);
    const loose = scene.symbols.filter(({ inTheAir }) => inTheAir).map(({ part }) => part);
    expect(loose).toHaveLength(24);
    expect(loose).toEqual(expect.arrayContaining(['J1', 'P1', 'T1']));
    expect(hardFaults(circuit, scene)).toEqual([]);
  });
});
