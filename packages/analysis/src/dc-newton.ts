import { type DcSystem, writeEquations } from './dc-system.ts';
import { factorDirected, solveDirected } from './directed-elimination.ts';

/** How a search for the volts of a set ended. */
export interface Search {
  readonly found: boolean;
  /** Steps taken in all. */
  readonly iterations: number;
  /** The point whose volts moved most in the last step that was tried. */
  readonly worst: number;
  /** By how much, as a share of one volt and its own volts. */
  readonly moved: number;
}

/** Room for the numbers of a search; made once for a system. */
export interface SearchRoom {
  readonly factors: Float64Array;
  readonly pivots: Float64Array;
  readonly step: Float64Array;
  readonly trial: Float64Array;
  readonly right: Float64Array;
  readonly voltsBefore: Float64Array;
  readonly amperesBefore: Float64Array;
  readonly gapsBefore: Float64Array;
}

const MOST_ITERATIONS = 120;
/** Steps smaller than this need no watching: they shrink by themselves. */
const SMALL_STEP = 1e-6;
/** After a step smaller than this one more is as good as can be had. */
const LAST_STEP = 1e-10;
/** The shortest part of a step that is tried. */
const LEAST_PACE = 1 / 4096;
const LEAST_SHARE_STEP = 1e-5;

/** Room for a search of this system. */
export function searchRoom(system: DcSystem): SearchRoom {
  return {
    factors: new Float64Array(system.coefficients.length),
    pivots: new Float64Array(system.plan.order.length),
    step: new Float64Array(system.points),
    trial: new Float64Array(system.points),
    right: new Float64Array(system.points),
    voltsBefore: new Float64Array(system.points),
    amperesBefore: new Float64Array(system.elements.length),
    gapsBefore: new Float64Array(system.elements.length),
  };
}

/**
 * Finds the volts and amperes at which all laws hold: from where the system stands when `warm`,
 * else from the set with its tubes out of action; and where that fails by turning the supplies up
 * from nothing.
 */
export function findRest(system: DcSystem, room: SearchRoom, warm: boolean): Search {
  let iterations = 0;
  if (warm) {
    const search = newton(system, room, 1);
    if (search.found) return search;
    iterations += search.iterations;
  }
  begin(system, room);
  const search = newton(system, room, 1);
  iterations += search.iterations;
  if (search.found) return { ...search, iterations };
  return turnUp(system, room, iterations);
}

/** Volts with filaments at their hot resistance and no current in the tubes. */
function begin(system: DcSystem, room: SearchRoom): void {
  system.volts.fill(0);
  system.amperes.fill(0);
  writeEquations(system, 1, false);
  factor(system, room);
  solveDirected(system.plan, room.factors, room.pivots, system.right, room.step);
  move(system, room.step, 1);
}

/** Supplies turned up from nothing by steps that shrink where the going is hard. */
function turnUp(system: DcSystem, room: SearchRoom, before: number): Search {
  system.volts.fill(0);
  system.amperes.fill(0);
  let iterations = before;
  let share = 0;
  let stride = 0.1;
  const volts = new Float64Array(system.points);
  const amperes = new Float64Array(system.elements.length);
  for (;;) {
    volts.set(system.volts);
    amperes.set(system.amperes);
    const next = Math.min(1, share + stride);
    const search = newton(system, room, next);
    iterations += search.iterations;
    if (search.found) {
      if (next >= 1) return { ...search, iterations };
      share = next;
      stride *= 2;
      continue;
    }
    stride /= 4;
    if (stride < LEAST_SHARE_STEP) return { ...search, iterations };
    system.volts.set(volts);
    system.amperes.set(amperes);
  }
}

/**
 * Newton's iteration. A step is shortened until the next one, with the same slopes, would be
 * shorter than it (P. Deuflhard, "A modified Newton method for the solution of ill-conditioned
 * systems of nonlinear equations", Numerische Mathematik 22, 1974).
 */
function newton(system: DcSystem, room: SearchRoom, share: number): Search {
  const { volts, amperes, gaps, plan, right } = system;
  const { factors, pivots, step, trial } = room;
  writeEquations(system, share, true);
  let before = Number.POSITIVE_INFINITY;
  for (let iteration = 1; iteration <= MOST_ITERATIONS; iteration++) {
    factor(system, room);
    solveDirected(plan, factors, pivots, right, step);
    const { size, worst } = lengthOf(step, volts);
    const end = (found: boolean): Search => ({ found, iterations: iteration, worst, moved: size });
    if (!Number.isFinite(size)) return end(false);
    if (size < SMALL_STEP) {
      move(system, step, 1);
      writeEquations(system, share, true);
      if (size > LAST_STEP && size < before / 2) {
        before = size;
        continue;
      }
      factor(system, room);
      solveDirected(plan, factors, pivots, right, step);
      if (Number.isFinite(lengthOf(step, volts).size)) move(system, step, 1);
      return end(true);
    }
    before = Number.POSITIVE_INFINITY;
    room.voltsBefore.set(volts);
    room.amperesBefore.set(amperes);
    room.gapsBefore.set(gaps);
    let pace = 1;
    for (;;) {
      move(system, step, pace);
      writeEquations(system, share, true);
      // The next step with the slopes of this one.
      room.right.set(right);
      solveDirected(plan, factors, pivots, room.right, trial);
      const next = lengthOf(trial, volts).size;
      if (next <= (1 - pace / 4) * size) break;
      pace /= pace > 0.3 ? 2 : 4;
      if (pace < LEAST_PACE) return end(false);
      volts.set(room.voltsBefore);
      amperes.set(room.amperesBefore);
      gaps.set(room.gapsBefore);
    }
  }
  return { found: false, iterations: MOST_ITERATIONS, ...worstOf(room, volts) };
}

function worstOf(room: SearchRoom, volts: Float64Array): { worst: number; moved: number } {
  const { size, worst } = lengthOf(room.step, volts);
  return { worst, moved: size };
}

function factor(system: DcSystem, room: SearchRoom): void {
  room.factors.set(system.coefficients);
  factorDirected(system.plan, room.factors, room.pivots);
}

/** Moves all unknowns by a part of a step of the volts. */
function move(system: DcSystem, step: Float64Array, pace: number): void {
  const { volts, amperes, gaps, from, to, ohms, curves } = system;
  for (let index = 0; index < amperes.length; index++) {
    const a = from[index] as number;
    const b = to[index] as number;
    if (a === b || curves[index]?.kind !== 'ohmic') continue;
    const change = (step[a] as number) - (step[b] as number) + (gaps[index] as number);
    amperes[index] = (amperes[index] as number) + (pace * change) / (ohms[index] as number);
  }
  for (let point = 0; point < volts.length; point++)
    volts[point] = (volts[point] as number) + pace * (step[point] as number);
}

/** The longest move of any point, against one volt and its own volts. */
function lengthOf(step: Float64Array, volts: Float64Array): { size: number; worst: number } {
  let size = 0;
  let worst = 0;
  for (let point = 0; point < step.length; point++) {
    const moved = Math.abs(step[point] as number) / (1 + Math.abs(volts[point] as number));
    if (!(moved <= size)) {
      size = moved;
      worst = point;
      if (Number.isNaN(moved)) break;
    }
  }
  return { size, worst };
}
