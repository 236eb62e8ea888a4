import { describe, expect, it } from 'vitest';
import { lostInSomePosition as check } from '../../src/checks/lost-in-some-position.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const sound = check.passes;
const output =
  'selector S1 "phones or horn" from V2.plate to PH1.start, H1.start set 1\n    phones PH1 2000 ohms to B+90\n    horn H1 2000 ohms to B+90';
const withOutput = (lines: string): string => edited(sound, [output, lines]);
const phones = 'phones PH1 2000 ohms from V2.plate to B+90';
const secondary = 'from C-4.5 to V2.grid';

describe('a tube is cut off at some position', () => {
  it('of a selector, whose one way does not lead to a tap', () => {
    const findings = findingsOf(check, check.fails);
    expect(told(check.fails, findings)).toEqual([
      'lost-in-some-position warning @ selector S1 "phones or horn" from V2.plate to PH1.start, H1.start set 1',
    ]);
    expect(findings[0]?.message).toBe('With S1 at H1.start, the plate of V2 has no supply.');
    expect(findings[0]?.parts).toEqual(['S1', 'V2']);
  });

  it('of a jack whose springs leave the plate open when the plug is out', () => {
    const text = withOutput(
      'jack J1 from V2.plate breaks J1.tip to BLANK\n    bus BLANK\n    phones PH1 2000 ohms into J1\n    wire J1.sleeve to B+90',
    );
    const unplugged = edited(text, ['J1.tip to BLANK', 'J1.sleeve to BLANK']);
    expect(heard(check, unplugged)).toEqual(['With J1 empty, the plate of V2 has no supply.']);
  });

  it('of a switch in the grid’s return', () => {
    const text = edited(
      withOutput(phones),
      [secondary, 'from RET to V2.grid'],
      ['  audio stage', '  bus RET\n  switch S2 "tone" from RET to C-4.5 closed\n  audio stage'],
    );
    expect(heard(check, text)).toEqual([
      'With S2 open, the grid of V2 has no way back to the filament.',
    ]);
  });

  it('told once for a switch, whatever the other controls do', () => {
    const text = edited(check.fails, [
      '  post GND ground',
      '  post GND ground\n  switch S9 from GND to EARTH closed\n  bus EARTH',
    ]);
    expect(heard(check, text)).toEqual(['With S1 at H1.start, the plate of V2 has no supply.']);
  });

  it('only where two controls stand so: both are named', () => {
    const text = withOutput(
      'switch S1 from V2.plate to PLA closed\n    switch S2 from V2.plate to PLA closed\n    bus PLA\n    phones PH1 2000 ohms from PLA to B+90',
    );
    expect(heard(check, text)).toEqual([
      'With S1 open and S2 open, the plate of V2 has no supply.',
    ]);
  });
});

describe('nothing is lost', () => {
  it('by the battery switch, which puts the filament out too', () => {
    const text = edited(
      withOutput(phones),
      [
        'rheostat RH2 20 ohms from A-',
        'switch S2 from A- to NEG2 closed makes V2.plate to V2P\n  bus NEG2\n  bus V2P\n  rheostat RH2 20 ohms from NEG2',
      ],
      ['from V2.plate to B+90', 'from V2P to B+90'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('on a blank stud between two taps', () => {
    const text = withOutput(
      'bus BLANK\n    selector S1 from V2.plate to PH1.start, BLANK set 1\n    phones PH1 2000 ohms to B+90',
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('by a switch in the B lead of every plate', () => {
    const text = edited(
      withOutput('phones PH1 2000 ohms from V2.plate to B2'),
      [
        'winding primary 800 ohms from V1.plate to B+45',
        'winding primary 800 ohms from V1.plate to B2',
      ],
      ['  audio stage', '  bus B2\n  switch S2 from B+90 to B2 closed\n  audio stage'],
    );
    expect(heard(check, text)).toEqual([]);
  });

  it('where the jack closes when the plug is out', () => {
    const text = withOutput('jack J1 from V2.plate to B+90\n    phones PH1 2000 ohms into J1');
    expect(heard(check, text)).toEqual([]);
  });

  it('that is not lost as drawn already', () => {
    const text = edited(check.fails, ['set 1', 'set 2']);
    expect(heard(check, text)).toEqual([]);
  });
});
