import { describe, expect, it } from 'vitest';
import { gridCondenserBypassed as check } from '../../src/checks/grid-condenser-bypassed.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const sound = check.passes;
const second = 'resistor R2 5 meg from V1.grid to A-';
const withSecond = (line: string, ...more: [string, string][]): string =>
  edited(sound, [second, line], ...more);

describe('a grid leak or condenser does nothing', () => {
  it('beside a resistance of less than a twentieth of the leak', () => {
    const findings = findingsOf(check, check.fails);
    expect(told(check.fails, findings)).toEqual(['grid-condenser-bypassed error @ tube V1 01-A']);
    expect(findings[0]?.message).toBe(
      'R1 of V1 does nothing: R2 (5000 ohms) leads from the grid to A- beside it.',
    );
    expect(findings[0]?.cure).toBe("Take R2 off the grid's side of C2.");
    expect(findings[0]?.parts).toEqual(['V1', 'R1']);
  });

  it('where the return lead is on the wrong side of the condenser: the coil leads round it', () => {
    const text = withSecond(
      '// nothing more',
      ['winding grid 240 uH from GND', 'winding grid 240 uH 4 ohms from V1.grid'],
      ['rotor to L1.grid.start', 'rotor to GND'],
    );
    expect(heard(check, text)).toEqual([
      'C2 of V1 does nothing: L1.grid (4 ohms) leads from the grid to L1.grid.finish beside it.',
    ]);
  });

  it('where the grid is wired straight to the filament side', () => {
    expect(heard(check, withSecond('wire V1.grid to A-'))).toEqual([
      'R1 of V1 does nothing: the grid is wired to A-.',
    ]);
    expect(heard(check, withSecond('wire V1.grid to V1.filament-'))).toEqual([
      'R1 of V1 does nothing: the grid is wired to RH1.finish.',
    ]);
  });

  it('beside a choke, where the text says nothing of the leak’s size', () => {
    const text = withSecond('choke CH1 1000 ohms from V1.grid to A-', ['leak R1 2 meg', 'leak R1']);
    expect(heard(check, text)).toEqual([
      'R1 of V1 does nothing: CH1 (1000 ohms) leads from the grid to A- beside it.',
    ]);
  });

  it('as drawn, where a switch takes the path away: information', () => {
    const text = withSecond('switch S1 from V1.grid to A- closed');
    const [found] = findingsOf(check, text);
    expect(found?.severity).toBe('information');
    expect(found?.cure).toBe('Nothing, if it is meant: it is otherwise with S1 open.');
  });
});

describe('a grid leak and condenser work', () => {
  it('with the leak across the condenser', () => {
    const text = withSecond('// nothing more', ['from V1.grid to A+', 'across C2']);
    expect(heard(check, text)).toEqual([]);
  });

  it('with ten megohms of poor insulation round them', () => {
    expect(heard(check, withSecond('resistor R2 10 meg across C2'))).toEqual([]);
  });

  it('with a second leak beside the first', () => {
    expect(heard(check, withSecond('leak R2 1 meg from V1.grid to A+'))).toEqual([]);
  });

  it('with a resistance of which nothing is known', () => {
    expect(heard(check, withSecond('resistor R2 from V1.grid to A-'))).toEqual([]);
  });

  it('in an amplifier, which has no such detector', () => {
    expect(heard(check, edited(check.fails, ['detector stage', 'audio stage']))).toEqual([]);
  });
});
