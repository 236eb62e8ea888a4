/**
 * First and last code points of the ranges that take two columns of a terminal: the wide and
 * full-width characters of Unicode Standard Annex 11, by their large blocks (from memory).
 */
const wide: readonly (readonly [number, number])[] = [
  [0x1100, 0x115f],
  [0x2e80, 0x303e],
  [0x3041, 0x33ff],
  [0x3400, 0x4dbf],
  [0x4e00, 0xa4cf],
  [0xa960, 0xa97f],
  [0xac00, 0xd7a3],
  [0xf900, 0xfaff],
  [0xfe30, 0xfe6f],
  [0xff00, 0xff60],
  [0xffe0, 0xffe6],
  [0x1f300, 0x1f64f],
  [0x1f680, 0x1f6ff],
  [0x1f900, 0x1f9ff],
  [0x20000, 0x3fffd],
];

const without = /^\p{M}$/u;

/** Columns that a text takes on a terminal. */
export function displayWidth(text: string): number {
  let width = 0;
  for (const character of text) {
    const code = character.codePointAt(0) ?? 0;
    if (code < 0x300) width += 1;
    else if (without.test(character)) width += 0;
    else width += wide.some(([first, last]) => code >= first && code <= last) ? 2 : 1;
  }
  return width;
}
