import { factorReal, solveReal } from './dense-real.ts';
import { type Leftovers, leftoversOf, type Replacements } from './leftovers.ts';
import type { Branch, PlacedDevice, State } from './state.ts';

const MOST_ITERATIONS = 40;
const LEAST_PACE = 1 / 1024;
/** Moves smaller than this share of a volt and the volts themselves settle it. */
const SETTLED = 1e-11;
/** A step this small needs no watching. */
const SMALL_STEP = 1e-6;

/** Amperes out of the ports beyond the straight lines, and through the branches. */
interface Move {
  readonly leftovers: Leftovers;
  readonly amperes: Float64Array;
}

/**
 * The state that a set comes to when branches are laid into it and devices exchanged: Newton's
 * iteration on the volts of the devices' points and the branches' amperes alone, everything else
 * following by the transfer resistances of the state it starts from (a low-rank change of an
 * inverse, after M. A. Woodbury, "Inverting modified matrices", Princeton 1950). Undefined where
 * it does not settle.
 */
export function moved(
  state: State,
  branches: readonly Branch[],
  replacements: Replacements = new Map(),
): State | undefined {
  const move = moveFrom(state, branches, replacements, false);
  if (!move) return undefined;
  const volts = voltsAfter(state, branches, move);
  const devices = move.leftovers.placed();
  const transfer = changedTransfer(state, branches, devices);
  return transfer && { ...state, volts, transfer, devices };
}

/** The volts that a branch leads to at all points, without what follows from there. */
export function movedVolts(state: State, branch: Branch): Float64Array | undefined {
  const move = moveFrom(state, [branch], new Map(), true);
  return move && voltsAfter(state, [branch], move);
}

function voltsAfter(
  { size, volts, transfer, ports }: State,
  branches: readonly Branch[],
  { leftovers, amperes }: Move,
): Float64Array {
  const { leaving } = leftovers;
  const m = ports.length;
  const after = Float64Array.from(volts);
  for (let point = 0; point < size; point++) {
    let sum = 0;
    for (let column = 0; column < m; column++)
      sum +=
        (transfer[point * size + (ports[column] as number)] as number) *
        (leaving[column] as number);
    for (let index = 0; index < branches.length; index++) {
      const { from, to } = branches[index] as Branch;
      const ohms =
        (transfer[point * size + from] as number) - (transfer[point * size + to] as number);
      sum += ohms * (amperes[index] as number);
    }
    after[point] = (after[point] as number) - sum;
  }
  return after;
}

