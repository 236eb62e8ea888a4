import { displayWidth } from './display-width.ts';

/** Columns of a table: the first stands to the left, numbers below one another to the right. */
export function tableOf(
  heading: readonly string[],
  lines: readonly (readonly string[])[],
  indent = '  ',
): string[] {
  const all = [heading, ...lines];
  const widths = heading.map((_, column) =>
    Math.max(...all.map((line) => displayWidth(line[column] ?? ''))),
  );
  return all.map((line) => {
    const cells = widths.map((width, column) => {
      const cell = line[column] ?? '';
      const space = ' '.repeat(width - displayWidth(cell));
      return column === 0 ? `${cell}${space}` : `${space}${cell}`;
    });
    return `${indent}${cells.join('   ').trimEnd()}`;
  });
}
