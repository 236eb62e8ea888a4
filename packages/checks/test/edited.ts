/** A text with words exchanged; a change that finds nothing to change is a fault of the test. */
export function edited(text: string, ...changes: readonly (readonly [string, string])[]): string {
  return changes.reduce((now, [from, to]) => {
    if (!now.includes(from)) throw new Error(`the fixture does not say: ${from}`);
    return now.replace(from, to);
  }, text);
}
