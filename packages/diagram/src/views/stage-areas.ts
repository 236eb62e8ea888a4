import type { Circuit } from '@setwright/circuit';
import { boxAround, overlap } from '../box.ts';
import { naturally } from '../natural-order.ts';
import type { Box, Label, Point, Scene } from '../scene.ts';
import { letterSize, textWidth } from '../text-width.ts';
import { areaShape } from './area-shape.ts';
import { gap, type Paper } from './free-place.ts';
import { lettered } from './lettered.ts';

/** A stage as it is to be shaded: its name, its title and what belongs to it. */
export interface StageOnPaper {
  readonly name: string;
  readonly title: string | undefined;
  readonly parts: ReadonlySet<string>;
}

/** A shaded piece of the drawing. */
export interface StageArea {
  readonly stage: string;
  /** Closed lines, each without its first point again at its end. */
  readonly outlines: readonly (readonly Point[])[];
}

/** The stages of a set with the parts that stand in them, windings by themselves. */
export function stagesOf(circuit: Circuit): readonly StageOnPaper[] {
  const stageOf = (name: string): string | undefined => {
    const part = circuit.partNamed.get(name);
    return part?.stage ?? circuit.partNamed.get(part?.owner ?? '')?.stage;
  };
  return [...circuit.stages]
    .sort((a, b) => naturally(a.name, b.name))
    .map(({ name, title }) => ({
      name,
      title,
      parts: new Set(
        circuit.parts.map((part) => part.name).filter((each) => stageOf(each) === name),
      ),
    }));
}

/** White paper between two areas. */
const BETWEEN = 4;
/** Shaded air around a part. */
const AIR = 12;
/** Above a tube there is more, for the volts of its plate. */
const ABOVE_TUBE = 20;
/**
 * Parts of a stage farther apart than this are shaded each by itself: what stands in the strip of
 * the filament circuit does not belong to the row above it.
 */
const APART = { x: 100, y: 75 };

/** A part and its words are one where they are no farther apart than this. */
const CLOSE = 50;

/** Filaments and terminals stand in lines of their own, away from their stages. */
const elsewhere: ReadonlySet<string> = new Set(['filament', 'terminal', 'name']);

/** An area with what its title needs. */
interface TitledArea extends StageArea {
  readonly bounds: Box;
  readonly isWithin: (box: Box) => boolean;
  /** What may be written in it, the longest first. */
  readonly words: readonly string[];
  readonly isMain: boolean;
}

/** The areas of stages; their edges are noted on the paper. */
export function stageAreas(
  scene: Scene,
  stages: readonly StageOnPaper[],
  paper: Paper,
): TitledArea[] {
  const stageOf = new Map(stages.flatMap(({ name, parts }) => [...parts].map((p) => [p, name])));
  const things = thingsOf(scene, stageOf);
  const pieces = stages.flatMap(({ name }) =>
    apart(things.filter(({ stage }) => stage === name)).map((group) => ({
      stage: name,
      group,
      bounds: withAir(group),
    })),
  );
  keepApart(pieces);
  for (const piece of pieces) drawIn(piece, things);
  // Where two cannot be parted by a line, the smaller has the ground that both could have.
  const size = ({ bounds: { left, top, right, bottom } }: Piece): number =>
    (right - left) * (bottom - top);
  const bySize = [...pieces].sort((a, b) => size(a) - size(b));
  const areas: TitledArea[] = [];
  for (const { name, title } of stages) {
    // The largest piece carries the title, the others the short name.
    const own = pieces
      .filter(({ stage }) => stage === name)
      .sort((a, b) => b.group.length - a.group.length);
    for (const [index, piece] of own.entries()) {
      const shape = areaShape({
        bounds: piece.bounds,
        own: piece.group.flatMap(({ pieces: own }) => own),
        ownParts: piece.group.map(({ box }) => box),
        foreign: things.filter((thing) => thing.stage !== name).map(({ box }) => box),
        rivals: bySize
          .slice(0, bySize.indexOf(piece))
          .filter(({ stage }) => stage !== name)
          .map(({ bounds }) => bounds),
      });
      areas.push({
        stage: name,
        outlines: shape.outlines,
        bounds: piece.bounds,
        isWithin: shape.isWithin,
        words: index === 0 && title !== undefined ? [title, name] : [name],
        isMain: index === 0,
      });
    }
  }
  for (const { outlines } of areas)
    for (const outline of outlines)
      for (const [index, b] of outline.entries())
        paper.edge(boxAlong(outline.at(index - 1) ?? b, b));
  return areas;
}

