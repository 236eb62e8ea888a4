import type { Circuit } from '@setwright/circuit';
import { drawBusLine, type Riser } from './bus-lines.ts';
import { type Canvas, drawStack, drawTerminal, stackStep, stamp, type Terminal } from './canvas.ts';
import { addMark, type Cell, cellBox, labelAt, type Paper, wire } from './cell.ts';
import { isFree } from './free-paper.ts';
import { drawGangs } from './gangs.ts';
import type { Plan } from './plan/plan.ts';
import { drawRailNames, groundBelow, groundRoom, namedGroundRoom } from './rail-names.ts';
import { type Rails, railName } from './rails.ts';
import type { LaidRow } from './row.ts';
import type { RowSpan } from './row-breaks.ts';
import type { Label } from './scene.ts';
import type { Ladder } from './strip/ladder.ts';
import {
  drawNamedLines,
  drawStripLines,
  foldStrip,
  placeStrip,
  upperWidth,
} from './strip/strip.ts';
import { blockWidth, drawBlock, inLine, terminalsOf } from './terminal-block.ts';
import { textWidth } from './text-width.ts';

/** The rows in their places, and what is to be drawn around them. */
interface Sheet {
  readonly circuit: Circuit;
  readonly rails: Rails;
  readonly paper: Paper;
  readonly canvas: Canvas;
  readonly made: Plan;
  readonly rows: readonly LaidRow[];
  readonly ladder: Ladder;
  /** Cells of the filament circuit, and what stands among them. */
  readonly strip: readonly Cell[];
}

/** The signal's way from the right end of a row round to the left end of the next. */
export function joinRows(
  canvas: Canvas,
  spans: readonly RowSpan[],
  rows: readonly LaidRow[],
): void {
  for (const [index, row] of rows.entries()) {
    const [next, net] = [rows[index + 1], spans[index]?.leaves];
    if (!next || net === undefined || !row.exit || !next.entry) continue;
    const right = row.wayDown;
    const between = row.bottom + 10;
    const [from, to] = [row.exit, next.entry];
    wire(canvas, net, from.x, from.y, right, from.y, right, between, -10, between);
    wire(canvas, net, -10, between, -10, to.y, to.x, to.y);
  }
}

/** Lines, filament circuit, terminal block and tray, by rule around what is laid out. */
export function drawSurroundings(sheet: Sheet): void {
  const { circuit, rails, paper, canvas, made, rows, ladder, strip } = sheet;
  const terminals = terminalsOf(circuit, made.railPosts);
  const last = rows.at(-1);
  if (!last) return;
  const names = blockWidth(terminals);
  // Posts that stand in a line besides its terminal.
  const inLines = [...last.lineAt.keys()]
    .filter((net) => rails.roleOf(net) === 'high')
    .reduce((sum, net) => sum + Math.max(0, (terminals.get(net)?.length ?? 1) - 1), 0);
  const rowsWidth = Math.max(
    last.right + 30 + inLines * 50,
    ...rows.slice(0, -1).map(({ right }) => right + 40 - names),
  );
  const pieces = rows.length > 1 ? foldStrip(ladder, strip, rowsWidth) : [strip];
  const least = Math.max(rowsWidth, ...pieces.slice(0, -1).map(upperWidth));
  let top = last.bottom + 20;
  for (const piece of pieces.slice(0, -1)) {
    const above = placeStrip(canvas, ladder, piece, { top, right: least, tubeAt: new Map() });
    drawNamedLines(canvas, paper, ladder, above);
    top = above.lowerY + 25;
  }
  const placed = placeStrip(canvas, ladder, pieces.at(-1) ?? [], {
    // What stands in the upper line at the right has its name above it.
    top: top + (ladder.upperTail ? 25 : 0),
    right: least,
    tubeAt: new Map(
      rows.length > 1 ? [] : canvas.symbols.map(({ part, at }) => [part, at.x] as const),
    ),
  });
  const edge = Math.max(placed.right, least);
  const drawn =
    strip.length > 0
      ? drawStripLines(canvas, paper, ladder, placed, edge, terminals)
      : { bottom: last.bottom, stacked: new Set<number>() };
  const done = new Set<number>(drawn.stacked);
  let foot = drawn.bottom;
  if (rails.ground !== undefined && drawn.stacked.has(rails.ground) && isGrounded(sheet)) {
    foot = Math.max(foot, groundBelow(canvas, paper, rails.ground, edge) ?? foot);
  }
  for (const row of rows) {
    for (const [net, y] of row.lineAt) {
      const own = row.risers.filter((riser) => riser.net === net);
      if (own.length === 0) continue;
      const upper = own.some(({ up }) => up);
      if (upper && row === last && !done.has(net))
        drawSupply(sheet, net, y, own, edge, terminals, done);
      else if (upper) drawNamedLine(sheet, row, net, y, own, row === last ? edge - 24 : endless);
      else drawLow(sheet, row, net, y, own, edge, terminals, done);
    }
  }
  const low = Math.max(
    drawRest(sheet, last, edge, terminals, done),
    drawRailNames(made.railPosts, rails, paper, canvas, edge),
  );
  for (const net of [ladder.upper, ladder.lower]) dropLoneName(sheet, net);
  drawBlock(canvas, edge, terminals);
  drawGangs(circuit, canvas);
  drawTray(canvas, made.tray, 0, Math.max(foot, low) + 40);
}

