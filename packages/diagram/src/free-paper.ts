import type { Canvas } from './canvas.ts';
import type { Box } from './scene.ts';

/** Clear paper around what is put down. */
const air = 2;

/** Whether nothing has been drawn in a box yet. */
export function isFree(canvas: Canvas, box: Box): boolean {
  const meets = (other: Box): boolean =>
    box.left - air < other.right &&
    other.left < box.right + air &&
    box.top - air < other.bottom &&
    other.top < box.bottom + air;
  if ([...canvas.labels, ...canvas.symbols].some((each) => meets(each.box))) return false;
  if (canvas.marks.some(({ shape, box: own }) => shape !== 'none' && meets(own))) return false;
  return ![...canvas.wires, ...canvas.ornaments].some(({ points }) =>
    points.some((from, index) => {
      const to = points[index + 1] ?? from;
      return meets({
        left: Math.min(from.x, to.x),
        right: Math.max(from.x, to.x),
        top: Math.min(from.y, to.y),
        bottom: Math.max(from.y, to.y),
      });
    }),
  );
}
