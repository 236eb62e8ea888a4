import { boxAbout, grown, isInside, overlap } from '../box.ts';
import type { Box, Label, PlacedSymbol, Point, Scene } from '../scene.ts';
import { around, gap, type Paper, placeNear } from './free-place.ts';
import { leadsOf } from './leads.ts';
import { lettered, sizeOf } from './lettered.ts';
import type { MarkedPart, MarkKind } from './overlay.ts';
import type { Roads } from './roads.ts';

/** The sign of each kind, which tells them apart without colour, as their lines do. */
export const markSigns: Readonly<Record<MarkKind, string>> = {
  added: '+',
  removed: '−',
  changed: '±',
};

/** What each sign means. */
export const markWords: Readonly<Record<MarkKind, string>> = {
  added: '+ new, framed',
  removed: '− gone, dashed',
  changed: '± changed or joined otherwise',
};

/** A mark where it stands: a frame about a symbol, and a sign in a ring. */
export interface Mark {
  readonly kind: MarkKind;
  readonly part: string;
  /** Frames about the symbols of the part. */
  readonly frames: readonly Box[];
  /** The middle of its sign; undefined where there is no room. */
  readonly at: Point | undefined;
  readonly words: string;
}

/** Marks with what belongs to them. */
export interface Marks {
  readonly marks: readonly Mark[];
  /** Symbols of parts that are gone. */
  readonly gone: ReadonlySet<PlacedSymbol>;
  /** Wires that lead to what is new or gone. */
  readonly runs: readonly { readonly kind: MarkKind; readonly points: readonly Point[] }[];
}

export const noMarks: Marks = { marks: [], gone: new Set(), runs: [] };

/** Air between a symbol and its frame. */
const AIR = 5;
/** Half the height of a sign's ring. */
export const RING = 8;
const RING_ROOM = { width: 2 * RING + 2, height: 2 * RING + 2 };

/**
 * Sets a mark at every part that two states of a set do not share: a frame about its symbols, a
 * sign beside it, a few words where there is room. The same scene and parts give the same.
 */
export function marksOn(
  scene: Scene,
  roads: Roads,
  marked: readonly MarkedPart[],
  paper: Paper,
  labels: Label[],
  notes: string[],
): Marks {
  const gone = new Set<PlacedSymbol>();
  const runs: { kind: MarkKind; points: readonly Point[] }[] = [];
  const marks: Mark[] = [];
  for (const { at: part, kind, words } of marked) {
    const symbols = scene.symbols.filter(
      (each) =>
        each.part === part ||
        each.part.startsWith(`${part}.`) ||
        (each.symbol === 'terminal' && each.pins.some(({ end }) => end === part)),
    );
    const shown = symbols.filter(({ symbol }) => symbol !== 'name');
    if (shown.length === 0) {
      notes.push(
        `${markSigns[kind]} ${part}${words === '' ? '' : `, ${words},`} is not on the drawing.`,
      );
      continue;
    }
    if (kind === 'removed') for (const each of shown) gone.add(each);
    if (kind !== 'changed')
      for (const points of leadsOf(scene, roads, shown).runs) runs.push({ kind, points });
    const frames = together(shown.map(({ box }) => box)).map((box) =>
      frameAbout(box, part, shown, scene),
    );
    const [first] = frames;
    const place = first && placeNear(paper, first, RING_ROOM, { farthest: 60 });
    const at = place && {
      x: (place.left + place.right) / 2,
      y: (place.top + place.bottom) / 2,
    };
    if (place) paper.take(place);
    marks.push({ kind, part, frames, at, words });
    if (!place || words === '') continue;
    const beside = placeNear(paper, place, sizeOf(words, 'change'), { farthest: 24 });
    if (!beside) {
      notes.push(`The words at ${part} have no room on the drawing: ${words}.`);
      continue;
    }
    paper.take(beside);
    labels.push(lettered(words, 'change', beside.left, beside.top, part));
  }
  return { marks, gone, runs };
}

