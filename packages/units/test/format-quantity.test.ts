import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Dimension, formatQuantity, readQuantity } from '../src/index.ts';

const DIMENSIONS: readonly Dimension[] = [
  'voltage',
  'current',
  'resistance',
  'capacitance',
  'inductance',
  'frequency',
  'wavelength',
  'length',
  'turns',
  'plates',
  'charge',
  'power',
  'percent',
  'ratio',
  'number',
];

/** Smallest size of each dimension that is still written with all its figures. */
const SMALLEST: Readonly<Record<Dimension, number>> = {
  voltage: 1e-8,
  current: 1e-8,
  resistance: 1e-2,
  capacitance: 1e-14,
  inductance: 1e-8,
  frequency: 1e-2,
  wavelength: 1e-2,
  length: 2e-6,
  turns: 1e-2,
  plates: 1e-2,
  charge: 36,
  power: 1e-8,
  percent: 1e-4,
  ratio: 1e-5,
  number: 1e-5,
};

describe('period style', () => {
  it.each<[number, Dimension, string]>([
    [2e6, 'resistance', '2 megohms'],
    [1e6, 'resistance', '1 megohm'],
    [250e3, 'resistance', '0.25 megohms'],
    [11000, 'resistance', '11 kilohms'],
    [2500, 'resistance', '2500 ohms'],
    [1, 'resistance', '1 ohm'],
    [0.4, 'resistance', '0.4 ohms'],
    [250e-12, 'capacitance', '250 mmfd'],
    [8.1e-12, 'capacitance', '8.1 mmfd'],
    [0.006e-6, 'capacitance', '0.006 mfd'],
    [1e-6, 'capacitance', '1 mfd'],
    [999.9e-12, 'capacitance', '0.001 mfd'],
    [240e-6, 'inductance', '240 µH'],
    [0.085, 'inductance', '85 mH'],
    [30, 'inductance', '30 H'],
    [550e3, 'frequency', '550 kc'],
    [1500e3, 'frequency', '1500 kc'],
    [7.1e6, 'frequency', '7.1 Mc'],
    [60, 'frequency', '60 cycles'],
    [350, 'wavelength', '350 meters'],
    [0.06985, 'length', '2.75 in'],
    [30.48, 'length', '100 ft'],
    [0.000404, 'length', '15.9 mils'],
    [-4.5, 'voltage', '-4.5 V'],
    [0.02, 'voltage', '20 mV'],
    [15e-6, 'voltage', '15 µV'],
    [0.25, 'current', '0.25 A'],
    [0.0025, 'current', '2.5 mA'],
    [3e-6, 'current', '3 µA'],
    [58, 'turns', '58 turns'],
    [1, 'turns', '1 turn'],
    [23, 'plates', '23 plates'],
    [360000, 'charge', '100 Ah'],
    [0.5, 'power', '0.5 W'],
    [0.03, 'power', '30 mW'],
    [0.2, 'percent', '20 %'],
    [3.5, 'ratio', '3.5'],
    [1926, 'number', '1926'],
  ])('%d as %s is %s', (value, dimension, text) => {
    expect(formatQuantity(value, dimension)).toBe(text);
  });
});

describe('SI style', () => {
  it.each<[number, Dimension, string]>([
    [250e-12, 'capacitance', '250 pF'],
    [6e-9, 'capacitance', '6 nF'],
    [0.5e-6, 'capacitance', '500 nF'],
    [1e-6, 'capacitance', '1 µF'],
    [20, 'resistance', '20 Ω'],
    [11000, 'resistance', '11 kΩ'],
    [2e6, 'resistance', '2 MΩ'],
    [550e3, 'frequency', '550 kHz'],
    [7.1e6, 'frequency', '7.1 MHz'],
    [60, 'frequency', '60 Hz'],
    [350, 'wavelength', '350 m'],
    [0.06985, 'length', '69.9 mm'],
    [240e-6, 'inductance', '240 µH'],
  ])('%d as %s is %s', (value, dimension, text) => {
    expect(formatQuantity(value, dimension, 'si')).toBe(text);
  });
});

