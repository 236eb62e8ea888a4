/** A queue that gives up its least item first: by `first`, then `second`, then age. */
export interface LeastFirst {
  push(item: number, first: number, second: number): void;
  /** The least item, or undefined when the queue is empty. */
  pop(): { readonly item: number; readonly first: number; readonly second: number } | undefined;
}

interface Entry {
  readonly item: number;
  readonly first: number;
  readonly second: number;
  readonly age: number;
}

/** Makes an empty queue: a binary heap. Ties go by age, so that every search is repeatable. */
export function leastFirst(): LeastFirst {
  const heap: Entry[] = [];
  let age = 0;
  const before = (a: Entry, b: Entry): boolean =>
    a.first !== b.first
      ? a.first < b.first
      : a.second !== b.second
        ? a.second < b.second
        : a.age < b.age;
  return {
    push(item, first, second) {
      const entry = { item, first, second, age: age++ };
      let at = heap.length;
      heap.push(entry);
      while (at > 0) {
        const above = (at - 1) >> 1;
        const parent = heap[above] as Entry;
        if (!before(entry, parent)) break;
        heap[at] = parent;
        at = above;
      }
      heap[at] = entry;
    },
    pop() {
      const least = heap[0];
      const last = heap.pop();
      if (!least || !last) return undefined;
      if (heap.length > 0) {
        let at = 0;
        for (;;) {
          let below = 2 * at + 1;
          const left = heap[below];
          if (!left) break;
          const right = heap[below + 1];
          if (right && before(right, left)) below++;
          const child = heap[below] as Entry;
          if (!before(child, last)) break;
          heap[at] = child;
          at = below;
        }
        heap[at] = last;
      }
      return least;
    },
  };
}
