import { describe, expect, it } from 'vitest';
import { section, sheetIn, wordsOf } from './sheets.ts';

/** A set of one tube, with a switch, a C battery, both or neither. */
const set = (...lines: readonly string[]) => `receiver "Lantern Cove Moth" {
  battery A storage { tap A- tap A+ 6 V }
  battery B dry { tap B- tap B+45 }
  wire A- to B-
  rheostat RH1 20 ohms from A- set 5 ohms
  tube V1 01-A { filament from RH1 to A+ }
  phones PH1 2000 ohms from V1.plate to B+45
  ${lines.join('\n  ')}
}`;

const stepsOf = (text: string) => wordsOf(section(sheetIn(text), 'handling'));

describe('how a set is switched on and off', () => {
  it('speaks of the switch and of C where the set has them', () => {
    const steps = stepsOf(set('switch S1 closed', 'battery C dry { tap C+ tap C-4.5 }'));
    expect(steps).toContain('Tubes in, switch on, and bring');
    expect(steps).toContain('To end: B off first, then the switch, then A and C.');
  });

  it('speaks of neither where it has none', () => {
    const steps = stepsOf(set());
    expect(steps).toContain('Tubes in and bring');
    expect(steps).toContain('To end: B off first, then A.');
    expect(steps).not.toMatch(/switch|\bC\b/);
  });
});
