/**
 * What lies between two ends of a part at direct current.
 *
 * - `conducts`: any ohmic path; `ohms` undefined when the text does not say how many.
 * - `source`: a battery or eliminator between two of its taps; `volts` is `to` above `from`.
 * - `blocks`: no direct current passes, and why.
 */
export type Direct =
  | { readonly kind: 'conducts'; readonly ohms: number | undefined; readonly because: string }
  | {
      readonly kind: 'source';
      readonly volts: number | undefined;
      readonly ohms: number | undefined;
      readonly because: string;
    }
  | { readonly kind: 'blocks'; readonly because: string };

/** A two-ended piece of a part, as direct current sees it. */
export interface Branch {
  readonly part: string;
  /** Full names of the two terminals. */
  readonly from: string;
  readonly to: string;
  readonly direct: Direct;
}
