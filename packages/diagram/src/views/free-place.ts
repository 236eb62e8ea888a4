import { isInside, overlap } from '../box.ts';
import type { Box, Ornament, Point, Scene, Wire } from '../scene.ts';

/** What is on a drawing, for finding places where nothing is yet. */
export interface Paper {
  /** Whether a box meets nothing that is drawn, and lies on the drawing. */
  readonly isFree: (box: Box) => boolean;
  /** From now on there is something in this box. */
  readonly take: (box: Box) => void;
  /** Tries something out, and has everything free again that was taken for it. */
  readonly trying: <T>(what: () => T) => T;
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
  const squares = new Map<string, Box[]>();
  const over = ({ left, top, right, bottom }: Box): string[] => {
    const keys: string[] = [];
    for (let x = Math.floor(left / SQUARE); x <= Math.floor(right / SQUARE); x++)
      for (let y = Math.floor(top / SQUARE); y <= Math.floor(bottom / SQUARE); y++)
        keys.push(`${x} ${y}`);
    return keys;
  };
  return {
    add(box) {
      for (const key of over(box)) {
        const list = squares.get(key);
        if (list) list.push(box);
        else squares.set(key, [box]);
      }
    },
    remove(box) {
      for (const key of over(box))
        squares.set(
          key,
          (squares.get(key) ?? []).filter((other) => other !== box),
        );
    },
    isMet: (box) => over(box).some((key) => squares.get(key)?.some((other) => overlap(box, other))),
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
      return {
        left: Math.min(a.x, b.x) - half,
        top: Math.min(a.y, b.y) - half,
        right: Math.max(a.x, b.x) + half,
        bottom: Math.max(a.y, b.y) + half,
      };
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
  return placesNear(paper, about, size, wanted)[0]?.box;
}

/** Every free place, the nearest first, with how far off it counts. */
export function placesNear(
  paper: Paper,
  about: Box,
  { width, height }: Size,
  { farthest = FARTHEST, side = 'right', shunned }: PlaceWanted,
): readonly { readonly box: Box; readonly far: number }[] {
  const middle = { x: (about.left + about.right) / 2, y: (about.top + about.bottom) / 2 };
  const free: { readonly box: Box; readonly far: number }[] = [];
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
    const away = Math.hypot(dx, dy) + off * 0.05 + (isAside ? 1 : 0);
    const far = away + (isShunned ? 12 : 0) + paper.shunned(box);
    if (away <= farthest) free.push({ box, far });
  };
  for (let gap = 3; gap <= farthest; gap += 2) {
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
  return free.sort((a, b) => a.far - b.far);
}

/** Side by side with other words there must be air between. */
export function airy({ left, top, right, bottom }: Box): Box {
  return { left: left - 3, top, right: right + 3, bottom };
}
