import type { Bench } from '@setwright/circuit';
import { meterResistance } from '@setwright/physics';

/** What readings are taken with. */
export interface Meter {
  /** A pointer over a scale, whose error is a share of the full scale; else figures. */
  readonly isPointer: boolean;
  /** Of a pointer instrument, ohms for each volt of its full scale. */
  readonly ohmsPerVolt: number | undefined;
  /** Of a meter with figures: ohms on every range of volts. */
  readonly ohms: number | undefined;
  /** Share of the full scale, or of the reading where it has figures. */
  readonly accuracy: number;
  readonly words: string;
}

/**
 * What is taken where no bench names a meter: one of today with figures, 10 megohms on every range
 * of volts and good to 1 % of what it shows. Common practice.
 */
const MODERN: Meter = {
  isPointer: false,
  ohmsPerVolt: undefined,
  ohms: 10e6,
  accuracy: 0.01,
  words: 'a meter of 10 megohms, good to 1 % of what it shows',
};

/** Accuracy of a pointer instrument of which none is said, a share of its full scale. */
const USUAL_ACCURACY = 0.02;

/**
 * Full scales that instruments of the time have, where a reading does not name its own. Common
 * practice.
 */
const VOLT_SCALES: readonly number[] = [2.5, 10, 50, 250, 500, 1000];
const AMPERE_SCALES: readonly number[] = [1e-3, 10e-3, 50e-3, 0.1, 0.25, 0.5, 1, 2.5, 5, 10, 25];

/** An ohmmeter with a pointer is good to this share of its reading at the best. Common practice. */
const POINTER_OHMS = 0.1;

/** Shows by itself no less than this of the last place, in volts, amperes and ohms. */
const LAST_PLACE = { voltage: 1e-3, current: 1e-6, resistance: 0.1 } as const;

/** What a meter measures. */
export type Quantity = 'voltage' | 'current' | 'resistance';

/**
 * The meter of a bench: `1000 ohms per volt 2 %` is a pointer instrument, `10 megohms 1 %` has as
 * many ohms on every range. The last one said counts.
 */
export function meterOf(bench: Bench | undefined): Meter {
  const said = bench?.entries.findLast(({ kind }) => kind === 'meter');
  const ohms = said?.value?.value;
  if (!said || ohms === undefined || !(ohms > 0)) return MODERN;
  const accuracy = said.range?.value;
  if (said.words.includes('volt')) {
    const share = accuracy ?? USUAL_ACCURACY;
    return {
      isPointer: true,
      ohmsPerVolt: ohms,
      ohms: undefined,
      accuracy: share,
      words: `a meter of ${ohms} ohms per volt, good to ${percent(share)} of full scale`,
    };
  }
  const share = accuracy ?? MODERN.accuracy;
  return {
    isPointer: false,
    ohmsPerVolt: undefined,
    ohms,
    accuracy: share,
    words: `a meter of ${ohms / 1e6} megohms, good to ${percent(share)} of what it shows`,
  };
}

function percent(share: number): string {
  return `${Number((100 * share).toPrecision(3))} %`;
}

/** The full scale that a value is read on where none is said; undefined for a meter with figures. */
export function scaleFor(meter: Meter, quantity: Quantity, value: number): number | undefined {
  if (!meter.isPointer || quantity === 'resistance') return undefined;
  const scales = quantity === 'voltage' ? VOLT_SCALES : AMPERE_SCALES;
  return scales.find((scale) => Math.abs(value) <= scale) ?? scales.at(-1);
}

/** Ohms that a voltmeter draws by on this full scale. */
export function loadOf(meter: Meter, scale: number | undefined): number {
  if (meter.ohms !== undefined) return meter.ohms;
  return (
    meterResistance(meter.ohmsPerVolt ?? 0, scale ?? VOLT_SCALES[0] ?? 1) ??
    Number.POSITIVE_INFINITY
  );
}

/** By how much a meter may show too much or too little. */
export function errorOf(
  meter: Meter,
  quantity: Quantity,
  value: number,
  scale: number | undefined,
): number {
  const least = LAST_PLACE[quantity];
  if (quantity === 'resistance') {
    const share = meter.isPointer ? POINTER_OHMS : meter.accuracy;
    return Math.max(least, share * Math.abs(value));
  }
  const of = meter.isPointer && scale !== undefined ? scale : Math.abs(value);
  return Math.max(least, meter.accuracy * of);
}