/**
 * Takes the name off a line of the filament circuit where it is not a bus of the text and stands
 * nowhere else: there is nothing to find by it.
 */
function dropLoneName({ circuit, paper, canvas }: Sheet, net: number): void {
  if (net < 0) return;
  const name = paper.nameOf(net);
  const [mark, other] = canvas.marks.filter((each) => each.net === name);
  const isOwn = circuit.partNamed.get(name)?.kind === 'bus';
  if (!mark || other || isOwn || mark.shape !== 'bar-left') return;
  canvas.marks.splice(canvas.marks.indexOf(mark), 1);
  const label = canvas.labels.findIndex(
    ({ text, box }) => text === railName(name) && box.right === mark.at.x - 9,
  );
  if (label >= 0) canvas.labels.splice(label, 1);
}

/** Whether the ground stands anywhere as a symbol, which does not say which tap is grounded. */
const isGrounded = ({ canvas, rails, rows }: Sheet): boolean =>
  canvas.marks.some(({ shape }) => shape === 'ground') ||
  rows.some(({ lineAt }) => rails.ground !== undefined && lineAt.has(rails.ground));

/** A B supply of the last row: its line out to its terminal, with the posts that are on it. */
function drawSupply(
  { paper, canvas }: Sheet,
  net: number,
  y: number,
  own: readonly Riser[],
  edge: number,
  terminals: ReadonlyMap<number, readonly Terminal[]>,
  done: Set<number>,
): void {
  drawBusLine(canvas, net, y, own, Math.min(...own.map(({ from }) => from.x)), edge);
  const [first, ...others] = terminals.get(net) ?? [];
  if (first) drawTerminal(canvas, first, { x: edge, y });
  let x = edge - 40;
  for (const terminal of others) x = inLine(canvas, terminal, { x, y }, edge) - 40;
  addMark(paper, canvas, net, { x: edge, y }, 'none');
  done.add(net);
}

const endless = Number.POSITIVE_INFINITY;

/**
 * A line that leads to no terminal, from the first to the last that is on it, with its name at the
 * right, or at the left where there is no room before `limit`, or over it where something is there.
 */
function drawNamedLine(
  { paper, canvas }: Sheet,
  row: LaidRow,
  net: number,
  y: number,
  own: readonly Riser[],
  limit: number,
): void {
  const xs = own.map(({ from }) => from.x);
  const room = 24 + textWidth(railName(paper.nameOf(net)), 'rail');
  // Risers of the lines above pass to the right of the name.
  const passing = row.risers
    .filter((riser) => riser.up && (row.lineAt.get(riser.net) ?? y) < y)
    .map(({ from }) => from.x)
    .sort((a, b) => a - b);
  let end = Math.max(...xs) + 20;
  for (const x of passing) if (x > end - 10 && x < end + room) end = x + 10;
  if (end + room > limit) {
    const [left, right] = [Math.min(...xs) - 20, Math.max(...xs)];
    // The signal's way from the row above may come down there.
    const isTaken = !isFree(canvas, {
      left: left - room + 15,
      right: left,
      top: y - 6,
      bottom: y + 6,
    });
    const over = isTaken
      ? nameOver(canvas, railName(paper.nameOf(net)), xs, passing, y)
      : undefined;
    drawBusLine(canvas, net, y, own, over ? left + 20 : left, right);
    if (over) {
      canvas.labels.push(over);
      addMark(paper, canvas, net, { x: over.box.left, y }, 'none');
    } else addMark(paper, canvas, net, { x: left, y }, 'bar-left');
    return;
  }
  drawBusLine(canvas, net, y, own, Math.min(...xs), end);
  addMark(paper, canvas, net, { x: end, y }, 'bar-right');
}

/** The name of a line over it, as far to the right as it is free, if it is anywhere. */
function nameOver(
  canvas: Canvas,
  name: string,
  xs: readonly number[],
  passing: readonly number[],
  y: number,
): Label | undefined {
  for (let x = Math.max(...xs) - 6; x > Math.min(...xs); x -= 10) {
    const label = labelAt(name, 'rail', x, y - 16, 'end');
    const { left, right } = label.box;
    if (left < Math.min(...xs)) return undefined;
    if (passing.some((at) => at > left - 4 && at < right + 4)) continue;
    if (isFree(canvas, label.box)) return label;
  }
  return undefined;
}

