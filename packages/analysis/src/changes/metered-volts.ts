import { type Leftovers, leftoversOf } from './leftovers.ts';
import { movedVolts } from './moved.ts';
import type { State } from './state.ts';

/** Rounds in which the bend of the devices is let into what a meter does. */
const MOST_ROUNDS = 12;
/** Volts that a round may still move a port by. */
const SETTLED = 1e-8;
/** Each round must come this much nearer, or it is done in full. */
const CONTRACTION = 0.6;

/** Volts between two points with a meter of so many ohms across them. */
type Metered = (from: number, to: number, ohms: number) => number | undefined;

/**
 * A meter for a state: by the resistance seen from between two points, then corrected for what the
 * devices do as they are drawn along. Shows nothing where that does not settle.
 */
export function meterOn(state: State): Metered {
  const { ports } = state;
  const room: Room = {
    leftovers: leftoversOf(state, new Map(), true),
    along: new Float64Array(ports.length),
    across: new Float64Array(ports.length),
    moves: new Float64Array(ports.length),
  };
  return (from, to, ohms) => meteredVolts(state, from, to, ohms, room);
}

/** Room for one reading after another. */
interface Room {
  readonly leftovers: Leftovers;
  /** Ohms by which each port is drawn along, and by which what each draws is felt. */
  readonly along: Float64Array;
  readonly across: Float64Array;
  readonly moves: Float64Array;
}

function meteredVolts(
  state: State,
  from: number,
  to: number,
  ohms: number,
  { leftovers, along, across, moves }: Room,
): number | undefined {
  const { size, volts, transfer, ports } = state;
  const open = (volts[from] as number) - (volts[to] as number);
  if (open === 0) return 0;
  const m = ports.length;
  for (let port = 0; port < m; port++) {
    const point = ports[port] as number;
    along[port] =
      (transfer[point * size + from] as number) - (transfer[point * size + to] as number);
    across[port] =
      (transfer[from * size + point] as number) - (transfer[to * size + point] as number);
  }
  const whole = ohms + sourceOhms(state, from, to);
  const { leaving } = leftovers;
  let amperes = open / whole;
  let before = 0;
  for (let port = 0; port < m; port++) {
    moves[port] = 0 - (along[port] as number) * amperes;
    before = Math.max(before, Math.abs(moves[port] as number));
  }
  for (let round = 0; round < MOST_ROUNDS; round++) {
    leftovers.reckonLeaving(moves);
    let pushed = 0;
    for (let port = 0; port < m; port++)
      pushed += (across[port] as number) * (leaving[port] as number);
    amperes = (open - pushed) / whole;
    let moved = 0;
    for (let port = 0; port < m; port++) {
      let sum = (along[port] as number) * amperes;
      const at = (ports[port] as number) * size;
      for (let other = 0; other < m; other++) {
        const each = leaving[other] as number;
        if (each !== 0) sum += (transfer[at + (ports[other] as number)] as number) * each;
      }
      moved = Math.max(moved, Math.abs(0 - sum - (moves[port] as number)));
      moves[port] = 0 - sum;
    }
    // What the next round would move goes down by the same share again.
    if (moved < SETTLED || moved * moved < SETTLED * before) return amperes * ohms;
    if (round > 0 && !(moved < CONTRACTION * before)) break;
    before = moved;
  }
  const loaded = movedVolts(state, { from, to, ohms, by: 1, fixed: 0 });
  return loaded && (loaded[from] as number) - (loaded[to] as number);
}

/** Ohms seen from between two points. */
export function sourceOhms({ size, transfer }: State, from: number, to: number): number {
  return (
    (transfer[from * size + from] as number) -
    (transfer[from * size + to] as number) -
    (transfer[to * size + from] as number) +
    (transfer[to * size + to] as number)
  );
}
