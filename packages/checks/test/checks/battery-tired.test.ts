import { describe, expect, it } from 'vitest';
import { batteryTired as check } from '../../src/checks/battery-tired.ts';
import { benchExample, withBenches } from '../../src/examples/bench-example.ts';
import { saidOf, silent } from '../at-work.ts';
import { findingsOf, told } from '../support.ts';

const actual = (tap: string, volts: string) => benchExample(`actual ${tap} ${volts}`);

describe('a battery at its end', () => {
  it('is told at the tap, and the tired block is named', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'battery-tired information @ actual B+90 71 V',
    ]);
    expect(findingsOf(check, check.fails)[0]?.message).toBe(
      'The block from B+45 to B+90 gives 27 V of 45 V: a dry one is at its end at 36 V.',
    );
  });

  // Radio Record (New Zealand), 4 May 1928: 36 volts of a block of 45.
  it('is a dry block of 45 volts below 36', () => {
    expect(saidOf(check, actual('B+45', '35 V'))).toEqual([
      'information: B+45 was found at 35 V of 45 V: a dry one is at its end at 36 V.',
    ]);
    expect(silent(check, actual('B+45', '37 V'))).toEqual([]);
  });

  it('is a storage battery below 1.8 volts a cell', () => {
    expect(saidOf(check, actual('A+', '5.2 V'))).toEqual([
      'information: A+ was found at 5.2 V of 6 V: a storage battery is at its end at 5.4 V.',
    ]);
    expect(silent(check, actual('A+', '5.5 V'))).toEqual([]);
  });

  it('is a C battery, whose volts are below its zero', () => {
    expect(saidOf(check, actual('C-4.5', '-3 V'))).toHaveLength(1);
    expect(silent(check, actual('C-4.5', '-4.4 V'))).toEqual([]);
  });

  it('sags with the tubes in by more than its ohms allow', () => {
    const loaded = ['reading B+45 1.8 mA', 'reading B+90 2.3 mA', 'reading B+135 4.5 mA'];
    const text = (volts: string) =>
      withBenches(['tubes out', 'reading B+135 138 V'], [...loaded, `reading B+135 ${volts}`]);
    expect(saidOf(check, text('125 V'))[0]).toMatch(
      /^information: B\+135 falls from 138 V with the tubes out to 125 V with them in: B has 1\d00 ohms or more inside, where 30 ohms are written\.$/,
    );
    expect(silent(check, text('137 V'))).toEqual([]);
    // Without the current of every lead, or one of the two readings, nothing can be told.
    expect(silent(check, text('125 V'), ['    reading B+90 2.3 mA\n', ''])).toEqual([]);
    expect(silent(check, text('125 V'), ['    tubes out\n', ''])).toEqual([]);
    expect(silent(check, text('125 V'), ['    resistance 30 ohms\n', ''])).toEqual([]);
  });
});

describe('a battery that still serves', () => {
  it('stands above its end', () => {
    expect(silent(check, check.passes)).toEqual([]);
  });

  it('may stand above it, for all that the meter can tell', () => {
    const text = benchExample('meter 1000 ohms per volt 2 %', 'actual B+90 71 V');
    // 71 of 90 by a scale of 250 may be 76 as well; the end is 72.
    expect(silent(check, text)).toEqual([]);
    expect(saidOf(check, text, ['71 V', '66 V'])).toHaveLength(1);
  });

  it('is of a kind that the text does not say', () => {
    expect(silent(check, check.fails, ['battery B dry', 'battery B'])).toEqual([]);
  });

  it('is an eliminator, which is no battery', () => {
    const text = check.fails
      .replace('battery B dry', 'eliminator B')
      .replace('    resistance 30 ohms\n', '');
    expect(silent(check, text)).toEqual([]);
  });
});
