import type { Circuit, Part } from '@setwright/circuit';
import { type Canvas, drawBusName, drawTerminal, type Terminal } from './canvas.ts';
import { addMark, labelAt, type Paper, wire } from './cell.ts';
import { naturally } from './natural-order.ts';
import { isSupply, type Rails } from './rails.ts';
import type { Box, Point } from './scene.ts';
import { textWidth } from './text-width.ts';

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
  const names = [...terminals.values()].flat().map(({ name }) => textWidth(name, 'name'));
  const right = edge + 20 + Math.max(20, ...names);
  const grounds = canvas.marks.filter(({ shape, at }) => shape === 'ground' && at.x === edge);
  const [top, bottom] = [
    Math.min(...ys) - 14,
    Math.max(...ys.map((y) => y + 14), ...grounds.map(({ at }) => at.y + 36)),
  ];
  canvas.ornaments.push({
    kind: 'outline',
    points: [
      { x: edge - 16, y: top },
      { x: right, y: top },
      { x: right, y: bottom },
      { x: edge - 16, y: bottom },
      { x: edge - 16, y: top },
    ],
  });
}

/** A post on a bus line. */
export function inLine(canvas: Canvas, terminal: Terminal, at: Point): void {
  drawTerminal(canvas, terminal, at);
  const label = canvas.labels.pop();
  if (label) canvas.labels.push(labelAt(label.text, 'rail', at.x, at.y - 18, 'middle', label.part));
}

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

/** The ground post at a ground symbol, with its name. */
export function drawGroundPosts(
  circuit: Circuit,
  railPosts: readonly Part[],
  rails: Rails,
  paper: Paper,
  canvas: Canvas,
  area: Box,
): void {
  let x = area.left;
  for (const part of railPosts) {
    const end = part.ends[0];
    if (!end || part.kind !== 'post' || !part.words.has('ground')) continue;
    const symbol = canvas.marks.find(
      (each) =>
        each.shape === 'ground' &&
        !canvas.symbols.some(({ at }) => at.x === each.at.x && at.y === each.at.y),
    );
    let at = symbol?.at;
    if (!at || end.junction !== rails.ground) {
      // No ground symbol to put it at: below the terminals of its junction, else by itself.
      const ids = new Set(circuit.junctions[end.junction]?.terminals);
      const below = canvas.symbols
        .filter((each) => each.symbol === 'terminal' && each.pins.some((pin) => ids.has(pin.end)))
        .map((each) => each.at)
        .sort((a, b) => b.y - a.y)[0];
      at = below ? { x: below.x, y: below.y + 14 } : { x, y: area.bottom + 26 };
      if (below) wire(canvas, end.junction, below.x, below.y, at.x, at.y);
      else x += 60;
      addMark(paper, canvas, end.junction, at, 'bar-down');
    }
    drawBusName(canvas, { ...part, ends: [end] }, at);
    const name = part.name;
    canvas.labels.push(labelAt(name, 'name', at.x, at.y + 19, 'middle', name));
  }
}

/** Each named junction at one of its own symbols. */
export function drawBuses(railPosts: readonly Part[], canvas: Canvas, paper: Paper): void {
  for (const part of railPosts) {
    const end = part.ends[0];
    if (!end || part.kind !== 'bus') continue;
    const name = paper.nameOf(end.junction);
    const own = canvas.marks.filter(({ net }) => net === name);
    const [grounds, named] = [
      own.filter(({ shape }) => shape === 'ground'),
      own.filter(({ shape }) => shape !== 'ground' && shape !== 'none'),
    ];
    const spots = [...grounds, ...named, ...own].map(({ at }) => at);
    if (name === part.name) {
      if (spots[0]) drawBusName(canvas, part, spots[0]);
      continue;
    }
    const choices = spots.flatMap((at) => [
      { at, label: labelAt(part.name, 'rail', at.x + 15, at.y + 5, 'start', part.name) },
      { at, label: labelAt(part.name, 'rail', at.x - 15, at.y + 5, 'end', part.name) },
      { at, label: labelAt(part.name, 'rail', at.x - 15, at.y - 18, 'end', part.name) },
    ]);
    const choice = choices.find(({ label }) => isClear(canvas, label.box)) ?? choices[0];
    if (!choice) continue;
    drawBusName(canvas, part, choice.at);
    canvas.labels.push(choice.label);
  }
}

/** Whether nothing has been drawn in a box yet. */
function isClear(canvas: Canvas, box: Box): boolean {
  const meets = (other: Box): boolean =>
    box.left < other.right &&
    other.left < box.right &&
    box.top < other.bottom &&
    other.top < box.bottom;
  if ([...canvas.labels, ...canvas.symbols, ...canvas.marks].some((each) => meets(each.box))) {
    return false;
  }
  return !canvas.wires.some(({ points }) =>
    points.some((from, index) => {
      const to = points[index + 1] ?? from;
      return meets({
        left: Math.min(from.x, to.x) - 1,
        right: Math.max(from.x, to.x) + 1,
        top: Math.min(from.y, to.y) - 1,
        bottom: Math.max(from.y, to.y) + 1,
      });
    }),
  );
}