describe('figures', () => {
  it.each<[number, Dimension, string]>([
    [1.23456, 'voltage', '1.23 V'],
    [89.94, 'voltage', '89.9 V'],
    [2.125, 'voltage', '2.13 V'],
    [-69.85, 'voltage', '-69.9 V'],
    [1234567, 'frequency', '1230 kc'],
    [123456, 'number', '123456'],
    [0.123456, 'ratio', '0.123'],
  ])('%d as %s is rounded to three: %s', (value, dimension, text) => {
    expect(formatQuantity(value, dimension)).toBe(text);
  });

  it.each<[number, Dimension, string]>([
    [112.5, 'voltage', '112.5 V'],
    [1235e3, 'frequency', '1235 kc'],
    [112.53, 'voltage', '113 V'],
  ])('%d as %s keeps a fourth that says it exactly: %s', (value, dimension, text) => {
    expect(formatQuantity(value, dimension)).toBe(text);
  });

  it('as many as asked for', () => {
    expect(formatQuantity(1234567, 'frequency', 'period', 5)).toBe('1234.6 kc');
    expect(formatQuantity(89.94, 'voltage', 'period', 1)).toBe('90 V');
  });

  it.each([0, -3, 99, Number.NaN, Number.POSITIVE_INFINITY])('%d figures do no harm', (figures) => {
    expect(formatQuantity(4.5, 'voltage', 'period', figures)).toMatch(/^[45](\.5)? V$/);
  });
});

describe('what no bench can show', () => {
  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])(
    '%d is unknown',
    (x) => {
      for (const dimension of DIMENSIONS) expect(formatQuantity(x, dimension)).toBe('unknown');
    },
  );

  it('a size beyond all reckoning is unknown', () => {
    expect(formatQuantity(Number.MAX_VALUE, 'voltage')).toBe('unknown');
    expect(formatQuantity(-Number.MAX_VALUE, 'percent')).toBe('unknown');
  });

  it.each([0, -0, 1e-30, -1e-30, Number.MIN_VALUE])('%d is plain zero', (x) => {
    expect(formatQuantity(x, 'voltage')).toBe('0 V');
    expect(formatQuantity(x, 'capacitance')).toBe('0 mmfd');
    expect(formatQuantity(x, 'number')).toBe('0');
  });

  it('any number at all is written without exponent, NaN or minus zero', () => {
    fc.assert(
      fc.property(
        fc.double(),
        fc.constantFrom(...DIMENSIONS),
        fc.constantFrom('period' as const, 'si' as const),
        (value, dimension, style) => {
          const text = formatQuantity(value, dimension, style);
          expect(text).toMatch(/^(unknown|(?!-0(?![.\d]))-?\d+(\.\d*[1-9])?( [^\d\s]+)?)$/);
        },
      ),
      { numRuns: 1000 },
    );
  });
});

describe('written and read again', () => {
  it.each(DIMENSIONS)('a %s comes back within rounding, in both styles', (dimension) => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 12, noNaN: true }),
        fc.boolean(),
        fc.constantFrom('period' as const, 'si' as const),
        (decades, isNegative, style) => {
          const value = SMALLEST[dimension] * 10 ** decades * (isNegative ? -1 : 1);
          const text = formatQuantity(value, dimension, style);
          const [number = '', unit] = text.split(' ');
          const reading = readQuantity(number, unit, dimension);
          if (!reading.ok) throw new Error(`${text}: ${reading.message}`);
          expect(reading.dimension).toBe(dimension);
          // Three significant figures are at worst half of 1 part in 100.
          expect(Math.abs(reading.value / value - 1)).toBeLessThanOrEqual(0.00501);
        },
      ),
    );
  });
});
