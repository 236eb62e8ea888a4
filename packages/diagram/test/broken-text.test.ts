import { expect, it } from 'vitest';
import { drawCircuit, layoutEngine, misread } from '../src/index.ts';
import { circuitOf, exampleTexts } from './examples.ts';
import { faultsOf } from './faults.ts';

const engine = layoutEngine();

// Half-built sets are what an editor draws most of the time: parts in the air, posts missing,
// coils with one winding.
it.each(exampleTexts)('%s with a line missing is still drawn as it stands', async (_name, text) => {
  const lines = text.split('\n');
  const wrong: string[] = [];
  for (let at = 10; at < lines.length; at += 9) {
    const circuit = circuitOf(lines.filter((_, index) => index !== at).join('\n'));
    const scene = await drawCircuit(circuit, engine);
    const missed = misread(circuit, scene).map((net) => circuit.junctions[net]!.name);
    wrong.push(...[...missed, ...faultsOf(scene)].map((fault) => `line ${at + 1}: ${fault}`));
  }
  expect(wrong).toEqual([]);
});

it('an empty receiver is an empty drawing', async () => {
  const scene = await drawCircuit(circuitOf('receiver "Nothing" {\n}\n'), engine);
  expect(scene.symbols).toEqual([]);
});

it('a set is drawn with named symbols where the layout engine fails', async () => {
  const circuit = circuitOf(exampleTexts.find(([name]) => name === 'reflex')![1]);
  const failing = { layout: () => Promise.reject(new Error('no layout')) };
  const scene = await drawCircuit(circuit, failing);
  expect(misread(circuit, scene)).toEqual([]);
  expect(scene.symbols.length).toBeGreaterThan(20);
});
