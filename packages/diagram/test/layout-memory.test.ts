import { expect, it } from 'vitest';
import { valueEdits } from '../../../test/support/value-edits.ts';
import {
  drawCircuit,
  type LayoutEngine,
  layoutEngine,
  layoutMemory,
  sceneToSvg,
} from '../src/index.ts';
import { circuitOf, exampleTexts } from './examples.ts';

const engine = layoutEngine();
const [, five] = exampleTexts.find(([name]) => name === 'five-tube-trf')!;

/** The same engine, with a count of what it was asked for. */
function counting(): LayoutEngine & { calls: number } {
  const counted = {
    calls: 0,
    layout: (graph: Parameters<LayoutEngine['layout']>[0]) => {
      counted.calls++;
      return engine.layout(graph);
    },
  };
  return counted;
}

it('a value changed needs no new layout, and gives the drawing that a new layout would', async () => {
  const [counted, memory] = [counting(), layoutMemory()];
  await drawCircuit(circuitOf(five), counted, { memory });
  const before = counted.calls;
  const changed = circuitOf(five.replace('1500 ohms from L1', '1200 ohms from L1'));
  const remembered = await drawCircuit(changed, counted, { memory });
  expect(before).toBeGreaterThan(0);
  expect(counted.calls).toBe(before);
  expect(sceneToSvg(remembered)).toBe(sceneToSvg(await drawCircuit(changed, engine)));
  expect(sceneToSvg(remembered)).toContain('1200 ohms');
});

// The bench does so with every example.
it.each(exampleTexts.filter(([name]) => ['five-tube-trf', 'superheterodyne'].includes(name)))(
  'no change of a value in %s asks for a layout, whatever the length of its words',
  async (_name, text) => {
    const [counted, memory] = [counting(), layoutMemory()];
    await drawCircuit(circuitOf(text), counted, { memory });
    const before = counted.calls;
    const edits = valueEdits(text);
    expect(edits.length).toBeGreaterThan(15);
    for (const edit of edits) await drawCircuit(circuitOf(edit), counted, { memory });
    expect(counted.calls).toBe(before);
  },
);

it('a part more is laid out anew', async () => {
  const [counted, memory] = [counting(), layoutMemory()];
  await drawCircuit(circuitOf(five), counted, { memory });
  const before = counted.calls;
  const more = five.replace(
    /^( *)wire LS2/m,
    '$1condenser C99 1 mfd from V5.plate to NEG\n$1wire LS2',
  );
  await drawCircuit(circuitOf(more), counted, { memory });
  expect(counted.calls).toBeGreaterThan(before);
});

it('a memory forgets what was not asked for longest', async () => {
  const memory = layoutMemory();
  const quick: LayoutEngine = { layout: (graph) => Promise.resolve(graph) };
  for (let index = 0; index < 100; index++) memory.layouts.set(`${index}`, { id: 'old' });
  await drawCircuit(circuitOf(five), quick, { memory });
  expect(memory.layouts.size).toBeLessThanOrEqual(64);
  expect(memory.layouts.has('0')).toBe(false);
});

it('a layout that failed is tried again', async () => {
  const memory = layoutMemory();
  const failing: LayoutEngine = { layout: () => Promise.reject(new Error('no layout')) };
  const circuit = circuitOf(five);
  await drawCircuit(circuit, failing, { memory });
  const drawn = await drawCircuit(circuit, engine, { memory });
  expect(sceneToSvg(drawn)).toBe(sceneToSvg(await drawCircuit(circuit, engine)));
});
