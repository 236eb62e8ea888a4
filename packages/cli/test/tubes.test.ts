import { builtInTubeTypes } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import { folderWith, runIn } from './support.ts';

const printed = (...args: string[]) => runIn(folderWith({}), ['tubes', ...args]);

/** Lines of a whole printing that tell of a published point. */
const pointsIn = (text: string) =>
  text.split('\n').filter((line) => /^ {2}[\d.]+ V .* (mA|µA)/.test(line));

describe('setwright tubes', () => {
  it('of every type has each point within a tenth, or says that another print contradicts it', () => {
    const points = pointsIn(printed().out);
    // The library has as many published currents; type 80 has none.
    expect(points).toHaveLength(
      [...builtInTubeTypes().values()]
        .flatMap(({ points: all }) => all)
        .filter(({ plateAmperes }) => plateAmperes !== undefined).length,
    );
    expect(points.length).toBeGreaterThan(60);
    for (const line of points) {
      if (line.includes('left out')) continue;
      const offs = [...line.matchAll(/[−+]([\d.]+) %/g)].map(([, off]) => Number(off));
      expect(offs.length, line).toBeGreaterThan(0);
      for (const off of offs) expect(off, line).toBeLessThan(10);
    }
  });

  it('prints mutual conductances where the source does', () => {
    const line = pointsIn(printed('30').out)[0];
    expect(line).toMatch(/2\.5 mA +[\d.]+ mA +[−+][\d.]+ % +850 +\d+ +[−+]/);
  });

  it('prints every published point of a type beside what is reckoned, and the sources', () => {
    const lines = printed('01-A').out.split('\n');
    const points = lines.filter((line) => /mA/.test(line));
    expect(points.length).toBeGreaterThan(3);
    // Every point that stands is within a tenth; the others say that they are left out.
    for (const line of points) {
      const offs = [...line.matchAll(/([\d.]+) %/g)].map(([, off]) => Number(off));
      if (offs.length > 0) for (const off of offs) expect(off).toBeLessThan(10);
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
