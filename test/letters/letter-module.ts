import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Glyph, readFace } from './read-font.ts';

/** The faces that drawings use, and the style that each is for. */
const faces = [
  ['plain', '400-normal'],
  ['bold', '700-normal'],
  ['italic', '400-italic'],
] as const;

const subsets = ['latin', 'latin-ext', 'greek'] as const;

const from = (first: number, last: number): number[] =>
  Array.from({ length: last - first + 1 }, (_, index) => first + index);

/** Latin letters with all their accents, Greek ones, and signs that are printed on parts. */
const wanted = [
  ...from(0x20, 0x7e),
  ...from(0xa0, 0x17f),
  ...from(0x386, 0x3ce),
  ...[0x2013, 0x2014, 0x2018, 0x2019, 0x201a, 0x201c, 0x201d, 0x201e, 0x2022, 0x2026, 0x2030],
  ...[0x2032, 0x2033, 0x20ac, 0x2122, 0x2126, 0x2190, 0x2191, 0x2192, 0x2193, 0x2212, 0x2248],
  ...[0x2260, 0x2264, 0x2265, 0x215b, 0x215c, 0x215d, 0x215e],
].filter((codePoint) => codePoint !== 0xad);

/**
 * The text of `packages/diagram/src/lettering/letters.ts`.
 *
 * @param typeface the folder of the package that holds the typeface
 */
export function letterModule(typeface: string): string {
  const lines = faces.flatMap(([name, file]) => {
    const read = subsets.map((subset) =>
      readFace(readFileSync(join(typeface, `files/arimo-${subset}-${file}.woff`))),
    );
    return [
      `  ${name}: [`,
      ...wanted.flatMap((codePoint) => {
        // Bold names and slanted values are short and plain; whole sentences are upright.
        if (name !== 'plain' && codePoint > 0xff && codePoint < 0x386) return [];
        for (const face of read) {
          const glyph = face.glyphOf(codePoint);
          if (!glyph) continue;
          const scale = 1000 / face.unitsPerEm;
          const letter = String.fromCodePoint(codePoint);
          const entry = `${letter}${Math.round(glyph.advance * scale)}${outline(glyph, scale)}`;
          return [`    ${quoted(entry)},`];
        }
        return [];
      }),
      '  ],',
    ];
  });
  return `// Made by \`npm run letters\` from the typeface Arimo, version 1.341 as packed by @fontsource/arimo.
// Copyright 2020 The Arimo Project Authors. Licensed under the SIL Open Font License 1.1, which is
// in OFL.txt beside this file and holds for this file alone.

/**
 * The letters of each face: the letter, how far it leads on, and its outline as an SVG path that
 * begins at the foot of the letter. In thousandths of the size, y downwards.
 */
export const letters = {
${lines.join('\n')}
} as const satisfies Readonly<Record<string, readonly string[]>>;
`;
}

function quoted(text: string): string {
  const quote = text.includes("'") ? '"' : "'";
  return `${quote}${text.replaceAll('\\', '\\\\')}${quote}`;
}

/** TrueType contours as relative quadratic curves, whole numbers throughout. */
function outline({ contours }: Glyph, scale: number): string {
  let [penX, penY] = [0, 0];
  let d = '';
  const move = (command: string, ...points: readonly (readonly [number, number])[]): void => {
    d += command;
    for (const [index, [x, y]] of points.entries()) {
      for (const value of [x - penX, y - penY])
        d += `${value < 0 || d.endsWith(command) ? '' : ' '}${value}`;
      if (index === points.length - 1) [penX, penY] = [x, y];
    }
  };
  for (const contour of contours) {
    const points = contour.map(
      ({ x, y, on }) => [Math.round(x * scale), Math.round(-y * scale), on] as const,
    );
    const first = points.findIndex(([, , on]) => on);
    // A contour without a point on the curve begins half way between two that are not.
    const turned = first < 0 ? points : [...points.slice(first), ...points.slice(0, first)];
    const [a, z] = [turned[0], turned.at(-1)];
    if (!a || !z) continue;
    const start: readonly [number, number] =
      first < 0 ? [Math.round((a[0] + z[0]) / 2), Math.round((a[1] + z[1]) / 2)] : [a[0], a[1]];
    move('m', start);
    let control: readonly [number, number] | undefined;
    const to = (x: number, y: number): void => {
      if (control) move('q', control, [x, y]);
      else if (y === penY && x !== penX) d += `h${x - penX}`;
      else if (x === penX && y !== penY) d += `v${y - penY}`;
      else if (x !== penX || y !== penY) move('l', [x, y]);
      control = undefined;
      [penX, penY] = [x, y];
    };
    for (const [x, y, on] of first < 0 ? turned : turned.slice(1)) {
      if (on) to(x, y);
      else {
        if (control) to(Math.round((control[0] + x) / 2), Math.round((control[1] + y) / 2));
        control = [x, y];
      }
    }
    if (control) to(...start);
    d += 'z';
    [penX, penY] = start;
  }
  return d;
}
