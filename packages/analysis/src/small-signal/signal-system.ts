import {
  type Determinant,
  determinantOf,
  type Eliminated,
  eliminate,
  roomFor,
  substitute,
} from './eliminate.ts';
import { type Pattern, planElimination } from './elimination-plan.ts';
import type { SignalNetwork } from './signal-network.ts';

/** A complex frequency in radians per second: growth and turning. */
export interface ComplexFrequency {
  readonly growth: number;
  readonly radians: number;
}

/** Unknown currents are counted in milliamperes and balances in millisiemens: all of one size. */
const SCALE_OHMS = 1000;

/**
 * A network as equations: the volts of its points and the currents of its series pieces. Every
 * coefficient is a constant and a multiple of the complex frequency, besides the series ohms.
 */
export interface SignalSystem {
  readonly network: SignalNetwork;
  readonly pattern: Pattern;
  readonly still: Float64Array;
  readonly moving: Float64Array;
  /** Slots and ohms of the series pieces. */
  readonly losses: readonly Loss[];
  /** Row of a series piece's balance of volts, by its name. */
  readonly rowOfSeries: ReadonlyMap<string, number>;
  /** For every condenser that can be turned: its slots with their signs, and its farads as set. */
  readonly turned: ReadonlyMap<string, readonly TurnedSlot[]>;
  /** Plans made so far with room for their values; the last that suited first. */
  readonly rooms: Eliminated[];
}

interface Loss {
  readonly name: string;
  readonly slot: number;
  ohms(frequency: number): number;
}

interface TurnedSlot {
  readonly slot: number;
  readonly sign: number;
  readonly farads: number;
}

/** Sets up the equations of a network. */
export function signalSystem(network: SignalNetwork): SignalSystem {
  const { points } = network;
  let size = points;
  for (const { pieces } of network.series) size += pieces.length;
  const slots = new Map<number, number>();
  const rows: number[] = [];
  const columns: number[] = [];
  const still: number[] = [];
  const moving: number[] = [];
  const slotOf = (row: number, column: number): number => {
    const key = row * size + column;
    const known = slots.get(key);
    if (known !== undefined) return known;
    const slot = rows.length;
    slots.set(key, slot);
    rows.push(row);
    columns.push(column);
    still.push(0);
    moving.push(0);
    return slot;
  };
  const add = (to: number[], row: number, column: number, value: number): void => {
    const slot = slotOf(row, column);
    to[slot] = (to[slot] as number) + value;
  };
  for (let point = 0; point < points; point++) slotOf(point, point);
  for (const { from, to, plus, minus, siemens } of network.steerings)
    for (const [row, sign] of ends(from, to))
      for (const [column, other] of ends(plus, minus))
        add(still, row, column, sign * other * siemens * SCALE_OHMS);
  for (const { from, to, siemens } of network.conductances)
    for (const [row, sign] of ends(from, to))
      for (const [column, other] of ends(from, to))
        add(still, row, column, sign * other * siemens * SCALE_OHMS);
  const turned = new Map<string, TurnedSlot[]>();
  for (const { from, to, farads, condenser } of network.capacities) {
    for (const [row, first] of ends(from, to)) {
      for (const [column, second] of ends(from, to)) {
        const sign = first * second * SCALE_OHMS;
        add(moving, row, column, sign * farads);
        if (condenser === undefined) continue;
        const own = turned.get(condenser) ?? [];
        own.push({ slot: slotOf(row, column), sign, farads });
        turned.set(condenser, own);
      }
    }
  }
  const losses: Loss[] = [];
  const rowOfSeries = new Map<string, number>();
  let next = points;
  for (const { pieces, henries } of network.series) {
    const first = next;
    next += pieces.length;
    for (const [index, piece] of pieces.entries()) {
      const row = first + index;
      rowOfSeries.set(piece.name, row);
      for (const [point, sign] of ends(piece.from, piece.to)) {
        add(still, point, row, sign);
        add(still, row, point, sign);
      }
      const slot = slotOf(row, row);
      losses.push({ name: piece.name, slot, ohms: (frequency) => piece.ohms(frequency) });
      for (const [other, mutual] of (henries[index] ?? []).entries())
        if (mutual !== 0) add(moving, row, first + other, (0 - mutual) / SCALE_OHMS);
    }
  }
  return {
    network,
    pattern: { size, rows: Int32Array.from(rows), columns: Int32Array.from(columns) },
    still: Float64Array.from(still),
    moving: Float64Array.from(moving),
    losses,
    rowOfSeries,
    turned,
    rooms: [],
  };
}

function ends(from: number, to: number): readonly (readonly [at: number, sign: number])[] {
  if (from === to) return [];
  if (from === 0) return [[to - 1, -1]];
  if (to === 0) return [[from - 1, 1]];
  return [
    [from - 1, 1],
    [to - 1, -1],
  ];
}

