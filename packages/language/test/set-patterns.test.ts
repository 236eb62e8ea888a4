import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readReceivers } from '../src/receivers.ts';
import { setPatterns, titledPattern } from '../src/set-patterns.ts';

it('every text in the folder is a pattern', () => {
  const texts = readdirSync(join(import.meta.dirname, '../src/patterns'));
  expect(texts.sort()).toEqual(setPatterns.map(({ name }) => `${name}.receiver`).sort());
});

describe.each(setPatterns.map((pattern) => [pattern.name, pattern] as const))(
  'the pattern %s',
  (_, pattern) => {
    it('holds one set of which every line can be read', () => {
      const { circuits, remarks } = readReceivers(pattern.text, 'set.receiver');
      expect(circuits.flatMap(({ unread }) => unread)).toEqual([]);
      expect(circuits).toHaveLength(1);
      expect(remarks).toEqual([]);
    });

    it('begins with what it is and what to do with it', () => {
      const comments = pattern.text.split('\n\n')[0]?.split('\n') ?? [];
      expect(comments.length).toBeGreaterThan(1);
      for (const line of comments) expect(line).toMatch(/^\/\/ .{1,98}$/);
    });

    it('takes a title of its own', () => {
      const [circuit] = readReceivers(titledPattern(pattern, 'Mine'), 'set.receiver').circuits;
      expect(circuit?.title).toBe('Mine');
    });

    it('speaks of no set but the one that it is to become', () => {
      expect(pattern.text).not.toMatch(/museum|Lantern Cove|invented/i);
    });
  },
);

it('an empty title leaves the title of the pattern', () => {
  for (const pattern of setPatterns) expect(titledPattern(pattern, ' \n ')).toBe(pattern.text);
});
