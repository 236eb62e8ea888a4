import { type DenseMatrix, denseMatrix } from './dense-inverse.ts';
import { loadPorts, type TuningPorts } from './tuning-ports.ts';

/** Least and most farads of each port's condenser. */
export interface Reach {
  readonly least: Float64Array;
  readonly most: Float64Array;
}

/** Rounds over all condensers; each settles what the others have moved. */
const MOST_ROUNDS = 40;

/** Farads that a round may still move a condenser by when all are settled. */
const SETTLED = 1e-17;

/**
 * Farads at which each condenser, the others standing as they come out too, sees a pure
 * resistance: every circuit in tune. Starts from `farads`, which is changed in place.
 */
export function resonate(ports: TuningPorts, reach: Reach, farads: Float64Array): void {
  const impedance = denseMatrix(ports.admittance.size);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let moved = 0;
    for (let at = 0; at < farads.length; at++) {
      const before = farads[at] as number;
      if (!loadPorts(ports, farads, impedance)) return;
      const own = at * impedance.size + at;
      const re = impedance.re[own] as number;
      const im = impedance.im[own] as number;
      const susceptance = (0 - im) / (re * re + im * im);
      const next = held(before - susceptance / ports.radians, reach, at);
      if (!Number.isFinite(next)) return;
      moved = Math.max(moved, Math.abs(next - before));
      farads[at] = next;
    }
    if (moved < SETTLED) return;
  }
}

/**
 * Turns every condenser for the most volts at the last, round after round, as one tunes by ear.
 * Changes `farads` in place. For a set that does not oscillate.
 *
 * @param last index of the port whose volts count
 */
export function peak(ports: TuningPorts, reach: Reach, farads: Float64Array, last: number): void {
  const impedance = denseMatrix(ports.admittance.size);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    let moved = 0;
    for (let at = 0; at < farads.length; at++) {
      const change = bestChange(ports, farads, at, last, impedance);
      if (change === undefined) continue;
      const before = farads[at] as number;
      const next = held(before + change, reach, at);
      moved = Math.max(moved, Math.abs(next - before));
      farads[at] = next;
    }
    if (moved < 1e3 * SETTLED) return;
  }
}

function held(farads: number, { least, most }: Reach, at: number): number {
  return Math.min(most[at] as number, Math.max(least[at] as number, farads));
}

/** Farads to be added to one condenser for the most volts at the last port. */
function bestChange(
  ports: TuningPorts,
  farads: Float64Array,
  at: number,
  last: number,
  impedance: DenseMatrix,
): number | undefined {
  if (!loadPorts(ports, farads, impedance)) return undefined;
  const { size, re, im } = impedance;
  const { radians, driveRe, driveIm } = ports;
  const volts = (row: number): [number, number] => {
    let x = 0;
    let y = 0;
    for (let column = 0; column < size; column++) {
      const zRe = re[row * size + column] as number;
      const zIm = im[row * size + column] as number;
      x += zRe * (driveRe[column] as number) - zIm * (driveIm[column] as number);
      y += zRe * (driveIm[column] as number) + zIm * (driveRe[column] as number);
    }
    return [x, y];
  };
  // With c farads more the last port has (p + q c)/(1 + s c): one change of rank one.
  const [pRe, pIm] = volts(last);
  const [vRe, vIm] = volts(at);
  const [zRe, zIm] = [re[at * size + at] as number, im[at * size + at] as number];
  const [tRe, tIm] = [re[last * size + at] as number, im[last * size + at] as number];
  const dRe = pRe * zRe - pIm * zIm - (tRe * vRe - tIm * vIm);
  const dIm = pRe * zIm + pIm * zRe - (tRe * vIm + tIm * vRe);
  const [qRe, qIm] = [0 - radians * dIm, radians * dRe];
  const [sRe, sIm] = [0 - radians * zIm, radians * zRe];
  return mostOf(
    [pRe * pRe + pIm * pIm, 2 * (pRe * qRe + pIm * qIm), qRe * qRe + qIm * qIm],
    [1, 2 * sRe, sRe * sRe + sIm * sIm],
  );
}

type Square = readonly [constant: number, linear: number, square: number];

/** Where the ratio of two squares is greatest: the better root of its derivative. */
function mostOf(above: Square, below: Square): number | undefined {
  const [a0, a1, a2] = above;
  const [b0, b1, b2] = below;
  const square = a2 * b1 - a1 * b2;
  const linear = 2 * (a2 * b0 - a0 * b2);
  const constant = a1 * b0 - a0 * b1;
  const root = linear * linear - 4 * square * constant;
  if (!(root >= 0)) return undefined;
  const half = -0.5 * (linear + (linear >= 0 ? 1 : -1) * Math.sqrt(root));
  const value = (x: number): number => (a0 + x * (a1 + x * a2)) / (b0 + x * (b1 + x * b2));
  let best: number | undefined;
  for (const x of [half / square, constant / half]) {
    if (!Number.isFinite(x) || (best !== undefined && value(x) <= value(best))) continue;
    best = x;
  }
  return best;
}
