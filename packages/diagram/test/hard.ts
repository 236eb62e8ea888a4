import type { Circuit } from '@setwright/circuit';
import { type LayoutEngine, layoutEngine, misread, type Scene } from '../src/index.ts';
import { faultsOf, turnedFaults } from './faults.ts';

/** An engine that takes note of wires which it led the wrong way round. */
export interface Watched {
  readonly engine: LayoutEngine;
  /** What was found since it was asked last. */
  readonly take: () => string[];
}

/** The layout engine, watched: no wire from an east port to a west port may run backwards. */
export function watchedEngine(): Watched {
  const inner = layoutEngine();
  let found: string[] = [];
  const engine: LayoutEngine = {
    layout: async (graph) => {
      const sides = new Map(
        (graph.children ?? []).flatMap(({ ports = [] }) =>
          ports.map(({ id, layoutOptions }) => [id, layoutOptions?.['elk.port.side']] as const),
        ),
      );
      const answer = await inner.layout(graph);
      for (const { id, sources, targets, sections } of answer.edges ?? []) {
        const way = sections?.[0];
        if (!way) found.push(`edge ${id} is not drawn`);
        else if (
          sides.get(sources[0] ?? '') === 'EAST' &&
          sides.get(targets[0] ?? '') === 'WEST' &&
          way.startPoint.x > way.endPoint.x
        ) {
          found.push(`edge ${id} runs backwards`);
        }
      }
      return answer;
    },
  };
  return {
    engine,
    take: () => {
      const taken = found;
      found = [];
      return taken;
    },
  };
}

/** Everything that must not be in a drawing, in words; nothing where it is as it should be. */
export function hardFaults(circuit: Circuit, scene: Scene): string[] {
  return [
    ...misread(circuit, scene).map((net) => `${circuit.junctions[net]!.name} is misread`),
    ...faultsOf(scene),
    ...turnedFaults(circuit, scene),
  ];
}
