import { describe, expect, it } from 'vitest';
import { type Dimension, readQuantity } from '../src/index.ts';

type Expected = Dimension | readonly Dimension[];

function read(number: string, unit: string | undefined, expected: Expected) {
  const reading = readQuantity(number, unit, expected);
  if (!reading.ok) throw new Error(reading.message);
  return reading;
}

function refuse(number: string, unit: string | undefined, expected: Expected) {
  const reading = readQuantity(number, unit, expected);
  if (reading.ok) throw new Error(`${number} ${unit} reads as ${reading.value}`);
  return { ...reading, units: reading.fixes.map((fix) => fix.unit) };
}

describe('a quantity that reads', () => {
  it.each<[string, string | undefined, Expected, number, Dimension]>([
    ['.00025', 'mfd', 'capacitance', 2.5e-10, 'capacitance'],
    ['250', 'mmfd', 'capacitance', 2.5e-10, 'capacitance'],
    ['1', 'MF', 'capacitance', 1e-6, 'capacitance'],
    ['2', 'meg', 'resistance', 2e6, 'resistance'],
    ['1/4', 'megohm', 'resistance', 250e3, 'resistance'],
    ['20', 'ohms', 'resistance', 20, 'resistance'],
    ['112.5', 'V', 'voltage', 112.5, 'voltage'],
    ['-4.5', 'volts', 'voltage', -4.5, 'voltage'],
    ['.25', 'A', 'current', 0.25, 'current'],
    ['60', 'MA', 'current', 0.06, 'current'],
    ['240', 'uH', 'inductance', 240e-6, 'inductance'],
    ['85', 'mhy', 'inductance', 0.085, 'inductance'],
    ['550', 'kc', 'frequency', 550e3, 'frequency'],
    ['2 3/4', 'in', 'length', 0.06985, 'length'],
    ['10', 'm', 'length', 10, 'length'],
    ['58', 'turns', 'turns', 58, 'turns'],
    ['23', 'plates', 'plates', 23, 'plates'],
    ['100', 'Ah', 'charge', 360000, 'charge'],
    ['1/2', 'W', 'power', 0.5, 'power'],
    ['20', '%', 'percent', 0.2, 'percent'],
    ['45', 'kilocycles', ['inductance', 'frequency'], 45e3, 'frequency'],
  ])('%s %s', (number, unit, expected, value, dimension) => {
    const reading = read(number, unit, expected);
    expect(reading.dimension).toBe(dimension);
    expect(Math.abs(reading.value / value - 1)).toBeLessThan(1e-12);
  });

  it('.00025 mfd and 250 mmfd are the very same number', () => {
    const small = read('.00025', 'mfd', 'capacitance').value;
    expect(read('250', 'mmfd', 'capacitance').value).toBe(small);
  });

  it('keeps the unit as the author wrote it', () => {
    expect(read('1', ' M.F.D. ', 'capacitance').unit).toBe('M.F.D.');
  });

  it.each<Dimension>(['number', 'ratio', 'turns', 'plates'])('a %s needs no unit', (dimension) => {
    const reading = read('3.5', undefined, dimension);
    expect(reading).toEqual({ ok: true, value: 3.5, dimension, unit: '' });
  });

  it('a blank unit is no unit', () => {
    expect(read('3', '  ', 'number').unit).toBe('');
  });

  it('a bare number is the plain number where one may stand beside a quantity', () => {
    expect(read('45', undefined, ['percent', 'number']).dimension).toBe('number');
    expect(read('45', '%', ['percent', 'number']).dimension).toBe('percent');
  });

  it('splits a unit written against its number', () => {
    expect(read('2meg', undefined, 'resistance')).toMatchObject({ value: 2e6, unit: 'meg' });
    expect(read('.5 %', undefined, 'percent')).toMatchObject({ value: 0.005, unit: '%' });
  });
});

describe('centimeters', () => {
  it('are capacity where a capacity is expected', () => {
    // 250 cm x 1.11265 pF, the CGS electrostatic unit.
    const reading = read('250', 'cm', 'capacitance');
    expect(reading.dimension).toBe('capacitance');
    expect(reading.value).toBeCloseTo(278.1625e-12, 16);
  });

  it('are length elsewhere', () => {
    expect(read('5', 'cm', 'length').value).toBeCloseTo(0.05, 12);
  });
});

