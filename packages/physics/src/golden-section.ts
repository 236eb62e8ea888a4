/**
 * Place of the least value of a function on an interval: the best of an even scan, closed in by
 * the golden section between its neighbours. Finds the least of all if the scan is fine enough
 * to show it; 1e-7 of the interval. A value that is not a number counts as endless.
 */
export function leastPlace(
  low: number,
  high: number,
  steps: number,
  cost: (x: number) => number,
): number {
  const costOf = (x: number) => {
    const value = cost(x);
    return Number.isNaN(value) ? Number.POSITIVE_INFINITY : value;
  };
  const stride = (high - low) / steps;
  let best = low;
  let least = costOf(low);
  for (let step = 1; step <= steps; step += 1) {
    const x = low + step * stride;
    const value = costOf(x);
    if (value < least) {
      [best, least] = [x, value];
    }
  }
  const golden = (Math.sqrt(5) - 1) / 2;
  let from = Math.max(low, best - stride);
  let to = Math.min(high, best + stride);
  for (let round = 0; round < 40; round += 1) {
    const left = to - golden * (to - from);
    const right = from + golden * (to - from);
    if (costOf(left) <= costOf(right)) {
      to = right;
    } else {
      from = left;
    }
  }
  return (from + to) / 2;
}