/** Pieces of a part that stand this near one another, as the studs of a selector, share a frame. */
const NEAR = 40;

/** Boxes with those that stand near one another made one. */
function together(boxes: readonly Box[]): Box[] {
  const groups: Box[] = [];
  for (const box of boxes) {
    let whole = box;
    for (let index = groups.length - 1; index >= 0; index -= 1) {
      const other = groups[index];
      if (!other || gap(whole, other) > NEAR) continue;
      whole = boxAbout(whole, other);
      groups.splice(index, 1);
    }
    groups.push(whole);
  }
  return groups;
}

/** The frame about a part, with as many of its words in it as may be: it cuts through none. */
function frameAbout(box: Box, part: string, own: readonly PlacedSymbol[], scene: Scene): Box {
  const words = scene.labels.filter((label) => label.part === part && gap(label.box, box) <= NEAR);
  for (let count = words.length; count > 0; count--) {
    const frame = framed(withWords(box, words.slice(0, count), own, scene), own, scene);
    const isCut = (each: Box): boolean => overlap(each, frame) && !isInside(each, frame);
    if (!scene.labels.some((label) => isCut(label.box))) return frame;
  }
  return framed(box, own, scene);
}

/** A part's box with words of its own in it, as far as nothing of another part comes into it. */
function withWords(
  box: Box,
  words: readonly Label[],
  own: readonly PlacedSymbol[],
  { labels, symbols, marks }: Scene,
): Box {
  let whole = box;
  for (const label of words) {
    const both = boxAbout(whole, label.box);
    const [before, after] = [grown(whole, 2), grown(both, 2)];
    const comesIn = (other: Box): boolean => overlap(other, after) && !overlap(other, before);
    const isTaken =
      symbols.some((each) => !own.includes(each) && comesIn(strokesOf(each))) ||
      labels.some((each) => each.part !== label.part && comesIn(each.box)) ||
      marks.some((each) => each.shape !== 'none' && comesIn(each.box));
    if (!isTaken) whole = both;
  }
  return whole;
}

/** As much of a symbol's box as its strokes fill: seldom its corners. */
const strokesOf = ({ box }: PlacedSymbol): Box => grown(box, -4);

const upAndDown = ['top', 'bottom'] as const;
const acrossIt = ['left', 'right'] as const;

/**
 * A frame about a symbol, drawn in on each side on which letters, other symbols or dots of sense
 * stand near. Of what stands off a corner one side alone need be drawn in: the one that then has
 * the more air.
 */
function framed(box: Box, own: readonly PlacedSymbol[], scene: Scene): Box {
  const others = [
    ...scene.labels.map((label) => label.box),
    ...scene.symbols.filter((each) => !own.includes(each)).map(strokesOf),
    ...scene.ornaments.flatMap(({ kind, points: [at] }) =>
      kind === 'sense' && at ? [around(at, 2)] : [],
    ),
  ].filter((other) => !overlap(box, other));
  const [first, second] = [
    drawnIn(box, others, [...acrossIt, ...upAndDown]),
    drawnIn(box, others, [...upAndDown, ...acrossIt]),
  ];
  return second.least > first.least ? second.frame : first.frame;
}

/** A frame whose sides are drawn one after the other, with the least air that one of them has. */
function drawnIn(
  box: Box,
  others: readonly Box[],
  order: readonly (keyof Box)[],
): { readonly frame: Box; readonly least: number } {
  const frame: { -readonly [side in keyof Box]: number } = { ...box };
  let least = AIR;
  for (const side of order) {
    const outwards = side === 'left' || side === 'top' ? -1 : 1;
    const air =
      [AIR, 3, 1.5].find((by) => {
        // With the sides that are drawn already: letters may stand off a corner.
        const drawn = { ...frame, [side]: box[side] + outwards * (by + 1) };
        return others.every((other) => !overlap(drawn, other));
      }) ?? 0;
    frame[side] = box[side] + outwards * air;
    least = Math.min(least, air);
  }
  return { frame, least };
}
