/** Numbers from 0 up to 1 that look random and are the same for the same seed. */
export type Random = () => number;

/** A generator by a 32-bit counter whose bits are mixed. */
export function randomFrom(seed: number): Random {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** Evenly between two numbers. */
export function between(random: Random, low: number, high: number): number {
  return low + (high - low) * random();
}