/** How the condensers of a network stand: farads by name. */
export type Tuning = ReadonlyMap<string, number>;

/** A system whose condensers stand in one way. */
export interface TunedSystem {
  readonly system: SignalSystem;
  readonly moving: Float64Array;
  readonly losses: readonly Loss[];
}

/**
 * The system with its condensers at other capacities; those not named stay as set.
 *
 * @param ohms resistances of series pieces by name, instead of what they are
 */
export function tunedSystem(
  system: SignalSystem,
  tuning: Tuning,
  ohms: ReadonlyMap<string, number> = new Map(),
): TunedSystem {
  const moving = Float64Array.from(system.moving);
  for (const [name, farads] of tuning) {
    if (!Number.isFinite(farads)) continue;
    for (const { slot, sign, farads: before } of system.turned.get(name) ?? [])
      moving[slot] = (moving[slot] as number) + sign * (farads - before);
  }
  const losses =
    ohms.size === 0
      ? system.losses
      : system.losses.map((loss) => {
          const other = ohms.get(loss.name);
          return other === undefined ? loss : { ...loss, ohms: () => other };
        });
  return { system, moving, losses };
}

/**
 * Eliminates at a complex frequency; undefined where the matrix is singular to within rounding.
 * What is given back holds until the next elimination of the same system.
 */
export function eliminateAt(tuned: TunedSystem, at: ComplexFrequency): Eliminated | undefined {
  const { rooms, pattern } = tuned.system;
  for (const [index, room] of rooms.entries()) {
    enter(tuned, at, room);
    if (!eliminate(room)) continue;
    if (index > 0) rooms.unshift(...rooms.splice(index, 1));
    return room;
  }
  const re = new Float64Array(pattern.rows.length);
  const im = new Float64Array(pattern.rows.length);
  enter(tuned, at, { re, im });
  const plan = planElimination(pattern, re, im);
  if (!plan) return undefined;
  const room = roomFor(plan);
  rooms.unshift(room);
  if (rooms.length > MOST_PLANS) rooms.pop();
  enter(tuned, at, room);
  return eliminate(room) ? room : undefined;
}

/** Plans kept at most: frequencies far apart may want pivots of their own. */
const MOST_PLANS = 6;

function enter(
  { system: { still, pattern }, moving, losses }: TunedSystem,
  { growth, radians }: ComplexFrequency,
  room: { readonly re: Float64Array; readonly im: Float64Array },
): void {
  const { re, im } = room;
  const count = pattern.rows.length;
  for (let slot = 0; slot < count; slot++) {
    const each = moving[slot] as number;
    re[slot] = (still[slot] as number) + growth * each;
    im[slot] = radians * each;
  }
  re.fill(0, count);
  im.fill(0, count);
  const frequency = Math.hypot(growth, radians) / (2 * Math.PI);
  for (const { slot, ohms } of losses)
    re[slot] = (re[slot] as number) - ohms(frequency) / SCALE_OHMS;
}

/** The determinant at a complex frequency; undefined at a root to within rounding. */
export function determinantAt(tuned: TunedSystem, at: ComplexFrequency): Determinant | undefined {
  const room = eliminateAt(tuned, at);
  return room && determinantOf(room);
}

/** Volts into series pieces by name, and amperes into points; complex, as [real, imaginary]. */
export interface Drive {
  readonly electromotive?: ReadonlyMap<string, readonly [number, number]>;
  readonly currents?: ReadonlyMap<number, readonly [number, number]>;
}

/** Volts of all points, index 0 the one at rest, and amperes of the series pieces. */
export interface Solution {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Solves with a matrix that was eliminated. */
export function solveDriven(system: SignalSystem, room: Eliminated, drive: Drive): Solution {
  const { size } = system.pattern;
  const rightRe = new Float64Array(size);
  const rightIm = new Float64Array(size);
  for (const [name, [re, im]] of drive.electromotive ?? []) {
    const row = system.rowOfSeries.get(name);
    if (row === undefined) continue;
    rightRe[row] = (rightRe[row] as number) - re;
    rightIm[row] = (rightIm[row] as number) - im;
  }
  for (const [point, [re, im]] of drive.currents ?? []) {
    if (point < 1 || point > system.network.points) continue;
    rightRe[point - 1] = (rightRe[point - 1] as number) + re * SCALE_OHMS;
    rightIm[point - 1] = (rightIm[point - 1] as number) + im * SCALE_OHMS;
  }
  const xRe = new Float64Array(size + 1);
  const xIm = new Float64Array(size + 1);
  substitute(room, rightRe, rightIm, xRe.subarray(1), xIm.subarray(1));
  return { re: xRe, im: xIm };
}
