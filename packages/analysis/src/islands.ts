/** Groups of whole numbers that are merged two at a time: union by size with path halving. */
export interface Groups {
  /** The number that stands for the group of this one. */
  of(member: number): number;
  /** Merges two groups; false when they were one already. */
  merge(a: number, b: number): boolean;
}

/** Every number below `count` in a group of its own. */
export function separateGroups(count: number): Groups {
  const above = new Int32Array(count);
  for (let index = 0; index < count; index++) above[index] = index;
  const size = new Int32Array(count).fill(1);
  const of = (member: number): number => {
    let at = member;
    while (above[at] !== at) {
      const next = above[above[at] as number] as number;
      above[at] = next;
      at = next;
    }
    return at;
  };
  return {
    of,
    merge(a, b) {
      let big = of(a);
      let small = of(b);
      if (big === small) return false;
      if ((size[big] as number) < (size[small] as number)) [big, small] = [small, big];
      above[small] = big;
      size[big] = (size[big] as number) + (size[small] as number);
      return true;
    },
  };
}
