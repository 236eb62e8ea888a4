import type { Box, Point } from './scene.ts';

/** One stroke of a symbol. */
export interface Stroke {
  /** Path data in the symbol's own units. */
  readonly d: string;
  readonly solid?: boolean;
  readonly dashed?: boolean;
}

/** A symbol as data: strokes, where wires meet it, and what it covers. */
export interface SymbolShape {
  readonly strokes: readonly Stroke[];
  /** By role: `a` is the upper, `b` the lower end of an upright two-ended part. */
  readonly ports: Readonly<Record<string, Point>>;
  readonly box: Box;
}
