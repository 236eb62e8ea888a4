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
  const text = typeof value === 'number' ? String(value) : visible(value);
  return /[",]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
