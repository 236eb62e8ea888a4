import { type Cell, cellBox } from './cell.ts';
import { type ChainLink, chainNets } from './chains.ts';
import { drawTogether } from './compact/together.ts';
import type { Box } from './scene.ts';
import { letterSize } from './text-width.ts';

/** A row as it is laid out. */
export interface RowPlan extends RowSpan {
  readonly cells: readonly Cell[];
}

/** A place between two cells where the drawing may go on in a new row. */
interface Break {
  /** Index of the first cell of the new row. */
  readonly at: number;
  /** The junction that crosses; none where a jack alone leads on. */
  readonly net: number | undefined;
}

/** A row: its cells by their indices, and the junctions by which the signal comes and goes. */
export interface RowSpan {
  readonly from: number;
  readonly to: number;
  readonly enters: number | undefined;
  readonly leaves: number | undefined;
}

/** Printable A4 paper in millimetres, long side first. */
const paper = [277, 190] as const;
const mostRows = 5;
/** More places to break than this are not weighed. */
const mostBreaks = 16;

/** No more than so many, evenly chosen. */
function thinned(breaks: readonly Break[]): readonly Break[] {
  const each = breaks.length / mostBreaks;
  return each <= 1
    ? breaks
    : breaks.filter((_, index) => Math.floor((index + 1) / each) > Math.floor(index / each));
}

/** What stands around the rows, in drawing units. */
export interface Surroundings {
  /** Parts between rails, which stand wherever there is room. */
  readonly columns: readonly Cell[];
  /** Width and height of the filament circuit, which lies below rows of a width. */
  readonly strip: (widest: number) => { readonly width: number; readonly height: number };
  /** How many lines run above the last row, for supplies. */
  readonly supplies: number;
  /** Width of the terminals at the right of the last row. */
  readonly block: number;
}

/**
 * Breaks only where exactly one signal junction crosses, at the entry to a coil, a transformer or
 * what couples a plate to the next grid.
 */
function possibleBreaks(cells: readonly Cell[]): Break[] {
  const span = new Map<number, { first: number; last: number }>();
  for (const [index, { ports }] of cells.entries()) {
    for (const { net } of ports) {
      const known = span.get(net);
      span.set(net, { first: known?.first ?? index, last: index });
    }
  }
  const breaks: Break[] = [];
  for (const [at, cell] of cells.entries()) {
    if (at === 0 || (cell.kind !== 'coil' && cell.kind !== 'link')) continue;
    const crossing = [...span].filter(([, { first, last }]) => first < at && last >= at);
    if (crossing.length === 0 && cell.kind === 'coil') breaks.push({ at, net: undefined });
    const [only] = crossing;
    if (crossing.length !== 1 || !only || only[1].last !== at) continue;
    const entry = cell.ports.filter(({ net }) => net === only[0]);
    const [way] = entry;
    if (entry.length !== 1 || way?.side !== 'west') continue;
    // What couples in series begins a row only behind a plate.
    if (cell.kind !== 'coil' && way.from.y >= 0) continue;
    // What comes from beyond a tube is no way on, but one back: an oscillator's to its mixer.
    const before = cells.slice(0, at);
    const onIt = before.findLastIndex(({ ports }) => ports.some(({ net }) => net === only[0]));
    if (before.slice(onIt + 1).some(({ kind }) => kind === 'tube')) continue;
    breaks.push({ at, net: only[0] });
  }
  return breaks;
}

/** Letters of 8 points are large enough; beyond that a larger scale is worth little. */
function usefulness(scale: number): number {
  const points = (letterSize.value * scale * 72) / 25.4;
  return Math.min(points, 8) + Math.max(0, points - 8) / 10;
}

/**
 * What a drawing of a size is worth on a page: by its lettering first; a further row must be worth
 * it, paper lies broad where it may, and rows of one length look better than a long and a short.
 *
 * @param widths of the rows, in the drawing's units like its size
 */
export function worthOnPage(width: number, height: number, widths: readonly number[]): number {
  const [long, short] = paper;
  const broad = usefulness(Math.min(long / width, short / height));
  const tall = usefulness(Math.min(short / width, long / height)) * 0.95;
  const mean = widths.reduce((sum, each) => sum + each, 0) / Math.max(1, widths.length);
  return Math.max(broad, tall) * 0.97 ** (widths.length - 1) * (0.75 + (0.25 * mean) / width);
}

/** What a row would take up, and whether there is a tube in it. */
interface Row {
  readonly width: number;
  readonly height: number;
  readonly amplifies: boolean;
}

/** Choices worth less than this beside the best are not drawn to compare them. */
const nearly = 0.95;

/**
 * The ways to split the signal path into rows that promise the largest letters on a page, the best
 * of each number of rows, as far as one may tell before anything is laid out; the most promising
 * first.
 *
 * @param rows this number of rows and no other
 */
