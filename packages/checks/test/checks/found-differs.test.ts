import { describe, expect, it } from 'vitest';
import { foundDiffers as check } from '../../src/checks/found-differs.ts';
import { saidOf, silent } from '../at-work.ts';
import { findingsOf, told } from '../support.ts';

const whyOf = (...changes: readonly (readonly [string, string])[]): string | undefined => {
  const text = changes.reduce((now, [from, to]) => now.replace(from, to), check.passes);
  return findingsOf(check, text)[0]?.why;
};

describe('a part that was found otherwise', () => {
  it('is told at what was found, with what the set makes of it', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'found-differs warning @ 26 kilohms',
    ]);
    const [found] = findingsOf(check, check.fails);
    expect(found?.message).toBe(
      'T2.primary was found to be 26 kilohms where 800 ohms belong, 33 times as much.',
    );
    expect(found?.why).toMatch(
      /^The set minds: the plate of V2 draws 0\.\d+ mA in place of 2\.\d mA\.$/,
    );
    expect(found?.parts).toEqual(['T2.primary']);
  });

  it('may be open: the stage after it is dead', () => {
    const text = check.passes.replace('found 830 ohms', 'found open');
    expect(saidOf(check, text)).toEqual(['warning: T2.primary was found open.']);
    expect(findingsOf(check, text)[0]?.why).toMatch(
      /^The set minds: the plate of V2 draws nothing in place of 2\.\d mA\.$/,
    );
  });

  it('may be shorted', () => {
    expect(whyOf(['condenser C3 .001 mfd', 'condenser C3 .001 mfd found short'])).toMatch(
      /^The set minds: the plate of V1 draws nothing in place of/,
    );
  });

  it('may be a filament resistor', () => {
    expect(whyOf(['F3 4 ohms', 'F3 4 ohms found 8 ohms'])).toMatch(
      /^The set minds: the filament of V3 gets 4\.\d V in place of 5 V\.$/,
    );
  });

  it('is a leak that the set does not mind: 3 megohms for 2', () => {
    const text = check.passes.replace('R1 2 meg', 'R1 2 meg found 3 meg');
    expect(saidOf(check, text)).toEqual([
      'information: R1 was found to be 3 megohms where 2 megohms belong, 50 % too much.',
    ]);
    expect(findingsOf(check, text)[0]?.why).toBe(
      'The set does not mind: the 01-A as a detector takes 2 megohms to 9 megohms.',
    );
  });

  it('is a leak that it does mind: a decade out', () => {
    expect(whyOf(['R1 2 meg', 'R1 2 meg found .2 meg'])).toContain('loads the tuned circuit');
    expect(whyOf(['R1 2 meg', 'R1 2 meg found 20 meg'])).toContain('chokes on strong stations');
  });

  it('is a bypass or a grid condenser', () => {
    expect(whyOf(['C3 .001 mfd', 'C3 .001 mfd found .0015 mfd'])).toContain('does not mind');
    expect(whyOf(['C3 .001 mfd', 'C3 .001 mfd found .0001 mfd'])).toContain('another way home');
    expect(whyOf(['C2 .00025 mfd', 'C2 .00025 mfd found .00035 mfd'])).toContain('hardly minds');
    expect(whyOf(['C2 .00025 mfd', 'C2 .00025 mfd found .00005 mfd'])).toContain('poorly');
  });

  it('is a winding with fewer ohms, of which turns may be shorted', () => {
    expect(whyOf(['found 830 ohms', 'found 500 ohms'])).toContain('Turns of it may be shorted');
  });

  it('is held against its own tolerance where it states one', () => {
    const changes = ['found 830 ohms', '3 % found 830 ohms'] as const;
    expect(saidOf(check, check.passes, changes)).toEqual([
      'information: T2.primary was found to be 830 ohms where 800 ohms belong, 3.8 % too much.',
    ]);
  });
});

describe('a part that was found as it should be', () => {
  it('is within its tolerance, stated or as made', () => {
    expect(silent(check, check.passes)).toEqual([]);
    expect(silent(check, check.fails, ['found 26', '5000 % found 26'])).toEqual([]);
    expect(silent(check, check.passes, ['R1 2 meg', 'R1 2 meg found 2.5 meg'])).toEqual([]);
    expect(silent(check, check.passes, ['C3 .001 mfd', 'C3 .001 mfd found .0012 mfd'])).toEqual([]);
  });

  it('is an air-core winding of which no tolerance is known', () => {
    expect(silent(check, check.passes, ['grid 240 uH', 'grid 240 uH found 200 uH'])).toEqual([]);
  });

  it('has nothing printed to hold it against', () => {
    expect(silent(check, check.passes, ['H1 2000 ohms', 'H1 found 900 ohms'])).toEqual([]);
  });
});
