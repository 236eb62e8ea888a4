/**
 * Compares two names as a person sorts them: C2 before C10. Does not depend on the language the
 * machine is set to.
 */
export function naturally(a: string, b: string): number {
  let [i, j] = [0, 0];
  while (i < a.length && j < b.length) {
    const [k, l] = [endOfRun(a, i), endOfRun(b, j)];
    const [one, other] = [a.slice(i, k), b.slice(j, l)];
    if (one !== other) {
      const byNumber = isDigit(a, i) && isDigit(b, j) ? Number(one) - Number(other) : 0;
      return byNumber || (one < other ? -1 : 1);
    }
    [i, j] = [k, l];
  }
  return a.length - i - (b.length - j);
}

const isDigit = (text: string, at: number): boolean => {
  const code = text.charCodeAt(at);
  return code >= 48 && code <= 57;
};

/** Where a run of digits, or of anything else, ends. */
function endOfRun(text: string, from: number): number {
  const digits = isDigit(text, from);
  let at = from + 1;
  while (at < text.length && isDigit(text, at) === digits) at++;
  return at;
}
