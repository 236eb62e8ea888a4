/** True when every value is a finite number above zero. */
export function arePositive(...values: readonly number[]): boolean {
  return values.every((value) => Number.isFinite(value) && value > 0);
}

/** True when every value is a finite number of zero or more. */
export function areNotNegative(...values: readonly number[]): boolean {
  return values.every((value) => Number.isFinite(value) && value >= 0);
}

/** True when every value is a finite number. */
export function areFinite(...values: readonly number[]): boolean {
  return values.every((value) => Number.isFinite(value));
}

/** The answer itself, or undefined when the arithmetic of any of its numbers overflowed. */
export function allFiniteOrUndefined<T extends object>(answer: T): T | undefined {
  return Object.values(answer).every(Number.isFinite) ? answer : undefined;
}

/** The value itself, or undefined when the arithmetic overflowed. */
export function finiteOrUndefined(value: number): number | undefined {
  return Number.isFinite(value) ? value : undefined;
}
