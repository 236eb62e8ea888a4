import type { LayoutEngine, LayoutNode } from './layout-engine.ts';

/**
 * Layouts that were made before, by what tells the graphs apart that they were made for, the latest
 * used last. The caller keeps it from one drawing to the next: a set of which only values change asks
 * for the same graphs again, and the layout engine is not called at all.
 */
export interface LayoutMemory {
  readonly layouts: Map<string, LayoutNode>;
}

/** How many layouts a memory holds; the one that was not asked for longest goes first. */
const mostLayouts = 64;

/** A memory that holds nothing yet. */
export function layoutMemory(): LayoutMemory {
  return { layouts: new Map() };
}

/** What gives layouts: the graph is made only where none is remembered under its key. */
export interface Recalling {
  layout(key: string, graph: () => LayoutNode): Promise<LayoutNode>;
}

/** The engine, asked only for what the memory does not hold. A failure is not remembered. */
export function remembering(engine: LayoutEngine, { layouts }: LayoutMemory): Recalling {
  return {
    layout: async (key, graph) => {
      const answer = layouts.get(key) ?? (await engine.layout(graph()));
      layouts.delete(key);
      layouts.set(key, answer);
      for (const oldest of layouts.keys()) {
        if (layouts.size <= mostLayouts) break;
        layouts.delete(oldest);
      }
      return answer;
    },
  };
}
