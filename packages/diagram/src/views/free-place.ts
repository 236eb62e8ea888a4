import { boxBetween, grown, isInside, overlap } from '../box.ts';
import type { Box, Ornament, Point, Scene, Wire } from '../scene.ts';

/** What is on a drawing, for finding places where nothing is yet. */
export interface Paper {
  /** Whether a box meets nothing that is drawn, and lies on the drawing. */
  readonly isFree: (box: Box) => boolean;
  /** From now on there is something in this box. */
  readonly take: (box: Box) => void;
  /** Tries something out, and has everything free again that was taken for it. */
  readonly trying: <T>(what: () => T) => T;
  /** Whether a wire runs through this box. */
  readonly isCut: (box: Box) => boolean;
  /** How much nearer a place must be so near to a wire or to other words, in drawing units. */
  readonly shunned: (box: Box) => number;
  /** An edge of shaded ground runs through this box: words across it are not so easy to read. */
  readonly edge: (box: Box) => void;
  readonly isOnEdge: (box: Box) => boolean;
}

/** Air between a wire's middle and what stands beside it. */
const BESIDE_WIRE = 2;
/** Better so much, since a path may be drawn along the wire. */
const BESIDE_PATH = 5;

/** The open loops of the period style reach farther than a winding's box. */
const OPEN_LOOPS = { x: 4, y: 0 };

/** Air about words that were set, where it can be had: of two parts they would be read as of one. */
const BESIDE_WORDS = { x: 6, y: 2 };
/** Right below or above the words of a part a number would be read as its value. */
const NEXT_LINE = { x: 0, y: 5 };

/** A side of the squares by which things are looked up, in drawing units. */
const SQUARE = 80;

/** What a drawing has on it: symbols, labels, rail symbols, dots, wires and ornaments. */
export function paperOf(scene: Scene): Paper {
  const [taken, beside, edges] = [squared(), squared(), squared()];
  const [printed, words] = [squared(), squared()];
  const log: Box[] = [];
  const bounds = { left: 4, top: 4, right: scene.width - 4, bottom: scene.height - 4 };
  for (const { box } of [...scene.labels, ...scene.marks]) taken.add(box);
  for (const { box, symbol } of scene.symbols)
    taken.add(symbol.startsWith('winding') ? grownBy(box, OPEN_LOOPS) : box);
  for (const { box } of scene.labels) printed.add(box);
  for (const { at } of scene.dots) taken.add(around(at, 5));
  for (const wire of scene.wires) {
    for (const box of boxesOf(wire, BESIDE_WIRE)) taken.add(box);
    for (const box of boxesOf(wire, BESIDE_PATH)) beside.add(box);
  }
  for (const ornament of scene.ornaments)
    for (const box of boxesOf(ornament, ornament.kind === 'sense' ? 5 : 2)) taken.add(box);
  return {
    take: (box) => {
      log.push(box);
      taken.add(box);
      words.add(box);
    },
    trying: (what) => {
      const from = log.length;
      const found = what();
      for (const box of log.splice(from)) {
        taken.remove(box);
        words.remove(box);
      }
      return found;
    },
    isCut: beside.isMet,
    shunned: (box) => {
      if (printed.isMet(grownBy(box, NEXT_LINE))) return 16;
      return beside.isMet(box) || words.isMet(grownBy(box, BESIDE_WORDS)) ? 8 : 0;
    },
    edge: edges.add,
    isOnEdge: edges.isMet,
    isFree: (box) => isInside(box, bounds) && !taken.isMet(box),
  };
}

/** Boxes in squares, so that few need be looked at for those that meet another. */
function squared(): {
  readonly add: (box: Box) => void;
  readonly remove: (box: Box) => void;
  readonly isMet: (box: Box) => boolean;
} {
  // Columns of squares, each from above: looked up for every place that is tried.
  const columns: (Box[] | undefined)[][] = [];
  const square = (at: number): number => Math.max(0, Math.floor(at / SQUARE));
  const listsOver = ({ left, top, right, bottom }: Box): Box[][] => {
    const lists: Box[][] = [];
    for (let x = square(left); x <= square(right); x++) {
      columns[x] ??= [];
      const column = columns[x] ?? [];
      for (let y = square(top); y <= square(bottom); y++) {
        const list = column[y] ?? [];
        column[y] = list;
        lists.push(list);
      }
    }
    return lists;
  };
  return {
    add(box) {
      for (const list of listsOver(box)) list.push(box);
    },
    remove(box) {
      for (const list of listsOver(box)) list.splice(list.lastIndexOf(box), 1);
    },
    isMet(box) {
      const [right, bottom] = [square(box.right), square(box.bottom)];
      for (let x = square(box.left); x <= right; x++) {
        const column = columns[x];
        if (!column) continue;
        for (let y = square(box.top); y <= bottom; y++) {
          const list = column[y];
          if (!list) continue;
          for (const other of list) if (overlap(box, other)) return true;
        }
      }
      return false;
    },
  };
}

/** A box about a point. */
export function around({ x, y }: Point, half: number): Box {
  return { left: x - half, top: y - half, right: x + half, bottom: y + half };
}

function grownBy(
  { left, top, right, bottom }: Box,
  { x, y }: { readonly x: number; readonly y: number },
): Box {
  return { left: left - x, top: top - y, right: right + x, bottom: bottom + y };
}

