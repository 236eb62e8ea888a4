/** "3 errors", "1 error". */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** "V1", "V1 and V2", "V1, V2 and V3". */
export function listed(words: readonly string[], last = 'and'): string {
  if (words.length <= 1) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}

/** "line 3", "lines 3, 7 and 9"; of many only the first ten are named. */
export function linesListed(numbers: readonly number[]): string {
  const distinct = [...new Set(numbers)].sort((a, b) => a - b);
  const named = distinct.slice(0, 10).map(String);
  const more = distinct.length - named.length;
  const words = more > 0 ? [...named, `${more} more`] : named;
  return `${distinct.length === 1 ? 'line' : 'lines'} ${listed(words)}`;
}

/** "line 3 is put right", "lines 3 and 7 are put right". */
export function putRight(numbers: readonly number[]): string {
  return `${linesListed(numbers)} ${new Set(numbers).size === 1 ? 'is' : 'are'} put right`;
}
