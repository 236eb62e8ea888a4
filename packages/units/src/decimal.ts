/**
 * Lifts a binary number by far less than any figure shown, so that a half reads as the half
 * somebody wrote: 69.85 is 69.8499… in binary and should still round to 69.9.
 */
const LIFT = 1 + 1e-13;

/** Significant figures that `plainDecimal` can be asked for. */
const MOST_FIGURES = 12;

/**
 * Multiplies by a power of ten through the decimal text, so that `.00025 mfd` and `250 mmfd` come
 * out as the very same number: a binary product with 1e-6 or 1e-12 would part them in the last
 * place.
 *
 * @param value any number.
 * @param power a whole power of ten.
 */
export function timesPowerOfTen(value: number, power: number): number {
  if (!Number.isFinite(value)) return value;
  const [digits = '0', exponent = '0'] = String(value).split('e');
  return Number(`${digits}e${Number(exponent) + power}`);
}

/** Rounds to so many significant figures (1 to 12). Infinities and NaN come back. */
export function roundToFigures(value: number, figures: number): number {
  if (!Number.isFinite(value)) return value;
  return Number((value * LIFT).toExponential(usableFigures(figures) - 1));
}

/**
 * Writes a finite number without exponent, trailing zeros or minus zero: `0.00025`, `11000`.
 *
 * @param value finite, and not within a hair of the greatest number there is.
 * @param figures significant figures, 1 to 12.
 */
export function plainDecimal(value: number, figures: number): string {
  if (value === 0) return '0';
  const [mantissa = '0', exponentText = '0'] = Math.abs(value * LIFT)
    .toExponential(usableFigures(figures) - 1)
    .split('e');
  const digits = mantissa.replace('.', '').replace(/0+$/, '');
  const exponent = Number(exponentText);
  const sign = value < 0 ? '-' : '';
  if (exponent < 0) return `${sign}0.${'0'.repeat(-exponent - 1)}${digits}`;
  const whole = digits.slice(0, exponent + 1).padEnd(exponent + 1, '0');
  const part = digits.slice(exponent + 1);
  return part === '' ? `${sign}${whole}` : `${sign}${whole}.${part}`;
}

function usableFigures(figures: number): number {
  return Number.isFinite(figures) ? Math.min(MOST_FIGURES, Math.max(1, Math.trunc(figures))) : 3;
}
