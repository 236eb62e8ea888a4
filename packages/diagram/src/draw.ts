import type { Circuit } from '@setwright/circuit';
import { drawBusLine, riserKey } from './bus-lines.ts';
import { type Canvas, drawStack, drawTerminal, newCanvas, stamp, type Terminal } from './canvas.ts';
import { addMark, type Cell, cellBox, labelAt, type Paper, wire } from './cell.ts';
import type { LayoutEngine } from './layout-engine.ts';
import { chooseLines, type Lines } from './lines.ts';
import { netNames } from './net-names.ts';
import { type Plan, planCells } from './plan.ts';
import { findRails, type Rails } from './rails.ts';
import { reachOrder } from './reach-order.ts';
import { misread } from './read-back.ts';
import { type LaidRow, layRow } from './row.ts';
import { breakRows, type RowPlan } from './row-breaks.ts';
import type { Scene } from './scene.ts';
import { drawStrip } from './strip.ts';
import { drawBlock, drawBuses, drawGroundPosts, inLine, terminalsOf } from './terminal-block.ts';
import { toScene } from './to-scene.ts';

/** How a drawing is to be made. */
export interface DrawOptions {
  /** `page` breaks long sets into rows for a page; `one` keeps the signal path in one line. */
  readonly rows?: 'page' | 'one';
}

/**
 * Draws a circuit. The same set gives the same drawing, in whatever order its text stands. A
 * junction that cannot be drawn as a wire is drawn as named symbols instead, so that the drawing
 * always says what the text says.
 */
export async function drawCircuit(
  circuit: Circuit,
  engine: LayoutEngine,
  options: DrawOptions = {},
): Promise<Scene> {
  const named = new Set<number>();
  for (let attempt = 0; ; attempt++) {
    const scene = await drawWith(circuit, engine, named, options);
    const wrong = misread(circuit, scene).filter((net) => !named.has(net));
    if (wrong.length === 0 || attempt >= 3) return scene;
    for (const net of wrong) named.add(net);
  }
}

async function drawWith(
  circuit: Circuit,
  engine: LayoutEngine,
  named: ReadonlySet<number>,
  options: DrawOptions,
): Promise<Scene> {
  const found = findRails(circuit);
  const rails: Rails = {
    ...found,
    roleOf: (net) => {
      const role = found.roleOf(net);
      return role === 'signal' && named.has(net) ? 'low' : role;
    },
  };
  const names = netNames(circuit);
  const order = reachOrder(circuit, rails);
  const blocked = new Set<string>();
  const lines: Lines = { upper: [], lower: [] };
  const paper: Paper = {
    nameOf: (net) => names[net] ?? '',
    ground: rails.ground,
    toBus: (cell, net, up) =>
      (up ? lines.upper : lines.lower).includes(net) && !blocked.has(riserKey(cell, net, up)),
  };
  const plan = () => planCells(circuit, rails, order, paper);
  chooseLines(circuit, rails, names, lines, plan);
  for (let round = 0; ; round++) {
    const made = plan();
    const rows = await layRows(made, lines, engine, options);
    const stopped = rows.flatMap((row) => row.blocked);
    if (stopped.length > 0 && round < 4) {
      for (const { cell, net, up } of stopped) blocked.add(riserKey(cell, net, up));
      continue;
    }
    const canvas = newCanvas();
    for (const row of rows) {
      for (const [index, cell] of row.cells.entries()) {
        stamp(canvas, cell, row.offsets[index] ?? { x: 0, y: 0 });
      }
      for (const { net, points } of row.wires) canvas.wires.push({ net, points: [...points] });
    }
    joinRows(canvas, made, rows, options);
    finish(circuit, rails, paper, canvas, made, lines, rows);
    return toScene(circuit, names, canvas);
  }
}

const rowPlans = (made: Plan, options: DrawOptions): RowPlan[] =>
  options.rows === 'one'
    ? [{ cells: made.cells, enters: undefined, leaves: undefined }]
    : breakRows(made.cells, made.columns);

async function layRows(
  made: Plan,
  lines: Lines,
  engine: LayoutEngine,
  options: DrawOptions,
): Promise<LaidRow[]> {
  const rows: LaidRow[] = [];
  const plans = rowPlans(made, options);
  let top = 0;
  for (const [index, each] of plans.entries()) {
    const columns = index === plans.length - 1 ? made.columns : [];
    const row = await layRow(each, made.follows, columns, lines, top, engine);
    rows.push(row);
    top = row.bottom + 40;
  }
  return rows;
}

/** The signal's way from the right end of a row round to the left end of the next. */
function joinRows(
  canvas: Canvas,
  made: Plan,
  rows: readonly LaidRow[],
  options: DrawOptions,
): void {
  const plans = rowPlans(made, options);
  for (const [index, row] of rows.entries()) {
    const [next, net] = [rows[index + 1], plans[index]?.leaves];
    if (!next || net === undefined || !row.exit || !next.entry) continue;
    const right = row.area.right + 12;
    const between = row.bottom + 15;
    const [from, to] = [row.exit, next.entry];
    wire(canvas, net, from.x - 10, from.y, right, from.y, right, between, -20, between);
    wire(canvas, net, -20, between, -20, to.y, to.x + 10, to.y);
  }
}