function moveFrom(
  state: State,
  branches: readonly Branch[],
  replacements: Replacements,
  coarse: boolean,
): Move | undefined {
  const { size, transfer, ports } = state;
  const m = ports.length;
  const k = branches.length;
  const whole = m + k;
  const leftovers = leftoversOf(state, replacements, coarse);
  const { leaving, slopes } = leftovers;
  // Ports and branches in one list of volts: what an ampere out of each does to all of them.
  const table = new Float64Array(whole * whole);
  const firstOf = (at: number) => (at < m ? ports[at] : branches[at - m]?.from) as number;
  const secondOf = (at: number) => (at < m ? -1 : (branches[at - m]?.to as number));
  for (let row = 0; row < whole; row++) {
    const [a, b] = [firstOf(row), secondOf(row)];
    for (let column = 0; column < whole; column++) {
      const [c, d] = [firstOf(column), secondOf(column)];
      let ohms = transfer[a * size + c] as number;
      if (d >= 0) ohms -= transfer[a * size + d] as number;
      if (b >= 0) ohms -= transfer[b * size + c] as number;
      if (b >= 0 && d >= 0) ohms += transfer[b * size + d] as number;
      table[row * whole + column] = ohms;
    }
  }
  const apart = branches.map(
    ({ from, to }) => (state.volts[from] as number) - (state.volts[to] as number),
  );
  const right = new Float64Array(whole);
  /** What is left of the equations: moves of the ports, then the laws of the branches. */
  const left = (x: Float64Array): void => {
    for (let row = 0; row < whole; row++) {
      let sum = row < m ? (x[row] as number) : 0;
      const at = row * whole;
      for (let column = 0; column < m; column++)
        sum += (table[at + column] as number) * (leaving[column] as number);
      for (let column = m; column < whole; column++)
        sum += (table[at + column] as number) * (x[column] as number);
      if (row < m) {
        right[row] = 0 - sum;
        continue;
      }
      const { by, fixed, ohms } = branches[row - m] as Branch;
      const volts = (apart[row - m] as number) - sum;
      right[row] = 0 - (by * volts + fixed - ohms * (x[row] as number));
    }
  };
  const values = new Float64Array(whole * whole);
  const writeMatrix = (): void => {
    for (let row = 0; row < whole; row++) {
      const at = row * whole;
      const weight = row < m ? 1 : 0 - (branches[row - m] as Branch).by;
      for (let column = 0; column < m; column++) values[at + column] = 0;
      for (let q = 0; q < m; q++) {
        const ohms = weight * (table[at + q] as number);
        if (ohms === 0) continue;
        const of = q * m;
        for (let column = 0; column < m; column++) {
          const slope = slopes[of + column] as number;
          if (slope !== 0) values[at + column] = (values[at + column] as number) + ohms * slope;
        }
      }
      for (let column = m; column < whole; column++)
        values[at + column] = weight * (table[at + column] as number);
      if (row < m) values[at + row] = (values[at + row] as number) + 1;
      else values[at + row] = (values[at + row] as number) - (branches[row - m] as Branch).ohms;
    }
  };
  const lengthOf = (step: Float64Array): number => {
    let most = 0;
    for (let row = 0; row < m; row++) {
      const volts = state.volts[ports[row] as number] as number;
      const moves = Math.abs(step[row] as number) / (1 + Math.abs(volts));
      if (!(moves <= most)) most = moves;
    }
    // Without a device in the way the amperes alone have to settle.
    for (let row = m; row < whole; row++) {
      const ohms = Math.abs(table[row * whole + row] as number);
      const volts = Math.abs(apart[row - m] as number);
      const moves = (Math.abs(step[row] as number) * ohms) / (1 + volts);
      if (!(moves <= most)) most = moves;
    }
    return most;
  };

  let x = new Float64Array(whole);
  let next = new Float64Array(whole);
  const step = new Float64Array(whole);
  const nextStep = new Float64Array(whole);
  leftovers.reckon(x);
  left(x);
  let before = Number.POSITIVE_INFINITY;
  for (let iteration = 0; iteration < MOST_ITERATIONS; iteration++) {
    writeMatrix();
    const factors = factorReal(whole, values);
    if (!factors) return undefined;
    solveReal(factors, right, step);
    const length = lengthOf(step);
    if (!Number.isFinite(length)) return undefined;
    let pace = 1;
    for (;;) {
      for (let at = 0; at < whole; at++) next[at] = (x[at] as number) + pace * (step[at] as number);
      leftovers.reckon(next);
      left(next);
      if (length < SMALL_STEP) break;
      // The next step with the slopes of this one: it must be shorter (P. Deuflhard, 1974).
      const foretold = lengthOf(solveReal(factors, right, nextStep));
      if (foretold <= (1 - pace / 4) * length) break;
      pace /= 2;
      if (pace < LEAST_PACE) return undefined;
    }
    [x, next] = [next, x];
    // Smaller than rounding lets them become steps do not get.
    if (length < SETTLED || (length < SMALL_STEP && length > before / 2))
      return { leftovers, amperes: x.slice(m) };
    before = length < SMALL_STEP ? length : before;
  }
  return undefined;
}

