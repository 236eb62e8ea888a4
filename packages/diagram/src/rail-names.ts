import type { Part } from '@setwright/circuit';
import { type Canvas, drawBusName } from './canvas.ts';
import { addMark, cellBox, labelAt, type Paper, wire } from './cell.ts';
import { isFree } from './free-paper.ts';
import type { Rails } from './rails.ts';
import type { Box, Label, Point } from './scene.ts';

/** Where a name may stand: its junction's point there, and the lettering, if it needs any. */
interface Spot {
  readonly at: Point;
  readonly label: Label | undefined;
}

/** From a terminal to the ground symbol below it, and what both take up. */
const groundLead = 7;
export const groundRoom = groundLead + 16;
/** The same with its name. */
export const namedGroundRoom = 54;

/**
 * A ground symbol below the lowest terminal of the ground at the right edge: a symbol elsewhere does
 * not say which tap is grounded. Returns its lower edge, if it has its place.
 */
export function groundBelow(
  canvas: Canvas,
  paper: Paper,
  net: number,
  edge: number,
): number | undefined {
  const lowest = lowestTerminal(canvas, net, edge);
  if (!lowest) return undefined;
  const { x, y } = lowest;
  wire(canvas, net, x, y, x, y + groundLead);
  addMark(paper, canvas, net, { x, y: y + groundLead }, 'bar-down');
  return y + groundRoom;
}

/**
 * The names of buses and ground posts, each where its junction is on paper already and where there
 * is room for it; else at a symbol of its own below everything. `edge` is where the terminals
 * stand. Returns the lower edge of what it drew below.
 */
export function drawRailNames(
  railPosts: readonly Part[],
  rails: Rails,
  paper: Paper,
  canvas: Canvas,
  edge: number,
): number {
  let [x, low] = [0, Number.NEGATIVE_INFINITY];
  // The ground before what else is on it.
  const sorted = [...railPosts].sort(
    (a, b) => Number(b.words.has('ground')) - Number(a.words.has('ground')),
  );
  for (const part of sorted) {
    const end = part.ends[0];
    const isGround = part.kind === 'post' && part.words.has('ground');
    if (!end || (part.kind !== 'bus' && !isGround)) continue;
    const spots = isGround
      ? [
          ...atGrounds(canvas, paper, part, end.junction),
          ...atMarks(canvas, paper, part, end.junction),
        ]
      : atMarks(canvas, paper, part, end.junction);
    const spot = spots.find(({ label }) => !label || isClear(canvas, label.box, edge));
    if (spot) {
      drawBusName(canvas, part, spot.at);
      if (spot.label) canvas.labels.push(spot.label);
      // A ground symbol with this name is joined to all that say it.
      const says = paper.nameOf(end.junction) === part.name;
      if (spot.label && says) addMark(paper, canvas, end.junction, spot.at, 'none');
      continue;
    }
    const below = isGround ? belowTerminals(canvas, end.junction, edge) : undefined;
    if (below) {
      wire(canvas, end.junction, below.x, below.y - 14, below.x, below.y);
      ownSymbol(canvas, paper, rails, part, end.junction, below);
      continue;
    }
    const bottom = Number.isFinite(low) ? low : cellBox(canvas).bottom + 10;
    ownSymbol(canvas, paper, rails, part, end.junction, { x, y: bottom });
    low = bottom;
    x += 90;
  }
  return Number.isFinite(low) ? low + 40 : low;
}

/** A symbol of a junction with the name of what is on it. */
function ownSymbol(
  canvas: Canvas,
  paper: Paper,
  rails: Rails,
  part: Part,
  net: number,
  at: Point,
): void {
  addMark(paper, canvas, net, at, 'bar-down');
  drawBusName(canvas, part, at);
  const isSaid = net !== rails.ground && paper.nameOf(net) === part.name;
  if (!isSaid) {
    // Below the symbol, or below the name that the symbol has already.
    const y = at.y + (net === rails.ground ? 19 : 23);
    canvas.labels.push(labelAt(part.name, 'name', at.x, y, 'middle', part.name));
    if (paper.nameOf(net) === part.name) addMark(paper, canvas, net, at, 'none');
  }
}

