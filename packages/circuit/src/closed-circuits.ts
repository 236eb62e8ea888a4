import type { Conduction } from './conduction.ts';
import { emitterOf } from './emitter.ts';

/** What a set's supplies can drive current round through. */
export interface ClosedCircuits {
  /** Names of tubes whose filament lies on a closed path through a supply. */
  readonly filaments: ReadonlySet<string>;
  /** Names of tubes whose plate would, were the tube hot: from a supply, through it, and back. */
  readonly plates: ReadonlySet<string>;
}

/** A filament is not lit through more than this, in ohms: a 60 mA tube on 45 V takes 700. */
const MOST_FILAMENT_OHMS = 1000;

interface Edge {
  readonly a: number;
  readonly b: number;
  /** The tube whose filament this is. */
  readonly filament: string | undefined;
  /** The tube that this leads through from plate to cathode or filament. */
  readonly plate: string | undefined;
  readonly source: boolean;
}

/**
 * Finds the tubes whose filament or plate lies on a closed path through a supply. Two branches
 * lie on a common closed path that passes no junction twice exactly when they belong to one
 * biconnected component, so one depth-first walk answers for all of them (J. Hopcroft and
 * R. Tarjan, "Algorithm 447", Communications of the ACM 16, 1973). Linear in the set.
 */
export function closedCircuits(conduction: Conduction): ClosedCircuits {
  const { circuit } = conduction;
  const filamentEdges: Edge[] = [];
  const plateEdges: Edge[] = [];
  for (const branch of conduction.branches) {
    const { direct } = branch;
    if (direct.kind === 'blocks' || branch.fromJunction === branch.toJunction) continue;
    const kind = circuit.partNamed.get(branch.part)?.kind;
    const edge: Edge = {
      a: branch.fromJunction,
      b: branch.toJunction,
      filament: kind === 'tube' ? branch.part : undefined,
      plate: undefined,
      source: direct.kind === 'source',
    };
    plateEdges.push(edge);
    if (kind === 'leak') continue;
    if (direct.kind === 'conducts' && (direct.ohms ?? 0) > MOST_FILAMENT_OHMS) continue;
    filamentEdges.push(edge);
  }
  for (const part of circuit.parts) {
    if (part.kind !== 'tube' || conduction.settings.removed.has(part.name)) continue;
    const plate = part.ends.find((end) => end.name === 'plate');
    const emitter = emitterOf(part);
    if (!plate || !emitter || plate.junction === emitter.junction) continue;
    plateEdges.push({
      a: plate.junction,
      b: emitter.junction,
      filament: undefined,
      plate: part.name,
      source: false,
    });
  }
  const count = circuit.junctions.length;
  return {
    filaments: tubesBesideSources(filamentEdges, count, 'filament'),
    plates: tubesBesideSources(plateEdges, count, 'plate'),
  };
}

/** Names of the tubes whose edge shares a biconnected component with a source. */
function tubesBesideSources(
  edges: readonly Edge[],
  junctions: number,
  through: 'filament' | 'plate',
): ReadonlySet<string> {
  const found = new Set<string>();
  for (const component of biconnectedComponents(edges, junctions)) {
    if (!component.some((index) => edges[index]?.source)) continue;
    for (const index of component) {
      const tube = edges[index]?.[through];
      if (tube !== undefined) found.add(tube);
    }
  }
  return found;
}

/** Edges (by index) grouped into biconnected components; parallel edges count. */
function biconnectedComponents(edges: readonly Edge[], junctions: number): number[][] {
  const at: number[][] = Array.from({ length: junctions }, () => []);
  for (const [index, edge] of edges.entries()) {
    at[edge.a]?.push(index);
    at[edge.b]?.push(index);
  }
  const order = new Int32Array(junctions).fill(-1);
  const low = new Int32Array(junctions);
  const next = new Int32Array(junctions);
  const entered = new Int32Array(junctions).fill(-1);
  const components: number[][] = [];
  const open: number[] = [];
  let clock = 0;
  for (let start = 0; start < junctions; start++) {
    if (order[start] !== -1) continue;
    order[start] = low[start] = clock++;
    const walk = [start];
    while (walk.length > 0) {
      const here = walk[walk.length - 1] as number;
      const index = at[here]?.[next[here] as number];
      if (index !== undefined) {
        next[here] = (next[here] as number) + 1;
        const edge = edges[index] as Edge;
        if (index === entered[here]) continue;
        const there = edge.a === here ? edge.b : edge.a;
        if (order[there] === -1) {
          open.push(index);
          entered[there] = index;
          order[there] = low[there] = clock++;
          walk.push(there);
        } else if ((order[there] as number) < (order[here] as number)) {
          open.push(index);
          low[here] = Math.min(low[here] as number, order[there] as number);
        }
        continue;
      }
      walk.pop();
      const above = walk[walk.length - 1];
      if (above === undefined) continue;
      low[above] = Math.min(low[above] as number, low[here] as number);
      if ((low[here] as number) < (order[above] as number)) continue;
      const component: number[] = [];
      for (;;) {
        const index = open.pop();
        if (index === undefined) break;
        component.push(index);
        if (index === entered[here]) break;
      }
      components.push(component);
    }
  }
  return components;
}
