import { type Cell, cellBox } from './cell.ts';
import { type ChainLink, chainNets } from './chains.ts';
import { cornersOf, type Run } from './compact/run.ts';
import { drawTogether } from './compact/together.ts';
import type { LayoutNode } from './layout-engine.ts';
import type { Recalling } from './layout-memory.ts';
import type { Box, Point } from './scene.ts';

export const layoutOptions: Readonly<Record<string, string>> = {
  'elk.algorithm': 'layered',
  'elk.direction': 'RIGHT',
  'elk.edgeRouting': 'ORTHOGONAL',
  'elk.layered.nodePlacement.strategy': 'NETWORK_SIMPLEX',
  'elk.layered.nodePlacement.favorStraightEdges': 'true',
  'elk.layered.considerModelOrder.strategy': 'NODES_AND_EDGES',
  'elk.separateConnectedComponents': 'false',
  'elk.spacing.nodeNode': '10',
  'elk.spacing.edgeNode': '20',
  'elk.spacing.edgeEdge': '10',
  'elk.layered.spacing.nodeNodeBetweenLayers': '10',
  'elk.layered.spacing.edgeNodeBetweenLayers': '10',
  'elk.layered.spacing.edgeEdgeBetweenLayers': '10',
  'elk.padding': '[top=0,left=0,bottom=0,right=0]',
  'elk.randomSeed': '1',
};

/** To either side of a cell's middle nothing in it is farther away than this, but for the broadest. */
const BREADTH = 400;

/** Where the cells came to lie, and the wires between them. */
export interface LaidOut {
  /** What to add to a cell's own coordinates. */
  readonly offsets: readonly Point[];
  readonly runs: readonly Run[];
}

/** Places cells along the signal path and routes the junctions between them. */
export async function layOut(
  cells: readonly Cell[],
  follows: readonly (readonly [Cell, Cell])[],
  engine: Recalling,
  edges: { readonly first: Cell | undefined; readonly last: Cell | undefined },
): Promise<LaidOut> {
  const links = chainNets(cells);
  const boxes = cells.map(roomOf);
  // Not a wire: it only keeps a jack before what is plugged or led through it.
  const orders = follows.flatMap(([before, after]): [number, number][] => {
    const [from, to] = [cells.indexOf(before), cells.indexOf(after)];
    return from < 0 || to < 0 ? [] : [[Math.min(from, to), Math.max(from, to)]];
  });
  const skeleton: Skeleton = { cells, boxes, links, orders, ...edges };
  const answer = await layoutOrLine(skeleton, engine);
  const byId = new Map((answer.children ?? []).map((child) => [child.id, child]));
  const offsets = cells.map((_, index) => {
    const child = byId.get(`n${index}`);
    const box = boxes[index];
    return {
      x: round((child?.x ?? 0) - (box?.left ?? 0)),
      y: round((child?.y ?? 0) - (box?.top ?? 0)),
    };
  });
  const edgeById = new Map((answer.edges ?? []).map((edge) => [edge.id, edge]));
  const runs = links.flatMap((link, index): Run[] => {
    const section = edgeById.get(`e${index}`)?.sections?.[0];
    // A wire that is led backwards is left out: its junction is then drawn as named symbols.
    if (!section || (isForward(cells, link) && section.startPoint.x > section.endPoint.x)) {
      return [];
    }
    // From the one cell's own wiring to its border, and at the other end likewise.
    const inner = ({ cell, port }: ChainLink['from']): Point => {
      const from = cells[cell]?.ports[port]?.from ?? { x: 0, y: 0 };
      const by = offsets[cell] ?? { x: 0, y: 0 };
      return { x: from.x + by.x, y: from.y + by.y };
    };
    const between = [section.startPoint, ...(section.bendPoints ?? []), section.endPoint];
    const points = [
      inner(link.from),
      ...between.map(({ x, y }) => ({ x: round(x), y: round(y) })),
      inner(link.to),
    ];
    const room = ({ cell, port }: ChainLink['from']): number => cells[cell]?.ports[port]?.room ?? 0;
    return [
      {
        net: link.net,
        from: link.from.cell,
        to: link.to.cell,
        points: cornersOf(points),
        rooms: [room(link.from), room(link.to)],
      },
    ];
  });
  return drawTogether(cells, offsets, runs, sequenceOf(cells));
}

/**
 * What a cell takes up as the engine sees it. All are equally broad, however long the words in them
 * are, since everything is drawn together afterwards: so another value asks for the same layout.
 */
function roomOf(cell: Cell): Box {
  const { left, right, top, bottom } = cellBox(cell);
  const broad = (by: number): number => Math.max(1, Math.ceil(by / BREADTH)) * BREADTH;
  return { left: -broad(-left), right: broad(right), top, bottom };
}

/** Every coil after the tube that comes before it on the signal's way. */
function sequenceOf(cells: readonly Cell[]): [number, number][] {
  const pairs: [number, number][] = [];
  let tube: number | undefined;
  for (const [index, { kind }] of cells.entries()) {
    if (kind === 'tube') tube = index;
    if (kind === 'coil' && tube !== undefined) pairs.push([tube, index]);
  }
  return pairs;
}

/** What a layout is asked for. */
interface Skeleton {
  readonly cells: readonly Cell[];
  readonly boxes: readonly Box[];
  readonly links: readonly ChainLink[];
  /** Pairs of cells of which the second must not stand before the first. */
  readonly orders: readonly (readonly [number, number])[];
  /** What stands at the very left and right. */
  readonly first: Cell | undefined;
  readonly last: Cell | undefined;
}

