import ELK, { type ElkNode } from 'elkjs/lib/elk.bundled.js';

/** A node, port or edge of a graph as the layout engine takes and gives it. */
export interface LayoutNode {
  id: string;
  x?: number;
  y?: number;
  width?: number;
  height?: number;
  layoutOptions?: Record<string, string>;
  ports?: LayoutNode[];
  children?: LayoutNode[];
  edges?: LayoutEdge[];
}

export interface LayoutEdge {
  id: string;
  sources: string[];
  targets: string[];
  layoutOptions?: Record<string, string>;
  sections?: {
    startPoint: { x: number; y: number };
    endPoint: { x: number; y: number };
    bendPoints?: { x: number; y: number }[];
  }[];
}

/** What places cells and routes wires between them. It may change the graph it is given. */
export interface LayoutEngine {
  layout(graph: LayoutNode): Promise<LayoutNode>;
}

/** The layout engine that comes with the package; it runs where it is called. */
export function layoutEngine(): LayoutEngine {
  const elk = new ELK();
  return { layout: (graph) => elk.layout(graph as ElkNode) as Promise<LayoutNode> };
}
