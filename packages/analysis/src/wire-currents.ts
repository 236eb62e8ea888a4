/** A wire without resistance between two junctions. */
export interface Wire {
  readonly from: number;
  readonly to: number;
}

/**
 * The currents in wires that have no resistance, from what the rest of the circuit brings to each
 * junction. A wire's current is certain when it is the only one between its two sides; in a ring
 * of such wires it is not, and is given as NaN. Linear.
 *
 * @param junctions how many there are.
 * @param inflow amperes that everything but these wires brings to each junction.
 * @returns amperes from `from` to `to` in each wire.
 */
export function wireCurrents(
  junctions: number,
  wires: readonly Wire[],
  inflow: Float64Array,
): Float64Array {
  const at = new Map<number, number[]>();
  for (const [index, { from, to }] of wires.entries()) {
    if (from === to) continue;
    for (const junction of [from, to]) {
      const here = at.get(junction);
      if (here) here.push(index);
      else at.set(junction, [index]);
    }
  }
  const amperes = new Float64Array(wires.length).fill(Number.NaN);
  const order = new Int32Array(junctions).fill(-1);
  // The earliest junction that can be come to from beneath each one without its own wire upward.
  const low = new Int32Array(junctions);
  const next = new Int32Array(junctions);
  const upward = new Int32Array(junctions).fill(-1);
  const gathered = Float64Array.from(inflow);
  let clock = 0;
  for (const start of at.keys()) {
    if (order[start] !== -1) continue;
    order[start] = low[start] = clock++;
    const walk = [start];
    while (walk.length > 0) {
      const here = walk[walk.length - 1] as number;
      const index = at.get(here)?.[next[here] as number];
      if (index !== undefined) {
        next[here] = (next[here] as number) + 1;
        if (index === upward[here]) continue;
        const wire = wires[index] as Wire;
        const there = wire.from === here ? wire.to : wire.from;
        if (order[there] === -1) {
          order[there] = low[there] = clock++;
          upward[there] = index;
          walk.push(there);
        } else low[here] = Math.min(low[here] as number, order[there] as number);
        continue;
      }
      walk.pop();
      const above = walk[walk.length - 1];
      if (above === undefined) continue;
      low[above] = Math.min(low[above] as number, low[here] as number);
      const up = upward[here] as number;
      const sum = gathered[here] as number;
      // Nothing beneath comes round another way: all that gathers here leaves by this wire.
      if ((low[here] as number) > (order[above] as number))
        amperes[up] = (wires[up] as Wire).from === here ? sum : -sum;
      gathered[above] = (gathered[above] as number) + sum;
    }
  }
  return amperes;
}
