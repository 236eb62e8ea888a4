/** Where a piece of a network comes from, in the words of the set. */
export interface Origin {
  readonly part: string;
  /** Full names of the terminals, or of what stands for one. */
  readonly from: string;
  readonly to: string;
}

/**
 * A piece between two points. Points are counted from 1; 0 is the point at rest, from which all
 * volts are counted.
 */
export interface Piece {
  readonly from: number;
  readonly to: number;
  /** Undefined for what no line of the text stands for, such as leakage. */
  readonly origin?: Origin | undefined;
}

export interface Conductance extends Piece {
  readonly siemens: number;
}

export interface CapacityPiece extends Piece {
  readonly farads: number;
  /** The condenser whose turn changes it; undefined for strays and tubes. */
  readonly condenser?: string | undefined;
  /** Inside a tube or of wiring: no way that anybody wired. */
  readonly isStray?: boolean;
}

/** A current that follows a voltage elsewhere: leaves `from`, comes out at `to`. */
export interface Steering extends Piece {
  readonly plus: number;
  readonly minus: number;
  /** Amperes per volt of `plus` above `minus`. */
  readonly siemens: number;
}

/** A piece whose current is reckoned too: resistance and inductance in series. */
export interface SeriesPiece extends Piece {
  /** What sources and currents call it: a terminal or a part. */
  readonly name: string;
  /** Ohms at a frequency in hertz, 0 or more. */
  ohms(frequency: number): number;
  /** Whether they are the same at every frequency. */
  readonly isSteady?: boolean;
  /** Hertz at which the curve of its ohms has a corner, besides those of the loss tables. */
  readonly bends?: readonly number[];
}

/** Series pieces that work on one another by their field. */
export interface SeriesGroup {
  readonly pieces: readonly SeriesPiece[];
  /** Henries, symmetric. */
  readonly henries: readonly (readonly number[])[];
}

/** A linear network. Siemens, farads, henries, ohms. */
export interface SignalNetwork {
  /** Points besides the one at rest. */
  readonly points: number;
  readonly conductances: readonly Conductance[];
  readonly capacities: readonly CapacityPiece[];
  readonly steerings: readonly Steering[];
  readonly series: readonly SeriesGroup[];
}
