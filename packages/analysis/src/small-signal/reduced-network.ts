import { borderedSystem, type Question } from './bordered-system.ts';
import { determinantOf } from './eliminate.ts';
import type { SignalSystem, Tuning } from './signal-system.ts';
import {
  type ComplexFrequency,
  eliminateAt,
  keeping,
  type TunedSystem,
  tunedSystem,
} from './tuned-system.ts';

/**
 * A network drawn together onto the few unknowns that its turned condensers reach, these taken
 * out. What is left at a frequency serves every way in which they can stand: their susceptances
 * are added to it, and a determinant of the whole is that of what is left times that of the rest.
 *
 * It may hold a question: what one volt somewhere makes between two points.
 */
export interface ReducedNetwork {
  /** The network with the turned condensers at nothing. */
  readonly tuned: TunedSystem;
  /** Unknowns that are left, without the question. */
  readonly size: number;
  readonly question: Question | undefined;
  /** Of every turned condenser: where its farads go in what is left, row by row, by what factor. */
  readonly stamps: ReadonlyMap<string, readonly Stamp[]>;
  /** How all other condensers stand that do not stand as set. */
  readonly fixed: Tuning;
}

interface Stamp {
  readonly at: number;
  readonly factor: number;
}

/** Unknowns that are left and what condensers add to them. */
export type Stamped = Pick<ReducedNetwork, 'size' | 'stamps'>;

/**
 * Prepares a network for many ways in which some condensers stand.
 *
 * @param condensers those that are turned @param fixed how others stand
 */
export function reducedNetwork(
  system: SignalSystem,
  condensers: readonly string[],
  fixed: Tuning,
  question?: Question,
): ReducedNetwork {
  const { pattern } = system;
  const kept = reachedBy(system, condensers);
  const size = kept.length;
  const stamps = stampsOf(system, condensers, kept);
  const nothing = condensers.map((name) => [name, 0] as const);
  const asking = question && borderedSystem(system, question);
  const tuned = tunedSystem(asking ?? system, new Map([...fixed, ...nothing]));
  return {
    tuned: keeping(tuned, asking ? [...kept, pattern.size] : kept),
    size,
    question: asking && question,
    stamps,
    fixed,
  };
}

/** The unknowns that condensers reach, rising. */
export function reachedBy(
  { pattern, turned }: SignalSystem,
  condensers: readonly string[],
): readonly number[] {
  const reached = new Set<number>();
  for (const name of condensers)
    for (const { slot } of turned.get(name) ?? []) reached.add(pattern.rows[slot] as number);
  return [...reached].sort((a, b) => a - b);
}

/** Where condensers go in a matrix of the unknowns that are kept, all of theirs among them. */
export function stampsOf(
  { pattern, turned }: SignalSystem,
  condensers: readonly string[],
  kept: readonly number[],
): ReducedNetwork['stamps'] {
  const placeOf = new Map(kept.map((unknown, place) => [unknown, place]));
  return new Map(
    condensers.map((name) => [
      name,
      (turned.get(name) ?? []).map(({ slot, sign }) => {
        const row = placeOf.get(pattern.rows[slot] as number) ?? 0;
        const column = placeOf.get(pattern.columns[slot] as number) ?? 0;
        return { at: row * kept.length + column, factor: sign };
      }),
    ]),
  );
}

/**
 * Numbers of what is left at a frequency, as pairs of real and imaginary parts: the matrix row by
 * row; logarithm and angle of the determinant of the rest.
 */
export function matrixLength({ size }: ReducedNetwork): number {
  return 2 * (size * size + 1);
}

/** The same with the question's column, its row and what is in the corner. */
export function remainderLength(network: ReducedNetwork): number {
  return matrixLength(network) + (network.question ? 2 * (2 * network.size + 1) : 0);
}

/**
 * Reckons what is left at a complex frequency into `remainder`, from `start` on. False where the
 * rest is singular to within rounding.
 */
export function reduceAt(
  { tuned, size, question }: ReducedNetwork,
  at: ComplexFrequency,
  remainder: Float64Array,
  start = 0,
): boolean {
  const room = eliminateAt(tuned, at);
  if (!room) return false;
  const { corner } = room.plan;
  const whole = question ? size + 1 : size;
  let to = start;
  const put = (row: number, column: number): void => {
    const slot = corner[row * whole + column] as number;
    remainder[to++] = slot < 0 ? 0 : (room.re[slot] as number);
    remainder[to++] = slot < 0 ? 0 : (room.im[slot] as number);
  };
  for (let row = 0; row < size; row++)
    for (let column = 0; column < size; column++) put(row, column);
  const { logarithm, angle } = determinantOf(room);
  remainder[to++] = logarithm;
  remainder[to++] = angle;
  if (!question) return true;
  for (let row = 0; row < size; row++) put(row, size);
  for (let column = 0; column <= size; column++) put(size, column);
  return true;
}

/** What the condensers of a tuning add to what is left, for a complex frequency of one. */
export function capacitiesOf({ size, stamps }: Stamped, tuning: Tuning): Float64Array {
  const added = new Float64Array(size * size);
  for (const [name, places] of stamps) {
    const farads = tuning.get(name);
    if (farads === undefined || !Number.isFinite(farads)) continue;
    for (const { at, factor } of places) added[at] = (added[at] as number) + factor * farads;
  }
  return added;
}

/** Whether a tuning changes nothing but the condensers that are turned. */
export function covers({ stamps, fixed }: ReducedNetwork, tuning: Tuning): boolean {
  for (const name of stamps.keys()) if (!tuning.has(name)) return false;
  for (const [name, farads] of tuning)
    if (!stamps.has(name) && fixed.get(name) !== farads) return false;
  for (const [name, farads] of fixed)
    if (!stamps.has(name) && tuning.get(name) !== farads) return false;
  return true;
}
