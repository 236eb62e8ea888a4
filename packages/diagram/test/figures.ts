import type { Point, Scene } from '../src/index.ts';
import { letterSize } from '../src/text-width.ts';
import { crossings } from './faults.ts';

/** What tells how good a drawing is to the eye, where no rule is broken. */
export interface Figures {
  /** Wires of two junctions that cross. */
  readonly crossings: number;
  /** Corners at which a wire turns. */
  readonly bends: number;
  /** All wires together, in drawing units. */
  readonly wireLength: number;
  /** The smallest lettering when the drawing fills an A4 page, in points. */
  readonly lettering: number;
}

/** Usable A4 paper in millimetres, long side first; a point is 25.4 / 72 mm. */
const paper = [277, 190] as const;

export function figuresOf(scene: Scene): Figures {
  const { width, height, wires } = scene;
  const smallest = Math.min(...scene.labels.map(({ style }) => letterSize[style]));
  const scale = Math.max(
    Math.min(paper[0] / width, paper[1] / height),
    Math.min(paper[1] / width, paper[0] / height),
  );
  const length = wires.reduce(
    (sum, { points }) =>
      sum +
      points
        .slice(1)
        .reduce(
          (own, to, index) =>
            own + Math.abs(to.x - points[index]!.x) + Math.abs(to.y - points[index]!.y),
          0,
        ),
    0,
  );
  return {
    crossings: crossings(scene),
    bends: bendsOf(scene),
    wireLength: Math.round(length),
    lettering: Math.round(((smallest * scale * 72) / 25.4) * 100) / 100,
  };
}

/** Points where exactly two wires of one junction end, one level and one upright. */
function bendsOf({ wires }: Scene): number {
  const ends = new Map<string, { level: number; upright: number }>();
  for (const { net, points } of wires) {
    const [from, to] = [points[0], points.at(-1)];
    if (!from || !to) continue;
    for (const at of [from, to] satisfies Point[]) {
      const key = `${net} ${at.x} ${at.y}`;
      const met = ends.get(key) ?? { level: 0, upright: 0 };
      met[from.y === to.y ? 'level' : 'upright']++;
      ends.set(key, met);
    }
  }
  return [...ends.values()].filter(({ level, upright }) => level === 1 && upright === 1).length;
}
