import { supposedTable } from '@setwright/bench';
import type { Circuit } from '@setwright/circuit';
import type { UnitStyle } from '../values/quantities.ts';
import { amountText } from './bench-sections.ts';

/** What a suppose of the text does to a set. */
export interface SupposeChanges {
  /** Where a meter shows another value, the furthest out first, and what it shows: `0 V, was 87 V`. */
  readonly changes: readonly { readonly at: string; readonly words: string }[];
  /** The whole of it in sentences: what a meter shows, what is heard, what is in danger. */
  readonly words: string;
}

/** More than these crowd a drawing. */
const MOST_CHANGES = 8;

/**
 * What one suppose of a set's own text changes, reckoned from the set with the fault in it; for
 * the drawing and for the editor.
 *
 * @param index which suppose, from 0
 * @returns undefined where there is none of that index
 */
export function supposeChanges(
  circuit: Circuit,
  index: number,
  style: UnitStyle,
): SupposeChanges | undefined {
  const suppose = circuit.supposes[index];
  if (!suppose) return undefined;
  const { chart, effects } = supposedTable(circuit, [suppose]);
  const [effect] = effects;
  if (!effect) return undefined;
  const changes = new Map<string, string>();
  for (const seen of effect.seenBy) {
    const reading = chart.readings[seen];
    const now = effect.readings[seen];
    if (!reading?.expected || !now || reading.state !== 'on') continue;
    // What is read across a part belongs to no one place of the drawing.
    if (reading.quantity === 'resistance' || reading.across !== undefined) continue;
    if (changes.has(reading.at) || changes.size >= MOST_CHANGES) continue;
    changes.set(
      reading.at,
      `${amountText(now.value, reading, style)}, was ${amountText(reading.expected.value, reading, style)}`,
    );
  }
  return {
    changes: [...changes].map(([at, words]) => ({ at, words })),
    words: effect.words,
  };
}
