import type { PlacedSymbol, Point, RailMark, Scene } from '../scene.ts';
import { fieldLine, middleOf } from './field-line.ts';
import type { Overlay, OverlayPath, OverlayStep, PathKind } from './overlay.ts';
import { type Roads, symbolsWith } from './roads.ts';

/** A piece of a path on paper. */
export interface DrawnPiece {
  /** Counted from 1 along the path: the step it leads to or through. */
  readonly step: number;
  /** Along a wire, through a symbol, or across a field where there is no wire. */
  readonly by: 'wire' | 'part' | 'field';
  readonly points: readonly Point[];
}

/** A path of an overlay as it lies on the drawing. */
export interface DrawnPath {
  readonly kind: PathKind;
  readonly heading: string;
  readonly pieces: readonly DrawnPiece[];
  /** Where it is stopped, if it is. */
  readonly stoppedAt: Point | undefined;
}

/** What the paths of an overlay touch. */
export interface Touched {
  readonly paths: readonly DrawnPath[];
  readonly marks: ReadonlySet<RailMark>;
  /** Terminals by their full names. */
  readonly ends: ReadonlySet<string>;
}

/** No contact or arm reaches farther than this from its pin, in drawing units. */
const REACH = 120;

/** Finds the paths of an overlay on a drawing: along its wires from pin to pin. */
export function drawnPaths(scene: Scene, roads: Roads, overlay: Overlay): Touched {
  const marks = new Set<RailMark>();
  const ends = new Set<string>();
  const paths = overlay.paths.map((path) => drawn(scene, roads, path, marks, ends));
  return { paths, marks, ends };
}

function drawn(
  scene: Scene,
  roads: Roads,
  path: OverlayPath,
  marks: Set<RailMark>,
  ends: Set<string>,
): DrawnPath {
  const pieces: DrawnPiece[] = [];
  let at: readonly Point[] = path.from === undefined ? [] : roads.pinsOf(path.from);
  if (path.from !== undefined) ends.add(path.from);
  let before: PlacedSymbol | undefined;
  const lead = (to: readonly Point[], step: number): void => {
    const way = at.length > 0 && to.length > 0 ? roads.way(at, to) : undefined;
    for (const mark of way?.marks ?? []) marks.add(mark);
    for (const points of way?.runs ?? [])
      if (points.length > 1) pieces.push({ step, by: 'wire', points });
  };
  for (const [index, { part, in: from, out, coupled }] of path.steps.entries()) {
    const step = index + 1;
    const pole = poleWith(scene.symbols, part, from, out);
    const own = pole ? [pole.symbol] : symbolsWith(scene.symbols, part, from, out);
    const [symbol] = own;
    const inner =
      pole?.through ??
      through(
        scene,
        roads,
        own,
        { part, in: from, out },
        pinsOf(own, from, roads),
        pinsOf(own, out, roads),
      );
    if (coupled && before && symbol)
      pieces.push({ step, by: 'field', points: fieldLine(scene, before, symbol) });
    else lead(inner.enters, step);
    ends.add(from).add(out);
    if (inner.points.length > 1) pieces.push({ step, by: 'part', points: inner.points });
    at = inner.leaves;
    before = symbol;
  }
  if (path.to !== undefined) {
    lead(roads.pinsOf(path.to), path.steps.length + 1);
    ends.add(path.to);
  }
  const last = pieces.at(-1)?.points.at(-1) ?? at[0];
  return {
    kind: path.kind,
    heading: path.heading,
    pieces,
    stoppedAt: path.stopped === undefined ? undefined : last,
  };
}

/** The further pole of a switch or jack that joins two terminals of others, and the way through. */
function poleWith(
  symbols: readonly PlacedSymbol[],
  part: string,
  from: string,
  out: string,
): { readonly symbol: PlacedSymbol; readonly through: Through } | undefined {
  for (const symbol of symbols) {
    if (symbol.part !== part) continue;
    const [a, b] = [from, out].map((end) => symbol.contacts?.find((pin) => pin.end === end)?.at);
    if (a && b) return { symbol, through: { points: [a, b], enters: [a], leaves: [b] } };
  }
  return undefined;
}

/** Where a terminal's pins are: on the symbols of its step, else anywhere. */
function pinsOf(own: readonly PlacedSymbol[], end: string, roads: Roads): readonly Point[] {
  const here = own.flatMap(({ pins }) => pins.filter((pin) => pin.end === end));
  return here.length > 0 ? here.map(({ at }) => at) : roads.pinsOf(end);
}

/** The way through a symbol, where the wiring comes to it and where it goes on. */
interface Through {
  readonly points: readonly Point[];
  readonly enters: readonly Point[];
  readonly leaves: readonly Point[];
}

function through(
  scene: Scene,
  roads: Roads,
  own: readonly PlacedSymbol[],
  step: OverlayStep,
  enters: readonly Point[],
  leaves: readonly Point[],
): Through {
  const [a, b] = [enters[0], leaves[0]];
  const [symbol] = own;
  if (!symbol || !a) return { points: [], enters, leaves };
  const isTube = symbol.symbol.startsWith('tube');
  const middle = isTube ? symbol.at : undefined;
  if (own.length === 1 && b && [a, b].every((at) => isPinOf(symbol, at)))
    return { points: middle ? [a, middle, b] : [a, b], enters, leaves };
  // A tube's filament is drawn by itself: the current goes down to where it stands in the envelope.
  if (isTube) {
    const { x, y } = symbol.at;
    return { points: [a, { x, y: a.y }, { x, y: y + 14 }], enters, leaves };
  }
  // A contact reaches over to the stud of another part, or to what is drawn elsewhere; the cells of
  // a battery are not drawn.
  const reach = (pin: Point, others: readonly Point[]): Point | undefined => {
    const near = roads.nearestTo(pin, others);
    return near && Math.hypot(near.x - pin.x, near.y - pin.y) < REACH ? near : undefined;
  };
  const [goesIn, comesOut] = [enters, leaves].map((pins) =>
    pins.some((at) => isOwnPin(scene, step.part, at)),
  );
  if (goesIn && !comesOut) {
    const near = reach(a, leaves);
    return { points: [a, near ?? middleOf(symbol)], enters, leaves: near ? [near] : leaves };
  }
  if (comesOut && !goesIn && b) {
    const near = reach(b, enters);
    return { points: [near ?? middleOf(symbol), b], enters: near ? [near] : enters, leaves };
  }
  return { points: [], enters, leaves };
}

const isPinOf = (symbol: PlacedSymbol, at: Point): boolean =>
  symbol.pins.some((pin) => pin.at.x === at.x && pin.at.y === at.y);

const isOwnPin = ({ symbols }: Scene, part: string, at: Point): boolean =>
  symbols.some((symbol) => symbol.part === part && isPinOf(symbol, at));