/** A low line of a row, with its symbol at the left. */
function drawLow(
  { paper, canvas, rails }: Sheet,
  row: LaidRow,
  net: number,
  y: number,
  own: readonly Riser[],
  edge: number,
  terminals: ReadonlyMap<number, readonly Terminal[]>,
  done: Set<number>,
): void {
  const xs = own.map(({ from }) => from.x);
  const isGround = net === rails.ground;
  const room = isGround ? 20 : 24 + textWidth(railName(paper.nameOf(net)), 'rail');
  const passing = row.risers
    .filter((riser) => !riser.up && (row.lineAt.get(riser.net) ?? y) > y)
    .map(({ from }) => from.x)
    .sort((a, b) => b - a);
  let left = Math.min(...xs) - 20;
  for (const x of passing) if (x < left + 10 && x > left - room) left = x - 10;
  const posts = terminals.get(net) ?? [];
  const height = Math.max(0, posts.length - 1) * stackStep;
  const isRoom = (top: number, bottom: number): boolean =>
    height === 0 ||
    (isFree(canvas, { left: edge - 8, right: edge + 30, top, bottom }) &&
      // Another line of the row may come to the block there.
      [...row.lineAt.values()].every((other) => other < top - 6 || other > bottom + 6));
  const down = isRoom(y + 10, y + height + 10);
  const up = !down && isRoom(y - height - 10, y - 10);
  const toBlock = row.exit === undefined && posts.length > 0 && !done.has(net) && (down || up);
  if (toBlock) {
    done.add(net);
    drawStack(paper, canvas, net, posts, edge, y, true, up);
    if (!isGround && posts.some(({ name }) => name === paper.nameOf(net))) {
      drawBusLine(canvas, net, y, own, Math.min(...xs), edge);
      return;
    }
  }
  drawBusLine(canvas, net, y, own, left, toBlock ? edge : Math.max(...xs));
  addMark(paper, canvas, net, { x: left, y }, isGround ? 'bar-down' : 'bar-left');
}

/**
 * Terminals that no line leads to, at the right edge wherever there is room beside those that one
 * does. Returns the lower edge.
 */
function drawRest(
  sheet: Sheet,
  last: LaidRow,
  edge: number,
  terminals: ReadonlyMap<number, readonly Terminal[]>,
  done: ReadonlySet<number>,
): number {
  const { circuit, paper, canvas, rails } = sheet;
  const waiting = [...terminals.keys()].filter((net) => !done.has(net));
  // The ground hangs there, with its name where it stands nowhere else.
  const isShown = isGrounded(sheet);
  const below = (net: number): number =>
    net !== rails.ground ? 0 : isShown ? groundRoom : namedGroundRoom;
  const room = waiting.reduce(
    (sum, net) => sum + 18 * (terminals.get(net)?.length ?? 0) + 4 + below(net),
    0,
  );
  let y = Math.max(last.area.top + 10, last.area.bottom - 10 - room);
  const next = (height: number, left: number): number => {
    const isTaken = (): boolean =>
      !isFree(canvas, { left, right: edge + 30, top: y - 10, bottom: y + height + 10 });
    for (let step = 0; isTaken() && step < 500; step++) y += 10;
    return y;
  };
  for (const net of waiting) {
    const stack = terminals.get(net) ?? [];
    if ((circuit.junctions[net]?.terminals.length ?? 0) > 1) {
      const height = Math.max(0, stack.length - 1) * 18;
      // A stack that does not say its junction's name has a symbol with it at its left.
      const name = paper.nameOf(net);
      const isNamed = stack.some((terminal) => terminal.name === name);
      const left = edge - (isNamed ? 8 : 36 + textWidth(railName(name), 'rail'));
      const top = next(height + below(net), left);
      y = drawStack(paper, canvas, net, stack, edge, top) + 22;
      if (below(net) > 0 && isShown) groundBelow(canvas, paper, net, edge);
      y += below(net);
      continue;
    }
    for (const terminal of stack) {
      drawTerminal(canvas, terminal, { x: edge, y: next(0, edge - 8) });
      y += 22;
    }
  }
  return waiting.length > 0 ? y : 0;
}

/** A tray in lines that are no wider than the drawing, but of a small one. */
const narrowest = 640;

function drawTray(canvas: Canvas, tray: readonly Cell[], left: number, top: number): void {
  if (tray.length === 0) return;
  const right = left + Math.max(narrowest, cellBox(canvas).right - left);
  canvas.labels.push(labelAt('Not joined to anything:', 'note', left, top, 'start'));
  let [x, y, low] = [left, top + 24, top + 24];
  for (const cell of tray) {
    const box = cellBox(cell);
    if (x > left && x + box.right - box.left > right) [x, y] = [left, low + 20];
    stamp(canvas, cell, { x: x - box.left, y: y - box.top });
    x += box.right - box.left + 20;
    low = Math.max(low, y + box.bottom - box.top);
  }
}
