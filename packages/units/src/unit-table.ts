import type { Dimension } from './dimension.ts';

/** Speed of light in meters per second, exact by the definition of the meter (SI, 1983). */
export const SPEED_OF_LIGHT = 299_792_458;

/**
 * One centimeter of capacity in farads. A conducting sphere of 1 cm radius has the capacity of
 * one CGS electrostatic unit, which is 10^9 / c^2 farad with c in cm/s, so 10^5 / c^2 with c in
 * m/s: 1.11265 pF. Source: definition of the CGS electrostatic units.
 */
const CENTIMETER_OF_CAPACITY = 1e5 / SPEED_OF_LIGHT ** 2;

/** One unit and every way it is spelled. */
export interface UnitRow {
  /** Canonical spelling. */
  readonly unit: string;
  readonly dimension: Dimension;
  /** Multiplies a number in this unit into SI. */
  readonly factor: number;
  /**
   * Spellings as `spellingKey` leaves them: no spaces, dots or hyphens, small letters, `u` for
   * micro. The canonical spelling is among them.
   */
  readonly spellings: readonly string[];
}

function row(unit: string, dimension: Dimension, factor: number, spellings: string): UnitRow {
  return { unit, dimension, factor, spellings: spellings.split(' ') };
}

/**
 * Units by dimension, as printed on parts of the 1920s and in today's notation. Printers set these
 * in capitals as they pleased, so `MA`, `MV`, `MH`, `MF` and `MW` are the milli- and micro- units
 * of a receiver: mega-amperes have no place in one. Only a lone `M` is open (see `lone-m.ts`).
 */
export const UNITS: readonly UnitRow[] = [
  row('V', 'voltage', 1, 'v volt volts'),
  row('mV', 'voltage', 1e-3, 'mv millivolt millivolts'),
  row('µV', 'voltage', 1e-6, 'uv microvolt microvolts'),
  row('kV', 'voltage', 1e3, 'kv kilovolt kilovolts'),

  row('A', 'current', 1, 'a amp amps ampere amperes'),
  row('mA', 'current', 1e-3, 'ma milliamp milliamps milliampere milliamperes'),
  row('µA', 'current', 1e-6, 'ua microamp microamps microampere microamperes'),

  row('ohms', 'resistance', 1, 'ohms ohm Ω'),
  row('kilohms', 'resistance', 1e3, 'kilohms kilohm kiloohms kiloohm kohms kohm k kΩ kiloΩ'),
  row('megohms', 'resistance', 1e6, 'megohms megohm megaohms megaohm meg megs MΩ megΩ'),

  row('mfd', 'capacitance', 1e-6, 'mfd mf microfarad microfarads'),
  row('mmfd', 'capacitance', 1e-12, 'mmfd mmf micromicrofarad micromicrofarads uuf uufd'),
  row('µF', 'capacitance', 1e-6, 'uf ufd'),
  row('nF', 'capacitance', 1e-9, 'nf nanofarad nanofarads'),
  row('pF', 'capacitance', 1e-12, 'pf picofarad picofarads'),
  row('F', 'capacitance', 1, 'f farad farads'),

  row('H', 'inductance', 1, 'h hy henry henries henrys'),
  row('mH', 'inductance', 1e-3, 'mh mhy millihenry millihenries millihenrys'),
  row('µH', 'inductance', 1e-6, 'uh uhy microhenry microhenries microhenrys'),

  row('kc', 'frequency', 1e3, 'kc kcs kc/s kcps kilocycle kilocycles'),
  row('kHz', 'frequency', 1e3, 'khz kilohertz'),
  row('Mc', 'frequency', 1e6, 'mc mcs mc/s mcps megacycle megacycles'),
  row('MHz', 'frequency', 1e6, 'mhz megahertz'),
  row('cycles', 'frequency', 1, 'cycles cycle cps c/s'),
  row('Hz', 'frequency', 1, 'hz hertz'),

  row('meters', 'length', 1, 'meters meter metres metre m'),
  row('in', 'length', 0.0254, 'in ins inch inches'),
  row('ft', 'length', 0.3048, 'ft foot feet'),
  row('mm', 'length', 1e-3, 'mm millimeter millimeters millimetre millimetres'),
  row('cm', 'length', 1e-2, 'cm cms centimeter centimeters centimetre centimetres'),
  row('mils', 'length', 0.0254e-3, 'mils mil'),

  row('turns', 'turns', 1, 'turns turn'),
  row('plates', 'plates', 1, 'plates plate'),

  // An ampere-hour is 3600 coulombs.
  row('Ah', 'charge', 3600, 'ah amphour amphours amperehour amperehours'),

  row('W', 'power', 1, 'w watt watts'),
  row('mW', 'power', 1e-3, 'mw milliwatt milliwatts'),
  row('µW', 'power', 1e-6, 'uw microwatt microwatts'),

  row('%', 'percent', 1e-2, '% percent'),
];

/** The centimeter as a capacity; the table above has it as a length. */
export const CAPACITY_CENTIMETER: UnitRow = {
  unit: 'cm',
  dimension: 'capacitance',
  factor: CENTIMETER_OF_CAPACITY,
  spellings: UNITS.find((unit) => unit.unit === 'cm')?.spellings ?? ['cm'],
};

const BY_SPELLING: ReadonlyMap<string, UnitRow> = new Map(
  UNITS.flatMap((unit) => unit.spellings.map((spelling) => [spelling, unit] as const)),
);

/** The unit of a spelling key, if any. */
export function unitOfKey(key: string): UnitRow | undefined {
  return BY_SPELLING.get(key);
}
