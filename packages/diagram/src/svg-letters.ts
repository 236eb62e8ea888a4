import { escapeXml } from './escape.ts';
import { advanceOf, type Face, faceOf, lettersMissing, outlineOf } from './lettering/lettering.ts';
import type { Label, Scene } from './scene.ts';
import { decimal } from './svg-numbers.ts';
import { letterSize } from './text-width.ts';

/** A line of letters wherever it stands, `x` and `y` where its baseline begins. */
export interface Line {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly face: Face;
  readonly classes: string;
  /** More attributes, written out, with a space before them. */
  readonly more?: string;
}

/**
 * A line of letters as SVG. As text it is held to the width that the drawing reckons with, whatever
 * face a machine has; as outlines it looks the same everywhere. Letters that the outlines lack
 * stay text.
 */
export function lineOfLetters(line: Line, asOutlines: boolean): string {
  const { text, x, y, size, face, classes, more = '' } = line;
  if (text.trim() === '') return '';
  const outline = asOutlines ? outlineOf(text, face) : undefined;
  const kind = `class="letters ${classes}"${more}`;
  if (outline !== undefined) {
    const scale = decimal(size / 1000, 5);
    return `<path ${kind} transform="translate(${decimal(x)} ${decimal(y)}) scale(${scale})" d="${outline}"/>`;
  }
  const width = decimal((advanceOf(text, face) * size) / 1000);
  return `<text ${kind} x="${decimal(x)}" y="${decimal(y)}" font-size="${size}" textLength="${width}" lengthAdjust="spacingAndGlyphs">${escapeXml(text)}</text>`;
}

/** A label of the drawing; who hears the drawing has been told all of it at the symbol. */
export function labelLetters(
  { text, style, at, part }: Label,
  dimmed: string,
  asOutlines: boolean,
) {
  const who = part === undefined ? '' : ` data-part="${escapeXml(part)}"`;
  return lineOfLetters(
    {
      text,
      x: at.x,
      y: at.y,
      size: letterSize[style],
      face: faceOf[style],
      classes: `${style}${dimmed}`,
      more: who,
    },
    asOutlines,
  );
}

/** Letters of a drawing that stay text in a file, since there are no outlines of them. */
export function lettersToFind({ labels }: Pick<Scene, 'labels'>): readonly string[] {
  return [...new Set(labels.flatMap(({ text, style }) => lettersMissing(text, faceOf[style])))];
}