/** Lines, filament circuit, terminal block and tray, by rule around what is laid out. */
function finish(
  circuit: Circuit,
  rails: Rails,
  paper: Paper,
  canvas: Canvas,
  made: Plan,
  lines: Lines,
  rows: readonly LaidRow[],
): void {
  const terminals = terminalsOf(circuit, made.railPosts);
  const last = rows.at(-1);
  const bottom = last?.bottom ?? 0;
  const extra = Math.max(0, ...lines.upper.map((net) => (terminals.get(net)?.length ?? 1) - 1));
  const right = Math.max(
    ...rows.map(
      ({ area, exit }, index) =>
        area.right + (exit ? 40 : 20) + (index < rows.length - 1 ? 30 : 20),
    ),
  );
  const least = right + extra * 50;
  // One row leaves room for each filament below its tube.
  const under = new Map(
    rows.length > 1 ? [] : canvas.symbols.map(({ part, at }) => [part, at.x] as const),
  );
  const stripTop = bottom + 30;
  const drawn = drawStrip(
    circuit,
    rails,
    paper,
    canvas,
    0,
    stripTop,
    (width) => Math.max(width, least),
    terminals,
    under,
  );
  const edge = Math.max(drawn.right, least);
  const done = new Set<number>(drawn.stacked);
  for (const row of rows) {
    for (const net of lines.upper)
      drawUpper(paper, canvas, row, net, row === last, edge, terminals, done);
    for (const net of lines.lower)
      drawLower(paper, canvas, row, net, row === last, edge, terminals, done, rails);
  }
  const area = last?.area ?? { left: 0, top: 0, right: 0, bottom: 0 };
  drawGroundPosts(circuit, made.railPosts, rails, paper, canvas, area);
  drawBuses(made.railPosts, canvas, paper);

  const waiting = [...terminals.keys()].filter((net) => !done.has(net));
  const room = waiting.reduce((sum, net) => sum + 18 * (terminals.get(net)?.length ?? 0) + 4, 0);
  let y = Math.max(area.top + 10, area.bottom - 10 - room);
  for (const net of waiting) {
    const stack = terminals.get(net) ?? [];
    if ((circuit.junctions[net]?.terminals.length ?? 0) > 1) {
      y = drawStack(paper, canvas, net, stack, edge, y) + 22;
      continue;
    }
    for (const terminal of stack) {
      drawTerminal(canvas, terminal, { x: edge, y });
      y += 22;
    }
  }
  drawBlock(canvas, edge, terminals);
  drawTray(canvas, made.tray, 0, Math.max(drawn.bottom, y) + 40);
}

/** A B line of a row: out to its terminal in the last row, to its name in the others. */
function drawUpper(
  paper: Paper,
  canvas: Canvas,
  row: LaidRow,
  net: number,
  isLast: boolean,
  edge: number,
  terminals: ReadonlyMap<number, readonly Terminal[]>,
  done: Set<number>,
): void {
  const y = row.lineAt.get(net);
  const own = row.risers.filter((riser) => riser.net === net);
  if (own.length === 0 || y === undefined) return;
  const end = isLast ? edge : row.area.right + 20;
  const left = Math.min(end - 20, ...own.map(({ from }) => from.x));
  drawBusLine(canvas, net, y, own, left, end);
  if (!isLast) {
    addMark(paper, canvas, net, { x: end, y }, 'bar-right');
    return;
  }
  const [first, ...others] = terminals.get(net) ?? [];
  if (first) drawTerminal(canvas, first, { x: edge, y });
  for (const [index, terminal] of others.entries()) {
    inLine(canvas, terminal, { x: edge - 40 * (index + 1), y });
  }
  addMark(paper, canvas, net, { x: edge, y }, 'none');
  done.add(net);
}

/** A low line of a row, with its symbol at the left. */
function drawLower(
  paper: Paper,
  canvas: Canvas,
  row: LaidRow,
  net: number,
  isLast: boolean,
  edge: number,
  terminals: ReadonlyMap<number, readonly Terminal[]>,
  done: Set<number>,
  rails: Rails,
): void {
  const y = row.lineAt.get(net);
  const own = row.risers.filter((riser) => riser.net === net);
  const xs = own.map(({ from }) => from.x);
  if (xs.length === 0 || y === undefined) return;
  const left = Math.min(...xs) - 30;
  const posts = terminals.get(net) ?? [];
  const toBlock = isLast && posts.length > 0 && !done.has(net);
  drawBusLine(canvas, net, y, own, left, toBlock ? edge : Math.max(...xs));
  if (toBlock) {
    drawStack(paper, canvas, net, posts, edge, y, true);
    done.add(net);
  }
  addMark(paper, canvas, net, { x: left, y }, net === rails.ground ? 'bar-down' : 'bar-left');
}

function drawTray(canvas: Canvas, tray: readonly Cell[], left: number, top: number): void {
  if (tray.length === 0) return;
  canvas.labels.push(labelAt('Not joined to anything:', 'note', left, top, 'start'));
  let x = left;
  for (const cell of tray) {
    const box = cellBox(cell);
    stamp(canvas, cell, { x: x - box.left, y: top + 24 - box.top });
    x += box.right - box.left + 20;
  }
}
