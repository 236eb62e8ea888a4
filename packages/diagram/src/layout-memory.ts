import type { LayoutEngine, LayoutNode } from './layout-engine.ts';

/**
 * Layouts that were made before, by the JSON of the graph they were made for, the latest used
 * last. The caller keeps it from one drawing to the next: a set of which only values change asks
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

/** The same engine, asked only for what the memory does not hold. A failure is not remembered. */
export function remembering(engine: LayoutEngine, { layouts }: LayoutMemory): LayoutEngine {
  return {
    layout: async (graph) => {
      // The engine may change the graph that it is given, so the key is taken before.
      const key = JSON.stringify(graph);
      const answer = layouts.get(key) ?? (await engine.layout(graph));
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
