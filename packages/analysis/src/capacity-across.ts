/** A capacity in farads between two points. */
export interface FaradsBetween {
  readonly from: number;
  readonly to: number;
  readonly farads: number;
}

/** What several capacities come to for a voltage that some points are held at. */
export interface HeldCapacity {
  /** Farads: twice the energy for one volt across the whole. */
  readonly farads: number;
  /** Volts of every point reached, as shares of the whole. */
  readonly volts: ReadonlyMap<number, number>;
}

/**
 * The capacity that a network comes to when some of its points are held at given shares of a
 * voltage and the others are free: the sum over all of C times the square of the share across it.
 *
 * @param held shares, of which one should be 1 and one 0 @param rest a point beyond which nothing
 * is followed
 *
 * Cubic in the free points that are reached. Exact for any network without inductance.
 */
export function capacityAcross(
  capacities: readonly FaradsBetween[],
  held: ReadonlyMap<number, number>,
  rest: number | undefined,
): HeldCapacity {
  const at = new Map<number, FaradsBetween[]>();
  for (const each of capacities) {
    if (each.from === each.to || !(each.farads > 0)) continue;
    for (const point of [each.from, each.to]) {
      const list = at.get(point);
      if (list) list.push(each);
      else at.set(point, [each]);
    }
  }
  const free = freePoints(at, held, rest);
  const volts = new Map([...held, ...solve(at, held, free)]);
  let farads = 0;
  for (const { from, to, farads: each } of capacities) {
    const one = volts.get(from);
    const other = volts.get(to);
    if (one !== undefined && other !== undefined && from !== to)
      farads += each * (one - other) ** 2;
  }
  return { farads, volts };
}

/** Points that are not held and hang on those that are. */
function freePoints(
  at: ReadonlyMap<number, readonly FaradsBetween[]>,
  held: ReadonlyMap<number, number>,
  rest: number | undefined,
): readonly number[] {
  const found = new Set<number>();
  const waiting = [...held].filter(([, volts]) => volts !== 0).map(([point]) => point);
  for (let here = waiting.pop(); here !== undefined; here = waiting.pop()) {
    for (const { from, to } of at.get(here) ?? []) {
      const there = from === here ? to : from;
      if (held.has(there) || found.has(there)) continue;
      found.add(there);
      if (there !== rest) waiting.push(there);
    }
  }
  return [...found];
}

/** Volts of the free points, on which no charge may pile up: plain elimination. */
function solve(
  at: ReadonlyMap<number, readonly FaradsBetween[]>,
  held: ReadonlyMap<number, number>,
  free: readonly number[],
): readonly (readonly [number, number])[] {
  const size = free.length;
  const order = new Map(free.map((point, index) => [point, index]));
  const rows = free.map((point) => {
    const row = new Float64Array(size + 1);
    const own = order.get(point) ?? 0;
    for (const { from, to, farads } of at.get(point) ?? []) {
      const other = from === point ? to : from;
      const column = order.get(other);
      const volts = held.get(other);
      if (column === undefined && volts === undefined) continue;
      row[own] = (row[own] ?? 0) + farads;
      if (column !== undefined) row[column] = (row[column] ?? 0) - farads;
      else row[size] = (row[size] ?? 0) + farads * (volts ?? 0);
    }
    return row;
  });
  // A matrix of capacities is dominated by its diagonal: no pivoting is needed.
  for (let pivot = 0; pivot < size; pivot++) {
    const line = rows[pivot] as Float64Array;
    const most = line[pivot] ?? 0;
    if (!(most > 0)) continue;
    for (let row = pivot + 1; row < size; row++) {
      const target = rows[row] as Float64Array;
      const factor = (target[pivot] ?? 0) / most;
      if (factor === 0) continue;
      for (let column = pivot; column <= size; column++)
        target[column] = (target[column] ?? 0) - factor * (line[column] ?? 0);
    }
  }
  const volts = new Float64Array(size);
  for (let row = size - 1; row >= 0; row--) {
    const line = rows[row] as Float64Array;
    let sum = line[size] ?? 0;
    for (let column = row + 1; column < size; column++)
      sum -= (line[column] ?? 0) * (volts[column] ?? 0);
    const own = line[row] ?? 0;
    volts[row] = own > 0 ? sum / own : 0;
  }
  return free.map((point, index) => [point, volts[index] ?? 0] as const);
}
