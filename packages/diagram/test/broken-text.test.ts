import { describe, expect, it } from 'vitest';
import { bigSet } from '../../../test/support/big-set.ts';
import { randomReceiver } from '../../../test/support/random-receiver.ts';
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

// Lines of every example thrown together: parts of other sets, names that mean nothing, blocks
// that end too soon.
it.each([1, 2, 3, 4])(
  'lines of many sets thrown together are drawn as they read, lot %i',
  async (lot) => {
    const lines = exampleTexts
      .flatMap(([, text]) => text.split('\n'))
      .filter((line) => line.trim() !== '' && !line.includes('receiver "'));
    const wrong: string[] = [];
    for (let set = 0; set < 8; set++) {
      const some = Array.from(
        { length: 40 },
        (_, at) => lines[(lot * 7919 + set * 523 + at * 263) % lines.length]!,
      );
      const circuit = circuitOf(`receiver "Any" {\n${some.join('\n')}\n}\n`);
      const missed = misread(circuit, await drawCircuit(circuit, engine));
      wrong.push(...missed.map((net) => `set ${set}: ${circuit.junctions[net]!.name}`));
    }
    expect(wrong).toEqual([]);
  },
);

it('an empty receiver is an empty drawing', async () => {
  const scene = await drawCircuit(circuitOf('receiver "Nothing" {\n}\n'), engine);
  expect(scene.symbols).toEqual([]);
});

it('a set of thirty stages is drawn', async () => {
  const circuit = circuitOf(bigSet(30));
  expect(misread(circuit, await drawCircuit(circuit, engine))).toEqual([]);
});

describe('where the layout engine', () => {
  const circuit = circuitOf(exampleTexts.find(([name]) => name === 'reflex')![1]);

  it('fails, a set is drawn with named symbols', async () => {
    const failing = { layout: () => Promise.reject(new Error('no layout')) };
    const scene = await drawCircuit(circuit, failing);
    expect(misread(circuit, scene)).toEqual([]);
    expect(scene.symbols.length).toBeGreaterThan(20);
  });

  it('leads every wire backwards, a set is drawn with named symbols', async () => {
    const turned = {
      layout: async (graph: Parameters<typeof engine.layout>[0]) => {
        const answer = await engine.layout(graph);
        for (const { sections } of answer.edges ?? []) {
          for (const way of sections ?? []) {
            [way.startPoint, way.endPoint] = [way.endPoint, way.startPoint];
          }
        }
        return answer;
      },
    };
    expect(misread(circuit, await drawCircuit(circuit, turned))).toEqual([]);
  });

  it('is asked again and again, it is asked no more than a few times for one drawing', async () => {
    for (let seed = 1; seed <= 12; seed++) {
      let calls = 0;
      const counting = {
        layout: (graph: Parameters<typeof engine.layout>[0]) => {
          calls += 1;
          return engine.layout(graph);
        },
      };
      await drawCircuit(circuitOf(randomReceiver(seed, { mode: 'wild' })), counting);
      expect(calls).toBeLessThan(60);
    }
  });
});
