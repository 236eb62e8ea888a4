/** Things, numbered from 0, that are joined into groups. */
export interface JoinedGroups {
  /** The member that stands for the group of this one. */
  of(item: number): number;
  join(a: number, b: number): void;
}

/** Groups of one member each, to be joined (union by size, with the paths halved). */
export function joinedGroups(count: number): JoinedGroups {
  const above = Int32Array.from({ length: count }, (_, index) => index);
  const size = new Int32Array(count).fill(1);
  const of = (item: number): number => {
    let at = item;
    for (let up = above[at] as number; up !== at; up = above[at] as number) {
      above[at] = above[up] as number;
      at = above[at] as number;
    }
    return at;
  };
  return {
    of,
    join(a, b) {
      let big = of(a);
      let small = of(b);
      if (big === small) return;
      if ((size[big] as number) < (size[small] as number)) [big, small] = [small, big];
      above[small] = big;
      size[big] = (size[big] as number) + (size[small] as number);
    },
  };
}
