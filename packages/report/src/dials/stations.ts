import { readQuantity } from '@setwright/units';
import type { Band } from '../values/bands.ts';

/** Hertz between the lines of a table, the finest that leaves a page of them. */
const steps = [1e3, 2e3, 5e3, 10e3, 20e3, 50e3, 100e3, 200e3, 500e3, 1e6, 2e6, 5e6];
const MOST_LINES = 21;
/** However fine a step is asked for, no more lines than these. */
const MOST_STATIONS = 2000;

/** Round frequencies over a band in hertz, `every` so many where that is said. */
export function stationsOver({ low, high }: Band, every?: number): readonly number[] {
  const fitting = steps.find((step) => (high - low) / step < MOST_LINES) ?? (high - low) / 20;
  const step = Math.max(every ?? fitting, (high - low) / MOST_STATIONS);
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  const round = Array.from({ length: Math.max(0, last - first + 1) }, (_, n) => (first + n) * step);
  // A band between two round numbers still has its edges.
  return round.length > 1 ? round : [...new Set([low, high])];
}

/**
 * A frequency that somebody names: `610` and `610 kc` in kilocycles, `1.2 Mc`, `360 meters`. In
 * hertz; undefined for what is none.
 */
export function frequencyNamed(text: string): number | undefined {
  const [, number = '', unit = ''] = /^\s*([\d.\s/]*[\d.])\s*(.*?)\s*$/.exec(text) ?? [];
  const reading = readQuantity(number, unit === '' ? 'kc' : unit, 'frequency');
  const value = reading.ok ? reading.value : undefined;
  return value !== undefined && value > 0 && Number.isFinite(value) ? value : undefined;
}
