import type { Circuit } from '@setwright/circuit';
import { naturally } from '../natural-order.ts';
import type { Box, Label, Point, Scene } from '../scene.ts';
import { letterSize, textWidth } from '../text-width.ts';
import { gap, meet, type Paper } from './free-place.ts';
import { lettered } from './lettered.ts';
import { straightened } from './roads.ts';

/** A stage as it is to be shaded: its name, its title and what belongs to it. */
export interface StageOnPaper {
  readonly name: string;
  readonly title: string | undefined;
  readonly parts: ReadonlySet<string>;
}

/** A shaded piece of the drawing. */
export interface StageArea {
  readonly stage: string;
  /** Closed lines, each without its first point again at its end. */
  readonly outlines: readonly (readonly Point[])[];
}

/** The stages of a set with the parts that stand in them, windings by themselves. */
export function stagesOf(circuit: Circuit): readonly StageOnPaper[] {
  const stageOf = (name: string): string | undefined => {
    const part = circuit.partNamed.get(name);
    return part?.stage ?? circuit.partNamed.get(part?.owner ?? '')?.stage;
  };
  return [...circuit.stages]
    .sort((a, b) => naturally(a.name, b.name))
    .map(({ name, title }) => ({
      name,
      title,
      parts: new Set(
        circuit.parts.map((part) => part.name).filter((each) => stageOf(each) === name),
      ),
    }));
}

/** Shading is made of squares of this side. */
const GRID = 10;
/** Shaded air around a part. */
const AIR = 12;
/** Parts of a stage farther apart than this are shaded each by itself. */
const APART = 150;

/** Filaments and terminals stand in lines of their own, away from their stages. */
const elsewhere: ReadonlySet<string> = new Set(['filament', 'terminal', 'name']);

/** The areas of stages, and their titles where there is room; what has none is told. */
export function stageAreas(
  scene: Scene,
  stages: readonly StageOnPaper[],
  paper: Paper,
  labels: Label[],
  notes: string[],
): StageArea[] {
  const stageOf = new Map(stages.flatMap(({ name, parts }) => [...parts].map((p) => [p, name])));
  const things = thingsOf(scene, stageOf);
  const pieces = stages.flatMap(({ name }) =>
    apart(things.flatMap(({ stage, box }) => (stage === name ? [box] : []))).map((group) => ({
      stage: name,
      group,
      bounds: boundsOf(group, AIR),
    })),
  );
  keepApart(pieces);
  for (const piece of pieces) drawIn(piece, things);
  const areas: StageArea[] = [];
  for (const { name, title } of stages) {
    // The largest piece carries the title, the others the short name.
    const own = pieces
      .filter(({ stage }) => stage === name)
      .sort((a, b) => b.group.length - a.group.length);
    for (const [index, piece] of own.entries()) {
      const shape = shapeOf(piece, things);
      areas.push({ stage: name, outlines: shape.outlines });
      const words = index === 0 && title !== undefined ? [title, name] : [name];
      const label = captionIn(piece.bounds, shape.isWithin, words, paper);
      if (label) {
        paper.take(label.box);
        labels.push(label);
      } else if (index === 0) notes.push(`There is no room for the title of stage ${name}.`);
    }
  }
  // Words across an edge are not so easy to read.
  for (const { outlines } of areas)
    for (const outline of outlines)
      for (const [index, b] of outline.entries())
        paper.shun(boxAlong(outline.at(index - 1) ?? b, b));
  return areas;
}

function boxAlong(a: Point, b: Point): Box {
  return {
    left: Math.min(a.x, b.x) - 1,
    top: Math.min(a.y, b.y) - 1,
    right: Math.max(a.x, b.x) + 1,
    bottom: Math.max(a.y, b.y) + 1,
  };
}

/** A piece of a stage: parts that lie near one another, and the box that is shaded for them. */
interface Piece {
  readonly stage: string;
  readonly group: readonly Box[];
  bounds: Box;
}

interface Thing {
  readonly stage: string | undefined;
  readonly box: Box;
}

