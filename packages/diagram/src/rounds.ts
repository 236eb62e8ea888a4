import type { Circuit, Part } from '@setwright/circuit';
import { type Riser, riserKey } from './bus-lines.ts';
import { type Canvas, newCanvas, stamp } from './canvas.ts';
import type { Cell, Paper } from './cell.ts';
import { type Home, houseColumns } from './columns.ts';
import { ledEnds } from './contacts.ts';
import type { Recalling } from './layout-memory.ts';
import { type Plan, planner } from './plan/plan.ts';
import { chooseRowLines } from './rail-lines.ts';
import type { Rails } from './rails.ts';
import { reachOrder } from './reach-order.ts';
import { type LaidPath, type LaidRow, layPath, layRow, type RowParts } from './row.ts';
import { breakRows, type RowSpan } from './row-breaks.ts';
import { stripCells } from './strip/cells.ts';
import { findLadder, type Ladder } from './strip/ladder.ts';
import { foldStrip, stripHeight, stripWidth } from './strip/strip.ts';
import { drawSurroundings, joinRows } from './surroundings.ts';
import { blockWidth, terminalsOf } from './terminal-block.ts';
import { sizeOnPaper } from './to-scene.ts';
import { withUsualValues } from './usual-values.ts';

const asItIs = (part: Part): Part => part;

/** What is known of a set before anything is laid out. */
export interface Frame {
  readonly circuit: Circuit;
  /** The set taken apart for a paper. */
  readonly plan: (paper: Paper) => Plan;
  readonly rails: Rails;
  readonly names: readonly string[];
  readonly ladder: Ladder;
  /** A part as its words are drawn. */
  readonly shown: Paper['shown'];
  /** Cells of the filament circuit, drawn when they are first asked for. */
  readonly filaments: () => readonly Cell[];
  /** The same with the usual words for every value. */
  readonly likelyFilaments: readonly Cell[];
  /**
   * The plan with the usual words for every value and every rail led out of its cell, and the paper
   * that it was made for: what rows and places are chosen by.
   */
  readonly whole: Plan;
  readonly open: Paper;
  /**
   * What the filament circuit takes up below rows of a width, as far as one may tell before the rest
   * is drawn.
   */
  readonly strip: (widest: number) => { readonly width: number; readonly height: number };
}

/** A frame with its rows. */
interface Ruled extends Frame {
  readonly spans: readonly RowSpan[];
  readonly rowOf: ReadonlyMap<string, number>;
}

/** What was drawn, and how wide each row came out. */
export interface Drawn {
  readonly canvas: Canvas;
  readonly width: number;
  readonly height: number;
  readonly widths: readonly number[];
  /** Where parts between rails stand. */
  readonly homes: ReadonlyMap<string, Home>;
}

/** What the rounds find out. */
interface Found {
  /** Rails that cannot reach their line from a cell. */
  readonly blocked: Set<string>;
  homes: ReadonlyMap<string, Home> | undefined;
  /** The rows of the round before. */
  paths: readonly LaidPath[];
}

/**
 * Draws a set in the given rows. Laying out is done again where a rail turns out not to reach its
 * line, with a symbol in its place, and once more when parts between rails have found their homes.
 *
 * @param homes where they stand, if it is known from a drawing in the same rows with other words
 */
