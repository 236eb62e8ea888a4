import { visible } from './visible.ts';

/** Comma-separated values as RFC 4180 writes them, but with lines that end as everywhere here. */
export function csvOf(
  heading: readonly string[],
  lines: readonly (readonly (string | number | undefined)[])[],
): string {
  return `${[heading, ...lines].map((line) => line.map(cellOf).join(',')).join('\n')}\n`;
}

function cellOf(value: string | number | undefined): string {
  if (value === undefined) return '';
  const text = typeof value === 'number' ? String(value) : words(visible(value));
  return /[",]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/**
 * Words of the set's author that a spreadsheet would take for a formula and reckon, whatever it
 * does: a mark before them, as spreadsheets themselves have it, makes them words. Common practice.
 */
const words = (text: string): string =>
  /^[=+@-]/.test(text) && !Number.isFinite(Number(text)) ? `'${text}` : text;
