import type { Box, Point } from './scene.ts';

/** The box with two points at opposite corners: of a straight piece of wire, what it covers. */
export function boxBetween(a: Point, b: Point): Box {
  return {
    left: Math.min(a.x, b.x),
    right: Math.max(a.x, b.x),
    top: Math.min(a.y, b.y),
    bottom: Math.max(a.y, b.y),
  };
}

/** A box with so much air around it. */
export function grown({ left, top, right, bottom }: Box, by: number): Box {
  return { left: left - by, top: top - by, right: right + by, bottom: bottom + by };
}

/** The least box that holds two. */
export function boxAbout(a: Box, b: Box): Box {
  return {
    left: Math.min(a.left, b.left),
    top: Math.min(a.top, b.top),
    right: Math.max(a.right, b.right),
    bottom: Math.max(a.bottom, b.bottom),
  };
}

/** The least box that holds all of some; nothing at all where there are none. */
export function boxAround(boxes: readonly Box[]): Box {
  const [one] = boxes;
  if (!one) return { left: 0, top: 0, right: 0, bottom: 0 };
  let { left, top, right, bottom } = one;
  for (const box of boxes) {
    if (box.left < left) left = box.left;
    if (box.top < top) top = box.top;
    if (box.right > right) right = box.right;
    if (box.bottom > bottom) bottom = box.bottom;
  }
  return { left, top, right, bottom };
}

/** Whether two boxes have any ground in common; an edge alone is none. */
export function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

/** Whether a box lies within another; it may touch the edge. */
export function isInside(inner: Box, outer: Box): boolean {
  return (
    inner.left >= outer.left &&
    inner.right <= outer.right &&
    inner.top >= outer.top &&
    inner.bottom <= outer.bottom
  );
}
