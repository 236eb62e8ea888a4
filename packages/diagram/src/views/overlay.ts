/** What flows along a path, by which it is drawn. */
export type PathKind = 'direct' | 'radio' | 'audio' | 'feedback' | 'oscillator';

/** One part that a path leads through. */
export interface OverlayStep {
  readonly part: string;
  /** Full names of the terminals it goes in and comes out at. */
  readonly in: string;
  readonly out: string;
  /** True where no wire leads here: the field of the winding before works on this one. */
  readonly coupled?: boolean;
}

/** A way through the set, drawn along its wires. */
export interface OverlayPath {
  readonly kind: PathKind;
  /** What it is: `bias of V3.grid`. */
  readonly heading: string;
  /** The terminal it sets out from and the one it comes to, where they are no step's own. */
  readonly from?: string;
  readonly to?: string;
  readonly steps: readonly OverlayStep[];
  /** Why it goes no further, where it should. */
  readonly stopped?: string;
}

/** A part that has failed, and how: `open`, `shorted`. */
export interface FailedPart {
  /** A part or one of its terminals. */
  readonly at: string;
  readonly words: string;
}

/** Something that is otherwise than it was. */
export interface ChangedPart {
  /** A part or one of its terminals. */
  readonly at: string;
  /** The letter that stands at it. */
  readonly letter: string;
  /** A few words: `plate at 88 V, was 66 V`. */
  readonly words: string;
}

/** How a part stands in two states of a set that are drawn as one. */
export type MarkKind = 'added' | 'removed' | 'changed';

/** A part that two states of a set do not share. */
export interface MarkedPart {
  /** The part, as the drawn set calls it. */
  readonly at: string;
  readonly kind: MarkKind;
  /** A few words: `was 2 meg`; may be empty. */
  readonly words: string;
}

/**
 * What is drawn over a set's schematic, which does not move for it. Plain data, which a caller may
 * make up by itself. Names that the drawing does not have are passed over.
 */
export interface Overlay {
  readonly id: string;
  readonly title: string;
  /** What stays at full strength besides the paths, all else dimmed; undefined dims nothing. */
  readonly parts: readonly string[] | undefined;
  readonly paths: readonly OverlayPath[];
  readonly failed: readonly FailedPart[];
  readonly changed: readonly ChangedPart[];
  /** What two states of the set do not share, where both are drawn as one. */
  readonly marked?: readonly MarkedPart[];
  /** Plain sentences: what is not shown and why. */
  readonly notes: readonly string[];
}

/** The same steps walked the other way. */
export function turnedAbout(steps: readonly OverlayStep[]): OverlayStep[] {
  return steps.map((step) => ({ ...step, in: step.out, out: step.in })).reverse();
}
