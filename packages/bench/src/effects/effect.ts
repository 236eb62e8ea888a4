import type { Heard } from '@setwright/analysis';
import type { Expected } from '../chart/expected.ts';
import type { BenchChart } from '../chart/readings.ts';
import type { Fault, Symptom } from '../faults/fault.ts';

/** How a set squeals by itself. */
export type Squeals = 'no' | 'dials apart' | 'short waves' | 'all over' | 'audio' | 'unknown';

/** How a tap on a grid is heard: about as loud as in the sound set, clearly less, or not at all. */
export type Click = 'heard' | 'faint' | 'silent';

/** What one fault, or one supposition, does to a set. */
export interface FaultEffect {
  readonly fault: Fault;
  /** What every reading of the chart would show, in its order; undefined where it cannot be told. */
  readonly readings: readonly (Expected | undefined)[];
  /** Indices of the readings that leave the band of the sound set, the furthest out first. */
  readonly seenBy: readonly number[];
  /** Volts at the detector, as a share of the sound set's, the dials turned for the most. */
  readonly radio: number | undefined;
  /** What the detector makes of a signal, as a share of the sound set's. */
  readonly detection: number | undefined;
  /** From the detector to the loudspeaker at 1000 cycles, as a share of the sound set's. */
  readonly audio: number | undefined;
  readonly squeals: Squeals;
  /** By how many decibels a tap on a tube's grid is louder than in the sound set, by its name. */
  readonly clicks: ReadonlyMap<string, number>;
  /** Dials, or condensers without one, whose turning does nothing that it did in the sound set. */
  readonly deadDials: readonly string[];
  /** What is left of the sharpness of a dial, as a share of the sound set's, by its name. */
  readonly dialsLeft: ReadonlyMap<string, number>;
  /** What is heard; empty where nothing is to be noticed. */
  readonly heard: readonly Symptom[];
  /** What may be lost by leaving the set on. */
  readonly dangers: readonly string[];
  /** What a restorer should know of it besides. */
  readonly notes: readonly string[];
  /** The whole of it in sentences. */
  readonly words: string;
  /** What the text asked for and could not be done. */
  readonly refused: readonly string[];
}

/** Every single fault of a set, and what it does. */
export interface FaultTable {
  readonly chart: BenchChart;
  /** What is heard of the sound set; undefined where that cannot be told. */
  readonly sound: Heard | undefined;
  readonly effects: readonly FaultEffect[];
}
