import { describe, expect, it } from 'vitest';
import { plateOverVoltage as check } from '../../src/checks/plate-over-voltage.ts';
import { saidOf, silent } from '../at-work.ts';
import { findingsOf, told } from '../support.ts';

describe('a plate on more volts than its type may have', () => {
  it('is told at the tube, with the tap that would do', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'plate-over-voltage warning @ tube V3 01-A',
    ]);
    const [found] = findingsOf(check, check.fails);
    expect(found?.message).toMatch(
      /^The plate of V3 stands 17\d V above its filament; a 01-A may have 135 V there\.$/,
    );
    expect(found?.cure).toBe('Feed the plate of V3 from B+90 or lower.');
    expect(found?.parts).toEqual(['V3']);
  });

  it('is a gas detector that ionizes', () => {
    const [found] = findingsOf(
      check,
      check.passes
        .replace('tube V1 01-A', 'tube V1 00-A')
        .replace('from V1.plate to B+45', 'from V1.plate to B+90'),
    );
    expect(found?.why).toContain('ionizes');
    expect(found?.cure).toBe('Feed the plate of V1 from B+45 or lower.');
  });

  it('asks for a tap where there is none low enough', () => {
    const text = check.fails
      .replace('    tap B+45 45 V\n    tap B+90 90 V\n', '')
      .replace('to B+45', 'to B+180')
      .replace('to B+90', 'to B+180');
    const cures = findingsOf(check, text).map(({ cure }) => cure);
    expect(cures.some((cure) => cure.includes('no more than 135 V'))).toBe(true);
  });

  it('may be a screen, where the type says what it bears', () => {
    const own = `
tube type SG "screen-grid tube for a test" {
  screen grid
  filament 5 V 0.25 A
  amplification 150
  point plate 135 V screen 45 V grid -1.5 V current 1.7 mA resistance 700000 ohms transconductance 375
  limit plate 180 V
  limit screen 67.5 V
}
`;
    const text = check.passes
      .replace('tube V2 01-A {', 'tube V2 SG {\n      screen to B+90')
      .concat(own);
    expect(saidOf(check, text)).toEqual([
      'warning: The screen of V2 stands 89.8 V above its filament; a SG may have 67.5 V there.',
    ]);
  });
});

describe('a plate on volts that its type bears', () => {
  it('is one within its limit', () => {
    expect(silent(check, check.passes)).toEqual([]);
  });

  it('is one on a fresh battery, a few percent over its name', () => {
    const text = check.passes
      .replace('tube V3 12-A', 'tube V3 01-A')
      .replace('from V3.plate to B+180', 'from V3.plate to B+135')
      .replace('tap B+180 180 V', 'tap B+135 144 V');
    expect(silent(check, text)).toEqual([]);
  });

  it('is one behind a resistor that drops the rest', () => {
    expect(silent(check, check.fails, ['horn H1 2000 ohms', 'resistor R9 100 kilohms'])).toEqual(
      [],
    );
  });

  it('is one whose B- goes to A+, which adds six volts', () => {
    const text = check.passes
      .replace('wire B- to A- to C+ to GND', 'wire B- to A+\n  wire A- to C+ to GND')
      .replace('tube V3 12-A', 'tube V3 01-A')
      .replace('tap B+180 180 V', 'tap B+135 135 V')
      .replace('B+180', 'B+135');
    expect(silent(check, text)).toEqual([]);
  });

  it('is one with no bias at 90 V', () => {
    const text = check.passes.replace('from C-4.5 to V2.grid', 'from A- to V2.grid');
    expect(silent(check, text)).toEqual([]);
  });

  it('is one of a type without a limit, or behind a resistance that is not stated', () => {
    const own =
      '\ntube type 01-A {\n  filament 5 V .25 A\n  amplification 8\n  point plate 90 V grid -4.5 V current 2.5 mA\n}\n';
    expect(silent(check, check.fails + own).filter((said) => said.startsWith('The plate'))).toEqual(
      [],
    );
    expect(silent(check, check.fails, ['horn H1 2000 ohms', 'resistor R9'])).toEqual([]);
  });
});
