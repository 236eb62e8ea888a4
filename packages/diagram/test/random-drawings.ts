import { type PartKindName, partKinds } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import { type RandomMode, randomReceiver } from '../../../test/support/random-receiver.ts';
import { drawCircuit, layoutMemory, sceneToSvg } from '../src/index.ts';
import { circuitOf, shuffled } from './examples.ts';
import { hardFaults, watchedEngine } from './hard.ts';

/** How many receivers by chance a run draws in all; more with `SETWRIGHT_SEEDS=1000`. */
const wanted = Number(process.env.SETWRIGHT_SEEDS ?? 300);
const first = Number(process.env.SETWRIGHT_FIRST_SEED ?? 1);
const perTest = 5;

const shares: readonly (readonly [RandomMode, number])[] = [
  ['sane', 0.5],
  ['unfinished', 0.25],
  ['wild', 0.25],
];

/** Receivers that were once drawn with a fault, and what it was. */
const kept: readonly (readonly [RandomMode, number, string])[] = [
  ['wild', 200_315, 'the upper piece of a folded strip ran into the outline of the terminals'],
  ['wild', 100_943, 'the long name of a rail at a secondary lay across the lead of the primary'],
  ['wild', 510_056, 'joined terminals stood on the terminal of the next line'],
  ['wild', 520_699, 'the names of two posts in the lead of a loop ran into one another'],
  ['wild', 512_042, 'the lower end of a shorted filament did not say its junction'],
  ['wild', 511_306, 'the long name of a junction at a tap lay across the primary'],
  ['wild', 511_792, 'a trimmer stood behind a leak, far from the winding that it tunes'],
  ['wild', 513_249, 'the post at the cold end of a loop that a plate feeds was not drawn'],
  ['wild', 513_573, 'the post at the cold end of a loop that a plate feeds was not drawn'],
  ['wild', 510_489, 'joined terminals stood on the terminal of the next line'],
];

/** Sane sets are drawn both ways; of the others every second one in rows for a page. */
function rowsOf(mode: RandomMode, seed: number): readonly ('one' | 'page')[] {
  if (mode === 'sane') return ['one', 'page'];
  return [seed % 2 === 0 ? 'one' : 'page'];
}

/**
 * Draws half of the receivers by chance, those of odd or of even batches, and asserts all that must
 * hold of any drawing. Two files share the work so that two processors can.
 */
export function assertRandomDrawings(half: 0 | 1): void {
  const watched = watchedEngine();
  const kinds = new Set<PartKindName>();

  async function faultsOfSeed(mode: RandomMode, seed: number): Promise<string[]> {
    const text = randomReceiver(seed, { mode });
    const circuit = circuitOf(text);
    for (const { kind } of circuit.parts) kinds.add(kind);
    watched.take();
    const found: string[] = [];
    // One memory for one receiver: what is the same graph again is not laid out again.
    const memory = layoutMemory();
    for (const rows of rowsOf(mode, seed)) {
      const scene = await drawCircuit(circuit, watched.engine, { rows, memory });
      // What the engine led backwards in a wild set is not drawn so: it has a symbol instead.
      const backwards = mode === 'wild' ? [] : watched.take();
      found.push(...[...hardFaults(circuit, scene), ...backwards].map((f) => `${f} (${rows})`));
      if (rows === 'one' && mode === 'sane') continue;
      const again = circuitOf(shuffled(text, seed));
      const other = await drawCircuit(again, watched.engine, { rows, memory });
      if (sceneToSvg(other) !== sceneToSvg(scene)) found.push('the order of the text shows');
    }
    return [...new Set(found)].map((fault) => `${mode} ${seed}: ${fault}`);
  }

  describe.each(shares)('a %s receiver put together by chance', (mode, share) => {
    const count = Math.round(wanted * share);
    const batches = Array.from({ length: Math.ceil(count / perTest) }, (_, batch) => batch);
    it.each(batches.filter((batch) => batch % 2 === half))(
      'is drawn without a fault, fives of %i',
      async (batch) => {
        const found: string[] = [];
        for (let at = batch * perTest; at < Math.min(count, (batch + 1) * perTest); at++) {
          found.push(...(await faultsOfSeed(mode, first + at)));
        }
        expect(found).toEqual([]);
      },
      60_000,
    );
  });

  it.each(kept.filter((_, index) => index % 2 === half))(
    'the %s receiver %i is drawn without a fault, though once %s',
    async (mode, seed) => {
      expect(await faultsOfSeed(mode, seed)).toEqual([]);
    },
    20_000,
  );

  it('every kind of part was among them', () => {
    const missing = Object.keys(partKinds).filter((kind) => !kinds.has(kind as PartKindName));
    expect(missing).toEqual([]);
  });
}
