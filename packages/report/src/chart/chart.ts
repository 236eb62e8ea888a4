/** A point of a curve. */
export type Point = readonly [x: number, y: number];

/** One curve of a panel. */
export interface Curve {
  readonly name: string;
  /** Its number: curves of one number look alike in all panels and are named once. */
  readonly look: number;
  /** From left to right; a point without a number breaks the curve. */
  readonly points: readonly (Point | undefined)[];
  /** Points that are marked, such as stations. */
  readonly marked: readonly Point[];
}

/** An axis with its ends. */
export interface Axis {
  /** What it measures, with its unit: `dial reading, divisions`. */
  readonly label: string;
  readonly low: number;
  readonly high: number;
  readonly scale: 'linear' | 'logarithmic';
  /** A number of the axis for people, without the unit. */
  readonly write: (value: number) => string;
}

/** A second scale along the top of a chart, on the same axis. */
export interface SecondScale {
  readonly label: string;
  readonly marks: readonly { readonly at: number; readonly text: string }[];
}

/** Curves over one stretch of the x axis. */
export interface Panel {
  readonly y: Axis;
  readonly curves: readonly Curve[];
  /** How high it stands beside the others. */
  readonly share: number;
}

/** A chart: panels below one another over one x axis. */
export interface Chart {
  readonly title: string;
  /** What it shows in a sentence or two, for those who cannot see it. */
  readonly description: string;
  readonly x: Axis;
  readonly top: SecondScale | undefined;
  readonly panels: readonly Panel[];
}

/** The curves that a list below or above the chart has to name, in the order of their numbers. */
export function namedCurves({ panels }: Chart): readonly Curve[] {
  const all = new Map<number, Curve>();
  for (const curve of panels.flatMap(({ curves }) => curves))
    if (!all.has(curve.look)) all.set(curve.look, curve);
  return [...all.values()].sort((a, b) => a.look - b.look);
}
