/**
 * Does some work, and makes sure that no number in what is written as JSON meanwhile is none:
 * that would be a `null` where a number is promised, which nobody could tell from one that is meant.
 */
export async function withSoundJson<T>(work: () => T | Promise<T>): Promise<T> {
  const plain = JSON.stringify;
  const isNone = (_: string, value: unknown): unknown => {
    if (typeof value === 'number' && !Number.isFinite(value))
      throw new Error(`writes ${value} as JSON`);
    return value;
  };
  JSON.stringify = ((value: unknown, replacer?: never, space?: string | number) => {
    if (replacer) plain(value, isNone);
    return plain(value, replacer ?? isNone, space);
  }) as typeof plain;
  try {
    return await work();
  } finally {
    JSON.stringify = plain;
  }
}