export function breakRows(
  cells: readonly Cell[],
  around: Surroundings,
  rows?: number,
): RowSpan[][] {
  const breaks = thinned(possibleBreaks(cells));
  const boxes = roughly(cells);
  const beside = around.columns.map((cell) => cellBox(cell).right - cellBox(cell).left);
  const best = new Map<number, { worth: number; chosen: readonly Break[] }>();
  // The same rows are weighed beside many others.
  const known = new Map<number, Row>();
  const rowOf = (from: number, to: number): Row => {
    const key = from * (cells.length + 1) + to;
    const row = known.get(key) ?? {
      ...sizeOf(boxes.slice(from, to)),
      amplifies: cells.slice(from, to).some(({ kind }) => kind === 'tube'),
    };
    known.set(key, row);
    return row;
  };
  const consider = (chosen: readonly Break[]): void => {
    const edges = [0, ...chosen.map(({ at }) => at), cells.length];
    const sizes = edges.slice(1).map((to, index) => rowOf(edges[index] ?? 0, to));
    if (chosen.length > 0 && !sizes.every(({ amplifies }) => amplifies)) return;
    const widths = sizes.map(({ width }) => width);
    const last = widths.length - 1;
    // Below a single row every filament stands under its tube.
    const strip = around.strip(chosen.length > 0 ? Math.max(...widths) : Number.POSITIVE_INFINITY);
    const bands = [
      ...widths.map((width, index) => width + (index === last ? around.block : 30)),
      strip.width + around.block,
    ];
    for (const width of beside) {
      // Each stands where the drawing grows least.
      const narrowest = bands.indexOf(Math.min(...bands));
      bands[narrowest] = (bands[narrowest] ?? 0) + width;
    }
    const across = Math.max(...bands) + 60;
    const down =
      sizes.reduce((sum, { height }) => sum + height + 50, 0) +
      around.supplies * 20 +
      strip.height +
      110;
    const worth = worthOnPage(across, down, bands.slice(0, -1));
    const before = best.get(chosen.length);
    if (!before || worth > before.worth * 1.001) best.set(chosen.length, { worth, chosen });
  };
  const extend = (chosen: readonly Break[], from: number): void => {
    consider(chosen);
    if (chosen.length === mostRows - 1) return;
    for (let index = from; index < breaks.length; index++) {
      const next = breaks[index];
      if (next) extend([...chosen, next], index + 1);
    }
  };
  extend([], 0);
  const asked = rows === undefined ? undefined : best.get(rows - 1);
  if (rows !== undefined) return asked ? [spansOf(asked.chosen, cells.length)] : [];
  const ranked = [...best.values()].sort((a, b) => b.worth - a.worth);
  const most = ranked[0]?.worth ?? 0;
  return ranked
    .filter(({ worth }) => worth >= most * nearly)
    .map(({ chosen }) => spansOf(chosen, cells.length));
}

function spansOf(chosen: readonly Break[], end: number): RowSpan[] {
  const edges = [0, ...chosen.map(({ at }) => at), end];
  return edges.slice(1).map((to, index) => ({
    from: edges[index] ?? 0,
    to,
    enters: chosen[index - 1]?.net,
    leaves: chosen[index]?.net,
  }));
}

const sizeOf = (boxes: readonly Box[]): { readonly width: number; readonly height: number } => ({
  width: Math.max(0, ...boxes.map(({ right }) => right)) - Math.min(...boxes.map((b) => b.left)),
  height: Math.max(0, ...boxes.map(({ bottom }) => bottom)) - Math.min(...boxes.map((b) => b.top)),
});

/** What cells cover when every wire runs as straight as may be, and all are drawn together. */
function roughly(cells: readonly Cell[]): Box[] {
  const levels = straightLevels(cells);
  let x = 0;
  const offsets = cells.map((cell, index) => {
    const box = cellBox(cell);
    const place = { x: x - box.left, y: levels[index] ?? 0 };
    x += box.right - box.left;
    return place;
  });
  return drawTogether(cells, offsets, []).offsets.map((by, index) => {
    const { left, right, top, bottom } = cellBox(cells[index] as Cell);
    return { left: left + by.x, right: right + by.x, top: top + by.y, bottom: bottom + by.y };
  });
}

/** The height of each cell that lets the wire to the one before it run straight. */
function straightLevels(cells: readonly Cell[]): number[] {
  const levels: (number | undefined)[] = cells.map(() => undefined);
  // Of several wires to a cell the one that a tube drives counts, then the one from a coil.
  const weight = ({ from }: ChainLink): number => {
    const kind = cells[from.cell]?.kind;
    return kind === 'tube' ? 0 : kind === 'coil' ? 1 : 2;
  };
  const links = chainNets(cells).sort((a, b) => a.to.cell - b.to.cell || weight(a) - weight(b));
  const heightAt = ({ cell, port }: ChainLink['from']): number =>
    cells[cell]?.ports[port]?.from.y ?? 0;
  for (const { from, to } of links) {
    const [known, other] = [levels[from.cell], levels[to.cell]];
    if (known === undefined && other === undefined) levels[from.cell] = 0;
    const level = levels[from.cell];
    if (level === undefined) levels[from.cell] = (other ?? 0) + heightAt(to) - heightAt(from);
    else if (other === undefined) levels[to.cell] = level + heightAt(from) - heightAt(to);
  }
  return levels.map((level) => level ?? 0);
}
