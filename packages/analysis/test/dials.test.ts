import { describe, expect, it } from 'vitest';
import {
  alignedGang,
  dialTable,
  frequencyAtReading,
  gangTracking,
  lawOfPlates,
  readingAtFrequency,
  stationReadings,
  tunedCircuits,
  tunedDial,
} from '../src/index.ts';
import { exampleSets, setFrom } from './reading-set.ts';

function dialOf(...lines: readonly string[]) {
  const circuit = setFrom(
    'post GND ground',
    'coil L1 {',
    'winding grid 200 uH 4 ohms from GND',
    '}',
    ...lines,
  );
  const [tuned] = tunedCircuits(circuit);
  const dial = tuned && tunedDial(circuit, tuned);
  if (!dial) throw new Error('no dial');
  return dial;
}

const straight = (law: string, scale = '0 to 100') =>
  dialOf(
    `condenser C1 variable 20 to 500 mmfd law ${law} across L1.grid`,
    `dial D1 ${scale} drives C1`,
  );

describe('a dial', () => {
  it('of half-round plates reads the share of the capacity', () => {
    // Half way 260 mmfd and 10 of wiring with 200 uH: 684.9 kc, by 25330.3/f² in megacycles.
    const middle = frequencyAtReading(straight('capacity'), 50) ?? 0;
    expect(middle / 1e6).toBeCloseTo(Math.sqrt(25330.3 / (200 * 270)), 4);
  });

  it.each(['capacity', 'wavelength', 'frequency'])('with plates for even %s reads back', (law) => {
    const dial = straight(law);
    for (const reading of [0, 12.5, 50, 99, 100]) {
      const frequency = frequencyAtReading(dial, reading) ?? 0;
      expect(readingAtFrequency(dial, frequency)).toBeCloseTo(reading, 5);
    }
  });

  it('that is reversed reads from the other end', () => {
    const plain = straight('capacity');
    const turned = straight('capacity', '0 to 100 reversed');
    expect(frequencyAtReading(turned, 30)).toBeCloseTo(frequencyAtReading(plain, 70) ?? 0, 3);
  });

  it('has no reading for a station beyond its reach', () => {
    expect(readingAtFrequency(straight('capacity'), 3e6)).toBeUndefined();
    expect(readingAtFrequency(straight('capacity'), 300e3)).toBeUndefined();
  });

  it('reads back with a condenser in series as well', () => {
    const dial = dialOf(
      'condenser C2 .0005 mfd from L1.grid.finish to C1.stator',
      'condenser C1 variable 20 to 500 mmfd rotor to GND',
      'dial D1 0 to 100 drives C1',
    );
    const frequency = frequencyAtReading(dial, 40) ?? 0;
    // 212 and 500 mmfd in series, 10 of wiring.
    const farads = (212 * 500) / 712 + 10;
    expect(frequency / 1e6).toBeCloseTo(Math.sqrt(25330.3 / (200 * farads)), 4);
    expect(readingAtFrequency(dial, frequency)).toBeCloseTo(40, 5);
  });

  it('has a table that falls in frequency as the plates go in', () => {
    const table = dialTable(straight('wavelength'), 20);
    expect(table).toHaveLength(21);
    for (const [index, { frequency }] of table.entries())
      expect(frequency).toBeLessThan(table[index - 1]?.frequency ?? Number.POSITIVE_INFINITY);
  });
});

describe('the law of the plates', () => {
  it.each([
    [1923, 'capacity'],
    [1927, 'wavelength'],
  ])('of a set of %d is taken as %s, and that is said', (year, law) => {
    // Half-round plates until shaped ones came in 1925: common practice.
    const circuit = setFrom(`year ${year}`, 'condenser C1 variable 20 to 500 mmfd');
    const part = circuit.partNamed.get('C1');
    const found = part && lawOfPlates(circuit, part);
    expect(found?.law).toBe(law);
    expect(found?.assumed).toContain(`${year}`);
  });
});

describe('dials of one set', () => {
  it('agree on a station where their circuits are alike', () => {
    const circuit = exampleSets.get('five-tube-trf');
    const tuned = circuit ? tunedCircuits(circuit) : [];
    const [station] = circuit ? stationReadings(circuit, tuned, [1e6]) : [];
    expect([...(station?.readings.keys() ?? [])]).toEqual(['L1.grid', 'L2.grid', 'L3.grid']);
    expect(station?.readings.get('L1.grid')).toBeCloseTo(station?.readings.get('L2.grid') ?? 0, 6);
    // Within 5 divisions of 100 three dials count as agreeing: common practice.
    expect(station?.spread).toBeLessThan(0.05);
  });

  it('on one shaft part company where one circuit has more strays', () => {
    const circuit = exampleSets.get('heater-tubes');
    const tracking = circuit ? gangTracking(circuit, tunedCircuits(circuit), 'G1') : [];
    const out = tracking[0]?.off.get('L3.grid') ?? 0;
    const into = tracking.at(-1)?.off.get('L3.grid') ?? 0;
    expect(out).toBeLessThan(-0.01);
    expect(Math.abs(into)).toBeLessThan(Math.abs(out) / 4);
  });

  it('keep together over the whole turn once the trimmers are set', () => {
    const circuit = exampleSets.get('heater-tubes');
    if (!circuit) throw new Error('no such set');
    const { tuned, trimmers } = alignedGang(circuit, tunedCircuits(circuit), 'G1');
    // The circuit with most strays keeps its trimmer backed off, at 2 mmfd.
    expect((trimmers.get('TR3') ?? 0) * 1e12).toBeCloseTo(2, 6);
    expect((trimmers.get('TR1') ?? 0) * 1e12).toBeGreaterThan(3);
    for (const { off } of gangTracking(circuit, tuned, 'G1'))
      for (const share of off.values()) expect(Math.abs(share)).toBeLessThan(2e-3);
  });
});
