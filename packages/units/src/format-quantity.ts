import { plainDecimal, roundToFigures } from './decimal.ts';
import type { Dimension } from './dimension.ts';

/** One unit of a scale of units. */
interface Step {
  readonly unit: string;
  /** Used for exactly one, where it differs: `1 megohm`. */
  readonly one?: string;
  /** SI size of the unit. */
  readonly factor: number;
  /** Smallest SI size written in this unit. */
  readonly from: number;
}

function step(unit: string, factor: number, from: number, one?: string): Step {
  return one === undefined ? { unit, factor, from } : { unit, factor, from, one };
}

/** Largest unit first. Zero is written in the `home` unit. */
interface Scale {
  readonly home: string;
  readonly steps: readonly Step[];
}

const VOLTAGE: Scale = {
  home: 'V',
  steps: [step('V', 1, 0.1), step('mV', 1e-3, 1e-3), step('µV', 1e-6, 0)],
};
const CURRENT: Scale = {
  home: 'A',
  steps: [step('A', 1, 0.1), step('mA', 1e-3, 1e-4), step('µA', 1e-6, 0)],
};
const INDUCTANCE: Scale = {
  home: 'µH',
  steps: [step('H', 1, 1), step('mH', 1e-3, 1e-3), step('µH', 1e-6, 0)],
};
const POWER: Scale = {
  home: 'W',
  steps: [step('W', 1, 0.1), step('mW', 1e-3, 1e-4), step('µW', 1e-6, 0)],
};
const TURNS: Scale = { home: 'turns', steps: [step('turns', 1, 0, 'turn')] };
const PLATES: Scale = { home: 'plates', steps: [step('plates', 1, 0, 'plate')] };
const CHARGE: Scale = { home: 'Ah', steps: [step('Ah', 3600, 0)] };
const PERCENT: Scale = { home: '%', steps: [step('%', 1e-2, 0)] };
const PLAIN: Scale = { home: '', steps: [step('', 1, 0)] };

const SHARED = {
  voltage: VOLTAGE,
  current: CURRENT,
  inductance: INDUCTANCE,
  power: POWER,
  turns: TURNS,
  plates: PLATES,
  charge: CHARGE,
  percent: PERCENT,
  ratio: PLAIN,
  number: PLAIN,
} as const;

/**
 * As a 1920s list would put it (common practice): leaks and plate resistors of 100,000 ohms and
 * up in megohms, tuning in kilocycles up to 3 megacycles (the top of the medium waves), wire in
 * mils, aerials in feet.
 */
const PERIOD: Readonly<Record<Dimension, Scale>> = {
  ...SHARED,
  resistance: {
    home: 'ohms',
    steps: [
      step('megohms', 1e6, 1e5, 'megohm'),
      step('kilohms', 1e3, 1e4, 'kilohm'),
      step('ohms', 1, 0, 'ohm'),
    ],
  },
  capacitance: { home: 'mmfd', steps: [step('mfd', 1e-6, 1e-9), step('mmfd', 1e-12, 0)] },
  frequency: {
    home: 'kc',
    steps: [step('Mc', 1e6, 3e6), step('kc', 1e3, 1e3), step('cycles', 1, 0, 'cycle')],
  },
  wavelength: { home: 'meters', steps: [step('meters', 1, 0, 'meter')] },
  length: {
    home: 'in',
    steps: [
      step('ft', 0.3048, 3 * 0.3048),
      step('in', 0.0254, 0.1 * 0.0254),
      step('mils', 0.0254e-3, 0, 'mil'),
    ],
  },
};

const SI: Readonly<Record<Dimension, Scale>> = {
  ...SHARED,
  resistance: {
    home: 'Ω',
    steps: [step('MΩ', 1e6, 1e6), step('kΩ', 1e3, 1e3), step('Ω', 1, 0)],
  },
  capacitance: {
    home: 'pF',
    steps: [step('µF', 1e-6, 1e-6), step('nF', 1e-9, 1e-9), step('pF', 1e-12, 0)],
  },
  frequency: {
    home: 'kHz',
    steps: [step('MHz', 1e6, 3e6), step('kHz', 1e3, 1e3), step('Hz', 1, 0)],
  },
  wavelength: { home: 'm', steps: [step('m', 1, 0)] },
  length: { home: 'mm', steps: [step('m', 1, 1), step('mm', 1e-3, 0)] },
};

/** Beyond this in its largest unit a size is a slip of the reckoning. */
const LARGEST = 1e300;
/** Below this part of the smallest unit a size is nothing that a bench could show. */
const NOTHING = 1e-3;
/** For a bare ratio or number, which may be small and still say something. */
const NOTHING_BARE = 1e-6;

/**
 * Writes a quantity for people: `250 mmfd`, `2 megohms`, `1230 kc`, `-4.5 V`. Never an exponent,
 * a minus zero or a word such as NaN.
 *
 * Rounded to 3 significant figures by default. Two kinds of number keep more, because somebody
 * wrote them down so: whole turns, plates and plain numbers (a year is not rounded), and a value
 * of a hundred or more that four figures state exactly (a 112.5 V tap, 1235 kc). Sizes below a
 * thousandth of the smallest unit (a millionth for ratios and numbers) are written as 0.
 *
 * @param value in SI, as `readQuantity` gives it (coulombs for charge, fractions for percent).
 * @param dimension what it measures.
 * @param style `period` (mfd, ohms, kc, in) or `si` (pF, Ω, kHz, mm).
 * @param figures significant figures, 1 to 12.
 * @returns 'unknown' for NaN, the infinities and sizes beyond 1e300 of the unit.
 */
export function formatQuantity(
  value: number,
  dimension: Dimension,
  style: 'period' | 'si' = 'period',
  figures = 3,
): string {
  if (!Number.isFinite(value)) return 'unknown';
  const scale = (style === 'si' ? SI : PERIOD)[dimension];
  const size = Math.abs(value);
  const smallest = scale.steps.at(-1)?.factor ?? 1;
  if (size < smallest * (scale === PLAIN ? NOTHING_BARE : NOTHING)) {
    return joined('0', scale.home);
  }
  // Rounding may carry a size into the next unit (999.9 mmfd is .001 mfd), so it comes first.
  const rounded = roundToFigures(size, figures);
  const chosen = scale.steps.find(({ from }) => rounded >= from * (1 - 1e-9)) ?? scale.steps.at(-1);
  if (chosen === undefined) return 'unknown';
  const amount = value / chosen.factor;
  if (!(Math.abs(amount) < LARGEST)) return 'unknown';
  const text = amountText(amount, figures, isWhole(dimension));
  return joined(text, text === '1' || text === '-1' ? (chosen.one ?? chosen.unit) : chosen.unit);
}

function isWhole(dimension: Dimension): boolean {
  return dimension === 'turns' || dimension === 'plates' || dimension === 'number';
}

function amountText(amount: number, figures: number, keepWhole: boolean): string {
  if (keepWhole && Number.isSafeInteger(amount)) return String(amount);
  const oneMore = roundToFigures(amount, figures + 1);
  const isExact = Math.abs(oneMore - amount) <= Math.abs(amount) * 1e-9;
  const keepsOneMore = isExact && Math.abs(amount) >= 100;
  return plainDecimal(amount, keepsOneMore ? figures + 1 : figures);
}

function joined(number: string, unit: string): string {
  return unit === '' ? number : `${number} ${unit}`;
}
