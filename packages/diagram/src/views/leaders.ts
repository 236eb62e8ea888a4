import { grown } from '../box.ts';
import type { Box, Point } from '../scene.ts';
import { airy, boxesOf, type Paper } from './free-place.ts';

interface Line {
  readonly from: Point;
  readonly to: Point;
}

/** A thin line from a number or letter that stands away from its part to where it belongs. */
export interface Leader extends Line {
  /** The part or terminal it leads to. */
  readonly at: string;
  /** From the letter of a change. */
  readonly isChange?: boolean;
}

/** No leader is longer, in drawing units. */
const LONGEST = 80;
/** Clear paper around the words, where it can be had: they stand among those of others. */
const AIR = 4;
/** From one place that is tried to the next. */
const STEP = 4;
/** Half of the clear paper along a leader. */
const HALF = 2;
/** So near to its end a leader is among the strokes of what it leads to. */
const AT_END = 12;
/** A box narrower than this is that of a pin: the leader goes to its middle. */
const PIN = 16;
/** The least of rise to run, and of run to rise: a line that slants less passes for a wire. */
const SLANT = 0.3;
/** Air between the letters and their leader. */
const BEFORE = 2;

/**
 * A place for a number or letter that has none at its part, with the leader that joins them. It slants,
 * and nothing stands on it. Undefined where there is none.
 */
export function placeWithLeader(
  paper: Paper,
  about: Box,
  { width, height }: { readonly width: number; readonly height: number },
): (Line & { readonly box: Box }) | undefined {
  const tries: { readonly box: Box; readonly leader: Line; readonly length: number }[] = [];
  for (let left = about.left - LONGEST - width; left < about.right + LONGEST; left += STEP) {
    for (let top = about.top - LONGEST - height; top < about.bottom + LONGEST; top += STEP) {
      const box = { left, top, right: left + width, bottom: top + height };
      const leader = leaderFrom(box, about);
      const length = lengthOf(leader);
      if (length <= LONGEST) tries.push({ box, leader, length });
    }
  }
  tries.sort((a, b) => a.length - b.length);
  const among = (withAir: (box: Box) => Box) =>
    tries.find(({ box, leader }) => paper.isFree(withAir(box)) && isClear(paper, leader));
  const found = among((box) => grown(box, AIR)) ?? among(airy);
  if (!found) return undefined;
  const { box, leader } = found;
  paper.take(box);
  for (const piece of boxesOf({ points: [leader.from, leader.to] }, HALF)) paper.take(piece);
  return { box, ...leader };
}

/** From the near side of some words to the near side of what they speak of. */
function leaderFrom(words: Box, about: Box): Line {
  const isPin = about.right - about.left < PIN;
  const to = isPin ? middleOf(about) : nearestIn(about, middleOf(words));
  const { left, top, right, bottom } = words;
  const from = nearestIn(
    { left: left + 6, top: top - BEFORE, right: right - 6, bottom: bottom + BEFORE },
    to,
  );
  return { from, to };
}

function isClear(paper: Paper, { from, to }: Line): boolean {
  const [run, rise] = [Math.abs(to.x - from.x), Math.abs(to.y - from.y)];
  const length = lengthOf({ from, to });
  if (run < SLANT * rise || rise < SLANT * run || length <= AT_END) return false;
  const share = 1 - AT_END / length;
  const near = { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
  return boxesOf({ points: [from, near] }, HALF).every((box) => paper.isFree(box));
}

const lengthOf = ({ from, to }: Line): number => Math.hypot(to.x - from.x, to.y - from.y);

const middleOf = ({ left, top, right, bottom }: Box): Point => ({
  x: (left + right) / 2,
  y: (top + bottom) / 2,
});

const nearestIn = ({ left, top, right, bottom }: Box, { x, y }: Point): Point => ({
  x: Math.min(right, Math.max(left, x)),
  y: Math.min(bottom, Math.max(top, y)),
});
