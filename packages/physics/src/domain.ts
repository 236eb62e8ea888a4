/** A place that an answer is written into, to be used again and again. */
export type Writable<T> = { -readonly [name in keyof T]: T[name] };

// Of up to five values: these are asked at every turn of an iteration, where a list would have to be
// made for each.

/** True when every value is a finite number above zero. */
export function arePositive(a: number, b = 1, c = 1, d = 1, e = 1): boolean {
  return isPositive(a) && isPositive(b) && isPositive(c) && isPositive(d) && isPositive(e);
}

function isPositive(value: number): boolean {
  return value > 0 && value < Number.POSITIVE_INFINITY;
}

/** True when every value is a finite number of zero or more. */
export function areNotNegative(a: number, b = 0, c = 0, d = 0, e = 0): boolean {
  const least = Math.min(a, b, c, d, e);
  return least >= 0 && areFinite(a, b, c, d, e);
}

/** True when every value is a finite number. */
export function areFinite(a: number, b = 0, c = 0, d = 0, e = 0): boolean {
  return (
    Number.isFinite(a) &&
    Number.isFinite(b) &&
    Number.isFinite(c) &&
    Number.isFinite(d) &&
    Number.isFinite(e)
  );
}

/** The answer itself, or undefined when the arithmetic of any of its numbers overflowed. */
export function allFiniteOrUndefined<T extends object>(answer: T): T | undefined {
  for (const name in answer) if (!Number.isFinite(answer[name])) return undefined;
  return answer;
}

/** The value itself, or undefined when the arithmetic overflowed. */
export function finiteOrUndefined(value: number): number | undefined {
  return Number.isFinite(value) ? value : undefined;
}
