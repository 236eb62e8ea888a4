import { formatQuantity } from '@setwright/units';
import type { Expected } from '../chart/expected.ts';
import type { BenchChart, Reading } from '../chart/readings.ts';
import { calledSo } from '../chart/spot.ts';
import type { Fault, Symptom } from '../faults/fault.ts';

/** Readings named in the words at most. */
const NAMED = 3;

/** A value as a meter shows it: endless ohms are open. */
export function shownAs(value: number, { quantity }: Pick<Reading, 'quantity'>): string {
  if (value === Number.POSITIVE_INFINITY) return 'open';
  return formatQuantity(value, quantity);
}

/** Where a reading is taken, in the words of the set. */
export function spotWords({ circuit }: BenchChart, spot: Reading): string {
  const { at, to, across, quantity, lifted } = spot;
  if (across !== undefined) {
    const what = quantity === 'resistance' ? 'ohms' : 'volts';
    return lifted ? `${what} of ${across} lifted` : `${what} across ${across}`;
  }
  const probe = calledSo(circuit, at);
  if (quantity === 'current') return `current in the ${probe} lead`;
  const other = to === undefined ? '' : ` to ${calledSo(circuit, to)}`;
  return quantity === 'resistance' ? `ohms from ${probe}${other}` : `${probe}${other}`;
}

/** What a fault does, in sentences. */
export function effectWords(
  fault: Fault,
  chart: BenchChart,
  readings: readonly (Expected | undefined)[],
  seenBy: readonly number[],
  heard: readonly Symptom[],
  dangers: readonly string[],
): string {
  const sentences = [
    `${capital(fault.words)}.`,
    heard.length > 0 ? `The set ${heardWords(heard)}.` : 'Nothing is to be noticed by ear.',
    seenWords(chart, readings, seenBy),
    ...dangers.map((danger) => `${capital(danger)}.`),
    ...(fault.note === undefined ? [] : [fault.note]),
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
