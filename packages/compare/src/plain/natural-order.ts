/** Compares names as a person orders them: `C2` before `C10`; then by code, so it never ties. */
export function inNaturalOrder(one: string, other: string): number {
  const a = one.split(/([0-9]+)/);
  const b = other.split(/([0-9]+)/);
  for (let index = 0; index < Math.min(a.length, b.length); index += 1) {
    const [left = '', right = ''] = [a[index], b[index]];
    if (left === right) continue;
    const numbers = index % 2 === 1 ? Number(left) - Number(right) : 0;
    if (numbers !== 0) return numbers;
    return left < right ? -1 : 1;
  }
  return a.length - b.length;
}
