import { expect, it } from 'vitest';
import { drawCircuit, layoutEngine } from '../src/index.ts';
import { circuitOf } from './examples.ts';
import { hardFaults } from './hard.ts';

const engine = layoutEngine();

it.each([
  ['finish', 'start'],
  ['start', 'finish'],
])(
  'a crystal stands between its coil and the transformer that it works, on the coil’s %s or not',
  async (hot, cold) => {
    const circuit = circuitOf(`receiver "Reflex" {
  battery A storage { tap A- tap A+ 6 V }
  battery B dry { tap B- tap B+90 }
  post ANT aerial
  post GND ground
  wire B- to A- to GND
  coil L1 { winding aerial 12 turns from GND to ANT
    winding grid 52 turns from T1.secondary.finish to V1.grid }
  condenser C1 variable .00035 mfd across L1.grid
  condenser C3 .00025 mfd from T1.secondary.finish to A-
  tube V1 01-A { filament from A- to A+ }
  coil L2 { winding plate 18 turns from V1.plate to PH1.start
    winding crystal 52 turns }
  condenser C2 variable .00035 mfd across L2.crystal
  crystal X1 mineral to L2.crystal.${hot} whisker to T1.primary.start
  wire T1.primary.finish to L2.crystal.${cold}
  transformer T1 ratio 1 to 5 { winding primary 8 H
    winding secondary 200 H from A- }
  condenser C4 .001 mfd from PH1.start to A-
  phones PH1 2000 ohms to B+90
}`);
    const scene = await drawCircuit(circuit, engine);
    expect(hardFaults(circuit, scene)).toEqual([]);
    const at = (name: string) => scene.symbols.find(({ part }) => part === name)!;
    expect(at('X1').at.x).toBeGreaterThan(at('C2').at.x);
    expect(at('X1').at.x).toBeLessThan(at('T1.primary').at.x);
    const ends = (name: string, end: string) =>
      at(name).pins.find((pin) => pin.end === `${name}.${end}`)!.at;
    expect(ends('T1.primary', 'start').y).toBeLessThan(ends('T1.primary', 'finish').y);
    expect(ends('L2.crystal', hot).y).toBeLessThan(ends('L2.crystal', cold).y);
  },
);
