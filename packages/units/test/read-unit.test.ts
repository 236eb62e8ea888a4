import { describe, expect, it } from 'vitest';
import { type Dimension, readUnit } from '../src/index.ts';

/** Unit, dimension, SI factor, spellings. Factors are the SI prefixes unless noted. */
const TABLE: readonly (readonly [string, Dimension, number, readonly string[]])[] = [
  ['V', 'voltage', 1, ['V', 'v', 'volt', 'volts', 'VOLTS', 'V.']],
  ['mV', 'voltage', 1e-3, ['mV', 'MV', 'mv', 'millivolts']],
  ['µV', 'voltage', 1e-6, ['uV', 'µV', 'microvolts']],
  ['kV', 'voltage', 1e3, ['kV', 'KV']],
  ['A', 'current', 1, ['A', 'a', 'amp', 'amps', 'ampere', 'amperes', 'AMPS', 'amp.']],
  ['mA', 'current', 1e-3, ['mA', 'ma', 'MA', 'M.A.', 'milliamperes', 'milliamps']],
  [
    'µA',
    'current',
    1e-6,
    ['uA', '\u00B5A', '\u03BCA', 'UA', 'microamperes', 'microampere', 'micro-amperes'],
  ],
  ['ohms', 'resistance', 1, ['ohms', 'ohm', 'OHMS', 'Ohm', '\u03A9', '\u2126']],
  [
    'kilohms',
    'resistance',
    1e3,
    [
      'kilohms',
      'kilohm',
      'k',
      'K',
      'k\u03A9',
      'K\u2126',
      'k \u03A9',
      'kohms',
      'k ohms',
      'K OHMS',
      'kilo-ohms',
    ],
  ],
  [
    'megohms',
    'resistance',
    1e6,
    [
      'megohms',
      'megohm',
      'meg',
      'MEG',
      'Meg.',
      'megs',
      'meg ohms',
      'MEG\u03A9',
      'M\u03A9',
      'M\u2126',
      'MEGOHMS',
    ],
  ],
  ['mfd', 'capacitance', 1e-6, ['mfd', 'mf', 'MFD', 'Mfd', 'MF', 'M.F.', 'm.f.d.', 'microfarads']],
  [
    'mmfd',
    'capacitance',
    1e-12,
    ['mmfd', 'mmf', 'MMF', 'MMFD', 'uuF', '\u00B5\u00B5F', '\u03BC\u03BCF'],
  ],
  ['µF', 'capacitance', 1e-6, ['uF', 'UF', '\u00B5F', '\u03BCF', 'uf']],
  ['nF', 'capacitance', 1e-9, ['nF', 'nf']],
  ['pF', 'capacitance', 1e-12, ['pF', 'PF', 'pf']],
  ['F', 'capacitance', 1, ['F', 'farads']],
  ['H', 'inductance', 1, ['H', 'h', 'henry', 'henries', 'Henrys', 'hy']],
  ['mH', 'inductance', 1e-3, ['mH', 'MH', 'mhy', 'MHY', 'millihenries', 'millihenry']],
  ['µH', 'inductance', 1e-6, ['uH', 'UH', '\u00B5H', '\u03BCH', 'microhenries', 'microhenrys']],
  ['kc', 'frequency', 1e3, ['kc', 'KC', 'Kc', 'kc.', 'kc/s', 'kilocycles', 'KILOCYCLES']],
  ['kHz', 'frequency', 1e3, ['kHz', 'KHZ', 'khz']],
  ['Mc', 'frequency', 1e6, ['Mc', 'MC', 'mc', 'megacycles']],
  ['MHz', 'frequency', 1e6, ['MHz', 'mhz']],
  ['cycles', 'frequency', 1, ['cycles', 'cycle', 'cps', 'c/s', 'C/S']],
  ['Hz', 'frequency', 1, ['Hz', 'hz', 'HZ']],
  ['meters', 'length', 1, ['meters', 'meter', 'metres', 'm', 'm.', 'METERS']],
  // The international inch is 25.4 mm exactly (1959); foot and mil follow from it.
  ['in', 'length', 0.0254, ['in', 'in.', 'IN', 'inch', 'inches']],
  ['ft', 'length', 0.3048, ['ft', 'feet', 'foot', 'Ft.']],
  ['mm', 'length', 1e-3, ['mm', 'MM', 'millimeters']],
  ['cm', 'length', 1e-2, ['cm', 'CM', 'centimeters']],
  ['mils', 'length', 2.54e-5, ['mil', 'mils']],
  ['turns', 'turns', 1, ['turn', 'turns', 'TURNS']],
  ['plates', 'plates', 1, ['plates', 'plate']],
  // One ampere for 3600 seconds.
  ['Ah', 'charge', 3600, ['Ah', 'AH', 'ah', 'A.H.', 'ampere-hours', 'amp hours']],
  ['W', 'power', 1, ['W', 'w', 'watts', 'watt']],
  ['mW', 'power', 1e-3, ['mW', 'MW']],
  ['µW', 'power', 1e-6, ['uW']],
  ['%', 'percent', 0.01, ['%', 'percent', 'per cent', 'PERCENT']],
];

describe('a unit as printed', () => {
  const cases = TABLE.flatMap(([unit, dimension, factor, spellings]) =>
    spellings.map((text) => [text, unit, dimension, factor] as const),
  );

  it.each(cases)('%j is %s', (text, unit, dimension, factor) => {
    const reading = readUnit(text);
    expect(reading?.unit).toBe(unit);
    expect(reading?.dimension).toBe(dimension);
    expect(reading?.factor).toBeCloseTo(factor, 15);
  });

  it.each(TABLE.map(([unit]) => unit))('%s, the canonical spelling, reads as itself', (unit) => {
    expect(readUnit(unit)?.unit).toBe(unit);
  });

  it.each(['M', 'M.', 'M ohms', 'M ohm', 'm ohms', 'M OHMS', 'M \u03A9', 'M-ohms', 'Mohms'])(
    '%j may be a thousand or a million, so it is not read',
    (text) => {
      expect(readUnit(text)).toBeUndefined();
    },
  );

  it('a small m before the ohm sign may be a thousandth, so it is not read', () => {
    expect(readUnit('m\u03A9')).toBeUndefined();
  });

  it.each(['', ' ', '.', '-', 'mfds', 'oms', 'B&S', 'constructor', '__proto__', 'x'.repeat(9000)])(
    '%j is no unit',
    (text) => {
      expect(readUnit(text)).toBeUndefined();
    },
  );

  it('a centimeter is a length, and a capacity where one is expected', () => {
    expect(readUnit('cm')?.dimension).toBe('length');
    expect(readUnit('cm', 'capacitance')?.dimension).toBe('capacitance');
  });

  it('a centimeter of capacity is 1.11265 pF', () => {
    // 10^9 / c^2 with c = 2.99792458e10 cm/s: definition of the CGS electrostatic unit.
    expect(readUnit('cm', 'capacitance')?.factor).toBeCloseTo(1.11265006e-12, 20);
  });

  it('what is expected changes no other unit', () => {
    expect(readUnit('V', 'capacitance')?.dimension).toBe('voltage');
  });
});
