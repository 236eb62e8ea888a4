import { formatQuantity } from '@setwright/units';
import type { Expected } from '../chart/expected.ts';
import type { BenchChart, Reading } from '../chart/readings.ts';
import { calledSo, type Spot } from '../chart/spot.ts';
import type { Symptom } from '../faults/fault.ts';
import type { FaultEffect } from './effect.ts';

/** Readings named in the words at most. */
const NAMED = 3;

/** Less than this no meter shows, in volts, amperes and ohms. */
const NOTHING = { voltage: 1e-3, current: 1e-6, resistance: 0.01 } as const;

/** A value as a meter shows it: endless ohms are open, and next to nothing is nothing. */
export function shownAs(
  value: number,
  { quantity }: Pick<Reading, 'quantity'>,
  style: 'period' | 'si' = 'period',
): string {
  if (value === Number.POSITIVE_INFINITY) return 'open';
  return formatQuantity(Math.abs(value) < NOTHING[quantity] ? 0 : value, quantity, style);
}

/** Where a reading is taken, in the words of the set. */
export function spotWords({ circuit }: Pick<BenchChart, 'circuit'>, spot: Spot): string {
  const { at, to, across, quantity, lifted } = spot;
  if (across !== undefined) {
    const what = quantity === 'resistance' ? 'ohms' : 'volts';
    return lifted ? `${what} of ${across} lifted` : `${what} across ${across}`;
  }
  const probe = calledSo(circuit, at);
  if (quantity === 'current') return `current in the ${probe} lead`;
  const other = to === undefined ? '' : ` to ${calledSo(circuit, to)}`;
  if (quantity === 'resistance') return `ohms from ${probe}${other}`;
  // Without a word a tube is read against its own filament, a tap against its battery's zero.
  const isUsual = to !== undefined && circuit.partOfEnd.get(at) === circuit.partOfEnd.get(to);
  return isUsual ? probe : `${probe}${other}`;
}

/** What a fault does, in sentences. */
export function effectWords(
  {
    fault,
    readings,
    seenBy,
    heard,
    dangers,
    notes,
  }: Pick<FaultEffect, 'fault' | 'readings' | 'seenBy' | 'heard' | 'dangers' | 'notes'>,
  chart: BenchChart,
): string {
  const sentences = [
    `${capital(fault.words)}.`,
    heard.length > 0 ? `The set ${heardWords(heard)}.` : 'Nothing is to be noticed by ear.',
    seenWords(chart, readings, seenBy),
    ...dangers.map((danger) => `${capital(danger)}.`),
    ...notes,
  ];
  return sentences.join(' ');
}

function seenWords(
  chart: BenchChart,
  readings: readonly (Expected | undefined)[],
  seenBy: readonly number[],
): string {
  const named = seenBy.slice(0, NAMED).flatMap((index) => {
    const reading = chart.readings[index];
    const now = readings[index];
    if (!reading?.expected || !now) return [];
    const spot = spotWords(chart, reading);
    return [
      `${spot} ${shownAs(now.value, reading)} in place of ${shownAs(reading.expected.value, reading)}`,
    ];
  });
  return named.length === 0 ? 'No reading shows it.' : `It shows in ${named.join('; ')}.`;
}

const spoken: Readonly<Record<Symptom, string>> = {
  silent: 'is silent',
  faint: 'is faint',
  weak: 'is weak',
  broad: 'tunes broadly',
  'squeals at short waves': 'squeals at the short waves',
  'squeals all over': 'squeals all over the dial',
  putters: 'putters',
  hums: 'hums',
  'distorts loud': 'distorts on loud notes',
  'distorts all': 'distorts on everything',
  crackles: 'crackles',
  'chokes on strong': 'chokes on strong signals',
  'one dial dead': 'has a dial that does nothing',
  'no regeneration': 'does not regenerate',
  microphonic: 'rings when it is tapped',
  'comes and goes': 'comes and goes',
};

function heardWords(heard: readonly Symptom[]): string {
  const words = heard.map((symptom) => spoken[symptom]);
  return words.length <= 1
    ? (words[0] ?? '')
    : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

function capital(words: string): string {
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}
