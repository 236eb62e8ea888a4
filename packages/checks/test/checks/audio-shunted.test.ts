import { describe, expect, it } from 'vitest';
import { audioShunted as check } from '../../src/checks/audio-shunted.ts';
import { saidOf, silent } from '../at-work.ts';
import { findingsOf, told } from '../support.ts';

const shunt = 'condenser C4 "secondary bypass" .001 mfd across T1.secondary';
const across = (where: string, size: string) =>
  [shunt, `condenser C4 ${size} across ${where}`] as const;

/** A type with the plate resistance of the reckoning by hand, however it works. */
const published = `
tube type 01-A {
  base UX
  filament 5 V 0.25 A
  amplification 8
  point plate 45 V grid 0 V current 1.6 mA resistance 11000 ohms
  point plate 90 V grid -4.5 V current 2.5 mA resistance 11000 ohms
  limit plate 135 V
}
`;

describe('a condenser that takes the treble', () => {
  it('is told with its corner, and counts by the square of the ratio on a secondary', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      `audio-shunted warning @ ${shunt}`,
    ]);
    const [found] = findingsOf(check, check.fails);
    expect(found?.message).toMatch(
      /^C4 of 0\.001 mfd takes the treble from 1\.2 kc up, against the 13 kilohms of V1, for on T1\.secondary it counts 9 times over\.$/,
    );
    expect(found?.cure).toMatch(/^Use about 1\d0 mmfd for C4: then the treble stays to 5 kc\.$/);
    expect(found?.parts).toEqual(['C4']);
  });

  it('has its corner at 1/(2π C n² rp): .001 mfd, 1 to 3.5, 11 kilohms make 1.2 kilocycles', () => {
    const text = check.fails
      .replace('ratio 1 to 3 {', 'ratio 1 to 3.5 {')
      .replace('    condenser C3 .001 mfd from V1.plate to A-\n', '')
      .concat(published);
    const corner = /from (\d+(?:\.\d+)?) (kc|cycles) up, against the (\d+) kilohms/.exec(
      findingsOf(check, text)[0]?.message ?? '',
    );
    const hertz = Number(corner?.[1]) * (corner?.[2] === 'kc' ? 1000 : 1);
    // The plate resistance at work is told; by hand with 11 kilohms it is 1181 cycles.
    expect((hertz * Number(corner?.[3])) / 11).toBeGreaterThan(1181 * 0.9);
    expect((hertz * Number(corner?.[3])) / 11).toBeLessThan(1181 * 1.1);
  });

  it('is a zero lost: .006 mfd at a primary where .0006 belongs', () => {
    expect(saidOf(check, check.fails, across('T1.primary', '.006 mfd'))[0]).toMatch(
      /^(information|warning): C4 of 0\.006 mfd takes the treble from 1\.\d kc up/,
    );
    expect(saidOf(check, check.fails, across('T1.primary', '.02 mfd'))[0]).toMatch(/^warning: /);
  });

  it('is counted together with the others of the same circuit', () => {
    const text = check.passes.replace('C3 .001 mfd', 'C3 .0033 mfd');
    expect(saidOf(check, text)).toHaveLength(1);
    expect(silent(check, text, [shunt.replace('.001', '.0001'), ''])).toEqual([]);
  });

  it('is one across a plate resistor, where all of its resistances count', () => {
    const transformer = check.passes.slice(
      check.passes.indexOf('    transformer T2'),
      check.passes.indexOf('    tube V3'),
    );
    const coupled = check.passes.replace(
      transformer,
      '    resistor R2 100 kilohms from V2.plate to B+90\n    condenser C5 .01 mfd from V2.plate to V3.grid\n    leak R3 .5 meg from V3.grid to C-9\n    condenser C6 .01 mfd from V2.plate to A-\n',
    );
    expect(saidOf(check, coupled)[0]).toMatch(/^warning: C6 of 0\.01 mfd takes the treble from/);
  });

  it('may stand behind a crystal: then the corner is told at the best', () => {
    const text = check.passes
      .replace(
        'condenser C2 .00025 mfd from L1.grid.finish to V1.grid',
        'crystal CR1 from L1.grid.finish to T9.primary.start\n    transformer T9 ratio 1 to 4 {\n      winding primary 600 ohms to A-\n      winding secondary 5000 ohms from A- to V1.grid\n    }\n    condenser C7 .02 mfd across T9.secondary',
      )
      .replace('    leak R1 2 meg from V1.grid to A+\n', '')
      .replace('detector stage DET', 'audio stage DET');
    expect(saidOf(check, text)[0]).toMatch(
      /^warning: C7 of 0\.02 mfd .* up at the best, against the 1000 ohms of CR1/,
    );
  });
});

describe('a condenser that leaves the treble alone', () => {
  it('is small', () => {
    expect(silent(check, check.passes)).toEqual([]);
  });

  it('is a radio bypass of usual size across a primary', () => {
    expect(silent(check, check.fails, across('T1.primary', '.001 mfd'))).toEqual([]);
  });

  it('lies across a horn: .006 mfd there is a habit', () => {
    expect(silent(check, check.fails, across('H1', '.006 mfd'))).toEqual([]);
    expect(saidOf(check, check.fails, across('H1', '.05 mfd'))).toHaveLength(1);
  });

  it('can be switched off: information at the most', () => {
    const switched = check.fails.replace(
      shunt,
      'condenser C4 .001 mfd from T1.secondary.finish to S9.start\n    switch S9 "tone" to A- closed',
    );
    const found = findingsOf(check, switched);
    expect(found.every(({ severity }) => severity === 'information')).toBe(true);
    const atPlate = check.fails.replace(
      shunt,
      'condenser C4 .02 mfd from S9.finish to A-\n    switch S9 "tone" from V1.plate closed',
    );
    expect(findingsOf(check, atPlate).map(({ severity }) => severity)).toEqual(['information']);
  });

  it('works against a source of unknown resistance, such as a pentode into a transformer', () => {
    const pentode = check.fails
      .replace('tube V1 01-A {', 'tube V1 PEN {\n      screen to B+90')
      .concat(
        '\ntube type PEN {\n  pentode\n  filament 5 V .25 A\n  amplification 70\n  point plate 45 V screen 90 V grid 0 V current 5 mA resistance 50000 ohms transconductance 1400\n}\n',
      );
    expect(silent(check, pentode)).toEqual([]);
  });

  it('lies across a secondary of unknown ratio', () => {
    const text = check.fails
      .replace('transformer T1 ratio 1 to 3', 'transformer T1')
      .replace('C3 .001', 'C3 .0005');
    expect(silent(check, text)).toEqual([]);
  });
});
