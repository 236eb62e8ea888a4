/** Chances that come out the same for the same seed, on every machine. */
export interface Chance {
  /** A whole number from 0 up to, but not including, a limit. */
  readonly below: (limit: number) => number;
  /** One of a list, each as likely as the others. */
  readonly one: <T>(of: readonly T[]) => T;
  /** True in so many of a hundred cases. */
  readonly percent: (share: number) => boolean;
}

/** Chances from a seed: a counter stepped and its bits well mixed, 32 bits at a time. */
export function chanceOf(seed: number): Chance {
  let state = Math.imul(seed, 2654435761) ^ 0x51ed270b;
  const next = (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  const below = (limit: number): number => Math.floor(next() * limit);
  return {
    below,
    one: (of) => of[below(of.length)] as (typeof of)[number],
    percent: (share) => next() * 100 < share,
  };
}
