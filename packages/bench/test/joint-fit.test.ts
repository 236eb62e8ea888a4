import { describe, expect, it } from 'vitest';
import { countedOhms, type Foreseen, ohmsCounted } from '../src/suspects/foreseen.ts';
import { jointFit } from '../src/suspects/joint-fit.ts';

const foreseen = (mean: number, slope: number, own: number): Foreseen => ({
  mean,
  slopes: Float64Array.of(slope),
  own,
});
const counted = (value: number) => ({ value, field: 100 });

describe('readings against what is foreseen', () => {
  it('agree by the normal law of two that share a deviation', () => {
    // Variances 2 and 5, covariance 2, off by 1 and 2: determinant 6, square (5 − 8 + 8) / 6.
    const fit = jointFit([counted(11), counted(22)], [foreseen(10, 1, 1), foreseen(20, 2, 1)]);
    const normal = -0.5 * (5 / 6) - 0.5 * Math.log(6) - Math.log(2 * Math.PI);
    expect(fit.log).toBeCloseTo(normal + 2 * Math.log(1 - 0.015), 9);
    expect(fit.slips).toEqual([false, false]);
  });

  it('that are off together by what they share disagree less than by themselves', () => {
    const law = foreseen(10, 2, 0.01);
    const together = jointFit([counted(13), counted(13)], [law, law]).log;
    const apart = jointFit([counted(13), counted(7)], [law, law]).log;
    expect(together).toBeGreaterThan(apart + 5);
  });

  it('hold one for a slip that all others speak against, and lose no more by a worse one', () => {
    const laws = [foreseen(10, 0, 1), foreseen(20, 0, 1), foreseen(30, 0, 1)];
    const bad = jointFit([counted(10), counted(90), counted(30)], laws);
    const worse = jointFit([counted(10), counted(-500), counted(30)], laws);
    expect(bad.slips).toEqual([false, true, false]);
    expect(worse.log).toBeGreaterThan(bad.log - 1);
  });

  it('tell open from not open', () => {
    const open = foreseen(Number.POSITIVE_INFINITY, 0, 0);
    const ohms = foreseen(countedOhms(800), 0, 0.01);
    const read = { value: Number.POSITIVE_INFINITY, field: 17 };
    expect(jointFit([read], [open]).log).toBeGreaterThan(jointFit([read], [ohms]).log + 4);
  });

  it('of which nothing is foreseen say nothing', () => {
    expect(jointFit([counted(1)], [undefined]).log).toBe(jointFit([counted(77)], [undefined]).log);
  });

  it('may be many: a hundred make no trouble', () => {
    const laws = Array.from({ length: 100 }, (_, at) => foreseen(at, 1, 0.5));
    const fit = jointFit(
      laws.map(({ mean }) => counted(mean)),
      laws,
    );
    expect(Number.isFinite(fit.log)).toBe(true);
    expect(fit.slips.some((slip) => slip)).toBe(false);
  });
});

describe('ohms as they are counted', () => {
  it('come back as they were, and are open from ten megohms on', () => {
    for (const ohms of [0, 0.3, 800, 2e6])
      expect(ohmsCounted(countedOhms(ohms))).toBeCloseTo(ohms, 6);
    expect(countedOhms(10e6)).toBe(Number.POSITIVE_INFINITY);
  });
});
