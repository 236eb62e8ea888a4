import { describe, expect, it } from 'vitest';
import { rheostatOverDissipation as check } from '../../src/checks/rheostat-over-dissipation.ts';
import { saidOf, silent } from '../at-work.ts';
import { findingsOf, told } from '../support.ts';

describe('a rheostat whose wire carries too much', () => {
  it('is told at its line, by current and not by watts', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'rheostat-over-dissipation warning @ rheostat RH3 30 ohms 1 W set 4 ohms from A+ to V3.filament+',
    ]);
    expect(saidOf(check, check.fails)).toEqual([
      'warning: RH3 carries 0.25 A: its wire bears 0.18 A, 1 W in the whole 30 ohms.',
    ]);
    expect(findingsOf(check, check.fails)[0]?.parts).toEqual(['RH3']);
  });

  it('may state the current that it bears', () => {
    expect(saidOf(check, check.fails, ['30 ohms 1 W', '30 ohms .2 A'])).toEqual([
      'warning: RH3 carries 0.25 A: it is rated for 0.2 A.',
    ]);
  });

  it('is information at the end of its travel, and within a tenth of its rating', () => {
    expect(saidOf(check, check.fails, ['30 ohms 1 W', '30 ohms .26 A'])).toEqual([
      'information: RH3 would carry 0.3 A with none of it in: it is rated for 0.26 A.',
    ]);
    expect(saidOf(check, check.fails, ['30 ohms 1 W', '30 ohms .24 A'])[0]).toMatch(
      /^information: RH3 may carry 0\.25 A/,
    );
  });
});

describe('a rheostat whose wire bears it', () => {
  it('has few ohms for its watts', () => {
    expect(silent(check, check.passes)).toEqual([]);
  });

  it('is one of which no rating is stated', () => {
    expect(silent(check, check.fails, [' 1 W', ''])).toEqual([]);
  });

  it('gives off few watts in the part in use, and many amperes are allowed', () => {
    expect(silent(check, check.fails, ['30 ohms 1 W', '30 ohms 3 W'])).toEqual([]);
  });

  it('is not judged by a resistance that is not stated', () => {
    const text = check.fails.replace(
      'from A+ to V3.filament+',
      'from A+ to F9.start\n  resistor F9 to V3.filament+',
    );
    expect(silent(check, text)).toEqual([]);
  });
});
