import { expect, it } from 'vitest';
import { drawCircuit, layoutEngine } from '../src/index.ts';
import { circuitOf } from './examples.ts';
import { hardFaults } from './hard.ts';

const engine = layoutEngine();

const set = (more: string): string => `receiver "Half finished" {
  battery A storage { tap A- tap A+ 6 V }
  battery B dry { tap B- tap B+90 }
  post ANT aerial
  post GND ground
  wire B- to A- to GND
  coil L1 { winding aerial 12 turns from GND to ANT
    winding grid 52 turns from GND to V1.grid }
  tube V1 01-A { filament from A- to A+ }
  phones PH1 2000 ohms from V1.plate to B+90
${more}
}`;

it('a tube and a transformer that nothing is joined to stand among the loose parts, whole', async () => {
  const circuit = circuitOf(
    set(`  tube V2 01-A
  transformer T1 ratio 1 to 3 { winding primary 14 H
    winding secondary 60 H }`),
  );
  const scene = await drawCircuit(circuit, engine);
  expect(hardFaults(circuit, scene)).toEqual([]);
  const loose = scene.symbols.filter(({ inTheAir }) => inTheAir);
  expect(loose.map(({ part }) => part).sort()).toEqual(['T1.primary', 'T1.secondary', 'V2', 'V2']);
  const [tube, filament] = loose.filter(({ part }) => part === 'V2').map(({ at }) => at);
  expect(filament?.y).toBe(tube?.y);
});

it('and where one of its ends is joined the tube stands in the set', async () => {
  const circuit = circuitOf(set('  tube V2 01-A { filament to A+ }'));
  const { symbols } = await drawCircuit(circuit, engine);
  expect(symbols.filter(({ inTheAir }) => inTheAir)).toEqual([]);
});

it('the arm of a potentiometer on the ground has a ground symbol, as its end there has', async () => {
  const circuit = circuitOf(set('  potentiometer P1 100 kilohms from ANT to GND arm to GND'));
  const scene = await drawCircuit(circuit, engine);
  expect(hardFaults(circuit, scene)).toEqual([]);
  const pot = scene.symbols.find(({ part }) => part === 'P1')!;
  const arm = pot.pins.find(({ end }) => end === 'P1.arm')!.at;
  const grounds = scene.marks.filter(({ shape }) => shape === 'ground').map(({ at }) => at);
  expect(grounds).toContainEqual({ x: arm.x + 16, y: arm.y + 10 });
});
