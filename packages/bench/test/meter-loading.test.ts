import { describe, expect, it } from 'vitest';
import { readingsOf } from '../src/index.ts';
import { setOf } from './example-set.ts';

/** What a meter of so many ohms per volt is expected to show at a junction of two resistors. */
function shown(meter: string, range: string, volts: number, above: number, below: number): number {
  const circuit = setOf(`receiver "divider" {
  battery B dry {
    tap B-
    tap B+ ${volts} V
    resistance .001 ohms
  }
  resistor R1 ${above} ohms from B+ to MID
  resistor R2 ${below} ohms from MID to B-
  bus MID
  bench "divider" {
    meter ${meter}
    actual B+ ${volts} V
    reading MID to B- 1 V on ${range}
  }
}`);
  const { readings } = readingsOf(circuit, { bench: circuit.benches[0] });
  return readings.find(({ read }) => read === 1)?.expected?.value ?? Number.NaN;
}

// The rule: C. T. Burke (1928); the examples computed by hand from V Rm/(Rm + Rth).
describe('a voltmeter draws current, and shows less than is there without it', () => {
  it('100 volts over two times 100 kilohms: 33.3 of 50 volts on a 100 volt range', () =>
    expect(shown('1000 ohms per volt 2 %', '100 V', 100, 100e3, 100e3)).toBeCloseTo(33.333, 3));

  it('41.7 volts of them on a 250 volt range', () =>
    expect(shown('1000 ohms per volt 2 %', '250 V', 100, 100e3, 100e3)).toBeCloseTo(41.667, 3));

  it('180 volts over 100 and 50 kilohms: 52.9 of 60 volts on a 250 volt range', () =>
    expect(shown('1000 ohms per volt 2 %', '250 V', 180, 100e3, 50e3)).toBeCloseTo(52.941, 3));

  it('a cheap meter of 62.5 ohms per volt shows 6.1 volts of 45 behind 20 kilohms', () =>
    expect(shown('62.5 ohms per volt 5 %', '50 V', 45, 20e3, 1e12)).toBeCloseTo(6.081, 3));

  it('a meter of 10 megohms hardly draws any', () =>
    expect(shown('10 megohms 1 %', '100 V', 100, 100e3, 100e3)).toBeCloseTo(49.751, 3));

  it('where none is named it is one of 10 megohms', () => {
    const circuit = setOf(
      'receiver "bare" {\n  battery B dry {\n    tap B-\n    tap B+45\n  }\n  resistor R1 1 meg from B+45 to MID\n  resistor R2 1 meg from MID to B-\n  bus MID\n}',
    );
    expect(readingsOf(circuit).meter).toMatchObject({ ohms: 10e6, isPointer: false });
  });
});

describe('the error of a pointer meter', () => {
  it('is a share of full scale, wherever on the scale it stands', () => {
    const band = (volts: number) => {
      const circuit = setOf(`receiver "battery" {
  battery B dry {
    tap B-
    tap B+ ${volts} V
    resistance .001 ohms
  }
  bench "battery" {
    meter 1000 ohms per volt 2 %
    actual B+ ${volts} V
    reading B+ ${volts} V on 250 V
  }
}`);
      const [reading] = readingsOf(circuit, { bench: circuit.benches[0] }).readings;
      return (reading?.expected?.high ?? 0) - (reading?.expected?.value ?? 0);
    };
    // Two percent of 250 volts, besides the hundredth that the battery was measured to.
    expect(band(10)).toBeCloseTo(5 + 0.1, 2);
    expect(band(200)).toBeCloseTo(5 + 2, 2);
  });
});
