import { type ScaleContinuousNumeric, scaleLinear, scaleLog } from 'd3-scale';
import type { Axis } from './chart.ts';

/** Where numbers of an axis stand between two places. */
export function scaleOf(
  { low, high, scale }: Axis,
  from: number,
  to: number,
): ScaleContinuousNumeric<number, number> {
  const made = scale === 'logarithmic' && low > 0 ? scaleLog() : scaleLinear();
  return made.domain(high > low ? [low, high] : [low - 1, low + 1]).range([from, to]);
}

/** Round numbers along an axis, about as many as asked for. */
export function ticksOf(axis: Axis, about: number): readonly number[] {
  const ticks = scaleOf(axis, 0, 1).ticks(about);
  if (axis.scale !== 'logarithmic' || ticks.length <= 2 * about) return ticks;
  // Over many decades only the ones, twos and fives are worth a line.
  return ticks.filter((tick) => /^[125]/.test(tick.toExponential()));
}
