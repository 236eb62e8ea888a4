import type { Point } from './scene.ts';

/** A number as short as its decimals allow. */
export function decimal(value: number, places = 2): string {
  const power = 10 ** places;
  const rounded = Math.round(value * power) / power;
  return `${Object.is(rounded, -0) ? 0 : rounded}`;
}

/** A run of straight pieces as path data. */
export function pathData(points: readonly Point[]): string {
  return points
    .map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${decimal(x)} ${decimal(y)}`)
    .join('');
}
