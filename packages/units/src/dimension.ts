/**
 * What a quantity measures. `charge` is what a battery holds (Ah), `ratio` a turns ratio,
 * `number` a plain count or scale reading. A wavelength in meters reads as `length` unless the
 * caller expects a wavelength or a frequency.
 */
export type Dimension =
  | 'voltage'
  | 'current'
  | 'resistance'
  | 'capacitance'
  | 'inductance'
  | 'frequency'
  | 'wavelength'
  | 'length'
  | 'turns'
  | 'plates'
  | 'charge'
  | 'power'
  | 'percent'
  | 'ratio'
  | 'number';

/** How a message names the dimension and the units it is written in. */
interface DimensionWords {
  /** With its article: `a resistance`. */
  readonly name: string;
  /** The units a 1920s writer would choose from; '' where there is none. */
  readonly writtenIn: string;
}

const WORDS: Readonly<Record<Dimension, DimensionWords>> = {
  voltage: { name: 'a voltage', writtenIn: 'V or mV' },
  current: { name: 'a current', writtenIn: 'A or mA' },
  resistance: { name: 'a resistance', writtenIn: 'ohms, kilohms or megohms' },
  capacitance: { name: 'a capacity', writtenIn: 'mfd or mmfd' },
  inductance: { name: 'an inductance', writtenIn: 'H, mH or uH' },
  frequency: { name: 'a frequency', writtenIn: 'kc, Mc or meters' },
  wavelength: { name: 'a wavelength', writtenIn: 'meters or kc' },
  length: { name: 'a length', writtenIn: 'in, ft, mm or meters' },
  turns: { name: 'a number of turns', writtenIn: 'turns' },
  plates: { name: 'a number of plates', writtenIn: 'plates' },
  charge: { name: 'a battery capacity', writtenIn: 'Ah' },
  power: { name: 'a power', writtenIn: 'W or mW' },
  percent: { name: 'a percentage', writtenIn: '%' },
  ratio: { name: 'a ratio', writtenIn: '' },
  number: { name: 'a plain number', writtenIn: '' },
};

/** The dimension's name with its article, for a sentence. */
export function nameOf(dimension: Dimension): string {
  return WORDS[dimension].name;
}

/** `a resistance is written in ohms, kilohms or megohms`, for one or several dimensions. */
export function howWritten(expected: readonly Dimension[]): string {
  const sentences = expected.map((dimension) => {
    const { name, writtenIn } = WORDS[dimension];
    return writtenIn === '' ? `${name} has no unit` : `${name} is written in ${writtenIn}`;
  });
  return sentences.length === 0 ? 'no quantity belongs here' : sentences.join('; ');
}

/** True for what is counted, and so needs no unit: turns, plates, ratios, scale readings. */
export function isCount(dimension: Dimension): boolean {
  return (
    dimension === 'number' ||
    dimension === 'ratio' ||
    dimension === 'turns' ||
    dimension === 'plates'
  );
}
