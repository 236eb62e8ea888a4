import type { Circuit } from '@setwright/circuit';
import type { Overlay, OverlayPath } from '@setwright/diagram';
import type { Quantity } from '../values/quantities.ts';

/** Whom a tour is for: someone who is shown such a set for the first time, or one who mends them. */
export const tourLevels = ['newcomer', 'restorer'] as const;
export type TourLevel = (typeof tourLevels)[number];

/** A tour of one set: an ordered walk made from its circuit alone. */
export interface Tour {
  readonly circuit: Circuit;
  readonly title: string;
  readonly level: TourLevel;
  readonly steps: readonly TourStep[];
}

/** One stop of a tour. */
export interface TourStep {
  /** Unique within the tour, and fit for a link: `bias-v3`. */
  readonly id: string;
  readonly heading: string;
  /** Plain sentences. */
  readonly sentences: readonly string[];
  /** What is lit and drawn over the schematic. */
  readonly overlay: Overlay;
  /** Whether the stages are shaded. */
  readonly shadesStages: boolean;
  /** Names of the parts that it speaks of. */
  readonly parts: readonly string[];
  /** The numbers that its sentences name, and more that matter, each with its because. */
  readonly numbers: readonly TourNumber[];
  /** The facts behind the sentences, for those who want to prove them. */
  readonly facts: readonly TourFact[];
  /** Which facts the text would have to give for more to be told. */
  readonly missing: readonly string[];
}

/** A number of a tour. */
export interface TourNumber {
  /** What it is: `grid bias of V3`. */
  readonly words: string;
  /** As its sentence has it: `−5.5 V`. */
  readonly text: string;
  /** In SI units. */
  readonly value: number;
  /** Why it is what it is, in a line. */
  readonly because: string;
  readonly source: NumberSource;
}

/** Where a number comes from, so that whoever doubts it can ask there again. */
export type NumberSource =
  /** A row of everything that is reckoned of a set. */
  | {
      readonly from: 'values';
      readonly part: string;
      readonly quantity: Quantity;
      readonly at?: number;
      readonly to?: string;
    }
  /** Volts of one terminal above another with the set on and no signal. */
  | { readonly from: 'volts'; readonly of: string; readonly above: string }
  /** What the text says of a part, or of the band that the set is to tune. */
  | { readonly from: 'text'; readonly part: string; readonly slot: string }
  | { readonly from: 'band'; readonly edge: 'low' | 'high' }
  /** The published data of a tube's type. */
  | { readonly from: 'type'; readonly tube: string; readonly what: 'amplification' | 'filament' }
  | { readonly from: 'type'; readonly tube: string; readonly what: 'grid-plate' }
  /** What a dial reads at a frequency in hertz. */
  | { readonly from: 'dial'; readonly condenser: string; readonly at: number }
  /** Hertz that a circuit on a shaft is off when the first of them is in tune. */
  | { readonly from: 'following'; readonly circuit: string; readonly at: number }
  /** Volts at a tube's grid, or at the crystal, for one volt in the aerial. */
  | { readonly from: 'response'; readonly at: number; readonly place: string }
  /** Hertz within which the output speaks. */
  | { readonly from: 'audio'; readonly edge: 'low' | 'high' }
  /** What a meter shows at a spot, of the sound set or with a supposition. */
  | {
      readonly from: 'reading';
      readonly spot: string;
      readonly which: 'value' | 'low' | 'high';
      readonly suppose?: number;
    }
  /** How many readings of the chart stay in their band with a supposition. */
  | { readonly from: 'steady'; readonly suppose: number }
  /** Ohms of a condenser at a frequency in hertz. */
  | { readonly from: 'reactance'; readonly part: string; readonly at: number }
  /** What is left of a signal with a supposition, as a share of the sound set's. */
  | { readonly from: 'left'; readonly suppose: number; readonly of: 'radio' | 'audio' };

/** Something that a tour says and that can be proved on the circuit. */
export type TourFact =
  /** A way through the set, part by part. */
  | { readonly kind: 'path'; readonly path: OverlayPath }
  /** Terminals that are one junction. */
  | { readonly kind: 'joined'; readonly terminals: readonly string[] }
  /** A tap that feeds the plate or screen of a tube. */
  | { readonly kind: 'feeds'; readonly tap: string; readonly electrode: string }
  /** A battery in the way of a tube's grid. */
  | { readonly kind: 'biases'; readonly supply: string; readonly tube: string }
  /** Words of the report of the set's response, its numbers in them. */
  | { readonly kind: 'words'; readonly words: string }
  /** A point that stands so many volts from ground or A−, with the switches as said. */
  | { readonly kind: 'live'; readonly terminal: string; readonly switches: 'on' | 'off' };

export interface TourOptions {
  /** `restorer` where not given. */
  readonly level?: TourLevel;
  readonly units?: 'period' | 'si';
}
