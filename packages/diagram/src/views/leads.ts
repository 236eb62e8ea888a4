import type { PlacedSymbol, Point, RailMark, Scene } from '../scene.ts';
import type { Roads } from './roads.ts';

/** The wires between some symbols, and from them to the nearest rail symbol. */
export interface Leads {
  readonly runs: readonly (readonly Point[])[];
  readonly marks: readonly RailMark[];
}

/**
 * The wiring that belongs to some symbols: between those of their pins that one wire joins, and
 * for a pin by itself as far as the next symbol of its rail, else the next pin.
 */
export function leadsOf(scene: Scene, roads: Roads, symbols: readonly PlacedSymbol[]): Leads {
  const runs: (readonly Point[])[] = [];
  const marks: RailMark[] = [];
  const wanted = symbols.flatMap(({ pins }) => pins.map(({ at }) => at));
  const byPiece = new Map<number, Point[]>();
  for (const at of wanted) {
    const piece = roads.pieceOf(at);
    if (piece === undefined) continue;
    byPiece.set(piece, [...(byPiece.get(piece) ?? []), at]);
  }
  const lead = (from: readonly Point[], to: readonly Point[]): Point | undefined => {
    const way = roads.way(from, to);
    // A way by a leap to another symbol of the rail is no wire between these pins.
    if (way?.runs.length !== 1) return undefined;
    runs.push(...way.runs.filter((points) => points.length > 1));
    return way.runs[0]?.at(-1);
  };
  for (const [piece, pins] of byPiece) {
    const near = scene.marks.filter(({ at }) => roads.pieceOf(at) === piece);
    const joined = pins.slice(0, 1);
    const open = pins.slice(1);
    while (open.length > 0) {
      const reached = lead(joined, open);
      const index = open.findIndex(({ x, y }) => x === reached?.x && y === reached?.y);
      joined.push(...open.splice(Math.max(0, index), 1));
    }
    if (near.length > 0) {
      const reached = lead(
        joined,
        near.map(({ at }) => at),
      );
      marks.push(...near.filter(({ at }) => at.x === reached?.x && at.y === reached?.y));
    } else if (pins.length === 1) {
      const own = new Set(symbols.flatMap((symbol) => symbol.pins));
      const others = scene.symbols
        .flatMap((symbol) => symbol.pins)
        .filter((pin) => !own.has(pin) && roads.pieceOf(pin.at) === piece);
      if (others.length > 0)
        lead(
          joined,
          others.map(({ at }) => at),
        );
    }
  }
  return { runs, marks };
}
