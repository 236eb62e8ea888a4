import { advanceOf, faceOf } from './lettering/lettering.ts';
import type { LabelStyle } from './scene.ts';

/** Sizes of the lettering in drawing units. */
export const letterSize: Readonly<Record<LabelStyle, number>> = {
  name: 14,
  value: 13,
  rail: 13,
  title: 20,
  note: 13,
  figure: 12,
  caption: 13,
  sign: 13,
  change: 12,
};

/**
 * The width of a line of text in drawing units. The usual sans-serif faces of every system share
 * these widths; a drawing shown as text is held to them.
 */
export function textWidth(text: string, style: LabelStyle): number {
  return (advanceOf(text, faceOf[style]) * letterSize[style]) / 1000;
}

const longest = 28;

/** Space that a label does not keep: at its ends, in a row, or other than a plain blank. */
const crookedSpace = /^\s|\s$|\s\s|[^\S ]/;

/** A label's text, shortened where it would crowd the drawing. */
export function shortened(text: string): string {
  if (text.length <= longest && !crookedSpace.test(text)) return text;
  const letters = [...text.replace(/\s+/g, ' ').trim()];
  return letters.length > longest ? `${letters.slice(0, longest - 1).join('')}…` : letters.join('');
}