describe('wavelength and frequency stand for each other', () => {
  // kc = 299,792.458 / meters, from c = 299,792,458 m/s exact (SI).
  it.each<[string, string, number]>([
    ['300', 'meters', 999308.193],
    ['545', 'm', 550077.905],
    ['545', 'M', 550077.905],
    ['200', 'metres', 1498962.29],
  ])('%s %s as a frequency', (number, unit, hertz) => {
    const reading = read(number, unit, 'frequency');
    expect(reading.dimension).toBe('frequency');
    expect(reading.value).toBeCloseTo(hertz, 2);
  });

  it('1000 kc as a wavelength is 299.79 meters', () => {
    const reading = read('1000', 'kc', 'wavelength');
    expect(reading.dimension).toBe('wavelength');
    expect(reading.value).toBeCloseTo(299.792458, 9);
  });

  it('meters are a wavelength where a wavelength is expected', () => {
    expect(read('350', 'meters', 'wavelength')).toMatchObject({
      value: 350,
      dimension: 'wavelength',
    });
  });

  it('each keeps to itself where both are expected', () => {
    expect(read('350', 'meters', ['frequency', 'wavelength']).dimension).toBe('wavelength');
    expect(read('350', 'kc', ['wavelength', 'frequency']).dimension).toBe('frequency');
  });

  it.each(['0', '-200'])('%s meters has no frequency', (number) => {
    expect(refuse(number, 'meters', 'frequency').fault).toBe('wrong-unit');
  });

  it('feet of wave are refused', () => {
    expect(refuse('350', 'ft', 'frequency')).toMatchObject({
      fault: 'wrong-unit',
      units: ['meters', 'kc'],
    });
  });
});

describe('missing-unit', () => {
  it.each<[string, Expected, readonly string[]]>([
    ['.00025', 'capacitance', ['mfd']],
    ['.09', 'capacitance', ['mfd']],
    ['1', 'capacitance', ['mfd', 'mmfd']],
    ['5', 'capacitance', ['mmfd']],
    ['250', 'capacitance', ['mmfd']],
    ['2', 'resistance', ['megohms', 'ohms']],
    ['20', 'resistance', ['ohms']],
    ['-4.5', 'voltage', ['V']],
    ['.25', 'current', ['A', 'mA']],
    ['2.5', 'current', ['mA', 'A']],
    ['60', 'current', ['mA']],
    ['240', 'inductance', ['uH', 'mH']],
    ['30', 'inductance', ['H', 'mH', 'uH']],
    ['1000', 'frequency', ['kc']],
    ['350', 'frequency', ['meters', 'kc']],
    ['7', 'frequency', ['Mc', 'kc']],
    ['0', 'frequency', ['kc']],
    ['350', 'wavelength', ['meters', 'kc']],
    ['2 3/4', 'length', ['in']],
    ['70', 'length', ['in', 'mm', 'ft']],
    ['100', 'charge', ['Ah']],
    ['20', 'percent', ['%']],
    ['.5', 'power', ['W']],
  ])('%s as %s asks for %j', (number, expected, units) => {
    const refused = refuse(number, undefined, expected);
    expect(refused.fault).toBe('missing-unit');
    expect(refused.units).toEqual(units);
  });

  it('a bare number may be a winding of turns or an inductance, so it is asked', () => {
    expect(refuse('58', undefined, ['turns', 'inductance']).units).toEqual([
      'turns',
      'H',
      'mH',
      'uH',
    ]);
  });

  it('names the number and the units it could be written in', () => {
    expect(refuse('2', undefined, 'resistance').message).toBe(
      '2 has no unit; a resistance is written in ohms, kilohms or megohms.',
    );
  });

  it('each fix has a title that shows what will stand', () => {
    expect(refuse('.00025', undefined, 'capacitance').fixes).toEqual([
      { title: 'Write .00025 mfd', unit: 'mfd' },
    ]);
  });
});

describe('ambiguous-unit', () => {
  it.each(['M', 'm', 'M.', 'M ohms', 'M ohm', 'M OHMS', 'm ohms', 'M \u03A9', 'Mohms'])(
    '2 %s may be thousands or millions of ohms',
    (unit) => {
      const refused = refuse('2', unit, 'resistance');
      expect(refused.fault).toBe('ambiguous-unit');
      expect(refused.units).toEqual(['kilohms', 'megohms']);
    },
  );

  it('says so in one line, however the unit was broken', () => {
    expect(refuse('2', 'M\nohms', 'resistance').message).toBe(
      '2 M ohms may be thousands or millions of ohms; ' +
        'the M of the 1920s meant either, so write kilohms or megohms.',
    );
  });

  it('m before the ohm sign may be millions or thousandths', () => {
    const refused = refuse('400', 'm\u03A9', 'resistance');
    expect(refused.fault).toBe('ambiguous-unit');
    expect(refused.fixes).toEqual([
      { title: 'Write 400 megohms', unit: 'megohms' },
      { title: 'Write 0.4 ohms', unit: 'ohms', number: '0.4' },
    ]);
  });

  it('a leak in meg and a condenser in mfd are plain', () => {
    expect(read('2', 'MEG', 'resistance').value).toBe(2e6);
    expect(read('1', 'MFD', 'capacitance').value).toBe(1e-6);
  });

  it('M written against its number is open too, and the fix mends the number', () => {
    expect(refuse('2M', undefined, 'resistance').fixes).toEqual([
      { title: 'Write 2 kilohms', unit: 'kilohms', number: '2' },
      { title: 'Write 2 megohms', unit: 'megohms', number: '2' },
    ]);
  });
});

