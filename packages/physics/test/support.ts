/** Largest relative difference of a value from a published one; NaN when there is no value. */
export function relativeError(value: number | undefined, published: number): number {
  return Math.abs((value ?? Number.NaN) / published - 1);
}

/** A value the test knows to exist. */
export function known<T>(value: T | undefined): T {
  if (value === undefined) {
    throw new Error('expected a value');
  }
  return value;
}

export const INCH = 0.0254;