export async function drawInRows(
  frame: Frame,
  spans: readonly RowSpan[],
  engine: Recalling,
  homes?: ReadonlyMap<string, Home>,
): Promise<Drawn> {
  const { circuit, filaments, whole } = frame;
  const rowOf = new Map(
    spans.flatMap(({ from, to }, row) =>
      whole.cells.slice(from, to).map(({ id }) => [id, row] as const),
    ),
  );
  const ruled: Ruled = { ...frame, spans, rowOf };
  const found: Found = { blocked: new Set(), homes, paths: [] };
  if (whole.columns.length === 0) found.homes = new Map();
  for (let round = 0; ; round++) {
    // Where parts between rails stand does not depend on how long the words at the others are.
    const shown = found.homes ? frame.shown : frame.open.shown;
    const { made, paper, paths, around } = await layRound(ruled, found, shown, engine);
    found.paths = paths;
    if (!found.homes) {
      found.homes = homesOf(ruled, paths);
      continue;
    }
    const rows: LaidRow[] = [];
    for (const [index, path] of paths.entries()) {
      const top = (rows.at(-1)?.bottom ?? -20) + 20;
      rows.push(layRow(path, around(index), frame.rails.ground, top));
    }
    const stopped = rows.flatMap(heldBack);
    if (stopped.length > 0 && round < 6) {
      for (const { cell, net, up } of stopped) found.blocked.add(riserKey(cell, net, up));
      continue;
    }
    const canvas = newCanvas();
    for (const row of rows) {
      for (const [index, cell] of row.cells.entries()) {
        stamp(canvas, cell, row.offsets[index] ?? { x: 0, y: 0 });
      }
      for (const { net, points } of row.wires) canvas.wires.push({ net, points: [...points] });
    }
    joinRows(canvas, spans, rows);
    const inStrip = made.columns.filter(({ cell }) => found.homes?.get(cell.id) === 'strip');
    const strip = [...filaments(), ...inStrip.map(({ cell }) => cell)];
    drawSurroundings({ ...frame, paper, canvas, made, rows, strip });
    return {
      canvas,
      ...sizeOnPaper(circuit, canvas),
      widths: rows.map(({ right, wayDown }) => Math.max(right, wayDown)),
      homes: found.homes,
    };
  }
}

/** What is known of a circuit by itself: its rails, and what its junctions are called. */
export interface Known {
  readonly rails: Rails;
  readonly names: readonly string[];
}

/** @param named junctions that are drawn as named symbols, since their wires would not do */
export function frameOf(
  circuit: Circuit,
  { rails: known, names }: Known,
  named: ReadonlySet<number>,
): Frame {
  const led = ledEnds(circuit);
  const ledNets = new Set([...led.values()].map(({ end }) => end.junction));
  const rails: Rails = {
    ...known,
    roleOf: (net) => {
      const role = known.roleOf(net);
      if (role === 'alone' && ledNets.has(net) && !named.has(net)) return 'signal';
      return role === 'signal' && named.has(net) ? 'low' : role;
    },
  };
  const order = reachOrder(circuit, rails);
  const ladder = findLadder(circuit, rails);
  const usual = new Map(circuit.parts.map((part) => [part, withUsualValues(part)]));
  const open: Paper = {
    nameOf: (net) => names[net] ?? '',
    ground: rails.ground,
    toBus: () => true,
    shown: (part) => usual.get(part) ?? part,
  };
  const plan = planner(circuit, rails, order);
  const whole = plan(open);
  const likely = stripCells(circuit, open, ladder);
  let filaments: readonly Cell[] | undefined;
  // Asked for every way to break the rows, but there are only two ways to lay the strip.
  const sizes = new Map<number, { width: number; height: number }>();
  const unfolded = stripWidth(ladder, likely);
  const strip = (widest: number): { width: number; height: number } => {
    const pieces = foldStrip(ladder, likely, widest, unfolded);
    const size = sizes.get(pieces.length) ?? {
      width: Math.max(...pieces.map((cells) => stripWidth(ladder, cells))),
      height: pieces.reduce((sum, cells) => sum + stripHeight(cells), 0),
    };
    sizes.set(pieces.length, size);
    return size;
  };
  return {
    circuit,
    plan,
    rails,
    names,
    ladder,
    shown: asItIs,
    likelyFilaments: likely,
    filaments: () => {
      filaments ??= stripCells(circuit, { ...open, shown: asItIs }, ladder);
      return filaments;
    },
    whole,
    open,
    strip,
  };
}

/** The same set drawn with the usual words for every value. */
export const withUsualWords = (frame: Frame): Frame => ({
  ...frame,
  shown: frame.open.shown,
  filaments: () => frame.likelyFilaments,
});

