import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { meterReading, meterResistance, unloadedVoltage } from '../src/index.ts';
import { known } from './support.ts';

describe('a voltmeter across a high resistance', () => {
  // V Rm/(Rm + Rs), computed independently: volts without meter, source ohms, ohms per volt,
  // range, reading.
  it.each([
    ['100 volts over 100 and 100 kilohms', 50, 50e3, 1000, 100, 33.333],
    ['the same on the 250 volt range', 50, 50e3, 1000, 250, 41.667],
    ['180 volts over 100 and 50 kilohms', 60, 100e3 / 3, 1000, 250, 52.941],
    ['a cheap meter on 45 volts behind 20 kilohms', 45, 20e3, 62.5, 50, 6.081],
  ])('%s', (_, voltage, source, ohmsPerVolt, range, reading) => {
    const meter = known(meterResistance(ohmsPerVolt, range));
    expect(known(meterReading(voltage, source, meter))).toBeCloseTo(reading, 3);
  });

  it('can be undone when the source resistance is known', () => {
    const positive = fc.double({ min: 1, max: 1e7, noNaN: true });
    fc.assert(
      fc.property(positive, positive, positive, (voltage, source, meter) => {
        const reading = known(meterReading(voltage, source, meter));
        expect(known(unloadedVoltage(reading, source, meter)) / voltage).toBeCloseTo(1, 9);
      }),
      { seed: 13, numRuns: 100 },
    );
  });
});
