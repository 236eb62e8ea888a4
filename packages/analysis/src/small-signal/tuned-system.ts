import {
  type Determinant,
  determinantOf,
  type Eliminated,
  eliminate,
  roomFor,
  substitute,
} from './eliminate.ts';
import { type EliminationPlan, planElimination } from './elimination-plan.ts';
import { type Loss, SCALE_OHMS, type SignalSystem, type Tuning } from './signal-system.ts';

/** A complex frequency in radians per second: growth and turning. */
export interface ComplexFrequency {
  readonly growth: number;
  readonly radians: number;
}

/** A system whose condensers stand in one way. */
export interface TunedSystem {
  readonly system: SignalSystem;
  readonly moving: Float64Array;
  readonly losses: readonly Loss[];
  /** Unknowns that elimination leaves over, with their balances. */
  readonly kept: readonly number[];
  /** Plans made so far with room for their values; the last that suited first. */
  readonly rooms: Eliminated[];
  /** Plans that may suit besides those. */
  readonly plans: EliminationPlan[];
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
  const moving = system.moving.slice();
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
  return { system, moving, losses, kept: [], rooms: system.rooms, plans: system.plans };
}

/** The same system, of which elimination is to leave some unknowns over. */
export function keeping(tuned: TunedSystem, kept: readonly number[]): TunedSystem {
  return { ...tuned, kept, rooms: [], plans: [] };
}

/**
 * Eliminates at a complex frequency; undefined where the matrix is singular to within rounding.
 * What is given back holds until the next elimination of the same system.
 */
export function eliminateAt(tuned: TunedSystem, at: ComplexFrequency): Eliminated | undefined {
  const { rooms, plans } = tuned;
  for (let index = 0; index < rooms.length; index++) {
    const room = rooms[index] as Eliminated;
    enter(tuned, at, room);
    if (!eliminate(room)) continue;
    if (index > 0) rooms.unshift(...rooms.splice(index, 1));
    return room;
  }
  const others = plans.filter((plan) => rooms.every((room) => room.plan !== plan));
  for (const plan of others) {
    const room = suited(tuned, at, plan);
    if (room) return room;
  }
  const plan = planAt(tuned, at);
  if (!plan) return undefined;
  plans.unshift(plan);
  if (plans.length > MOST_PLANS) plans.pop();
  return suited(tuned, at, plan);
}

/** Eliminates by a plan, for which room is made; undefined where it does not suit. */
function suited(
  tuned: TunedSystem,
  at: ComplexFrequency,
  plan: EliminationPlan,
): Eliminated | undefined {
  const { rooms } = tuned;
  const room = roomFor(plan);
  enter(tuned, at, room);
  if (!eliminate(room)) return undefined;
  rooms.unshift(room);
  if (rooms.length > MOST_PLANS) rooms.pop();
  return room;
}

function planAt(tuned: TunedSystem, at: ComplexFrequency): EliminationPlan | undefined {
  const { system, kept } = tuned;
  const { pattern } = system;
  const re = new Float64Array(pattern.rows.length);
  const im = new Float64Array(pattern.rows.length);
  enter(tuned, at, { re, im });
  return planElimination(pattern, re, im, kept);
}

/** Plans kept at most: frequencies far apart may want pivots of their own. */
const MOST_PLANS = 6;

function enter(
  { system: { still, movingSlots }, moving, losses }: TunedSystem,
  { growth, radians }: ComplexFrequency,
  { re, im }: { readonly re: Float64Array; readonly im: Float64Array },
): void {
  re.set(still);
  re.fill(0, still.length);
  im.fill(0);
  for (let index = 0; index < movingSlots.length; index++) {
    const slot = movingSlots[index] as number;
    const each = moving[slot] as number;
    re[slot] = (re[slot] as number) + growth * each;
    im[slot] = radians * each;
  }
  const frequency = Math.sqrt(growth * growth + radians * radians) / (2 * Math.PI);
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
  const { rightRe, rightIm } = room;
  rightRe.fill(0);
  rightIm.fill(0);
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
  substitute(room, xRe, xIm);
  return { re: xRe, im: xIm };
}
