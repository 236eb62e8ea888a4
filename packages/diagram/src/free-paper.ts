import type { Canvas } from './canvas.ts';
import type { Box, Point } from './scene.ts';

/** Clear paper around what is put down. */
const air = 2;

/** Whether nothing has been drawn in a box yet. */
export function isFree(canvas: Canvas, box: Box): boolean {
  const left = box.left - air;
  const right = box.right + air;
  const top = box.top - air;
  const bottom = box.bottom + air;
  const meets = (other: Box): boolean =>
    left < other.right && other.left < right && top < other.bottom && other.top < bottom;
  const isMet = ({ points }: { readonly points: readonly Point[] }): boolean => {
    for (const [index, from] of points.entries()) {
      const to = points[index + 1] ?? from;
      if (
        left < Math.max(from.x, to.x) &&
        Math.min(from.x, to.x) < right &&
        top < Math.max(from.y, to.y) &&
        Math.min(from.y, to.y) < bottom
      )
        return true;
    }
    return false;
  };
  return !(
    canvas.labels.some((each) => meets(each.box)) ||
    canvas.symbols.some((each) => meets(each.box)) ||
    canvas.marks.some(({ shape, box: own }) => shape !== 'none' && meets(own)) ||
    canvas.wires.some(isMet) ||
    canvas.ornaments.some(isMet)
  );
}
