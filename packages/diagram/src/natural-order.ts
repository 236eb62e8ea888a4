/**
 * Compares two names as a person sorts them: C2 before C10. Does not depend on the language the
 * machine is set to.
 */
export function naturally(a: string, b: string): number {
  const left = a.match(/\d+|\D+/g) ?? [];
  const right = b.match(/\d+|\D+/g) ?? [];
  for (let index = 0; index < Math.min(left.length, right.length); index++) {
    const one = left[index] ?? '';
    const other = right[index] ?? '';
    const byNumber = Number(one) - Number(other);
    if (byNumber) return byNumber;
    if (one !== other) return one < other ? -1 : 1;
  }
  return left.length - right.length || (a < b ? -1 : a > b ? 1 : 0);
}
