import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inputOf } from './fuzz/inputs.ts';
import { tried } from './fuzz/trying.ts';

/** Each block of seeds is one test, so that a failure names its seeds. */
const BLOCKS = 20;
const BLOCK = 100;

const fixtures = join(import.meta.dirname, 'fuzz/fixtures');

describe('texts that something once fell over', () => {
  it.each(readdirSync(fixtures))('%s', async (name) => {
    expect(await tried(readFileSync(join(fixtures, name), 'utf8'), 1, () => {}, 0)).toEqual([]);
  });
});

describe('texts of every kind, through everything that is made of sets', () => {
  it.each(Array.from({ length: BLOCKS }, (_, block) => 1 + block * BLOCK))(
    'seeds from %i on: nothing throws, and no figure and no word is nonsense',
    async (from) => {
      const failures: string[] = [];
      for (let seed = from; seed < from + BLOCK; seed++)
        for (const { stage, message } of await tried(inputOf(seed).text, seed))
          failures.push(`seed ${seed}: ${stage}: ${message}`);
      expect(failures).toEqual([]);
    },
  );
});
