import { expect, it } from 'vitest';
import { drawCircuit, layoutEngine } from '../src/index.ts';
import { circuitOf } from './examples.ts';

const engine = layoutEngine();

it('an oscillator that leads back to its mixer does not begin a row behind the last tube', async () => {
  const stages = [2, 3, 4].map(
    (n) => `  transformer T${n} air { winding primary 6 mH from V${n - 1}.plate to B+90
    winding secondary 12 mH from GND to V${n}.grid }
  condenser C${n} .001 mfd across T${n}.secondary
  tube V${n} 99 { filament from A- to A+ }`,
  );
  const circuit = circuitOf(`receiver "Oscillator by itself" {
  battery A dry { tap A- tap A+ 4.5 V }
  battery B dry { tap B- tap B+90 }
  post ANT aerial
  post GND ground
  wire B- to A- to GND
  coil L1 { winding aerial 10 turns from GND to ANT
    winding grid 52 turns from L9.pickup.finish to V1.grid }
  condenser C1 variable .00035 mfd across L1.grid
  tube V1 99 { filament from A- to A+ }
${stages.join('\n')}
  phones PH1 2000 ohms from V4.plate to B+90
  coil L9 { winding tank 60 turns centre to GND
    winding pickup 5 turns from GND }
  condenser C9 variable .00035 mfd across L9.tank
  condenser C10 .001 mfd from L9.tank.finish to V9.grid
  leak R9 50 kilohms from V9.grid to A-
  condenser C11 .002 mfd from L9.tank.start to V9.plate
  choke CH9 air 50 mH from V9.plate to B+90
  tube V9 99 { filament from A- to A+ }
}`);
  const { symbols } = await drawCircuit(circuit, engine, { rows: 'page' });
  const xOf = (name: string): number =>
    symbols.find(({ part, symbol }) => part === name && symbol !== 'filament')!.at.x;
  // In a row of its own it would begin at the left edge, with all of its row to the left of V4.
  const pickup = symbols.find(({ part }) => part === 'L9.pickup')!;
  const grid = symbols.find(({ part }) => part === 'L1.grid')!;
  expect(pickup.at.x).toBeGreaterThan(grid.at.x);
  expect(xOf('V9')).toBeGreaterThan(xOf('V1'));
});
