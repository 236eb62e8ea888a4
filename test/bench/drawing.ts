import { readdirSync, readFileSync } from 'node:fs';
import {
  drawCircuit,
  type LayoutEngine,
  type LayoutNode,
  layoutEngine,
  layoutMemory,
} from '@setwright/diagram';
import { readReceivers } from '@setwright/language';

/**
 * Middle of the times of two pieces of work, in milliseconds: run in turns, so that whatever else
 * the machine does falls on both alike, after two runs that do not count.
 */
async function medians(
  runs: number,
  one: () => Promise<unknown>,
  other: () => Promise<unknown>,
): Promise<readonly [number, number]> {
  const times: [number[], number[]] = [[], []];
  for (let run = -2; run < runs; run += 1) {
    for (const [index, work] of [one, other].entries()) {
      const start = performance.now();
      await work();
      if (run >= 0) times[index]?.push(performance.now() - start);
    }
  }
  const middle = (of: number[]) => of.sort((a, b) => a - b)[Math.floor(of.length / 2)] ?? 0;
  return [middle(times[0]), middle(times[1])];
}

const circuitOf = (text: string) => {
  const circuit = readReceivers(text, 'bench').circuits[0];
  if (!circuit) throw new Error('the example cannot be read');
  return circuit;
};

/** The graphs that a drawing asks the layout engine for, as they are before it changes them. */
function collecting(inner: LayoutEngine): { engine: LayoutEngine; graphs: LayoutNode[] } {
  const graphs: LayoutNode[] = [];
  return {
    graphs,
    engine: {
      layout: (graph) => {
        graphs.push(structuredClone(graph));
        return inner.layout(graph);
      },
    },
  };
}

/** Each value in turn, its last figure another one. */
const valueEdits = (text: string): string[] =>
  [...text.matchAll(/\d(?= (?:ohms|kilohms|meg|mfd|mmfd|H|mH|uH|turns)\b)/g)].map(
    ({ index, 0: last }) =>
      `${text.slice(0, index)}${last === '9' ? 8 : Number(last) + 1}${text.slice(index + 1)}`,
  );

/**
 * What drawing costs beyond the layout engine itself, on the same graphs; and how often the engine
 * is called after an edit of one value, when the layouts of the drawing before are remembered.
 */
export async function drawing(): Promise<void> {
  const engine = layoutEngine();
  console.log('\nDrawing the examples in rows for a page (milliseconds; medians, warm)');
  console.log(
    '                                    drawn   engine alone   ratio   engine calls after',
  );
  console.log(
    '                                                                   edits of one value',
  );
  const all = { drawn: 0, alone: 0 };
  for (const name of readdirSync('examples').filter((file) => file.endsWith('.receiver'))) {
    const text = readFileSync(`examples/${name}`, 'utf8');
    const circuit = circuitOf(text);
    const { engine: collector, graphs } = collecting(engine);
    await drawCircuit(circuit, collector);
    const [drawn, alone] = await medians(
      21,
      () => drawCircuit(circuit, engine),
      async () => {
        for (const graph of graphs) await engine.layout(structuredClone(graph));
      },
    );
    all.drawn += drawn;
    all.alone += alone;
    const memory = layoutMemory();
    await drawCircuit(circuit, engine, { memory });
    const edits = valueEdits(text);
    const { engine: counter, graphs: asked } = collecting(engine);
    for (const edit of edits) await drawCircuit(circuitOf(edit), counter, { memory });
    console.log(
      `  ${name.replace('.receiver', '').padEnd(30)} ${drawn.toFixed(1).padStart(8)} ${alone.toFixed(1).padStart(14)} ${(drawn / alone).toFixed(2).padStart(7)} ${`${asked.length} in ${edits.length} edits`.padStart(20)}`,
    );
  }
  console.log(
    `  ${'all of them'.padEnd(30)} ${all.drawn.toFixed(1).padStart(8)} ${all.alone.toFixed(1).padStart(14)} ${(all.drawn / all.alone).toFixed(2).padStart(7)}`,
  );
}
