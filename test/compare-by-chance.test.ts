import { readdirSync, readFileSync } from 'node:fs';
import { applyDifferences, differencesOf, equalSets, isSame, plainSetOf } from '@setwright/compare';
import { readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { chanceOf } from './support/random/chance.ts';
import { editedText } from './support/random/edits.ts';
import { shuffled, statementsOf, writtenOut } from './support/random/statements.ts';
import { type RandomMode, randomReceiver } from './support/random-receiver.ts';

const setsIn = (text: string) => readReceivers(text, 'set.receiver').circuits.map(plainSetOf);
const modes: readonly RandomMode[] = ['sane', 'unfinished', 'wild', 'sane', 'wild'];

/** A set by chance, and an edited copy of it with what was done to it. */
function pairBy(seed: number) {
  const mode = modes[seed % modes.length] ?? 'sane';
  const text = randomReceiver(seed, { mode });
  const edited = editedText(text, chanceOf(seed + 9000));
  const [old] = setsIn(text);
  const [now] = setsIn(edited.text);
  if (!old || !now) throw new Error(`seed ${seed} gives no set`);
  return { old, now, told: `seed ${seed}, ${mode}: ${edited.made.join(', ')}` };
}

const seedsFrom = (first: number, count: number) =>
  Array.from({ length: count }, (_, index) => first + index);

describe('the old set with the differences applied is the new one', () => {
  it.each([1, 101, 201, 301, 401])('for a hundred pairs by chance, from seed %i on', (first) => {
    const wrong = seedsFrom(first, 100).flatMap((seed) => {
      const { old, now, told } = pairBy(seed);
      return equalSets(applyDifferences(old, differencesOf(old, now)), now) ? [] : told;
    });
    expect(wrong).toEqual([]);
  });

  it('for pairs that differ in every way that there is', () => {
    const kinds = new Set(
      seedsFrom(1, 150).flatMap((seed) => {
        const { old, now } = pairBy(seed);
        const differences = Object.entries(differencesOf(old, now));
        return differences.flatMap(([kind, all]) => (all.length > 0 ? kind : []));
      }),
    );
    expect([...kinds].sort()).toEqual([
      'added',
      'changed',
      'moved',
      'removed',
      'renamed',
      'tapsAdded',
      'tapsRemoved',
      'tapsRenamed',
    ]);
  });
});

describe('a set in another order and another hand is the same set', () => {
  const otherHand = (text: string, seed: number) =>
    writtenOut(shuffled(statementsOf(text), chanceOf(seed)))
      .replace(/\.(\d{3,5}) mfd/g, (_, digits: string) => `${Number(`.${digits}`) * 1e6} mmfd`)
      .replace(/(\d+) kc to (\d+) kc/g, '$1 kHz to $2 kHz');
  const differs = (text: string, seed: number): string | undefined => {
    const olds = setsIn(text);
    const nows = setsIn(otherHand(text, seed));
    const same = olds.every((old, index) => {
      const now = nows[index];
      return now !== undefined && equalSets(old, now) && isSame(differencesOf(old, now));
    });
    return same && olds.length === nows.length ? undefined : `seed ${seed}`;
  };
  const folder = new URL('../examples/', import.meta.url);
  const examples = readdirSync(folder).filter((name) => name.endsWith('.receiver'));

  it.each(examples)('%s', (name) => {
    const text = readFileSync(new URL(name, folder), 'utf8');
    expect([1, 2, 3].flatMap((seed) => differs(text, seed) ?? [])).toEqual([]);
  });

  it('for sets by chance', () => {
    const wrong = Array.from({ length: 60 }, (_, index) => index + 1).flatMap((seed) => {
      const text = randomReceiver(seed, { mode: modes[seed % modes.length] ?? 'sane' });
      return differs(text, seed) ?? [];
    });
    expect(wrong).toEqual([]);
  });
});
