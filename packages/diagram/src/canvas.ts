import type { End, Part } from '@setwright/circuit';
import { addMark, type Cell, emptyCell, labelAt, type Paper, place, wire } from './cell.ts';
import type { Point } from './scene.ts';

/** Everything that is drawn by rule outside the cells; a cell without ports or borders. */
export type Canvas = Cell;

export const newCanvas = (): Canvas => emptyCell('');

/** Copies a cell to its place. */
export function stamp(canvas: Canvas, cell: Cell, by: Point): void {
  const move = ({ x, y }: Point): Point => ({ x: even(x + by.x), y: even(y + by.y) });
  const shift = <T extends { left: number; top: number; right: number; bottom: number }>(
    box: T,
  ) => ({
    left: box.left + by.x,
    right: box.right + by.x,
    top: box.top + by.y,
    bottom: box.bottom + by.y,
  });
  for (const each of cell.symbols) {
    canvas.symbols.push({
      ...each,
      at: move(each.at),
      box: shift(each.box),
      pins: each.pins.map(({ end, at }) => ({ end, at: move(at) })),
    });
  }
  for (const each of cell.wires) {
    canvas.wires.push({ net: each.net, points: each.points.map(move) });
  }
  for (const each of cell.labels) {
    canvas.labels.push({ ...each, at: move(each.at), box: shift(each.box) });
  }
  for (const each of cell.marks) {
    canvas.marks.push({ ...each, at: move(each.at), box: shift(each.box) });
  }
  for (const each of cell.ornaments) {
    canvas.ornaments.push({ ...each, points: each.points.map(move) });
  }
}

/** Without what adding leaves behind the third place, so that equal places are equal numbers. */
const even = (value: number): number => Math.round(value * 1000) / 1000;

/** A terminal of the block at the right edge: a battery's tap or a post. */
export interface Terminal {
  readonly part: string;
  readonly name: string;
  readonly end: End;
}

/** A tap or post as a small circle with its name at its right. */
export function drawTerminal(canvas: Canvas, terminal: Terminal, at: Point): void {
  place(canvas, terminal.part, 'terminal', at, { post: terminal.end });
  const name = terminal.name.replaceAll('-', '−');
  canvas.labels.push(labelAt(name, 'name', at.x + 9, at.y - 7, 'start', terminal.part));
}

/** From one terminal of a stack to the next. */
export const stackStep = 18;

/**
 * The terminals of one junction one below the other, or one above the other, wired together. The
 * junction goes by its name wherever else it stands. Returns where the lowest stands.
 */
export function drawStack(
  paper: Paper,
  canvas: Canvas,
  net: number,
  terminals: readonly Terminal[],
  x: number,
  y: number,
  onLine = false,
  upwards = false,
): number {
  const step = upwards ? -stackStep : stackStep;
  for (const [index, terminal] of terminals.entries()) {
    const at = { x, y: y + index * step };
    drawTerminal(canvas, terminal, at);
    if (index > 0) wire(canvas, net, x, at.y - step, x, at.y);
  }
  // Its name must be there to read, on a terminal or at a symbol of its own.
  const isNamed = terminals.some(({ name }) => name === paper.nameOf(net));
  if (isNamed) addMark(paper, canvas, net, { x, y }, 'none');
  else if (!onLine) {
    wire(canvas, net, x - 20, y, x, y);
    addMark(paper, canvas, net, { x: x - 20, y }, 'bar-left');
  }
  return upwards ? y : y + Math.max(0, terminals.length - 1) * step;
}

/** The name of a junction at a point of its wire, as the bus part's own pin. */
export function drawBusName(canvas: Canvas, bus: Part, at: Point): void {
  place(canvas, bus.name, 'name', at, { bus: bus.ends[0] });
}
