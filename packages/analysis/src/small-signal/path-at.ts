import { emitterOf, isSupply } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Piece } from './signal-network.ts';
import type { Tuning } from './signal-system.ts';
import type { SmallSignal } from './small-signal.ts';

/** One part that a signal passes on its way. */
export interface SignalStep {
  readonly part: string;
  /** Full names of the terminals it goes in and comes out at. */
  readonly in: string;
  readonly out: string;
  /** Ohms of impedance at the frequency, by its size. */
  readonly impedance: number;
  /** Why the part passes the signal. */
  readonly reason: string;
}

/** The way of least impedance home. */
export interface SignalPath {
  /** Hertz. */
  readonly frequency: number;
  readonly from: string;
  /** The terminal it is to come home to. */
  readonly to: string | undefined;
  /** Empty where terminal and home are one point. */
  readonly steps: readonly SignalStep[];
  /** Ohms, the sizes of all steps added up. */
  readonly impedance: number;
  /** False where nothing leads home, or neither exists. */
  readonly found: boolean;
}

/** A wired piece with its impedance and what it is in words. */
interface Way {
  readonly to: number;
  readonly step: SignalStep;
}

/**
 * The way of least impedance that a signal of a frequency in hertz has from a terminal home: from
 * a tube's grid, plate or screen to its own cathode or filament−, from any other terminal to the
 * nearest end of a filament, else to ground. By wired parts only: through a tube, and by the
 * capacities of wiring and windings, nothing is followed.
 *
 * Sizes of impedance are added up: a choke and condenser in tune with one another are not seen as
 * the short that they may be. About linear in the set. Never throws.
 *
 * @param to another terminal to end at @param tuning how condensers stand, farads by name
 */
export function pathAt(
  set: SmallSignal,
  from: string,
  frequency: number,
  to?: string,
  tuning: Tuning = new Map(),
): SignalPath {
  const { circuit } = set;
  const part = circuit.partOfEnd.get(from);
  const emitter = part?.kind === 'tube' ? emitterOf(part)?.id : undefined;
  const home = to ?? emitter;
  const start = set.pointOf(from);
  const nothing = { frequency, from, to: home, steps: [], impedance: 0, found: false };
  if (start === undefined || !(frequency > 0) || !Number.isFinite(frequency)) return nothing;
  const goals = goalsOf(set, home);
  if (goals.size === 0) return nothing;
  const at = waysAt(set, frequency, tuning);
  const found = nearest(at, start, new Set(goals.keys()));
  if (!found) return nothing;
  return {
    ...nothing,
    to: goals.get(found.goal) ?? home,
    steps: found.steps,
    impedance: found.impedance,
    found: true,
  };
}

/** Points at which a way ends, with the terminal that is there. */
function goalsOf(set: SmallSignal, home: string | undefined): ReadonlyMap<number, string> {
  const goals = new Map<number, string>();
  if (home !== undefined) {
    const point = set.pointOf(home);
    if (point !== undefined) goals.set(point, home);
    return goals;
  }
  for (const part of set.circuit.parts) {
    if (part.kind !== 'tube') continue;
    const emitter = emitterOf(part)?.id;
    const point = emitter === undefined ? undefined : set.pointOf(emitter);
    if (emitter !== undefined && point !== undefined) goals.set(point, emitter);
  }
  if (goals.size === 0) goals.set(0, 'ground');
  return goals;
}

function waysAt(
  set: SmallSignal,
  frequency: number,
  tuning: Tuning,
): ReadonlyMap<number, readonly Way[]> {
  const { network } = set;
  const ways = new Map<number, Way[]>();
  const radians = 2 * Math.PI * frequency;
  const add = (piece: Piece, impedance: number, reason: string): void => {
    const { from, to, origin } = piece;
    if (!origin || from === to || !Number.isFinite(impedance)) return;
    const step = { part: origin.part, impedance, reason };
    list(ways, from).push({ to, step: { ...step, in: origin.from, out: origin.to } });
    list(ways, to).push({ to: from, step: { ...step, in: origin.to, out: origin.from } });
  };
  for (const piece of network.conductances) {
    const part = set.circuit.partNamed.get(piece.origin?.part ?? '');
    // Of a tube only the filament is a wire; the goal itself needs none.
    if (part?.kind === 'tube' && !piece.origin?.from.includes('.filament')) continue;
    const ohms = 1 / piece.siemens;
    add(piece, ohms, `a resistance of ${formatQuantity(ohms, 'resistance')}`);
  }
  for (const piece of network.capacities) {
    const farads = tuning.get(piece.condenser ?? '') ?? piece.farads;
    if (piece.isStray || !(farads > 0)) continue;
    const ohms = 1 / (radians * farads);
    const size = formatQuantity(farads, 'capacitance');
    add(piece, ohms, `${size} are ${formatQuantity(ohms, 'resistance')} at this frequency`);
  }
  for (const { pieces, henries } of network.series) {
    for (const [index, piece] of pieces.entries()) {
      const own = henries[index]?.[index] ?? 0;
      const resistance = piece.ohms(frequency);
      const ohms = Math.hypot(resistance, radians * own);
      const part = set.circuit.partNamed.get(piece.origin?.part ?? '');
      add(piece, ohms, reasonOf(part !== undefined && isSupply(part), own, resistance, ohms));
    }
  }
  return ways;
}

function reasonOf(isOfSupply: boolean, henries: number, resistance: number, ohms: number): string {
  const all = formatQuantity(ohms, 'resistance');
  if (isOfSupply)
    return `its cells and leads, ${formatQuantity(resistance, 'resistance')} and ${formatQuantity(
      henries,
      'inductance',
    )}, are ${all} at this frequency`;
  return `${formatQuantity(henries, 'inductance')} are ${all} at this frequency`;
}

function list<T>(map: Map<number, T[]>, key: number): T[] {
  const known = map.get(key) ?? [];
  map.set(key, known);
  return known;
}

/** Dijkstra's search; sets are small enough to look through all open points for the nearest. */
function nearest(
  at: ReadonlyMap<number, readonly Way[]>,
  start: number,
  goals: ReadonlySet<number>,
): { goal: number; steps: readonly SignalStep[]; impedance: number } | undefined {
  const best = new Map<number, { ohms: number; before: number; step: SignalStep | undefined }>([
    [start, { ohms: 0, before: start, step: undefined }],
  ]);
  const open = new Set([start]);
  while (open.size > 0) {
    let here = -1;
    let least = Number.POSITIVE_INFINITY;
    for (const point of open) {
      const ohms = best.get(point)?.ohms ?? 0;
      if (ohms < least) [here, least] = [point, ohms];
    }
    if (here < 0) return undefined;
    open.delete(here);
    if (goals.has(here)) {
      const steps: SignalStep[] = [];
      for (let point = here; point !== start; ) {
        const reached = best.get(point);
        if (!reached?.step) break;
        steps.unshift(reached.step);
        point = reached.before;
      }
      return { goal: here, steps, impedance: least };
    }
    for (const { to, step } of at.get(here) ?? []) {
      const ohms = least + step.impedance;
      const known = best.get(to);
      if (known && known.ohms <= ohms) continue;
      best.set(to, { ohms, before: here, step });
      open.add(to);
    }
  }
  return undefined;
}