/** The air between two boxes. */
export function gap(a: Box, b: Box): number {
  const dx = Math.max(0, a.left - b.right, b.left - a.right);
  const dy = Math.max(0, a.top - b.bottom, b.top - a.bottom);
  return Math.hypot(dx, dy);
}

/** What a line covers, piece by piece; a slanting piece in steps. */
export function boxesOf({ points }: Pick<Wire | Ornament, 'points'>, half: number): Box[] {
  return points.slice(1).flatMap((to, index) => {
    const from = points[index] ?? to;
    const slants = from.x !== to.x && from.y !== to.y;
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    const steps = slants ? Math.max(1, Math.ceil(length / 8)) : 1;
    return Array.from({ length: steps }, (_, step) => {
      const at = (share: number): Point => ({
        x: from.x + (to.x - from.x) * share,
        y: from.y + (to.y - from.y) * share,
      });
      const [a, b] = [at(step / steps), at((step + 1) / steps)];
      return grown(boxBetween(a, b), half);
    });
  });
}

/** How far from what it speaks of a text may stand, in drawing units. */
const FARTHEST = 44;

/** What is asked of a place for words. */
export interface PlaceWanted {
  /** How far from what it speaks of it may be, in drawing units. */
  readonly farthest?: number;
  /** Of equals the one on this side. */
  readonly side?: 'left' | 'right';
  /** A grid's volts over it would be read as its plate's. */
  readonly shunned?: 'above' | 'below' | undefined;
  /** Whether it may as well stand beyond a line below, as what holds for a whole circuit. */
  readonly beyondLines?: boolean;
}

/** The size of some words, in drawing units. */
interface Size {
  readonly width: number;
  readonly height: number;
}

/**
 * The nearest place for a text of some size about a box, of equals first on the side asked for
 * and last where it is shunned. Undefined where there is none near enough to be taken for its own.
 */
export function placeNear(
  paper: Paper,
  about: Box,
  size: Size,
  wanted: PlaceWanted = {},
): Box | undefined {
  const { farthest = FARTHEST } = wanted;
  return nearest(placesBetween(paper, about, size, wanted, 0, farthest), farthest)?.box;
}

/** A free place, and how far off it counts. */
export interface Place {
  readonly box: Box;
  readonly far: number;
}

/** The nearest of some places, no farther than a limit. */
export function nearest(places: readonly Place[], farthest: number): Place | undefined {
  let found: Place | undefined;
  for (const each of places)
    if (each.far <= farthest && each.far < (found?.far ?? Number.POSITIVE_INFINITY)) found = each;
  return found;
}

/** Free places about a box whose nearest side is more than `from` and at most `to` away from it. */
export function placesBetween(
  paper: Paper,
  about: Box,
  { width, height }: Size,
  { side = 'right', shunned, beyondLines = false }: PlaceWanted,
  from: number,
  to: number,
): Place[] {
  const middle = { x: (about.left + about.right) / 2, y: (about.top + about.bottom) / 2 };
  const free: Place[] = [];
  const add = (left: number, top: number): void => {
    const box = { left, top, right: left + width, bottom: top + height };
    if (!paper.isFree(airy(box))) return;
    const dx = Math.max(0, box.left - about.right, about.left - box.right);
    const dy = Math.max(0, box.top - about.bottom, about.top - box.bottom);
    // Of equals, the one whose middle is nearer, and on the side that is asked for.
    const off = Math.hypot((box.left + box.right) / 2 - middle.x, top + height / 2 - middle.y);
    const isAside = side === 'right' ? box.right < middle.x : box.left > middle.x;
    const isShunned =
      (shunned === 'above' && box.bottom <= about.top) ||
      (shunned === 'below' && box.top >= about.bottom);
    const far =
      Math.hypot(dx, dy) +
      off * 0.05 +
      (isAside ? 1 : 0) +
      (isShunned ? 12 : 0) +
      (!beyondLines && isBeyondLine(paper, about, box) ? 16 : 0) +
      paper.shunned(box);
    free.push({ box, far });
  };
  for (let gap = from - (from % 2) + 1; gap <= to; gap += 2) {
    if (gap <= from || gap < 3) continue;
    // Along the four sides of the box, at this distance from it.
    for (let share = 0; share <= 1; share += 1 / 8) {
      const y = about.top - height + share * (about.bottom - about.top + height);
      add(about.right + gap, y);
      add(about.left - gap - width, y);
    }
    for (let share = 0; share <= 1; share += 1 / 16) {
      const x = about.left - width + share * (about.right - about.left + width);
      add(x, about.top - gap - height);
      add(x, about.bottom + gap);
    }
  }
  return free;
}

/** Whether a line runs between a box and words below it: they would be read as the line's. */
function isBeyondLine(paper: Paper, about: Box, box: Box): boolean {
  // The lead of the part itself runs down at its middle.
  const x = (about.left + about.right) / 2 < (box.left + box.right) / 2 ? box.right : box.left;
  const [top, bottom] = [about.bottom + BESIDE_PATH + 1, box.top - BESIDE_PATH - 1];
  return top < bottom && paper.isCut({ left: x - 1, top, right: x + 1, bottom });
}

/** Side by side with other words there must be air between. */
export function airy({ left, top, right, bottom }: Box): Box {
  return { left: left - 3, top, right: right + 3, bottom };
}
