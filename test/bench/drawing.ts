import { readdirSync, readFileSync } from 'node:fs';
import {
  drawCircuit,
  type LayoutEngine,
  type LayoutNode,
  layoutEngine,
  layoutMemory,
} from '@setwright/diagram';
import { readReceivers } from '@setwright/language';
import { valueEdits } from '../support/value-edits.ts';
import { figure, processorClock, type Ratio, under, wallClock } from './measuring.ts';

/** Turns in which the drawing and the engine alone are timed. */
const TURNS = 41;
/**
 * How often every example is drawn and laid out before anything is timed: the engine runs so often
 * that it is compiled long before all of the drawing is.
 */
const WARMING = 40;

/** Milliseconds by the clock on the wall, and of the processor with all its threads. */
interface Times {
  readonly elapsed: number;
  readonly processor: number;
}

/**
 * Lower quartiles of the times of pieces of work: all are run in turns, so that whatever else the
 * machine does falls on all alike.
 */
async function quartiles(work: readonly (() => Promise<unknown>)[]): Promise<readonly Times[]> {
  const times = work.map(() => ({ elapsed: [] as number[], processor: [] as number[] }));
  for (let turn = 0; turn < TURNS; turn += 1) {
    for (const [index, piece] of work.entries()) {
      const [started, used] = [wallClock(), processorClock()];
      await piece();
      times[index]?.processor.push(processorClock() - used);
      times[index]?.elapsed.push(wallClock() - started);
    }
  }
  const lower = (of: number[]): number => of.sort((a, b) => a - b)[Math.floor(of.length / 4)] ?? 0;
  return times.map(({ elapsed, processor }) => ({
    elapsed: lower(elapsed),
    processor: lower(processor),
  }));
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

/**
 * What drawing costs beyond the layout engine itself, on the same graphs; and how often the engine
 * is called after an edit of one value, when the layouts of the drawing before are remembered.
 */
export async function drawing(): Promise<readonly Ratio[]> {
  const engine = layoutEngine();
  const circuits = readdirSync('examples')
    .filter((file) => file.endsWith('.receiver'))
    .map((name) => {
      const text = readFileSync(`examples/${name}`, 'utf8');
      return [name, circuitOf(text), text] as const;
    });
  console.log(
    '\nDrawing the examples in rows for a page (milliseconds; lower quartiles, warm), and',
  );
  console.log('calls of the engine after edits of one value');
  console.log('                                      elapsed         of the processor');
  console.log(
    '                                 drawn, engine ratio   drawn, engine ratio    calls',
  );
  const all = { drawn: 0, alone: 0, used: 0, usedAlone: 0, calls: 0, edits: 0 };
  const work: (() => Promise<unknown>)[] = [];
  for (const [, circuit] of circuits) {
    const { engine: collector, graphs } = collecting(engine);
    await drawCircuit(circuit, collector);
    work.push(
      () => drawCircuit(circuit, engine),
      async () => {
        for (const graph of graphs) await engine.layout(structuredClone(graph));
      },
    );
  }
  for (let turn = 0; turn < WARMING; turn += 1) for (const piece of work) await piece();
  const times = await quartiles(work);
  for (const [index, [name, circuit, text]] of circuits.entries()) {
    const none = { elapsed: 0, processor: 0 };
    const [drawn, alone] = [times[2 * index] ?? none, times[2 * index + 1] ?? none];
    const memory = layoutMemory();
    await drawCircuit(circuit, engine, { memory });
    const edits = valueEdits(text);
    const { engine: counter, graphs: asked } = collecting(engine);
    for (const edit of edits) await drawCircuit(circuitOf(edit), counter, { memory });
    all.drawn += drawn.elapsed;
    all.alone += alone.elapsed;
    all.used += drawn.processor;
    all.usedAlone += alone.processor;
    all.calls += asked.length;
    all.edits += edits.length;
    const both = (of: keyof Times): string =>
      `${figure(drawn[of])} ${figure(alone[of])} ${figure(drawn[of] / alone[of], 2)}`;
    console.log(
      `  ${name.replace('.receiver', '').padEnd(28)} ${both('elapsed')}   ${both('processor')} ${`${asked.length} of ${edits.length}`.padStart(9)}`,
    );
  }
  console.log(
    `Of the processor, all its threads counted: ${figure(all.used / all.usedAlone, 2).trim()} times the engine alone`,
  );
  return [
    under('drawing the examples, in times of the layout engine alone', all.drawn / all.alone, 1.5),
    {
      what: `calls of the layout engine after ${all.edits} edits of one value`,
      ratio: all.calls,
      wanted: 'none',
      isMet: all.edits > 0 && all.calls === 0,
    },
  ];
}