describe('wrong-unit', () => {
  it.each<[string, string, Expected, readonly string[]]>([
    ['350', 'meters', 'capacitance', ['mmfd']],
    ['250', 'mm', 'capacitance', ['mmfd']],
    ['.0005', 'm', 'capacitance', ['mfd']],
    ['550', 'k', 'frequency', ['kc']],
    ['10', 'mils', 'current', ['mA']],
    ['5', 'm', 'current', ['mA']],
    ['100', 'A', 'charge', ['Ah']],
    ['45', 'ohms', 'voltage', ['V']],
    ['2', 'mfd', 'resistance', ['megohms', 'ohms']],
    ['2', 'M ohms', 'voltage', ['V']],
    ['3', 'V', 'ratio', ['']],
    ['4', 'V', 'turns', ['turns']],
    ['5', '%', 'number', ['']],
  ])('%s %s as %s offers %j', (number, unit, expected, units) => {
    const refused = refuse(number, unit, expected);
    expect(refused.fault).toBe('wrong-unit');
    expect(refused.units).toEqual(units);
  });

  it('says what the unit measures and what was wanted', () => {
    expect(refuse('350', 'meters', 'capacitance').message).toBe(
      '350 meters is a length; a capacity is written in mfd or mmfd.',
    );
  });

  it('taking the unit away has its own title', () => {
    expect(refuse('3', 'V', 'ratio').fixes[0]?.title).toBe('Write 3 without a unit');
  });

  it('a number too long for any size is refused', () => {
    const refused = refuse('9'.repeat(305), 'megohms', 'resistance');
    expect(refused.fault).toBe('wrong-unit');
    expect(refused.message.length).toBeLessThan(200);
  });

  it('nothing can be read where nothing is expected', () => {
    expect(refuse('3', 'V', []).units).toEqual([]);
  });
});

describe('unknown-unit', () => {
  it.each<[string, string, Expected, readonly string[]]>([
    ['.00025', 'mfds', 'capacitance', ['mfd']],
    ['20', 'oms', 'resistance', ['ohms']],
    ['250', 'mmdf', 'capacitance', ['mmfd']],
    ['250', 'MMDF', 'capacitance', ['mmfd']],
    ['45', 'vlots', 'voltage', ['V']],
    ['550', 'kilocylces', 'frequency', ['kc']],
    ['350', 'metrs', 'frequency', ['meters']],
    ['240', 'microhenrie', 'inductance', ['uH']],
    ['2', 'megohns', 'resistance', ['megohms']],
    ['12', 'trns', 'turns', ['turns']],
    ['.0005', 'M', 'capacitance', ['mfd']],
    ['3', 'furlongs', 'voltage', ['V']],
    ['.00025', 'bushels', 'capacitance', ['mfd']],
    ['3', 'to', 'ratio', ['']],
    ['.00025', '__proto__', 'voltage', ['V']],
    ['.00025', 'constructor', 'capacitance', ['mfd']],
  ])('%s %s as %s offers %j', (number, unit, expected, units) => {
    const refused = refuse(number, unit, expected);
    expect(refused.fault).toBe('unknown-unit');
    expect(refused.units).toEqual(units);
  });

  it('quotes the word', () => {
    expect(refuse('2', 'bushels', 'resistance').message).toBe(
      '"bushels" is not a unit; a resistance is written in ohms, kilohms or megohms.',
    );
  });

  it('a word in place of the number is said to be no number', () => {
    expect(refuse('two', 'meg', 'resistance').message).toBe('"two" is not a number.');
  });

  it('a very long word is cut short in the message', () => {
    expect(refuse('2', 'q'.repeat(5000), 'resistance').message.length).toBeLessThan(200);
  });
});