/**
 * Titles of areas where there is room; a stage that has none is told. They keep off the places
 * that others would choose, as far as there is room for the whole title elsewhere.
 */
export function addTitles(
  areas: readonly TitledArea[],
  paper: Paper,
  labels: Label[],
  notes: string[],
  others: () => void,
): void {
  const found = new Map<TitledArea, Label>();
  const titled = (area: TitledArea, words: readonly string[]): void => {
    const label = captionIn(area.bounds, area.isWithin, words, paper);
    if (!label) return;
    paper.take(label.box);
    found.set(area, label);
  };
  paper.trying(() => {
    others();
    for (const area of areas) titled(area, area.words.slice(0, 1));
  });
  for (const { box } of found.values()) paper.take(box);
  for (const area of areas) if (!found.has(area)) titled(area, area.words);
  for (const area of areas) {
    const label = found.get(area);
    if (label) labels.push(label);
    else if (area.isMain) notes.push(`There is no room for the title of stage ${area.stage}.`);
  }
}

function boxAlong(a: Point, b: Point): Box {
  return {
    left: Math.min(a.x, b.x) - 1,
    top: Math.min(a.y, b.y) - 1,
    right: Math.max(a.x, b.x) + 1,
    bottom: Math.max(a.y, b.y) + 1,
  };
}

/** A piece of a stage: parts that lie near one another, and the box that is shaded for them. */
interface Piece {
  readonly stage: string;
  readonly group: readonly Thing[];
  bounds: Box;
}

/** A part, or as much of it as lies close together, with its words. */
interface Thing {
  readonly stage: string | undefined;
  readonly isTube: boolean;
  readonly box: Box;
  /** The symbols and words that the box is drawn about. */
  readonly pieces: readonly Box[];
}

/** Every part with its words and the stage it belongs to. */
function thingsOf(scene: Scene, stageOf: ReadonlyMap<string, string>): Thing[] {
  const rootOf = (part: string): string => part.split('.')[0] ?? part;
  const symbols = scene.symbols.filter(({ symbol }) => !elsewhere.has(symbol));
  const here = new Set(symbols.map(({ part }) => rootOf(part)));
  const near = (box: Box, part: string): boolean =>
    symbols.some(
      (each) => (each.part === part || each.part.startsWith(`${part}.`)) && gap(each.box, box) < 40,
    );
  const labels = scene.labels.flatMap(({ part, box }) =>
    part !== undefined && here.has(rootOf(part)) && near(box, part)
      ? [{ part, box, isTube: false }]
      : [],
  );
  return withWords(
    [
      ...symbols.map((each) => ({ ...each, isTube: each.symbol.startsWith('tube') })),
      ...labels,
    ].map(({ part, box, isTube }) => ({
      stage: stageOf.get(part),
      root: rootOf(part),
      isTube,
      box,
      pieces: [box],
    })),
  );
}

/** What lies close together of one part as one, where no other part is in between. */
function withWords(things: readonly (Thing & { readonly root: string })[]): Thing[] {
  const made = [...things];
  for (let index = 0; index < made.length; index++) {
    const one = made[index];
    if (!one) continue;
    const other = made.findIndex((each, at) => {
      if (at <= index || each.root !== one.root || each.stage !== one.stage) return false;
      if (gap(each.box, one.box) > CLOSE) return false;
      const both = boundsOf([each, one]);
      return made.every(({ root, box }) => root === one.root || !overlap(box, both));
    });
    const found = made[other];
    if (!found) continue;
    made[index] = {
      ...one,
      isTube: one.isTube || found.isTube,
      box: boundsOf([one, found]),
      pieces: [...one.pieces, ...found.pieces],
    };
    made.splice(other, 1);
    index--;
  }
  return made;
}

const isNear = (a: Box, b: Box): boolean =>
  Math.max(a.left - b.right, b.left - a.right) < APART.x &&
  Math.max(a.top - b.bottom, b.top - a.bottom) < APART.y;

/** Things in groups that lie near one another. */
function apart(things: readonly Thing[]): Thing[][] {
  const groups: Thing[][] = [];
  for (const thing of things) {
    const near = groups.filter((group) => group.some(({ box }) => isNear(thing.box, box)));
    const rest = groups.filter((group) => !near.includes(group));
    groups.splice(0, groups.length, ...rest, [...near.flat(), thing]);
  }
  return groups;
}

