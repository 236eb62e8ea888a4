import type { Circuit } from '@setwright/circuit';
import type { WindingsTurned } from '../coil-matrix.ts';
import type { Alignment, TunedSet } from '../small-signal/aligned-at.ts';
import type { EliminationPlan } from '../small-signal/elimination-plan.ts';
import type { Shaft } from '../small-signal/shafts.ts';
import type { SignalSystem, Tuning } from '../small-signal/signal-system.ts';
import type { SmallSignal } from '../small-signal/small-signal.ts';
import type { ComplexFrequency } from '../small-signal/tuned-system.ts';
import type { AudioAxis } from './audio-winding.ts';

/** How a sound set is listened to: what its faulty self is compared with, and how it is tuned. */
export interface Listening {
  readonly circuit: Circuit;
  /** Hertz: the station it is heard at, and the one at the short waves where squealing is judged. */
  readonly station: number;
  readonly shortest: number;
  /** Neutralizing condensers as balanced. */
  readonly fixed: Tuning;
  readonly tuned: TunedSet;
  readonly shafts: readonly Shaft[];
  /** The dials in tune with the station. */
  readonly tuning: Tuning;
  /** The dials in tune with the shortest station. */
  readonly shortAlignment: Alignment;
  /** The part that the radio signal ends at, and the one that audio comes from. */
  readonly detector: string | undefined;
  readonly audioDetector: string | undefined;
  /** The mixer and the intermediate frequency of a superheterodyne. */
  readonly intermediate: { readonly mixer: string; readonly frequency: number } | undefined;
  /** The mode that an oscillator's stage keeps going. */
  readonly oscillator: ComplexFrequency | undefined;
  /** The tubes whose grids are tapped. */
  readonly taps: Taps;
  /** What sounds: the phones or loudspeaker that most current comes to. */
  readonly output: string | undefined;
  readonly axis: AudioAxis | undefined;
  /** What brings a set of one circuit to the edge: a winding or condenser, turned right up. */
  readonly regeneration: Regeneration | undefined;
  /** Where a winding stands that had to be turned back for the set not to oscillate. */
  readonly turned: WindingsTurned;
  /** What is left of the network at the shortest station, to know one that is no other. */
  readonly shortMatrix: Float64Array | undefined;
  /** Shares by which the shafts are off where the sound set is nearest to squealing. */
  readonly apart: readonly number[] | undefined;
  /** The sound set's equations. */
  readonly system: SignalSystem;
  /** Plans by which it is drawn together onto its condensers. */
  readonly shortPlans: readonly EliminationPlan[];
  readonly sound: Heard;
}

/** The tubes of a sound set whose grids are tapped, by the way that a tap takes. */
export interface Taps {
  /** Before the last detector: at radio or intermediate frequency. */
  readonly radio: ReadonlySet<string>;
  /** The detector and those behind it: as it is. */
  readonly audio: ReadonlySet<string>;
}

/** A control by which a set is brought to the edge of oscillation. */
export interface Regeneration {
  readonly part: string;
  /** Of a winding its share of full coupling, of a condenser its farads, turned right up. */
  readonly turned: number;
  /** The same turned right back. */
  readonly back: number;
  readonly kind: 'winding' | 'condenser';
}

/** What is heard of a set at a station. */
export interface Heard {
  /** Volts at the detector for one volt in the aerial; of a superheterodyne at its second. */
  readonly detectorVolts: number | undefined;
  /** Farads of the condensers that are turned, in tune. */
  readonly farads: ReadonlyMap<string, number>;
  /** Decibels that a condenser changes when it is a twentieth off, by its name. */
  readonly sharpness: ReadonlyMap<string, number>;
  /** Amperes in the output for one volt that the detector's tube amplifies, at 1000 cycles. */
  readonly audio: number | undefined;
  /** Amperes in the output at 1000 cycles for each volt squared that the detector rectifies. */
  readonly rectified: number | undefined;
  /** Amperes in the output for one volt behind a tap on each tube's grid, at 1000 cycles. */
  readonly clicks: ReadonlyMap<string, number>;
  /** Volts at the last detector for the same, at radio or intermediate frequency. */
  readonly radioClicks: ReadonlyMap<string, number>;
  // Of a set whose output is silent what follows is not sought: nobody would hear it.
  /**
   * Nepers per second of the fastest mode near a station: at the station, at the shortest one,
   * and there with the dials apart in the worst way. Undefined where none is found.
   */
  readonly growth: {
    readonly station: number | undefined;
    readonly shortest: number | undefined;
    readonly apart: number | undefined;
  };
  /** Growing modes below radio, of which the fastest in hertz; undefined where not known. */
  readonly howls: { readonly count: number; readonly frequency: number } | undefined;
  /** Whether the oscillator oscillates; undefined for a set without one. */
  readonly oscillates: boolean | undefined;
  /** Whether it can be brought to oscillate; undefined for a set without a control for it. */
  readonly regenerates: boolean | undefined;
}

/** The same set with windings turned to shares of full coupling. */
export type TurnedUp = (turned: ReadonlyMap<string, number>) => SmallSignal;

export const unheard: Heard = {
  detectorVolts: undefined,
  farads: new Map(),
  sharpness: new Map(),
  audio: undefined,
  rectified: undefined,
  clicks: new Map(),
  radioClicks: new Map(),
  growth: { station: undefined, shortest: undefined, apart: undefined },
  howls: undefined,
  oscillates: undefined,
  regenerates: undefined,
};
