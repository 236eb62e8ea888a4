import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../../src/operating-point.ts';
import { response } from '../../src/small-signal/response.ts';
import { threeDialSet } from './three-dial-set.ts';

const STATIONS = [560e3, 800e3, 1100e3, 1450e3];
const QUALITY = 150;

/** Decibels at the detector; undefined where it squeals. */
function heard(lead: number, bypass: boolean): readonly (number | undefined)[] {
  const circuit = threeDialSet({ losser: 3000, lead, bypass });
  const options = { quality: QUALITY, stations: STATIONS };
  return response(circuit, operatingPoint(circuit), options).stations.map(({ detectorVolts }) =>
    detectorVolts === undefined ? undefined : 20 * Math.log10(detectorVolts),
  );
}

describe('a plate lead whose bypass is open', () => {
  // Two stretches of battery lead of 2 microhenries each lie in the way, 4 in all.
  it('changes every direct voltage by less than 1 percent', () => {
    const whole = threeDialSet({ losser: 3000, lead: 20 });
    const open = threeDialSet({ losser: 3000, lead: 20, bypass: false });
    const [before, after] = [operatingPoint(whole), operatingPoint(open)];
    for (const terminal of ['V1.plate', 'V2.plate', 'V3.plate', 'V4.plate', 'V1.grid']) {
      const tube = terminal.split('.')[0];
      const one = before.voltage(terminal, `${tube}.filament-`)!;
      const other = after.voltage(terminal, `${tube}.filament-`)!;
      expect(Math.abs(other - one)).toBeLessThanOrEqual(0.01 * Math.abs(one));
    }
  });

  it('with 20 ohms in it changes the signal by less than 2 decibels', () => {
    const before = heard(20, true);
    for (const [at, level] of heard(20, false).entries())
      expect(Math.abs(level! - before[at]!)).toBeLessThan(2);
  });

  it.each([500, 800, 1500])(
    'with %i ohms in it squeals, or loses more than 10 decibels at the low end',
    (lead) => {
      const [before] = heard(20, true);
      const [level] = heard(lead, false);
      expect(level === undefined || before! - level > 10).toBe(true);
    },
  );
});
