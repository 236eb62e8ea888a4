import type { PagePart } from '@setwright/webview';
import { describe, expect, it } from 'vitest';
import { partsAt } from '../src/preview/parts-at.ts';

const part = (from: [number, number], to: [number, number]): PagePart => ({
  range: {
    start: { line: from[0], character: from[1] },
    end: { line: to[0], character: to[1] },
  },
  hover: '',
  spoken: '',
  findings: [],
});

const parts = {
  L1: part([2, 4], [6, 5]),
  'L1.aerial': part([4, 6], [4, 40]),
  C1: part([7, 4], [7, 50]),
};

describe('the parts that a place of the source speaks of', () => {
  it('are the innermost whose text holds it', () => {
    expect(partsAt(parts, { line: 4, character: 10 })).toEqual(['L1.aerial']);
    expect(partsAt(parts, { line: 3, character: 1 })).toEqual(['L1']);
  });

  it('are those of the line when the place stands beside them', () => {
    expect(partsAt(parts, { line: 7, character: 0 })).toEqual(['C1']);
  });

  it('are none on a line without any', () => {
    expect(partsAt(parts, { line: 9, character: 3 })).toEqual([]);
  });
});