/**
 * What the engine answers; where it fails, the cells in a line without wires, whose junctions are
 * then drawn as named symbols.
 */
async function layoutOrLine(skeleton: Skeleton, engine: Recalling): Promise<LayoutNode> {
  try {
    return await engine.layout(keyOf(skeleton), () => graphOf(skeleton));
  } catch {
    const graph = graphOf(skeleton);
    let x = 0;
    const children = (graph.children ?? []).map((node) => {
      const at = x;
      x += (node.width ?? 0) + 30;
      return { ...node, x: at, y: 0 };
    });
    return { ...graph, children, edges: [] };
  }
}

/** All that the graph of a skeleton is made of: two of one key are laid out alike. */
function keyOf({ cells, boxes, links, orders, first, last }: Skeleton): string {
  let key = '';
  for (const [index, cell] of cells.entries()) {
    const box = boxes[index];
    if (!box) continue;
    key += `${box.right - box.left} ${box.bottom - box.top}`;
    if (cell === first) key += ' first';
    if (cell === last) key += ' last';
    for (const { side, from } of cell.ports) key += ` ${side} ${from.y - box.top}`;
    key += ';';
  }
  for (const link of links) {
    const { from, to } = link;
    key += `${from.cell}.${from.port} ${to.cell}.${to.port} ${straightness(cells, link)};`;
  }
  for (const [from, to] of orders) {
    key += `${from} ${-(boxes[from]?.top ?? 0)} before ${to} ${-(boxes[to]?.top ?? 0)};`;
  }
  return key;
}

/** Whether a link goes on to the east: out of a cell's east side into another's west side. */
const isForward = (cells: readonly Cell[], { from, to }: ChainLink): boolean =>
  cells[from.cell]?.ports[from.port]?.side === 'east' &&
  cells[to.cell]?.ports[to.port]?.side === 'west';

const round = (value: number): number => Math.round(value * 10) / 10;

/** How much it matters that a wire runs straight. */
function straightness(cells: readonly Cell[], { from, to }: ChainLink): 1 | 10 | 30 {
  const [source, target] = [cells[from.cell], cells[to.cell]];
  const forward =
    source?.ports[from.port]?.side === 'east' &&
    target?.ports[to.port]?.side === 'west' &&
    !source.ports[from.port]?.isCold &&
    // A tickler's wire gives way to the grid's.
    !(source.kind === 'winding' && target.kind === 'tube');
  // The way to a grid before all others.
  return !forward ? 1 : target?.kind === 'tube' ? 30 : 10;
}

function graphOf({ cells, boxes, links, orders, first, last }: Skeleton): LayoutNode {
  const children = cells.map((cell, index): LayoutNode => {
    const box = boxes[index] ?? { left: 0, top: 0, right: 10, bottom: 10 };
    const width = box.right - box.left;
    const edge = cell === last ? 'LAST' : cell === first ? 'FIRST' : undefined;
    return {
      id: `n${index}`,
      width,
      height: box.bottom - box.top,
      layoutOptions: {
        'elk.portConstraints': 'FIXED_POS',
        ...(edge ? { 'elk.layered.layering.layerConstraint': edge } : {}),
      },
      ports: cell.ports.map(({ side, from }, port) => ({
        id: `n${index}.${port}`,
        width: 0,
        height: 0,
        x: side === 'west' ? 0 : width,
        y: from.y - box.top,
        layoutOptions: { 'elk.port.side': side === 'west' ? 'WEST' : 'EAST' },
      })),
    };
  });
  const edges = links.map((link, index) => ({
    id: `e${index}`,
    sources: [`n${link.from.cell}.${link.from.port}`],
    targets: [`n${link.to.cell}.${link.to.port}`],
    layoutOptions: {
      'elk.edge.thickness': '0',
      'elk.layered.priority.straightness': `${straightness(cells, link)}`,
    },
  }));
  const graph = { id: 'set', layoutOptions: { ...layoutOptions }, children, edges };
  for (const [index, [from, to]] of orders.entries()) addOrder(graph, index, from, to, boxes);
  return graph;
}

/** An edge that is not drawn, between ports of its own at the upper corners of two nodes. */
function addOrder(
  graph: LayoutNode,
  index: number,
  from: number,
  to: number,
  boxes: readonly Box[],
): void {
  const [source, target] = [graph.children?.[from], graph.children?.[to]];
  if (!source?.ports || !target?.ports || !graph.edges) return;
  const level = (at: number): number => 0 - (boxes[at]?.top ?? 0) + 5;
  source.ports.push({
    id: `o${index}.from`,
    width: 0,
    height: 0,
    x: source.width ?? 0,
    y: level(from),
    layoutOptions: { 'elk.port.side': 'EAST' },
  });
  target.ports.push({
    id: `o${index}.to`,
    width: 0,
    height: 0,
    x: 0,
    y: level(to),
    layoutOptions: { 'elk.port.side': 'WEST' },
  });
  graph.edges.push({
    id: `o${index}`,
    sources: [`o${index}.from`],
    targets: [`o${index}.to`],
    layoutOptions: { 'elk.edge.thickness': '0', 'elk.layered.priority.straightness': '1' },
  });
}
