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
