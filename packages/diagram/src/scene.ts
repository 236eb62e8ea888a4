/** A point of the drawing; y runs downwards. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A rectangle by its upper left and lower right corner. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** One end of a part where it meets the wiring. */
export interface Pin {
  /** The end's full name, `V1.grid`. */
  readonly end: string;
  readonly at: Point;
}

/** A part's symbol where it stands. */
export interface PlacedSymbol {
  /** The part, or the tube whose filament this is. */
  readonly part: string;
  /** Key into the symbol table. */
  readonly symbol: string;
  readonly at: Point;
  /** Quarter turns clockwise. */
  readonly turns: 0 | 1 | 2 | 3;
  /** Mirrored top to bottom before it is turned. */
  readonly flipped: boolean;
  readonly pins: readonly Pin[];
  /** A further pole of a switch or jack has no ends of its own: those of others that it joins. */
  readonly contacts?: readonly Pin[];
  /** What the symbol covers; two symbols never share any of it. */
  readonly box: Box;
  /** True for a part that nothing is joined to. */
  readonly inTheAir: boolean;
}

/** A run of wire with its bends, belonging to one junction. */
export interface Wire {
  readonly net: string;
  readonly points: readonly Point[];
}

/** A dot where three or more wires meet. */
export interface Dot {
  readonly net: string;
  readonly at: Point;
}

/** A local symbol that stands for a rail: equal names are one junction. */
export interface RailMark {
  readonly net: string;
  readonly shape: 'ground' | 'bar-down' | 'bar-up' | 'bar-right' | 'bar-left' | 'none';
  readonly at: Point;
  readonly box: Box;
}

export type LabelStyle =
  | 'name'
  | 'value'
  | 'rail'
  | 'title'
  | 'note'
  /** A number that was reckoned. */
  | 'figure'
  /** The title of a stage. */
  | 'caption'
  /** What has become of a part that failed. */
  | 'sign'
  /** What is otherwise than it was. */
  | 'change';

/** A line of text; `at` is where its baseline begins. */
export interface Label {
  readonly text: string;
  readonly style: LabelStyle;
  readonly at: Point;
  readonly box: Box;
  /** The part it speaks of, where it speaks of one. */
  readonly part: string | undefined;
}

/**
 * A line that is no wire: a movable coupling, a core, the outline of the terminal block, the shaft
 * of a gang; `sense` is a dot at the start of a winding, two equal points.
 */
export interface Ornament {
  readonly kind: 'outline' | 'arm' | 'arrow' | 'gang' | 'sense';
  readonly points: readonly Point[];
}

/** A drawing as plain data: everything that is on the paper, and nothing else. */
export interface Scene {
  readonly title: string;
  readonly description: string;
  readonly width: number;
  readonly height: number;
  readonly symbols: readonly PlacedSymbol[];
  readonly wires: readonly Wire[];
  readonly dots: readonly Dot[];
  readonly marks: readonly RailMark[];
  readonly labels: readonly Label[];
  readonly ornaments: readonly Ornament[];
  /** What each part is in plain words, by its name: for those who hear the drawing. */
  readonly spoken: Readonly<Record<string, string>>;
}
