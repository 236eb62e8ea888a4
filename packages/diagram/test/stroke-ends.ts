import type { Point } from '../src/index.ts';

/** All points at which pieces of strokes begin and end, from their path data. */
export function endsOfStrokes(strokes: readonly { readonly d: string }[]): Point[] {
  return strokes.flatMap(({ d }) => endsOf(d));
}

/** How many numbers each command of path data takes. */
const counts: Readonly<Record<string, number>> = { m: 2, l: 2, h: 1, v: 1, c: 6, q: 4, a: 7, z: 0 };

function endsOf(d: string): Point[] {
  const ends: Point[] = [];
  let [x, y] = [0, 0];
  for (const [, command = '', rest = ''] of d.matchAll(/([a-z])([^a-z]*)/gi)) {
    const numbers = [...rest.matchAll(/-?(?:\d*\.\d+|\d+)/g)].map(([number]) => Number(number));
    const kind = command.toLowerCase();
    const count = counts[kind];
    if (count === undefined) throw new Error(`path data with ${command}`);
    const isBy = kind === command;
    for (let at = 0; count > 0 && at < numbers.length; at += count) {
      const its = numbers.slice(at, at + count);
      const [dx, dy] = [its.at(-2) ?? 0, its.at(-1) ?? 0];
      if (kind === 'h') x = (isBy ? x : 0) + dy;
      else if (kind === 'v') y = (isBy ? y : 0) + dy;
      else [x, y] = [(isBy ? x : 0) + dx, (isBy ? y : 0) + dy];
      ends.push({ x, y });
    }
  }
  return ends;
}
