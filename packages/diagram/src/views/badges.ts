import type { Box, Label, Point, Scene } from '../scene.ts';
import { letterSize, textWidth } from '../text-width.ts';
import { type Paper, placeNear } from './free-place.ts';
import { type Leader, placeWithLeader } from './leaders.ts';
import { lettered, sizeOf } from './lettered.ts';
import type { Overlay } from './overlay.ts';
import { overWire, spotsOf } from './spots.ts';

/** A cross over a failed part, or a letter at a changed one. */
export interface Badge {
  readonly kind: 'failed' | 'changed';
  readonly at: Point;
  readonly box: Box;
  readonly letter: string;
  readonly words: string;
}

/** Crosses and letters at their parts, with the words beside them where there is room. */
export function badgesOf(
  scene: Scene,
  overlay: Overlay | undefined,
  paper: Paper,
  labels: Label[],
  notes: string[],
  leaders: Leader[],
): Badge[] {
  const badges: Badge[] = [];
  const listed: ListLine[] = [];
  for (const { at, words } of overlay?.failed ?? []) {
    const spots = spotsOf(scene, at);
    if (spots.length === 0) notes.push(`${at}, ${words}, is not on the drawing.`);
    for (const [index, box] of spots.entries()) {
      const middle = { x: (box.left + box.right) / 2, y: (box.top + box.bottom) / 2 };
      badges.push({ kind: 'failed', at: middle, box, letter: '', words });
      if (index > 0) continue;
      const width = textWidth(words, 'sign');
      const place = placeNear(paper, box, { width, height: letterSize.sign });
      if (!place) continue;
      paper.take(place);
      labels.push(lettered(words, 'sign', place.left, place.top, at));
    }
  }
  for (const { at, letter, words } of overlay?.changed ?? []) {
    const [box] = spotsOf(scene, at);
    if (!box) {
      notes.push(`${letter} at ${at}, ${words}, is not on the drawing.`);
      continue;
    }
    const more = Math.max(0, letter.length - 1) * 6;
    const place =
      overWire(scene, at, { width: 16 + more, height: 16 }, paper) ??
      letterPlace(paper, box, { width: 18 + more, height: 18 }, at, leaders);
    if (!place) {
      notes.push(`${letter} at ${at}, ${words}: there is no room for the letter.`);
      continue;
    }
    paper.take(place);
    const middle = { x: (place.left + place.right) / 2, y: (place.top + place.bottom) / 2 };
    badges.push({ kind: 'changed', at: middle, box, letter, words });
    const said = withMinus(words);
    const beside = placeNear(paper, place, sizeOf(said, 'change'), { farthest: 24 });
    if (!beside) {
      listed.push({ letter, at, words });
      continue;
    }
    paper.take(beside);
    labels.push(lettered(said, 'change', beside.left, beside.top, at));
  }
  // On a sheet the title block lists what changes.
  const lists = overlay?.title === '' ? [] : listPlaces(scene, listed, paper);
  labels.push(...lists.flatMap((list) => list.labels));
  const told = new Set(lists.flatMap((list) => list.lines));
  for (const line of listed)
    if (!told.has(line)) notes.push(`${line.letter} at ${line.at}: ${line.words}.`);
  return badges;
}

/** Farther off than this a letter would be taken for that of what stands beside it. */
const BESIDE = 20;

/** A place for a letter: beside its spot, else with a leader to it, else as near as may be. */
function letterPlace(
  paper: Paper,
  spot: Box,
  size: { readonly width: number; readonly height: number },
  at: string,
  leaders: Leader[],
): Box | undefined {
  const beside = placeNear(paper, spot, size, { farthest: BESIDE });
  if (beside) return beside;
  const led = placeWithLeader(paper, spot, size);
  if (!led) return placeNear(paper, spot, size, { farthest: 80 });
  leaders.push({ at, from: led.from, to: led.to, isChange: true });
  return led.box;
}

/** A hyphen before a number is a minus sign. */
const withMinus = (words: string): string => words.replaceAll(/(^|\s)-(?=[\d.])/g, '$1−');

/** From one line of a list to the next. */
const LIST_LINE = 16;
/** White paper about a list, so that it is not taken for words at a part. */
const LIST_AIR = 12;

/** A letter that has no words beside it, and what it stands for. */
interface ListLine {
  readonly letter: string;
  readonly at: string;
  readonly words: string;
}

interface List {
  readonly lines: readonly ListLine[];
  readonly labels: readonly Label[];
}

/** Lines one below the other where paper is free: all together, else in as few lists as can be. */
function listPlaces(scene: Scene, lines: readonly ListLine[], paper: Paper): List[] {
  if (lines.length === 0) return [];
  const whole = listPlace(scene, lines, paper);
  if (whole) return [whole];
  if (lines.length === 1) return [];
  const half = Math.ceil(lines.length / 2);
  return [lines.slice(0, half), lines.slice(half)].flatMap((part) =>
    listPlaces(scene, part, paper),
  );
}

function listPlace(
  { width, height }: Scene,
  lines: readonly ListLine[],
  paper: Paper,
): List | undefined {
  const texts = lines.map(({ letter, at, words }) => `${letter}  ${at}: ${withMinus(words)}`);
  const wide = Math.max(...texts.map((text) => textWidth(text, 'change')));
  const tall = texts.length * LIST_LINE;
  for (let top = 60; top + tall < height - LIST_AIR; top += 10) {
    for (let left = width - LIST_AIR - wide; left > LIST_AIR; left -= 10) {
      const box = { left, top, right: left + wide, bottom: top + tall };
      const airy = {
        left: left - LIST_AIR,
        top: top - LIST_AIR,
        right: Math.min(box.right + LIST_AIR, width - 4),
        bottom: box.bottom + LIST_AIR,
      };
      if (!paper.isFree(airy)) continue;
      paper.take(box);
      const labels = texts.map((text, index) =>
        lettered(text, 'change', left, top + index * LIST_LINE),
      );
      return { lines, labels };
    }
  }
  return undefined;
}
