import { printableJson } from '@setwright/report';
import { describe, expect, it } from 'vitest';
import { streamedList } from '../src/streamed-json.ts';

describe('a list in JSON that is written item by item', () => {
  const before = { version: 1, nested: { deep: ['a'] } };
  const after = { summary: { files: 2 }, none: [] };
  const streamed = (items: readonly unknown[], indent = '') => {
    const list = streamedList(before, 'files', indent);
    return list.head + items.map((item) => list.items([item])).join('') + list.end(after);
  };

  it.each<[string, unknown[]]>([
    ['none', []],
    ['one', [{ path: 'a' }]],
    ['several', [{ path: 'a', in: [1, { b: [] }] }, 'text\nof two lines \u2028', null, []]],
  ])('is the very text that it is when written whole: %s', (_, items) => {
    expect(streamed(items)).toBe(printableJson({ ...before, files: items, ...after }));
  });

  it('may stand within something else', () => {
    const within = `[\n  ${streamed([{ path: 'a' }], '  ')}\n]`;
    expect(within).toBe(printableJson([{ ...before, files: [{ path: 'a' }], ...after }]));
  });
});