/** Every symbol and label with the stage it belongs to; rail symbols stand with what they are at. */
function thingsOf(scene: Scene, stageOf: ReadonlyMap<string, string>): Thing[] {
  const symbols = scene.symbols
    .filter(({ symbol }) => !elsewhere.has(symbol))
    .map(({ part, box }) => ({ stage: stageOf.get(part), box, part }));
  const here = new Set(symbols.map(({ part }) => part.split('.')[0] ?? part));
  const near = (box: Box, part: string): boolean =>
    symbols.some(
      (each) => (each.part === part || each.part.startsWith(`${part}.`)) && gap(each.box, box) < 40,
    );
  const labels = scene.labels.flatMap(({ part, box }) =>
    part !== undefined && here.has(part.split('.')[0] ?? part) && near(box, part)
      ? [{ stage: stageOf.get(part), box }]
      : [],
  );
  return [...symbols, ...labels];
}

/** Boxes in groups that lie near one another. */
function apart(boxes: readonly Box[]): Box[][] {
  const groups: Box[][] = [];
  for (const box of boxes) {
    const near = groups.filter((group) => group.some((other) => gap(box, other) < APART));
    const rest = groups.filter((group) => !near.includes(group));
    groups.splice(0, groups.length, ...rest, [...near.flat(), box]);
  }
  return groups;
}

function boundsOf(boxes: readonly Box[], air: number): Box {
  return {
    left: Math.min(...boxes.map(({ left }) => left)) - air,
    top: Math.min(...boxes.map(({ top }) => top)) - air,
    right: Math.max(...boxes.map(({ right }) => right)) + air,
    bottom: Math.max(...boxes.map(({ bottom }) => bottom)) + air,
  };
}

/** Where two stages stand side by side or one below the other, a straight line parts them. */
function keepApart(pieces: readonly Piece[]): void {
  for (const [index, one] of pieces.entries()) {
    for (const other of pieces.slice(index + 1)) {
      if (one.stage === other.stage || !meet(one.bounds, other.bounds)) continue;
      for (const [a, b] of [
        [one, other],
        [other, one],
      ] as const) {
        const [first, second] = [boundsOf(a.group, 0), boundsOf(b.group, 0)];
        if (first.right <= second.left) {
          const line = (first.right + second.left) / 2;
          a.bounds = { ...a.bounds, right: Math.min(a.bounds.right, line - 1) };
          b.bounds = { ...b.bounds, left: Math.max(b.bounds.left, line + 1) };
        } else if (first.bottom <= second.top) {
          const line = (first.bottom + second.top) / 2;
          a.bounds = { ...a.bounds, bottom: Math.min(a.bounds.bottom, line - 1) };
          b.bounds = { ...b.bounds, top: Math.max(b.bounds.top, line + 1) };
        }
      }
    }
  }
}

/** The air about a piece gives way to strangers that stand beside it. */
function drawIn(piece: Piece, things: readonly Thing[]): void {
  const core = boundsOf(piece.group, 0);
  for (const { stage, box } of things) {
    if (stage === piece.stage || !meet(box, piece.bounds) || meet(box, core)) continue;
    const { left, top, right, bottom } = piece.bounds;
    if (box.right <= core.left) piece.bounds = { ...piece.bounds, left: Math.max(left, box.right) };
    else if (box.left >= core.right)
      piece.bounds = { ...piece.bounds, right: Math.min(right, box.left) };
    else if (box.bottom <= core.top)
      piece.bounds = { ...piece.bounds, top: Math.max(top, box.bottom) };
    else piece.bounds = { ...piece.bounds, bottom: Math.min(bottom, box.top) };
  }
}

interface Shape {
  readonly outlines: readonly (readonly Point[])[];
  readonly isWithin: (box: Box) => boolean;
}

