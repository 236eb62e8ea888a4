import type { End, Part } from '@setwright/circuit';
import { boxBetween, overlap } from './box.ts';
import { railName } from './rails.ts';
import type {
  Box,
  Label,
  LabelStyle,
  Ornament,
  Pin,
  PlacedSymbol,
  Point,
  RailMark,
} from './scene.ts';
import { placed, symbolShape } from './symbols.ts';
import { letterSize, shortened, textWidth } from './text-width.ts';

/** Where a signal junction enters or leaves a cell. */
export interface CellPort {
  readonly net: number;
  readonly side: 'west' | 'east';
  /** Where the cell's own wiring begins; the lead to the border is added when it is used. */
  readonly from: Point;
  /** The least length of a wire here, where it is not the usual. */
  readonly room?: number;
  /** The cold end of a winding: its wire gives way to the others. */
  readonly isCold?: boolean;
}

/** Where a rail leaves a cell, straight up or down. */
export interface CellDrop {
  readonly net: number;
  readonly at: Point;
  readonly up: boolean;
}

/** A group of parts with a fixed inner drawing, labels included: one node of the layout. */
export interface Cell {
  readonly id: string;
  /** Coils, transformers and what couples in series are where a drawing may go on in a new row. */
  readonly kind: 'coil' | 'winding' | 'link' | 'tube' | 'other';
  readonly symbols: PlacedSymbol[];
  readonly wires: { net: number; points: Point[] }[];
  readonly labels: Label[];
  readonly marks: RailMark[];
  readonly ornaments: Ornament[];
  readonly ports: CellPort[];
  readonly drops: CellDrop[];
  /** Rank along the signal path. */
  key: number;
}

/** What the cells need to know of the junctions. */
export interface Paper {
  readonly nameOf: (net: number) => string;
  readonly ground: number | undefined;
  /** Whether a rail leaves this cell for a bus line; otherwise it gets a symbol of its own. */
  readonly toBus: (cell: string, net: number, up: boolean) => boolean;
  /** The part as its words are to be written: its own, or the usual ones. */
  readonly shown: (part: Part) => Part;
}

export function emptyCell(id: string, kind: Cell['kind'] = 'other'): Cell {
  return {
    id,
    kind,
    symbols: [],
    wires: [],
    labels: [],
    marks: [],
    ornaments: [],
    ports: [],
    drops: [],
    key: Number.POSITIVE_INFINITY,
  };
}

export interface Placing {
  readonly turns?: 0 | 1 | 2 | 3;
  readonly flipped?: boolean;
  readonly inTheAir?: boolean;
}

/** Sets a symbol down; `ends` says which end of the part is at which port of the symbol. */
export function place(
  cell: Cell,
  part: string,
  symbol: string,
  at: Point,
  ends: Readonly<Record<string, End | undefined>>,
  { turns = 0, flipped = false, inTheAir = false }: Placing = {},
): void {
  const shape = symbolShape(symbol);
  const pins: Pin[] = [];
  for (const port in ends) {
    const [end, where] = [ends[port], shape.ports[port]];
    if (end && where) pins.push({ end: end.id, at: placed(where, at, turns, flipped) });
  }
  const { left, top, right, bottom } = shape.box;
  const box = boxBetween(
    placed({ x: left, y: top }, at, turns, flipped),
    placed({ x: right, y: bottom }, at, turns, flipped),
  );
  cell.symbols.push({ part, symbol, at, turns, flipped, pins, box, inTheAir });
}

export function wire(cell: Cell, net: number, ...flat: readonly number[]): void {
  const points: Point[] = [];
  for (let index = 0; index + 1 < flat.length; index += 2) {
    points.push({ x: flat[index] ?? 0, y: flat[index + 1] ?? 0 });
  }
  cell.wires.push({ net, points });
}

/** A line of text whose upper edge is at `y`. */
export function labelAt(
  text: string,
  style: LabelStyle,
  x: number,
  y: number,
  anchor: 'start' | 'middle' | 'end',
  part?: string,
): Label {
  const short = style === 'title' || style === 'note' ? text : shortened(text);
  const width = textWidth(short, style);
  const size = letterSize[style];
  const left = anchor === 'start' ? x : anchor === 'middle' ? x - width / 2 : x - width;
  return {
    text: short,
    style,
    at: { x: left, y: y + size * 0.8 },
    box: { left, top: y, right: left + width, bottom: y + size },
    part,
  };
}

/** From the upper edge of a name to that of the value below it. */
export const linePitch = 15;

