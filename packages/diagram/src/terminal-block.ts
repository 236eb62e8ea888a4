import type { Circuit, Part } from '@setwright/circuit';
import { type Canvas, drawTerminal, type Terminal } from './canvas.ts';
import { labelAt } from './cell.ts';
import { isFree } from './free-paper.ts';
import { naturally } from './natural-order.ts';
import { isSupply } from './rails.ts';
import type { Point } from './scene.ts';
import { textWidth } from './text-width.ts';

/** The width of the outline around all terminals. */
export function blockWidth(terminals: ReadonlyMap<number, readonly Terminal[]>): number {
  const names = [...terminals.values()].flat().map(({ name }) => textWidth(name, 'name'));
  return 16 + 20 + Math.max(20, ...names);
}

/** From the outline to the terminals in it where a ground with its name is among them. */
const widestMargin = 26;

/** One outline around all terminals at the right edge. */
export function drawBlock(
  canvas: Canvas,
  edge: number,
  terminals: ReadonlyMap<number, readonly Terminal[]>,
): void {
  const ys = canvas.symbols
    .filter(({ symbol, at }) => symbol === 'terminal' && at.x === edge)
    .map(({ at }) => at.y);
  if (ys.length === 0) return;
  const right = edge + blockWidth(terminals) - 16;
  const grounds = canvas.marks.filter(({ shape, at }) => shape === 'ground' && at.x === edge);
  // The name of a ground below the terminals is wider than they are.
  const named = grounds.filter(({ at: { x, y } }) =>
    canvas.labels.some(({ box }) => box.left < x && box.right > x && box.top === y + 19),
  );
  const left = edge - (named.length > 0 ? widestMargin : 16);
  const [top, bottom] = [
    Math.min(...ys) - 14,
    Math.max(
      ...ys.map((y) => y + 14),
      ...grounds.map(({ at }) => at.y + (named.length > 0 ? 36 : 20)),
    ),
  ];
  canvas.ornaments.push({
    kind: 'outline',
    points: [
      { x: left, y: top },
      { x: right, y: top },
      { x: right, y: bottom },
      { x: left, y: bottom },
      { x: left, y: top },
    ],
  });
}

/**
 * A post on a bus line, at a point or as far to the left of it as is free. Returns its place.
 *
 * @param edge where the terminals stand that the line leads to
 */
export function inLine(canvas: Canvas, terminal: Terminal, { x, y }: Point, edge: number): number {
  const labelOn = (at: number) =>
    labelAt(minus(terminal.name), 'rail', at, y - 18, 'middle', terminal.part);
  const isTaken = (at: number): boolean =>
    labelOn(at).box.right > edge - widestMargin - 2 ||
    !isFree(canvas, labelOn(at).box) ||
    canvas.labels.some(
      ({ box }) => box.left < at + 6 && box.right > at - 6 && box.top < y + 6 && box.bottom > y - 6,
    );
  let at = x;
  for (let step = 0; step < 20 && isTaken(at); step++) at -= 20;
  drawTerminal(canvas, terminal, { x: at, y });
  canvas.labels.pop();
  canvas.labels.push(labelOn(at));
  return at;
}

/** A hyphen in a tap's name is a minus sign. */
const minus = (name: string): string => name.replaceAll('-', '−');

/** Taps and posts by junction, junctions in the order of their first tap. */
export function terminalsOf(circuit: Circuit, railPosts: readonly Part[]): Map<number, Terminal[]> {
  const terminals = new Map<number, Terminal[]>();
  const add = (net: number, terminal: Terminal): void => {
    const list = terminals.get(net);
    if (list) list.push(terminal);
    else terminals.set(net, [terminal]);
  };
  const supplies = circuit.parts.filter(isSupply).sort((a, b) => naturally(a.name, b.name));
  for (const part of supplies) {
    for (const end of [...part.ends].sort((a, b) => naturally(a.name, b.name))) {
      add(end.junction, { part: part.name, name: end.name, end });
    }
  }
  for (const part of railPosts) {
    const end = part.ends[0];
    if (!end || part.kind !== 'post' || part.words.has('ground')) continue;
    add(end.junction, { part: part.name, name: part.name, end });
  }
  return terminals;
}
