/**
 * Numbers for whole numbers below `count` that are the same exactly for those that lead to each
 * other and back along the arrows (R. Tarjan, "Depth-first search and linear graph algorithms",
 * SIAM Journal on Computing 1, 1972). Linear.
 */
export function strongGroups(
  count: number,
  arrows: readonly { readonly from: number; readonly to: number }[],
): Int32Array {
  const out: number[][] = [];
  for (const { from, to } of arrows) {
    const here = out[from];
    if (here) here.push(to);
    else out[from] = [to];
  }
  const group = new Int32Array(count).fill(-1);
  const order = new Int32Array(count).fill(-1);
  const low = new Int32Array(count);
  const next = new Int32Array(count);
  const open: number[] = [];
  let clock = 0;
  let groups = 0;
  for (let start = 0; start < count; start++) {
    if (order[start] !== -1) continue;
    const walk = [start];
    order[start] = low[start] = clock++;
    open.push(start);
    while (walk.length > 0) {
      const here = walk[walk.length - 1] as number;
      const there = out[here]?.[next[here] as number];
      if (there !== undefined) {
        next[here] = (next[here] as number) + 1;
        if (order[there] === -1) {
          order[there] = low[there] = clock++;
          open.push(there);
          walk.push(there);
        } else if (group[there] === -1) {
          low[here] = Math.min(low[here] as number, order[there] as number);
        }
        continue;
      }
      walk.pop();
      const above = walk[walk.length - 1];
      if (above !== undefined) low[above] = Math.min(low[above] as number, low[here] as number);
      if (low[here] !== order[here]) continue;
      for (let member = open.pop(); member !== undefined; member = open.pop()) {
        group[member] = groups;
        if (member === here) break;
      }
      groups++;
    }
  }
  return group;
}
