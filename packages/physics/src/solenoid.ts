import { INCH, MU_0 } from './constants.ts';
import { arePositive, finiteOrUndefined } from './domain.ts';
import { nagaokaCoefficient } from './nagaoka.ts';

/** A single-layer coil of round wire as wound. */
export interface SingleLayerCoil {
  /** Number of turns; need not be whole. */
  readonly turns: number;
  /** Radius to the middle of the wire, metres. */
  readonly radius: number;
  /** From the middle of one turn to the middle of the next, metres. */
  readonly pitch: number;
  /** Diameter of the bare wire, metres; not above the pitch. */
  readonly wireDiameter: number;
}

/**
 * Inductance in henries of a cylindrical current sheet: μ₀ N² π a² K / b.
 *
 * @param turns number of turns, above 0
 * @param radius a, metres, above 0
 * @param length b, metres, above 0: turns times pitch, not from first wire to last
 *
 * Undefined outside that. Exact for the sheet to 1e-10; a coil of round wire needs Rosa's
 * corrections as well. Source: NBS Circular 74 (1918), formula 153, with Nagaoka's coefficient.
 */
export function currentSheetInductance(
  turns: number,
  radius: number,
  length: number,
): number | undefined {
  if (!arePositive(turns, radius, length)) {
    return undefined;
  }
  const coefficient = nagaokaCoefficient((2 * radius) / length);
  if (coefficient === undefined) {
    return undefined;
  }
  return finiteOrUndefined(
    (MU_0 * turns * turns * Math.PI * radius * radius * coefficient) / length,
  );
}

/**
 * Rosa's correction A for the shape of the turn: 5/4 − ln(2D/d). No unit.
 *
 * @param wireOverPitch diameter of the bare wire over the pitch, d/D, above 0 to 1
 *
 * Undefined outside that. Exact for uniform current in the wire. Source: E. B. Rosa, Bulletin of
 * the Bureau of Standards 2 (1906) 161; NBS Circular 74, table 7.
 */
export function rosaShapeCorrection(wireOverPitch: number): number | undefined {
  if (!arePositive(wireOverPitch) || wireOverPitch > 1) {
    return undefined;
  }
  return 1.25 - Math.LN2 + Math.log(wireOverPitch);
}

/**
 * Rosa's correction B for the number of turns. No unit; 0 for one turn, towards 0.3379.
 *
 * @param turns 1 or more; the exact sum at whole numbers below 4 (straight lines between), the
 * extended series above, which agrees with the sum to 1e-7
 *
 * Undefined below 1 turn. Source: E. B. Rosa, Bulletin of the Bureau of Standards 2 (1906) 161;
 * series after F. W. Grover, Bureau of Standards Journal of Research (1929), extended. Printed
 * tables differ by up to 0.0012 between 30 and 300 turns.
 */
export function rosaNumberCorrection(turns: number): number | undefined {
  if (!Number.isFinite(turns) || turns < 1) {
    return undefined;
  }
  if (turns >= 4) {
    const series = Math.log(2 * Math.PI) - 1.5 - (Math.log(turns) / 6 + 0.33084236) / turns;
    return series - 1 / (120 * turns ** 3) + 1 / (504 * turns ** 5);
  }
  const below = Math.floor(turns);
  const above = Math.ceil(turns);
  const lower = rosaNumberSum(below);
  return lower + (turns - below) * (rosaNumberSum(above) - lower);
}

/** (2/n) Σ (n − k)(ln k − ln GMD of two sheets k widths apart), for whole n. */
function rosaNumberSum(turns: number): number {
  let sum = 0;
  for (let k = 1; k < turns; k += 1) {
    const inner = k === 1 ? 0 : (k - 1) ** 2 * Math.log(k - 1);
    const outer = (k + 1) ** 2 * Math.log(k + 1) - 2 * k * k * Math.log(k);
    sum += (turns - k) * (Math.log(k) - ((outer + inner) / 2 - 1.5));
  }
  return (2 / turns) * sum;
}

/**
 * Low-frequency inductance in henries of a single-layer coil of round wire: the current sheet of
 * length turns × pitch less μ₀ N a (A + B).
 *
 * Undefined unless every dimension is above 0, the wire is no thicker than the pitch and there
 * is at least one turn. Error below 0.02 % for pitch under a tenth of the radius, against the
 * sum over every pair of turns; the spiral's lead and high frequency are left out (at radio
 * frequency up to about 1 % less for thick bare wire).
 * Source: NBS Circular 74 (1918), sections 66 and 67.
 */
export function singleLayerInductance(coil: SingleLayerCoil): number | undefined {
  const { turns, radius, pitch, wireDiameter } = coil;
  const sheet = currentSheetInductance(turns, radius, turns * pitch);
  const shape = rosaShapeCorrection(wireDiameter / pitch);
  const number = rosaNumberCorrection(turns);
  if (sheet === undefined || shape === undefined || number === undefined) {
    return undefined;
  }
  const inductance = sheet - MU_0 * turns * radius * (shape + number);
  return inductance > 0 ? finiteOrUndefined(inductance) : undefined;
}

/**
 * Inductance in henries of a cylindrical current sheet by Lundin's handbook formula.
 *
 * @param turns number of turns, above 0
 * @param radius metres, above 0
 * @param length metres, above 0
 *
 * Undefined outside that. Error below 3e-6 for every shape. Source: R. Lundin, "A Handbook
 * Formula for the Inductance of a Single-Layer Circular Coil", Proc. IEEE 73 (1985) 1428.
 */
export function lundinInductance(
  turns: number,
  radius: number,
  length: number,
): number | undefined {
  if (!arePositive(turns, radius, length)) {
    return undefined;
  }
  const ratio = length / (2 * radius);
  const square = ratio <= 1 ? ratio * ratio : 1 / (ratio * ratio);
  const first = (1 + square * (0.383901 + 0.017108 * square)) / (1 + 0.258952 * square);
  const second = square * (0.093842 + square * (0.002029 - 0.000801 * square));
  const unit = MU_0 * turns * turns * radius;
  return finiteOrUndefined(
    ratio <= 1
      ? unit * ((Math.log(4 / ratio) - 0.5) * first + second)
      : ((unit * Math.PI * radius) / length) * (first - 4 / (3 * Math.PI * ratio)),
  );
}

/**
 * Inductance in henries by the short formula of 1928, a²N²/(9a + 10b) microhenries in inches.
 *
 * @param turns number of turns, above 0
 * @param radius metres, above 0
 * @param length metres, above 0
 *
 * Undefined outside that. Against the current sheet −0.6 % to +0.1 % for length ≥ 0.8 radius;
 * −19 % at a tenth of the radius. For comparison only; `currentSheetInductance` is exact.
 * Source: H. A. Wheeler, "Simple Inductance Formulas for Radio Coils", Proc. IRE 16 (1928) 1398.
 */
export function wheeler1928Inductance(
  turns: number,
  radius: number,
  length: number,
): number | undefined {
  if (!arePositive(turns, radius, length)) {
    return undefined;
  }
  const a = radius / INCH;
  const b = length / INCH;
  return finiteOrUndefined((1e-6 * (a * turns) ** 2) / (9 * a + 10 * b));
}
