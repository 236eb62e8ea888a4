import { advanceOf, type Face } from '../lettering/lettering.ts';
import { lineOfLetters } from '../svg-letters.ts';
import { decimal } from '../svg-numbers.ts';
import type { Overlay } from '../views/overlay.ts';
import type { SetFacts } from './facts.ts';
import { POINT } from './papers.ts';

/** A title block ready to be set down, its upper left corner at 0, in millimetres. */
export interface TitleBlock {
  readonly height: number;
  readonly shapes: (left: number, top: number) => readonly string[];
  /** Size of its smallest letters, in points. */
  readonly smallest: number;
}

interface BlockLine {
  readonly text: string;
  readonly size: number;
  readonly face: Face;
  readonly x: number;
  /** Where its baseline lies. */
  readonly y: number;
}

const TITLE = 13 * POINT;
const TEXT = 8 * POINT;
const SMALL = 6.5 * POINT;
const AIR = 2;

/**
 * The block under a drawing: the set's facts, what the view shows, the caution. Lists that would
 * make it higher than there is room for it are cut, and say how many more there are.
 */
export function titleBlock(
  facts: SetFacts,
  overlay: Overlay | undefined,
  legend: string,
  { width, height: most }: { readonly width: number; readonly height: number },
): TitleBlock {
  const isFull = (y: number): boolean => y + 2 * TEXT * 1.25 > most;
  const lines: BlockLine[] = [];
  const column = (
    x: number,
    room: number,
    heading: string | undefined,
    said: readonly string[],
  ): number => {
    let y = AIR;
    const add = (text: string, size: number, face: Face): void => {
      for (const each of broken(text, face, size, room)) {
        y += size * 1.25;
        lines.push({ text: each, size, face, x, y: y - size * 0.25 });
      }
    };
    if (heading !== undefined) add(heading, TEXT, 'bold');
    for (const [at, text] of said.entries()) {
      const rest = said.length - at;
      if (rest > 1 && isFull(y)) {
        add(`and ${rest} more`, TEXT, 'plain');
        break;
      }
      add(text, TEXT, 'plain');
    }
    return y;
  };
  const shares = [0.42, 0.33, 0.25].map((share) => share * (width - 4 * AIR));
  const [first = 0, second = 0, third = 0] = shares;
  let left = AIR;
  for (const each of broken(facts.title, 'plain', TITLE, first)) {
    left += TITLE * 1.2;
    lines.push({ text: each, size: TITLE, face: 'plain', x: AIR, y: left - TITLE * 0.25 });
  }
  const isView = overlay !== undefined && overlay.id !== 'whole';
  const under = [
    facts.about.join(' · '),
    ...(isView ? [overlay.title, legend] : []),
    ...(overlay?.changed ?? []).map(({ letter, at, words }) => `${letter}  ${at}: ${words}`),
  ].filter((text) => text !== '');
  const told = under.flatMap((each) => broken(each, 'plain', TEXT, first));
  for (const [at, text] of told.entries()) {
    const isCut = at < told.length - 1 && isFull(left);
    left += TEXT * 1.25;
    const shown = isCut ? '…' : text;
    lines.push({ text: shown, size: TEXT, face: 'plain', x: AIR, y: left - TEXT * 0.25 });
    if (isCut) break;
  }
  const tubes = facts.tubes.length > 0 ? facts.tubes : ['none'];
  const supplies = facts.supplies.length > 0 ? facts.supplies : ['none'];
  const bottoms = [
    left,
    column(2 * AIR + first, second, 'Tubes', tubes),
    column(3 * AIR + first + second, third, 'Supply', supplies),
  ];
  let y = Math.max(...bottoms) + AIR / 2;
  for (const text of broken(facts.caution, 'plain', SMALL, width - 2 * AIR)) {
    y += SMALL * 1.25;
    lines.push({ text, size: SMALL, face: 'plain', x: AIR, y: y - SMALL * 0.25 });
  }
  const height = y + AIR;
  return {
    height,
    smallest: SMALL / POINT,
    shapes: (dx, dy) => [
      `<rect class="block" x="${decimal(dx)}" y="${decimal(dy)}" width="${decimal(width)}" height="${decimal(height)}"/>`,
      ...lines.map(({ text, size, face, x, y: base }) =>
        lineOfLetters(
          {
            text,
            size: Math.round(size * 1000) / 1000,
            face,
            x: dx + x,
            y: dy + base,
            classes: face === 'bold' ? 'name' : 'note',
          },
          true,
        ),
      ),
    ],
  };
}

/** A title longer than this many lines is no title. */
const MOST_LINES = 12;

/** A text in lines that are no wider than there is room; a word wider than that is cut. */
function broken(text: string, face: Face, size: number, room: number): string[] {
  const widthOf = (words: string): number => (advanceOf(words, face) * size) / 1000;
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/).filter((each) => each !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (widthOf(longer) <= room) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    let width = 0;
    for (const letter of word) {
      const own = widthOf(letter);
      if (width + own > room && line !== '') {
        lines.push(line);
        [line, width] = ['', 0];
      }
      line += letter;
      width += own;
    }
    if (lines.length >= MOST_LINES) break;
  }
  if (line !== '') lines.push(line);
  return lines.slice(0, MOST_LINES);
}
