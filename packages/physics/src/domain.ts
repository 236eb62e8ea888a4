/** True when every value is a finite number above zero. */
export function arePositive(...values: readonly number[]): boolean {
  for (const value of values) if (!(value > 0 && value < Number.POSITIVE_INFINITY)) return false;
  return true;
}

/** True when every value is a finite number of zero or more. */
export function areNotNegative(...values: readonly number[]): boolean {
  for (const value of values) if (!(value >= 0 && value < Number.POSITIVE_INFINITY)) return false;
  return true;
}

/** True when every value is a finite number. */
export function areFinite(...values: readonly number[]): boolean {
  for (const value of values) if (!Number.isFinite(value)) return false;
  return true;
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
