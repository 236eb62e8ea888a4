import type { LabelStyle } from './scene.ts';

/**
 * Advance widths of the printable ASCII letters of a plain sans-serif face, in thousandths of the
 * size, from the space on. The usual sans-serif faces of every system share these widths.
 */
const advances = [
  278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
  556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
  611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
  667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500,
  222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
];

/** Sizes of the lettering in drawing units. */
export const letterSize: Readonly<Record<LabelStyle, number>> = {
  name: 13,
  value: 12,
  rail: 12,
  title: 20,
  note: 12,
};

/** Bold letters are up to this much wider than plain ones. */
const boldness: Readonly<Record<LabelStyle, number>> = {
  name: 1.1,
  value: 1,
  rail: 1,
  title: 1,
  note: 1,
};

/** The width of a line of text in drawing units, never less than what a plain face needs. */
export function textWidth(text: string, style: LabelStyle): number {
  let sum = 0;
  for (const letter of text) {
    const code = letter.codePointAt(0) ?? 0;
    sum += advances[code - 32] ?? (code > 0x2e80 ? 1000 : 700);
  }
  return (sum * letterSize[style] * boldness[style]) / 1000;
}

const longest = 28;

/** A label's text, shortened where it would crowd the drawing. */
export function shortened(text: string): string {
  const letters = [...text.replace(/\s+/g, ' ').trim()];
  return letters.length > longest ? `${letters.slice(0, longest - 1).join('')}…` : letters.join('');
}
