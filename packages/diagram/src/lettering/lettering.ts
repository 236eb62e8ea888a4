import type { LabelStyle } from '../scene.ts';
import { letters } from './letters.ts';

/** The face that each style is set in. */
export type Face = keyof typeof letters;

interface Letter {
  /** In thousandths of the size. */
  readonly advance: number;
  readonly outline: string;
}

function unpacked(packed: readonly string[]): ReadonlyMap<string, Letter> {
  return new Map(
    packed.map((entry): [string, Letter] => {
      const letter = String.fromCodePoint(entry.codePointAt(0) ?? 0);
      const rest = entry.slice(letter.length);
      const advance = Number.parseInt(rest, 10);
      return [letter, { advance, outline: rest.slice(`${advance}`.length) }];
    }),
  );
}

const cases: Readonly<Record<Face, ReadonlyMap<string, Letter>>> = {
  plain: /* @__PURE__ */ unpacked(letters.plain),
  bold: /* @__PURE__ */ unpacked(letters.bold),
  italic: /* @__PURE__ */ unpacked(letters.italic),
};

/** Letters that the face lacks are reckoned this wide: those of the Far East fill a square. */
const unknownAdvance = (letter: string): number =>
  (letter.codePointAt(0) ?? 0) > 0x2e80 ? 1000 : 800;

/** The width of a line of text, in thousandths of its size. */
export function advanceOf(text: string, face: Face): number {
  const known = cases[face];
  let sum = 0;
  for (const letter of text) sum += known.get(letter)?.advance ?? unknownAdvance(letter);
  return sum;
}

/**
 * A line of text as one SVG path in thousandths of its size, from the foot of its first letter;
 * undefined where the face lacks one of its letters.
 */
export function outlineOf(text: string, face: Face): string | undefined {
  const known = cases[face];
  let at = 0;
  let d = '';
  for (const letter of text) {
    const found = known.get(letter);
    if (!found) return undefined;
    if (found.outline !== '') d += `M${at} 0${found.outline}`;
    at += found.advance;
  }
  return d;
}

/** The letters of a text that a face has no outlines of. */
export function lettersMissing(text: string, face: Face): string[] {
  return [...text].filter((letter) => !cases[face].has(letter));
}

/** The face of a style of label. */
export const faceOf: Readonly<Record<LabelStyle, Face>> = {
  name: 'bold',
  value: 'italic',
  rail: 'plain',
  title: 'plain',
  note: 'plain',
  figure: 'plain',
  caption: 'plain',
  sign: 'bold',
  change: 'plain',
};
