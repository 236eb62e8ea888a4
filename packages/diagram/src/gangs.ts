import type { Circuit } from '@setwright/circuit';
import { boxBetween } from './box.ts';
import type { Canvas } from './canvas.ts';
import { labelAt } from './cell.ts';
import { isFree } from './free-paper.ts';
import { naturally } from './natural-order.ts';
import type { Box, PlacedSymbol, Point } from './scene.ts';

/** Parts that one knob turns, and what the knob or shaft is called. */
interface Shaft {
  readonly name: string;
  readonly members: readonly string[];
}

/** From the middle of a condenser to the two ends of its arrow. */
const arrow = 13;
/** How far above or below its condensers a shaft may run, nearest first. */
const levels = [20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90];

/**
 * The shafts that couple condensers, as dashed lines from arrow to arrow: along a row where there
 * is room for one, else a stub with the shaft's name at each.
 */
export function drawGangs(circuit: Circuit, canvas: Canvas): void {
  for (const { name, members } of shaftsOf(circuit)) {
    const placed = canvas.symbols
      .filter(({ part, symbol }) => members.includes(part) && symbol.startsWith('condenser'))
      .sort((a, b) => a.at.y - b.at.y || a.at.x - b.at.x);
    if (placed.length < 2) continue;
    const rows = new Map<number, PlacedSymbol[]>();
    for (const each of placed) rows.set(each.at.y, [...(rows.get(each.at.y) ?? []), each]);
    const apart = rows.size > 1;
    for (const row of rows.values()) {
      const level = row.length > 1 ? drawShaft(canvas, row) : undefined;
      if (!level) for (const each of row) nameAt(canvas, each, name);
      else if (apart) nameAlong(canvas, level, name);
    }
  }
}

/** Every gang, and every dial that drives two or more condensers by itself. */
function shaftsOf({ gangs, dials, parts }: Circuit): Shaft[] {
  const isCondenser = (name: string): boolean =>
    parts.some((part) => part.name === name && part.kind === 'condenser');
  return [
    ...gangs.map(({ name, members }) => ({ name, members })),
    ...dials.map(({ name, drives }) => ({ name, members: drives.filter(isCondenser) })),
  ]
    .filter(({ members }) => members.length > 1)
    .sort((a, b) => naturally(a.name, b.name));
}

/** One line along condensers at one height, if there is room for it; returns its level piece. */
function drawShaft(canvas: Canvas, row: readonly PlacedSymbol[]): readonly Point[] | undefined {
  let best: Point[][] | undefined;
  let least = Number.POSITIVE_INFINITY;
  const taken = inTheWay(canvas, row);
  for (const level of levels) {
    for (const sign of [1, -1]) {
      const feet = row.map(({ at }) => ({ x: at.x - sign * arrow, y: at.y + sign * arrow }));
      const [first, last] = [feet[0], feet.at(-1)];
      if (!first || !last) continue;
      const y = first.y - sign * arrow + sign * level;
      const lines = [
        [
          { x: first.x, y },
          { x: last.x, y },
        ],
        ...feet.map((foot) => [foot, { x: foot.x, y }]),
      ];
      const cost = costOf(taken, lines);
      if (cost === undefined || cost + level >= least) continue;
      best = lines;
      least = cost + level;
    }
  }
  for (const points of best ?? []) canvas.ornaments.push({ kind: 'gang', points });
  return best?.[0];
}

/** What a shaft must not run into, and the straight pieces that it may cross. */
interface InTheWay {
  readonly solid: readonly Box[];
  readonly pieces: readonly { readonly box: Box; readonly isLevel: boolean }[];
}

function inTheWay(canvas: Canvas, own: readonly PlacedSymbol[]): InTheWay {
  const solid = [
    ...canvas.labels,
    ...canvas.symbols.filter((each) => !own.includes(each) && each.symbol !== 'name'),
    ...canvas.marks.filter(({ shape }) => shape !== 'none'),
  ].map(({ box }) => box);
  const pieces = [...canvas.wires, ...canvas.ornaments].flatMap(({ points }) =>
    points.slice(1).map((end, index) => {
      const start = points[index] ?? end;
      return { box: boxBetween(start, end), isLevel: start.y === end.y };
    }),
  );
  return { solid, pieces };
}

/** How many wires a shaft crosses; undefined where it runs into something or along a wire. */
function costOf(
  { solid, pieces }: InTheWay,
  lines: readonly (readonly Point[])[],
): number | undefined {
  let crossed = 0;
  for (const [from, to] of lines) {
    if (!from || !to) continue;
    const box = boxBetween(from, to);
    if (solid.some((other) => meets(box, other, 3))) return undefined;
    for (const piece of pieces) {
      if (piece.isLevel === (from.y === to.y)) {
        if (meets(box, piece.box, 5)) return undefined;
      } else if (meets(box, piece.box, 0)) crossed += 12;
    }
  }
  return crossed;
}

const meets = (a: Box, b: Box, air: number): boolean =>
  a.left - air <= b.right &&
  b.left <= a.right + air &&
  a.top - air <= b.bottom &&
  b.top <= a.bottom + air;

/** A shaft's name at its line, for those of its condensers that the line does not reach. */
function nameAlong(canvas: Canvas, [from, to]: readonly Point[], name: string): void {
  if (!from || !to) return;
  for (let x = from.x + 8; x < to.x - 20; x += 20) {
    for (const y of [from.y - 15, from.y + 4]) {
      const label = labelAt(name, 'note', x, y, 'start');
      if (!isFree(canvas, label.box)) continue;
      canvas.labels.push(label);
      return;
    }
  }
}

/** A stub with the shaft's name at one of its condensers. */
function nameAt(canvas: Canvas, { at }: PlacedSymbol, name: string): void {
  const below = { x: at.x - arrow, y: at.y + arrow };
  const above = { x: at.x + arrow, y: at.y - arrow };
  const choices = [
    { from: below, to: { x: below.x, y: below.y + 7 }, text: [at.x - 15, at.y + 21] as const },
    { from: above, to: { x: above.x, y: above.y - 7 }, text: [at.x + 14, at.y - 35] as const },
    { from: below, to: { x: below.x - 7, y: below.y }, text: [at.x - 30, at.y + 6] as const },
  ];
  for (const { from, to, text } of choices) {
    const label = labelAt(name, 'note', text[0], text[1], 'middle');
    if (!isFree(canvas, label.box)) continue;
    canvas.labels.push(label);
    canvas.ornaments.push({ kind: 'gang', points: [from, to] });
    return;
  }
}
