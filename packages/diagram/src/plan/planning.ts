import type { Circuit, End, Part } from '@setwright/circuit';
import { type Cell, endOf, type Paper } from '../cell.ts';
import type { CoilContext } from '../cells/coil-context.ts';
import { type Led, ledEnds } from '../contacts.ts';
import { naturally } from '../natural-order.ts';
import { twoEndedSymbol } from '../part-words.ts';
import { isSupply, type NetRole, type Rails } from '../rails.ts';
import { leadsToGrid } from '../reach-order.ts';
import { type Draft, drawnOnce } from './draft.ts';

/** A part between rails, for wherever there is room. */
export interface Column {
  readonly cell: Cell;
  readonly part: Part;
}

/** The cells of a set as drawn for one paper. */
export interface Drawn {
  readonly cells: Cell[];
  readonly columns: Column[];
}

/** What the drawing of windings needs to know, but for the paper. */
export type WithoutPaper = Omit<CoilContext, 'paper'>;

/** A set on its way to being taken apart: what is known of it, and the cells found so far. */
export interface Planning {
  readonly circuit: Circuit;
  readonly rails: Rails;
  readonly coils: WithoutPaper;
  /** All parts in the natural order of their names. */
  readonly parts: readonly Part[];
  readonly posts: readonly Part[];
  /** Rank of a junction along the signal path. */
  readonly rank: (net: number) => number;
  readonly plates: ReadonlySet<number>;
  /** Ends that a jack, selector or switch makes or breaks contact with. */
  readonly contacted: ReadonlySet<string>;
  /** Ends that a jack's spring or a selector's stud leads to, where they are drawn so. */
  readonly led: ReadonlyMap<string, Led>;
  /** The part whose contact an end is, by the end's full name. */
  readonly holders: ReadonlyMap<string, string>;
  /** Posts that stand in the lead of a part's end, by the end's full name. */
  readonly inLeads: Map<string, readonly string[]>;
  /** Parts that have their cell already. */
  readonly used: Set<string>;
  /** Draws each cell for a paper and adds it to the others, in this order. */
  readonly steps: ((paper: Paper, drawn: Drawn) => void)[];
  readonly tray: Cell[];
  readonly railPosts: Part[];
}

export function startPlanning(
  circuit: Circuit,
  rails: Rails,
  order: ReadonlyMap<number, number>,
): Planning {
  const parts = [...circuit.parts].sort((a, b) => naturally(a.name, b.name));
  const rank = (net: number): number => order.get(net) ?? 1e6;
  const having = (name: string): Set<number> =>
    new Set(
      parts
        .filter(({ kind }) => kind === 'tube')
        .flatMap((tube) => endOf(tube, name)?.junction ?? []),
    );
  const [plates, grids] = [having('plate'), having('grid')];
  const switched = new Set(
    parts
      .filter(({ kind, ends }) => kind === 'switch' && ends.some((end) => plates.has(end.junction)))
      .flatMap(({ ends }) => ends.map(({ junction }) => junction)),
  );
  const holders = new Map(
    parts.flatMap(({ name, contacts }) =>
      contacts.flatMap(({ from, to }) => [from, to].map((id) => [id, name] as const)),
    ),
  );
  const led = new Map(
    [...ledEnds(circuit)].filter(([, { end }]) => rails.roleOf(end.junction) === 'signal'),
  );
  const inLeads = new Map<string, readonly string[]>();
  const coils: WithoutPaper = {
    rails,
    rank,
    level: (net) => (plates.has(net) ? -40 : 0),
    onGrid: (net) => grids.has(net),
    onPlate: (net) => plates.has(net),
    fromPlate: (net) => plates.has(net) || switched.has(net),
    nearGrid: leadsToGrid(circuit),
    tubeOn: (net) =>
      parts.find(
        ({ kind, ends }) =>
          kind === 'tube' &&
          ends.some(
            ({ name, junction }) => junction === net && (name === 'grid' || name === 'plate'),
          ),
      )?.name,
    isBefore: (net, coil, limit) => {
      const others = (circuit.junctions[net]?.terminals ?? [])
        .flatMap((id) => circuit.partOfEnd.get(id) ?? [])
        .filter(({ owner }) => owner !== coil);
      const reached = (part: Part): number =>
        Math.min(...part.ends.map(({ junction }) => rank(junction)));
      return others.length > 0 && others.every((part) => reached(part) < limit);
    },
    heldBy: (end) => holders.get(end.id),
    ledBy: (end) => led.get(end.id),
    postsAt: (end) => inLeads.get(end.id) ?? [],
  };
  return {
    circuit,
    rails,
    coils,
    parts,
    posts: parts.filter(({ kind }) => kind === 'post' || kind === 'bus'),
    rank,
    plates,
    contacted: new Set(holders.keys()),
    led,
    holders,
    inLeads,
    used: new Set(rails.stripParts),
    steps: [],
    tray: [],
    railPosts: [],
  };
}

