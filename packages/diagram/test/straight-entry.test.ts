import { expect, it } from 'vitest';
import { drawCircuit, layoutEngine } from '../src/index.ts';
import { circuitOf, exampleTexts } from './examples.ts';

const engine = layoutEngine();

async function pinsOf(example: string, winding: string, plate: string) {
  const circuit = circuitOf(exampleTexts.find(([name]) => name === example)![1]);
  const scene = await drawCircuit(circuit, engine);
  const net = circuit.endNamed.get(plate)!.junction;
  const { pins } = scene.symbols.find(({ part }) => part === winding)!;
  const isPlate = ({ end }: { end: string }): boolean =>
    circuit.endNamed.get(end)!.junction === net;
  return {
    plate: pins.find(isPlate)!.at,
    supply: pins.find((pin) => !isPlate(pin))!.at,
    scene,
  };
}

it('a plate enters its primary from above where the supply has a symbol of its own', async () => {
  const { plate, supply } = await pinsOf('push-pull', 'L2.plate', 'V1.plate');
  expect(plate.y).toBeLessThan(supply.y);
});

it('and so does one that a switch leads there', async () => {
  const circuit = circuitOf(`receiver "One tube or two" {
  battery A storage { tap A- tap A+ 6 V }
  battery B dry { tap B- tap B+22 22.5 V tap B+67 67.5 V }
  post ANT aerial
  post GND ground
  wire B- to A- to GND
  switch S3 from V1.plate to PH1.start open breaks V1.plate to T1.primary.start
  coil L1 { winding aerial 16 turns from GND to ANT
    winding grid 62 turns from GND to V1.grid }
  tube V1 01-A { filament from A- to A+ }
  transformer T1 ratio 1 to 3 { winding primary 14 H to B+22
    winding secondary 60 H from GND to V2.grid }
  tube V2 01-A { filament from A- to A+ plate to PH1.start }
  phones PH1 2000 ohms to B+67
}`);
  const { symbols } = await drawCircuit(circuit, engine);
  const { pins } = symbols.find(({ part }) => part === 'T1.primary')!;
  const [plate, supply] = ['start', 'finish'].map(
    (end) => pins.find((pin) => pin.end === `T1.primary.${end}`)!.at.y,
  );
  expect(plate).toBeLessThan(supply!);
});

it('and from below where the supply leaves upwards to its line', async () => {
  const { plate, supply } = await pinsOf('five-tube-trf', 'L2.plate', 'V1.plate');
  expect(plate.y).toBeGreaterThan(supply.y);
});

it('the foot of a tickler stands over the plate that feeds it', async () => {
  for (const [example, winding] of [
    ['two-tube', 'L1.tickler'],
    ['bare-wiring', 'L1.tickler'],
    ['one-tube-regenerative', 'L1.tickler'],
  ] as const) {
    const { plate, scene } = await pinsOf(example, winding, 'V1.plate');
    const tube = scene.symbols.find(({ part, symbol }) => part === 'V1' && symbol !== 'filament')!;
    expect(`${example}: ${plate.x}`).toBe(`${example}: ${tube.at.x}`);
  }
});