/** The transfer resistances after a move; undefined where they cannot be had. */
function changedTransfer(
  state: State,
  branches: readonly Branch[],
  devices: readonly PlacedDevice[],
): Float64Array | undefined {
  const { size, ports } = state;
  const transfer = Float64Array.from(state.transfer);
  const column = new Float64Array(size);
  const row = new Float64Array(size);
  for (const { from, to, ohms, by } of branches) {
    if (by === 0) continue;
    for (let point = 0; point < size; point++) {
      column[point] =
        (transfer[point * size + from] as number) - (transfer[point * size + to] as number);
      row[point] =
        (transfer[from * size + point] as number) - (transfer[to * size + point] as number);
    }
    const through = (column[from] as number) - (column[to] as number) + ohms / by;
    if (through === 0 || !Number.isFinite(through)) return undefined;
    for (let a = 0; a < size; a++) {
      const weight = (column[a] as number) / through;
      if (weight === 0) continue;
      for (let b = 0; b < size; b++)
        transfer[a * size + b] = (transfer[a * size + b] as number) - weight * (row[b] as number);
    }
  }
  return withSlopes(transfer, size, ports, slopesBetween(state, devices));
}

/** How the devices' slopes differ from those of the state, port by port. */
function slopesBetween(state: State, devices: readonly PlacedDevice[]): Float64Array {
  const m = state.ports.length;
  const slopes = new Float64Array(m * m);
  const enter = ({ places, rest }: PlacedDevice, sign: 1 | -1): void => {
    const count = places.length;
    for (let row = 0; row < count; row++) {
      for (let column = 0; column < count; column++) {
        const a = places[row] as number;
        const b = places[column] as number;
        if (a < 0 || b < 0) continue;
        const at = a * m + b;
        slopes[at] = (slopes[at] as number) + sign * (rest.slopes[row * count + column] as number);
      }
    }
  };
  for (const each of state.devices) enter(each, -1);
  for (const each of devices) enter(each, 1);
  return slopes;
}

/** T − T's columns of the ports · S · (1 + T S)⁻¹ · T's rows of the ports. */
function withSlopes(
  transfer: Float64Array,
  size: number,
  ports: Int32Array,
  slopes: Float64Array,
): Float64Array | undefined {
  const m = ports.length;
  // Ports whose volts bend no current any more or less need not be among them.
  const active: number[] = [];
  for (let column = 0; column < m; column++) {
    for (let row = 0; row < m; row++) {
      if (slopes[row * m + column] === 0) continue;
      active.push(column);
      break;
    }
  }
  const n = active.length;
  if (n === 0) return transfer;
  const weighed = new Float64Array(size * n);
  for (let point = 0; point < size; point++) {
    for (let at = 0; at < n; at++) {
      const column = active[at] as number;
      let sum = 0;
      for (let q = 0; q < m; q++) {
        const slope = slopes[q * m + column] as number;
        if (slope !== 0) sum += (transfer[point * size + (ports[q] as number)] as number) * slope;
      }
      weighed[point * n + at] = sum;
    }
  }
  const values = new Float64Array(n * n);
  for (let row = 0; row < n; row++) {
    const point = ports[active[row] as number] as number;
    for (let column = 0; column < n; column++)
      values[row * n + column] = (row === column ? 1 : 0) + (weighed[point * n + column] as number);
  }
  const factors = factorReal(n, values);
  if (!factors) return undefined;
  const solved = new Float64Array(n * size);
  const right = new Float64Array(n);
  const x = new Float64Array(n);
  for (let column = 0; column < size; column++) {
    for (let row = 0; row < n; row++) {
      const point = ports[active[row] as number] as number;
      right[row] = transfer[point * size + column] as number;
    }
    solveReal(factors, right, x);
    for (let row = 0; row < n; row++) solved[row * size + column] = x[row] as number;
  }
  const result = Float64Array.from(transfer);
  for (let point = 0; point < size; point++) {
    for (let at = 0; at < n; at++) {
      const weight = weighed[point * n + at] as number;
      if (weight === 0) continue;
      for (let column = 0; column < size; column++) {
        const to = point * size + column;
        result[to] = (result[to] as number) - weight * (solved[at * size + column] as number);
      }
    }
  }
  return result;
}