/** Name and value of a part, one above the other; `y` is the upper edge. */
export function nameAndValue(
  cell: Cell,
  part: string,
  name: string,
  value: string | undefined,
  x: number,
  y: number,
  anchor: 'start' | 'middle' | 'end',
): void {
  cell.labels.push(labelAt(name, 'name', x, y, anchor, part));
  if (value) cell.labels.push(labelAt(value, 'value', x, y + linePitch, anchor, part));
}

/** A local rail symbol with its name, hanging from or standing on a point. */
function mark(paper: Paper, net: number, at: Point, shape: RailMark['shape']) {
  const isGround = net === paper.ground && shape === 'bar-down';
  const text = railName(paper.nameOf(net));
  const kind: RailMark['shape'] = isGround ? 'ground' : shape;
  const { x, y } = at;
  const boxes: Record<RailMark['shape'], Box> = {
    ground: { left: x - 12, top: y, right: x + 12, bottom: y + 16 },
    'bar-down': { left: x - 8, top: y, right: x + 8, bottom: y + 6 },
    'bar-up': { left: x - 8, top: y - 6, right: x + 8, bottom: y },
    'bar-right': { left: x, top: y - 6, right: x + 6, bottom: y + 6 },
    'bar-left': { left: x - 6, top: y - 6, right: x, bottom: y + 6 },
    none: { left: x, top: y, right: x, bottom: y },
  };
  const labels: Label[] =
    kind === 'ground' || kind === 'none'
      ? []
      : [
          kind === 'bar-down'
            ? labelAt(text, 'rail', x, y + 9, 'middle')
            : kind === 'bar-up'
              ? labelAt(text, 'rail', x, y - 21, 'middle')
              : kind === 'bar-right'
                ? labelAt(text, 'rail', x + 9, y - 6, 'start')
                : labelAt(text, 'rail', x - 9, y - 6, 'end'),
        ];
  return { mark: { net: paper.nameOf(net), shape: kind, at, box: boxes[kind] }, labels };
}

export function addMark(
  paper: Paper,
  cell: Cell,
  net: number,
  at: Point,
  shape: RailMark['shape'],
): void {
  const made = mark(paper, net, at, shape);
  cell.marks.push(made.mark);
  cell.labels.push(...made.labels);
}

/** Leads a rail away from a point: to its bus line where it has one, else to a symbol here. */
export function toRail(paper: Paper, cell: Cell, net: number, at: Point, up = false): void {
  if (paper.toBus(cell.id, net, up)) {
    cell.drops.push({ net, at, up });
    return;
  }
  const shape = up ? 'bar-up' : 'bar-down';
  const meets = (y: number): boolean => {
    const { mark: symbol, labels } = mark(paper, net, { x: at.x, y }, shape);
    const taken = [...cell.labels, ...cell.marks, ...cell.symbols];
    return [symbol, ...labels].some(({ box }) => taken.some((other) => overlap(box, other.box)));
  };
  // As long as it must be to say its name beside nothing else that is said.
  let y = at.y + (up ? -10 : 10);
  for (let step = 0; step < 8 && meets(y); step++) y += up ? -10 : 10;
  wire(cell, net, at.x, at.y, at.x, y);
  addMark(paper, cell, net, { x: at.x, y }, shape);
}

/** What a cell covers, a little air included, on the grid. */
export function cellBox(cell: Cell): Box {
  const tight = {
    left: Number.POSITIVE_INFINITY,
    top: Number.POSITIVE_INFINITY,
    right: Number.NEGATIVE_INFINITY,
    bottom: Number.NEGATIVE_INFINITY,
  };
  const cover = (x: number, y: number): void => {
    if (x < tight.left) tight.left = x;
    if (x > tight.right) tight.right = x;
    if (y < tight.top) tight.top = y;
    if (y > tight.bottom) tight.bottom = y;
  };
  for (const things of [cell.symbols, cell.labels, cell.marks]) {
    for (const { box } of things) {
      cover(box.left, box.top);
      cover(box.right, box.bottom);
    }
  }
  for (const lines of [cell.wires, cell.ornaments]) {
    for (const { points } of lines) for (const { x, y } of points) cover(x, y);
  }
  for (const { at } of cell.drops) cover(at.x, at.y);
  for (const { from } of cell.ports) cover(from.x, from.y);
  if (tight.left > tight.right) return { left: 0, top: 0, right: 10, bottom: 10 };
  return {
    left: Math.floor((tight.left - 6) / 10) * 10,
    top: Math.floor((tight.top - 3) / 10) * 10,
    right: Math.ceil((tight.right + 6) / 10) * 10,
    bottom: Math.ceil((tight.bottom + 3) / 10) * 10,
  };
}

export function endOf(part: Part, name: string): End | undefined {
  return part.ends.find((end) => end.name === name);
}
