import { describe, expect, it } from 'vitest';
import { nextUp, preferred } from '../../src/sheet/replacements/preferred-numbers.ts';

describe('values that parts are made in', () => {
  // IEC 60063: 240 of E24 lies nearer to 250 than 270 does; 470 of E12 nearer to 500 than 560.
  it.each([
    [250, 'E24', 240],
    [500, 'E12', 470],
    [2e6, 'E24', 2e6],
    [5000, 'E24', 5100],
    [9.8, 'E12', 10],
    [0.006, 'E12', 0.0056],
  ] as const)('nearest to %s in %s is %s', (value, series, nearest) => {
    expect(preferred(value, series)).toBeCloseTo(nearest, 9);
  });

  it('the next step up is no smaller', () => {
    expect([nextUp(100, [63, 100, 160]), nextUp(101, [63, 100, 160]), nextUp(200, [160])]).toEqual([
      100,
      160,
      undefined,
    ]);
  });
});
