import type { Eliminated } from './eliminate.ts';
import type { EliminationPlan, Pattern } from './elimination-plan.ts';
import type { CapacityPiece, SignalNetwork } from './signal-network.ts';

/** Unknown currents are counted in milliamperes and balances in millisiemens: all of one size. */
export const SCALE_OHMS = 1000;

/**
 * A network as equations: the volts of its points and the currents of its series pieces. Every
 * coefficient is a constant and a multiple of the complex frequency, besides the series ohms.
 */
export interface SignalSystem {
  readonly network: SignalNetwork;
  readonly pattern: Pattern;
  readonly still: Float64Array;
  readonly moving: Float64Array;
  /** The slots that anything moves in. */
  readonly movingSlots: Int32Array;
  /** Slots and ohms of the series pieces that lose otherwise at every frequency. */
  readonly losses: readonly Loss[];
  /** Row of a series piece's balance of volts, by its name. */
  readonly rowOfSeries: ReadonlyMap<string, number>;
  /** For every condenser that can be turned: its slots with their signs, and its farads as set. */
  readonly turned: ReadonlyMap<string, readonly TurnedSlot[]>;
  /** The constants without what tubes amplify. */
  readonly unsteered: Float64Array;
  /** Plans made so far with room for their values; the last that suited first. */
  readonly rooms: Eliminated[];
  /** Plans that may suit any system of this pattern. */
  readonly plans: EliminationPlan[];
}

export interface Loss {
  readonly name: string;
  readonly slot: number;
  ohms(frequency: number): number;
}

interface TurnedSlot {
  readonly slot: number;
  readonly sign: number;
  readonly farads: number;
}

/** How the condensers of a network stand: farads by name. */
export type Tuning = ReadonlyMap<string, number>;

/**
 * Sets up the equations of a network.
 *
 * @param like equations of another that this may share its pattern with, and plans for it: what
 * it has not got stands there as nothing
 */
export function signalSystem(network: SignalNetwork, like?: SignalSystem): SignalSystem {
  const { points } = network;
  let size = points;
  for (const { pieces } of network.series) size += pieces.length;
  const slots = slotTable(size);
  const rows: number[] = [];
  const columns: number[] = [];
  const still: number[] = [];
  const moving: number[] = [];
  const shared = like?.pattern.size === size ? like : undefined;
  const slotOf = (row: number, column: number): number => {
    const key = row * size + column;
    const known = slots.get(key);
    if (known >= 0) return known;
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
  if (shared) {
    const { pattern } = shared;
    for (let slot = 0; slot < pattern.rows.length; slot++)
      slotOf(pattern.rows[slot] as number, pattern.columns[slot] as number);
  }
  for (let point = 0; point < points; point++) slotOf(point, point);
  /** Lets a current by the volts of `plus` above `minus` leave `from` and come out at `to`. */
  const stamp = (from: number, to: number, plus: number, minus: number, value: number): void => {
    if (from > 0 && plus > 0) add(still, from - 1, plus - 1, value);
    if (from > 0 && minus > 0) add(still, from - 1, minus - 1, 0 - value);
    if (to > 0 && plus > 0) add(still, to - 1, plus - 1, 0 - value);
    if (to > 0 && minus > 0) add(still, to - 1, minus - 1, value);
  };
  for (const { from, to, siemens } of network.conductances)
    if (from !== to) stamp(from, to, from, to, siemens * SCALE_OHMS);
  const turned = new Map<string, TurnedSlot[]>();
  const movingSlots = new Set<number>();
  const hold = (row: number, column: number, sign: number, piece: CapacityPiece): void => {
    if (row < 0 || column < 0) return;
    const { farads, condenser } = piece;
    const slot = slotOf(row, column);
    moving[slot] = (moving[slot] as number) + sign * farads;
    movingSlots.add(slot);
    if (condenser === undefined) return;
    const known = turned.get(condenser);
    if (known) known.push({ slot, sign, farads });
    else turned.set(condenser, [{ slot, sign, farads }]);
  };
  for (const piece of network.capacities) {
    const [from, to] = [piece.from - 1, piece.to - 1];
    if (from === to) continue;
    hold(from, from, SCALE_OHMS, piece);
    hold(from, to, 0 - SCALE_OHMS, piece);
    hold(to, from, 0 - SCALE_OHMS, piece);
    hold(to, to, SCALE_OHMS, piece);
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
      if (piece.isSteady) add(still, row, row, (0 - piece.ohms(1)) / SCALE_OHMS);
      else losses.push({ name: piece.name, slot: slotOf(row, row), ohms: piece.ohms });
      for (const [other, mutual] of (henries[index] ?? []).entries()) {
        if (mutual === 0) continue;
        add(moving, row, first + other, (0 - mutual) / SCALE_OHMS);
        movingSlots.add(slotOf(row, first + other));
      }
    }
  }
  const unsteered = new Float64Array(still);
  for (const { from, to, plus, minus, siemens } of network.steerings)
    if (from !== to && plus !== minus) stamp(from, to, plus, minus, siemens * SCALE_OHMS);
  const isShared = shared !== undefined && rows.length === shared.pattern.rows.length;
  return {
    network,
    pattern: isShared
      ? (shared as SignalSystem).pattern
      : { size, rows: new Int32Array(rows), columns: new Int32Array(columns) },
    still: new Float64Array(still),
    unsteered: widened(unsteered, still.length),
    moving: new Float64Array(moving),
    movingSlots: new Int32Array(movingSlots),
    losses,
    rowOfSeries,
    turned,
    rooms: [],
    plans: isShared ? [...(shared as SignalSystem).plans] : [],
  };
}

/** The same values with nothing behind them. */
function widened(values: Float64Array, length: number): Float64Array {
  const wider = new Float64Array(length);
  wider.set(values);
  return wider;
}

/** Systems with no more unknowns than this look their slots up in a table of every pair. */
const MOST_TABLED = 500;

/** Slots by place, -1 where there is none yet. */
interface SlotTable {
  get(key: number): number;
  set(key: number, slot: number): void;
}

function slotTable(size: number): SlotTable {
  if (size <= MOST_TABLED) {
    const table = new Int32Array(size * size).fill(-1);
    return {
      get: (key) => table[key] as number,
      set: (key, slot) => {
        table[key] = slot;
      },
    };
  }
  const table = new Map<number, number>();
  return { get: (key) => table.get(key) ?? -1, set: (key, slot) => void table.set(key, slot) };
}

/** The system with tubes that amplify nothing: a network that cannot oscillate. */
export function coldSystem(system: SignalSystem): SignalSystem {
  return { ...system, still: system.unsteered, rooms: [] };
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