/** A piece's box; where strangers stand in it, its squares but for those that are nearer to them. */
function shapeOf({ stage, group, bounds }: Piece, things: readonly Thing[]): Shape {
  const foreign = things.filter((thing) => thing.stage !== stage && meet(thing.box, bounds));
  const { left, top, right, bottom } = bounds;
  if (foreign.length === 0) {
    const corners = [
      { x: left, y: top },
      { x: right, y: top },
      { x: right, y: bottom },
      { x: left, y: bottom },
    ];
    const isWithin = (box: Box): boolean =>
      box.left >= left && box.right <= right && box.top >= top && box.bottom <= bottom;
    return { outlines: [corners], isWithin };
  }
  const squares = new Set<string>();
  for (let x = Math.floor(left / GRID); x < Math.ceil(right / GRID); x++) {
    for (let y = Math.floor(top / GRID); y < Math.ceil(bottom / GRID); y++) {
      const square = {
        left: x * GRID,
        top: y * GRID,
        right: (x + 1) * GRID,
        bottom: (y + 1) * GRID,
      };
      const own = Math.min(...group.map((box) => gap(box, square)));
      const other = Math.min(...foreign.map(({ box }) => gap(box, square)));
      if (own === 0 || (other > own && other > GRID)) squares.add(`${x} ${y}`);
    }
  }
  const isWithin = (box: Box): boolean => {
    for (let x = Math.floor(box.left / GRID); x * GRID < box.right; x++)
      for (let y = Math.floor(box.top / GRID); y * GRID < box.bottom; y++)
        if (!squares.has(`${x} ${y}`)) return false;
    return true;
  };
  return { outlines: outlinesOf(squares), isWithin };
}

/** The lines around a set of squares. */
function outlinesOf(squares: ReadonlySet<string>): Point[][] {
  // Every side that has a square on one hand only, with the square at its right.
  const next = new Map<string, Point[]>();
  const side = (from: Point, to: Point): void => {
    const key = `${from.x} ${from.y}`;
    next.set(key, [...(next.get(key) ?? []), to]);
  };
  for (const square of squares) {
    const [x = 0, y = 0] = square.split(' ').map(Number);
    if (!squares.has(`${x} ${y - 1}`)) side({ x, y }, { x: x + 1, y });
    if (!squares.has(`${x + 1} ${y}`)) side({ x: x + 1, y }, { x: x + 1, y: y + 1 });
    if (!squares.has(`${x} ${y + 1}`)) side({ x: x + 1, y: y + 1 }, { x, y: y + 1 });
    if (!squares.has(`${x - 1} ${y}`)) side({ x, y: y + 1 }, { x, y });
  }
  const outlines: Point[][] = [];
  for (const [key, ways] of next) {
    while (ways.length > 0) {
      const [x = 0, y = 0] = key.split(' ').map(Number);
      const loop: Point[] = [{ x, y }];
      for (let at = ways.pop(); at && !(at.x === x && at.y === y); ) {
        loop.push(at);
        at = next.get(`${at.x} ${at.y}`)?.pop();
      }
      const closed = straightened([...loop, { x, y }]).slice(0, -1);
      outlines.push(closed.map((at) => ({ x: at.x * GRID, y: at.y * GRID })));
    }
  }
  return outlines;
}

/** A place for a stage's title: along the upper or lower edge within, else just outside. */
function captionIn(
  { left, top, right, bottom }: Box,
  isWithin: (box: Box) => boolean,
  words: readonly string[],
  paper: Paper,
): Label | undefined {
  const height = letterSize.caption;
  for (const text of words) {
    const width = textWidth(text, 'caption');
    const inner: number[] = [];
    for (let y = top + 4; y + height < bottom - 2; y += 8) inner.push(y);
    // From the upper edge down and the lower edge up, by turns.
    inner.sort((a, b) => Math.min(a - top, bottom - a) - Math.min(b - top, bottom - b) || a - b);
    const outer = [top - height - 3, bottom + 3];
    for (const y of [...inner.slice(0, 4), ...outer, ...inner.slice(4)]) {
      for (let x = left + 6; x + width <= right - 4; x += 5) {
        const box = { left: x, top: y, right: x + width, bottom: y + height };
        if ((outer.includes(y) || isWithin(box)) && paper.isFree(box))
          return lettered(text, 'caption', x, y);
      }
    }
  }
  return undefined;
}