const boundsOf = (things: readonly { readonly box: Box }[]): Box =>
  boxAround(things.map(({ box }) => box));

function withAir(things: readonly Thing[]): Box {
  const { left, top, right, bottom } = boundsOf(things);
  const tops = things.map(({ box, isTube }) => box.top - (isTube ? ABOVE_TUBE : AIR));
  return {
    left: left - AIR,
    top: Math.min(top - AIR, ...tops),
    right: right + AIR,
    bottom: bottom + AIR,
  };
}

/** Where two stages stand side by side or one below the other, a straight line parts them. */
function keepApart(pieces: readonly Piece[]): void {
  for (const [index, one] of pieces.entries()) {
    for (const other of pieces.slice(index + 1)) {
      if (one.stage === other.stage || gap(one.bounds, other.bounds) >= BETWEEN) continue;
      for (const [a, b] of [
        [one, other],
        [other, one],
      ] as const) {
        const [first, second] = [boundsOf(a.group), boundsOf(b.group)];
        if (first.right <= second.left) {
          const line = (first.right + second.left) / 2;
          a.bounds = { ...a.bounds, right: Math.min(a.bounds.right, line - BETWEEN / 2) };
          b.bounds = { ...b.bounds, left: Math.max(b.bounds.left, line + BETWEEN / 2) };
        } else if (first.bottom <= second.top) {
          const line = (first.bottom + second.top) / 2;
          a.bounds = { ...a.bounds, bottom: Math.min(a.bounds.bottom, line - BETWEEN / 2) };
          b.bounds = { ...b.bounds, top: Math.max(b.bounds.top, line + BETWEEN / 2) };
        }
      }
    }
  }
}

/** The air about a piece gives way to strangers that stand beside it. */
function drawIn(piece: Piece, things: readonly Thing[]): void {
  const core = boundsOf(piece.group);
  for (const { stage, box } of things) {
    if (stage === piece.stage || !overlap(box, piece.bounds) || overlap(box, core)) continue;
    const { left, top, right, bottom } = piece.bounds;
    const pull = (edge: Partial<Box>): void => {
      piece.bounds = { ...piece.bounds, ...edge };
    };
    // With a little white between, as far as there is room.
    if (box.right <= core.left) pull({ left: Math.max(left, Math.min(box.right + 3, core.left)) });
    else if (box.left >= core.right)
      pull({ right: Math.min(right, Math.max(box.left - 3, core.right)) });
    else if (box.bottom <= core.top)
      pull({ top: Math.max(top, Math.min(box.bottom + 3, core.top)) });
    else pull({ bottom: Math.min(bottom, Math.max(box.top - 3, core.bottom)) });
  }
}

/**
 * A place for a stage's title: along the upper or lower edge within, else just outside. Rather
 * close to other words than the short name.
 */
function captionIn(
  { left, top, right, bottom }: Box,
  isWithin: (box: Box) => boolean,
  words: readonly string[],
  paper: Paper,
): Label | undefined {
  const height = letterSize.caption;
  const inner: number[] = [];
  for (let y = top + 4; y + height < bottom - 2; y += 8) inner.push(y);
  if (bottom - top > height + 8) inner.push(bottom - height - 2);
  // From the upper edge down and the lower edge up, by turns.
  inner.sort((a, b) => Math.min(a - top, bottom - a) - Math.min(b - top, bottom - b) || a - b);
  const outer = [top - height - 3, bottom + 3];
  const heights = [...inner.slice(0, 4), ...outer, ...inner.slice(4)];
  for (const text of words) {
    const width = textWidth(text, 'caption');
    // Not right above a name or below a value, where there is another place.
    for (const [air, between] of [
      [5, 2],
      [5, 0],
      [1, 0],
    ] as const) {
      for (const y of heights) {
        for (let x = left + 6; x + width <= right - 4; x += 5) {
          const box = { left: x, top: y, right: x + width, bottom: y + height };
          const airy = {
            left: x - air,
            top: y - between,
            right: x + width + air,
            bottom: y + height + between,
          };
          if ((outer.includes(y) || isWithin(box)) && paper.isFree(airy))
            return lettered(text, 'caption', x, y);
        }
      }
    }
  }
  return undefined;
}
