import { describe, expect, it } from 'vitest';
import { folderWith, runIn } from './support.ts';

const printed = (...args: string[]) => runIn(folderWith({}), ['tubes', ...args]);

describe('setwright tubes', () => {
  it('prints every published point of a type beside what is reckoned, and the sources', () => {
    const lines = printed('01-A').out.split('\n');
    const points = lines.filter((line) => /mA/.test(line));
    expect(points.length).toBeGreaterThan(3);
    // Every point that stands is within a tenth; the others say that they are left out.
    for (const line of points) {
      const off = /([\d.]+) %$/.exec(line);
      if (off) expect(Number(off[1])).toBeLessThan(10);
      else expect(line).toMatch(/left out$/);
    }
    expect(lines.join(' ')).toContain('Radio Broadcast, vol. XIII (1928), p. 274');
  });

  it('says the nearest names of a type that it has not', () => {
    const { code, err } = printed('01-B');
    expect(code).toBe(2);
    expect(err).toContain('01-A');
  });
});