/** At the ground symbols that have no name yet, the name below them. */
function atGrounds(canvas: Canvas, paper: Paper, part: Part, net: number): Spot[] {
  const name = paper.nameOf(net);
  const isTaken = ({ x, y }: Point): boolean =>
    canvas.symbols.some(({ at, symbol }) => symbol === 'name' && at.x === x && at.y === y);
  return (
    canvas.marks
      .filter((mark) => mark.shape === 'ground' && mark.net === name && !isTaken(mark.at))
      // That of the aerial's circuit before those farther on.
      .sort((a, b) => a.at.x + a.at.y - b.at.x - b.at.y || a.at.x - b.at.x)
      .map(({ at }) => ({
        at,
        label: labelAt(part.name, 'name', at.x, at.y + 19, 'middle', part.name),
      }))
  );
}

/** At the symbols of its junction: those that say its name, else beside one. */
function atMarks(canvas: Canvas, paper: Paper, part: Part, net: number): Spot[] {
  const name = paper.nameOf(net);
  const own = canvas.marks.filter((mark) => mark.net === name);
  const bars = own.filter(({ shape }) => shape !== 'ground' && shape !== 'none');
  const grounds = own.filter(({ shape }) => shape === 'ground');
  // A ground symbol does not say the name that stands at the others.
  if (name === part.name && bars[0] && !grounds[0]) return [{ at: bars[0].at, label: undefined }];
  const beside = [...grounds, ...bars, ...own].flatMap(({ at: { x, y } }): Spot[] => [
    { at: { x, y }, label: labelAt(part.name, 'rail', x + 15, y + 2, 'start', part.name) },
    { at: { x, y }, label: labelAt(part.name, 'rail', x - 15, y + 2, 'end', part.name) },
    { at: { x, y }, label: labelAt(part.name, 'rail', x - 15, y - 18, 'end', part.name) },
    { at: { x, y }, label: labelAt(part.name, 'rail', x + 15, y - 18, 'start', part.name) },
  ]);
  const along = canvas.wires
    .filter((each) => each.net === net)
    .flatMap(({ points }) => {
      const [from, to] = [points[0], points[1]];
      if (!from || !to || from.y !== to.y || Math.abs(from.x - to.x) < 40) return [];
      return [20, 60, 100]
        .filter((step) => step < Math.abs(from.x - to.x))
        .map((step): Spot => {
          const at = { x: Math.min(from.x, to.x) + step, y: from.y };
          return { at, label: labelAt(part.name, 'rail', at.x, at.y - 16, 'start', part.name) };
        });
    });
  return [...beside, ...along];
}

/** Room for a ground with its name below a junction's lowest terminal, where nothing stands there. */
function belowTerminals(canvas: Canvas, net: number, edge: number): Point | undefined {
  const lowest = lowestTerminal(canvas, net, edge);
  if (!lowest) return undefined;
  const { y } = lowest;
  const box = { left: edge - 14, right: edge + 60, top: y + 9, bottom: y + namedGroundRoom - 4 };
  return isFree(canvas, box) ? { x: lowest.x, y: lowest.y + 14 } : undefined;
}

/** The lowest terminal of a junction at the right edge. */
function lowestTerminal(canvas: Canvas, net: number, edge: number): Point | undefined {
  const ends = new Set(
    canvas.wires
      .filter((each) => each.net === net)
      .flatMap(({ points }) => points.map(({ x, y }) => `${x},${y}`)),
  );
  return canvas.symbols
    .filter(
      ({ symbol, at }) => symbol === 'terminal' && at.x === edge && ends.has(`${at.x},${at.y}`),
    )
    .map(({ at }) => at)
    .sort((a, b) => b.y - a.y)[0];
}

/** Whether a name may stand in a box: nothing is there, nor the outline of the terminals. */
function isClear(canvas: Canvas, box: Box, edge: number): boolean {
  return !(box.left < edge - 10 && box.right > edge - 32) && isFree(canvas, box);
}