export const isTwoEnded = (part: Part): boolean => part.ends.length === 2 && !isSupply(part);

export const roleOf = ({ rails }: Planning, end: End | undefined): NetRole =>
  end ? rails.roleOf(end.junction) : 'alone';

/** The signal junctions that a part has an end on. */
export const signalsOf = ({ rails }: Planning, part: Part): number[] =>
  part.ends.map((end) => end.junction).filter((net) => rails.roleOf(net) === 'signal');

/**
 * Adds a cell to the signal path, after the first of its junctions and what hangs from it.
 *
 * @param placed called with the cell whenever it has its place on the path
 */
export function addCell(
  { rank, steps }: Planning,
  draft: Draft,
  nets: readonly number[],
  later = 0,
  placed?: (cell: Cell) => void,
): void {
  const draw = drawnOnce(draft);
  const first = Math.min(...nets.map(rank));
  steps.push((paper, { cells }) => {
    const cell = draw(paper);
    place(cell, first, later);
    placed?.(cell);
    cells.push(cell);
  });
}

/** What hangs from a junction comes before what it leads to. */
function place(cell: Cell, first: number, later = 0): void {
  cell.key = first + (later === 0 && hangs(cell) ? 0.1 : later);
}

/** Adds a part without an end on the signal path: as a column, unless its cell has ways out. */
export function addWherever({ rank, steps }: Planning, draft: Draft, part: Part): void {
  const draw = drawnOnce(draft);
  steps.push((paper, { cells, columns }) => {
    const cell = draw(paper);
    if (cell.ports.length === 0) columns.push({ cell, part });
    else {
      place(cell, Math.min(...cell.ports.map(({ net }) => rank(net))));
      cells.push(cell);
    }
  });
}

/** Whether a junction leaves a cell at either side. */
const hangs = ({ ports }: Cell): boolean =>
  ports.some(({ net, side }) => ports.some((other) => other.net === net && other.side !== side));

/** Adds a part between rails. */
export function addColumn({ steps }: Planning, draft: Draft, part: Part): void {
  const draw = drawnOnce(draft);
  steps.push((paper, { columns }) => columns.push({ cell: draw(paper), part }));
}

const soundMakers = new Set(['phones', 'horn', 'speaker']);
export const makesSound = ({ kind }: Part): boolean => soundMakers.has(kind);

/** The posts on a junction that stand in the lead of what they are for; they are taken. */
export function takePosts({ posts, used }: Planning, net: number): string[] {
  const found = posts.filter(
    ({ name, kind, words, ends }) =>
      kind === 'post' &&
      !used.has(name) &&
      (words.has('speaker') || words.has('phones')) &&
      ends[0]?.junction === net,
  );
  for (const { name } of found) used.add(name);
  return found.map(({ name }) => name);
}

/**
 * Parts across a winding that stand beside it; they are taken, and the posts of what makes sound
 * with it.
 */
export function takeAcross(planning: Planning, winding: Part): Part[] {
  const { parts, used, inLeads } = planning;
  const [a, b] = [endOf(winding, 'start')?.junction, endOf(winding, 'finish')?.junction];
  if (a === undefined || b === undefined || a === b) return [];
  const found = parts.filter((part) => {
    if (used.has(part.name) || !isTwoEnded(part) || part.kind === 'winding') return false;
    if (part.kind === 'loop' || twoEndedSymbol(part) === 'boxed') return false;
    const [one, other] = part.ends.map((end) => end.junction);
    return (one === a && other === b) || (one === b && other === a);
  });
  // What tunes it stands nearest.
  found.sort((a, b) => Number(b.kind === 'condenser') - Number(a.kind === 'condenser'));
  for (const part of found) {
    used.add(part.name);
    if (!makesSound(part)) continue;
    for (const end of part.ends)
      if (roleOf(planning, end) === 'signal')
        inLeads.set(end.id, takePosts(planning, end.junction));
  }
  return found;
}
