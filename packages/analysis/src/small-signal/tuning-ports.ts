import { type DenseMatrix, denseMatrix, invert } from './dense-inverse.ts';
import type { Eliminated } from './eliminate.ts';
import type { SignalSystem, Tuning } from './signal-system.ts';
import { eliminateAt, solveDriven, tunedSystem } from './tuned-system.ts';

/**
 * A set at one frequency as its tuning condensers see it: everything else drawn together into an
 * admittance between them, and the current that the signal sends into each.
 */
export interface TuningPorts {
  readonly radians: number;
  /** Siemens between the condensers, which themselves are taken out. */
  readonly admittance: DenseMatrix;
  /** Amperes into each from one volt in the aerial. */
  readonly driveRe: Float64Array;
  readonly driveIm: Float64Array;
}

/**
 * The ports of condensers at a frequency in hertz; undefined where the network is singular.
 *
 * @param entrance the series piece that one volt stands in @param fixed how others stand
 */
export function tuningPorts(
  system: SignalSystem,
  condensers: readonly string[],
  frequency: number,
  entrance: string | undefined,
  fixed: Tuning,
): TuningPorts | undefined {
  const radians = 2 * Math.PI * frequency;
  const pieces = condensers.map((name) =>
    system.network.capacities.find(({ condenser }) => condenser === name),
  );
  const tuning = new Map([...fixed, ...condensers.map((name) => [name, 0] as const)]);
  const room = eliminateAt(tunedSystem(system, tuning), { growth: 0, radians });
  if (!room) return undefined;
  const size = condensers.length;
  const impedance = denseMatrix(size);
  for (const [column, piece] of pieces.entries()) {
    if (!piece) return undefined;
    const solution = pushThrough(system, room, piece.from, piece.to);
    for (const [row, other] of pieces.entries()) {
      const at = row * size + column;
      const { from, to } = other ?? piece;
      impedance.re[at] = (solution.re[from] as number) - (solution.re[to] as number);
      impedance.im[at] = (solution.im[from] as number) - (solution.im[to] as number);
    }
  }
  const admittance = impedance;
  if (!invert(admittance)) return undefined;
  const driveRe = new Float64Array(size);
  const driveIm = new Float64Array(size);
  if (entrance !== undefined) {
    const electromotive = new Map([[entrance, [1, 0] as const]]);
    const { re, im } = solveDriven(system, room, { electromotive });
    for (const [column, piece] of pieces.entries()) {
      if (!piece) continue;
      const voltsRe = (re[piece.from] as number) - (re[piece.to] as number);
      const voltsIm = (im[piece.from] as number) - (im[piece.to] as number);
      for (let row = 0; row < size; row++) {
        const at = row * size + column;
        const yRe = admittance.re[at] as number;
        const yIm = admittance.im[at] as number;
        driveRe[row] = (driveRe[row] as number) + yRe * voltsRe - yIm * voltsIm;
        driveIm[row] = (driveIm[row] as number) + yRe * voltsIm + yIm * voltsRe;
      }
    }
  }
  return { radians, admittance, driveRe, driveIm };
}

/** Volts of all points for one ampere into one point and out of another. */
function pushThrough(system: SignalSystem, room: Eliminated, from: number, to: number) {
  const currents = new Map([
    [from, [1, 0] as const],
    [to, [-1, 0] as const],
  ]);
  return solveDriven(system, room, { currents });
}

/**
 * Impedances between the ports with the condensers at so many farads each, in their order, into
 * `impedance`. False where there are none.
 */
export function loadPorts(
  { admittance, radians }: TuningPorts,
  farads: Float64Array,
  impedance: DenseMatrix,
): boolean {
  const { size, re, im } = impedance;
  re.set(admittance.re);
  im.set(admittance.im);
  for (let at = 0; at < size; at++) {
    const own = at * size + at;
    im[own] = (im[own] as number) + radians * (farads[at] as number);
  }
  return invert(impedance);
}
