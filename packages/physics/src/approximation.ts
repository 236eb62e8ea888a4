/** An inductance by a published short formula, with what it may be off. */
export interface ApproximateInductance {
  /** Henries. */
  readonly inductance: number;
  /** Largest error to expect, as a share of the inductance (0.02 is 2 %). */
  readonly relativeError: number;
}
