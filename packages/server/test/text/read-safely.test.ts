import { describe, expect, it } from 'vitest';
import { snapshotOf } from '../../src/text/snapshot.ts';

describe('a text that the tool falls over', () => {
  const text = 'use "parts.receiver"\n\nreceiver "Any" { }\n';
  const falling = snapshotOf('file:///sets/any.receiver', 1, text, {
    used: () => {
      throw new Error('a slip');
    },
  });

  it('is told of at its head, and nothing else is said', () => {
    const [only, ...others] = falling.file.remarks;
    expect(others).toEqual([]);
    expect(only?.message).toBe('The tool itself fell over this text: a slip.');
    expect(falling.range(only?.place ?? { start: 9, end: 9 })).toEqual({
      start: { line: 0, character: 0 },
      end: { line: 0, character: 20 },
    });
    expect(falling.file.circuits).toEqual([]);
  });
});
