import type { Tuning } from '../small-signal/signal-system.ts';
import type { SmallSignal } from '../small-signal/small-signal.ts';
import { eliminateAt, solveDriven, tunedSystem } from '../small-signal/tuned-system.ts';

/** Two points of a network. */
export interface TwoPoints {
  readonly plus: number;
  readonly minus: number;
}

/**
 * A set tuned to a station as its condensers and its detector see it: volts at each, and what an
 * ampere into a condenser does at all of them. Serves every small turn of the condensers without
 * another elimination.
 */
export interface DetectorPorts {
  readonly radians: number;
  readonly condensers: readonly string[];
  /** Farads of the condensers as they stand. */
  readonly farads: Float64Array;
  /** Ohms, condenser by condenser, with the detector as the last row. */
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Volts of each condenser, the detector's last, for one volt in the aerial. */
  readonly voltsRe: Float64Array;
  readonly voltsIm: Float64Array;
}

/**
 * The ports at a frequency in hertz; undefined where the network is singular. Condensers that are
 * not in the network are left out.
 */
export function detectorPorts(
  set: SmallSignal,
  tuning: Tuning,
  condensers: readonly string[],
  frequency: number,
  { plus, minus }: TwoPoints,
): DetectorPorts | undefined {
  const { system, entrance } = set;
  if (entrance === undefined) return undefined;
  const radians = 2 * Math.PI * frequency;
  const room = eliminateAt(tunedSystem(system, tuning), { growth: 0, radians });
  if (!room) return undefined;
  const pieces = condensers.flatMap((name) => {
    const piece = system.network.capacities.find(({ condenser }) => condenser === name);
    return piece && tuning.has(name) ? [{ name, piece }] : [];
  });
  const count = pieces.length;
  const rows = [...pieces.map(({ piece }) => piece), { from: plus, to: minus }];
  const re = new Float64Array((count + 1) * count);
  const im = new Float64Array((count + 1) * count);
  for (const [column, { piece }] of pieces.entries()) {
    const currents = new Map([
      [piece.from, [1, 0] as const],
      [piece.to, [-1, 0] as const],
    ]);
    const volts = solveDriven(system, room, { currents });
    for (const [row, { from, to }] of rows.entries()) {
      re[row * count + column] = (volts.re[from] as number) - (volts.re[to] as number);
      im[row * count + column] = (volts.im[from] as number) - (volts.im[to] as number);
    }
  }
  const driven = solveDriven(system, room, {
    electromotive: new Map([[entrance.series, [1, 0] as const]]),
  });
  return {
    radians,
    condensers: pieces.map(({ name }) => name),
    farads: Float64Array.from(pieces, ({ name }) => tuning.get(name) ?? 0),
    re,
    im,
    voltsRe: Float64Array.from(
      rows,
      ({ from, to }) => (driven.re[from] as number) - (driven.re[to] as number),
    ),
    voltsIm: Float64Array.from(
      rows,
      ({ from, to }) => (driven.im[from] as number) - (driven.im[to] as number),
    ),
  };
}

/** Volts at the detector for one volt in the aerial. */
export function detectorVolts({ condensers, voltsRe, voltsIm }: DetectorPorts): number {
  const last = condensers.length;
  return Math.hypot(voltsRe[last] as number, voltsIm[last] as number);
}

/**
 * The same with one condenser at so many farads more. Of rank one: through the farads more flows
 * j ω c V / (1 + j ω c Z).
 */
export function turnedVolts(ports: DetectorPorts, at: number, farads: number): number {
  const { condensers, radians, re, im, voltsRe, voltsIm } = ports;
  const count = condensers.length;
  const siemens = radians * farads;
  const own = at * count + at;
  const belowRe = 1 - siemens * (im[own] as number);
  const belowIm = siemens * (re[own] as number);
  const square = belowRe * belowRe + belowIm * belowIm;
  const factorRe = (siemens * belowIm) / square;
  const factorIm = (siemens * belowRe) / square;
  const [x, y] = [voltsRe[at] as number, voltsIm[at] as number];
  const amperesRe = factorRe * x - factorIm * y;
  const amperesIm = factorRe * y + factorIm * x;
  const to = count * count + at;
  const [zRe, zIm] = [re[to] as number, im[to] as number];
  return Math.hypot(
    (voltsRe[count] as number) - (zRe * amperesRe - zIm * amperesIm),
    (voltsIm[count] as number) - (zRe * amperesIm + zIm * amperesRe),
  );
}