/** The ways to split a set into rows for a page, the most promising first. */
export function rowsForPage({ circuit, rails, strip, whole }: Frame, rows?: number): RowSpan[][] {
  const around = {
    columns: whole.columns.map(({ cell }) => cell),
    strip,
    supplies: circuit.junctions.filter(({ index }) => rails.roleOf(index) === 'high').length,
    block: blockWidth(terminalsOf(circuit, whole.railPosts)),
  };
  return breakRows(whole.cells, around, rows);
}

/** What a round makes. */
interface Round {
  readonly made: Plan;
  readonly paper: Paper;
  readonly paths: readonly LaidPath[];
  /** What stands around the path of a row. */
  readonly around: (row: number) => RowParts;
}

async function layRound(
  { plan, rails, names, ladder, whole, spans, rowOf }: Ruled,
  { blocked, homes, paths: before }: Found,
  shown: Paper['shown'],
  engine: Recalling,
): Promise<Round> {
  const last = spans.length - 1;
  const columnsIn = (of: Plan, row: number): Cell[] =>
    of.columns.map(({ cell }) => cell).filter(({ id }) => homes?.get(id) === row);
  const lines = spans.map(({ from, to }, row) =>
    chooseRowLines(whole.cells.slice(from, to), columnsIn(whole, row), rails, row === last),
  );
  const paper: Paper = {
    nameOf: (net) => names[net] ?? '',
    ground: rails.ground,
    shown,
    toBus: (cell, net, up) => {
      const home = homes?.get(cell) ?? rowOf.get(cell);
      if (home === undefined || blocked.has(riserKey(cell, net, up))) return false;
      if (home === 'strip') return net === (up ? ladder.upper : ladder.lower);
      // Below a column beside a row that goes on, a line would cross the way on.
      if (!up && home !== last && homes?.has(cell)) return false;
      return (lines[home]?.[up ? 'upper' : 'lower'] ?? []).includes(net);
    },
  };
  const made = plan(paper);
  const paths: LaidPath[] = [];
  for (const [row, span] of spans.entries()) {
    const cells = made.cells.slice(span.from, span.to);
    const path = before[row];
    const isSame = path?.planned.every((cell, index) => cell === cells[index]);
    paths.push(path && isSame ? path : await layPath({ ...span, cells }, made.follows, engine));
  }
  const around = (row: number): RowParts => ({
    columns: columnsIn(made, row),
    lines: lines[row] ?? { upper: [], lower: [] },
    isLast: row === last,
  });
  return { made, paper, paths, around };
}

function homesOf(
  { circuit, rails, strip, whole, rowOf }: Ruled,
  paths: readonly LaidPath[],
): Map<string, Home> {
  const block = blockWidth(terminalsOf(circuit, whole.railPosts));
  const widths = paths.map(({ raw, last }) => raw.right - raw.left + (last ? 20 : block));
  const stageRow = new Map<string, number>();
  for (const { name, parts } of circuit.stages) {
    const row = parts.map((part) => rowOf.get(part)).find((at) => at !== undefined);
    if (row !== undefined) stageRow.set(name, row);
  }
  const widest = paths.length > 1 ? Math.max(...widths) : Number.POSITIVE_INFINITY;
  const below = strip(widest).width + block;
  return houseColumns(circuit, rails, whole.columns, widths, below, stageRow);
}

/** A drop longer than this passes other parts on its way; a symbol where it begins reads better. */
const longest = 170;

/** Rails that get a symbol of their own after all, so that the others may have a line. */
function heldBack({ blocked, risers, exit }: LaidRow): Riser[] {
  const stopped = new Set(blocked);
  for (const riser of risers) {
    if (!riser.up && riser.to.y - riser.from.y > longest) stopped.add(riser);
  }
  // A line that hardly anything reaches is none: then all have symbols.
  for (const up of [true, false]) {
    const side = risers.filter((riser) => riser.up === up);
    for (const net of new Set(side.map((riser) => riser.net))) {
      const own = side.filter((riser) => riser.net === net);
      const held = own.filter((riser) => stopped.has(riser)).length;
      // The last row's supplies go on to their terminals.
      const enough = up ? (exit ? 2 : 1) : Math.max(2, held + 1);
      if (held === 0 || own.length - held >= enough) continue;
      for (const riser of own) stopped.add(riser);
    }
  }
  return [...stopped];
}
