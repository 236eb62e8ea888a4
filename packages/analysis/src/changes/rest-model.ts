import type { Circuit, Settings, SettingsOn } from '@setwright/circuit';
import { dcElements } from '../dc-elements.ts';
import { type Rest, restOf } from '../dc-rest.ts';
import type { DcTube } from '../dc-tubes.ts';
import { factorDirected, solveDirected } from '../directed-elimination.ts';
import type { TubeLaw, TubeLaws } from '../tube-law.ts';
import type { WiresKnown } from '../wire-ohms.ts';
import { type ChangedRest, changedRest } from './changed-rest.ts';
import { ballastDevice, curvedDevice, type Device, tubeDevice } from './devices.ts';
import {
  elementChanges,
  isJoinedAlike,
  islandLabels,
  type NamedElements,
  named,
} from './element-changes.ts';
import { noDevice } from './leftovers.ts';
import { moved } from './moved.ts';
import { type State, stateAt } from './state.ts';

/** A set at rest, ready to be asked what small changes of it do. */
export interface RestModel {
  readonly circuit: Circuit;
  readonly settings: Settings | SettingsOn;
  /** The set as it is. */
  readonly asItIs: ChangedRest;
  /**
   * The set with some of its parts otherwise: fast, by what an ampere pushed into a point does to
   * the volts of all. Undefined where its wires, or what hangs together by them, would be other
   * ones, and where no state of rest was found: then a model of the changed set is to be made.
   */
  changed(circuit: Circuit, settings: Settings | SettingsOn): ChangedRest | undefined;
}

export interface RestModelOptions {
  /** Ohms at which rheostats are held, by name, whatever text and settings say. */
  readonly held?: ReadonlyMap<string, number>;
  /** Laws of tube types found before. Kept by the caller; those of new types are entered. */
  readonly laws?: TubeLaws;
  /** Ohms of windings found before. Kept by the caller; new ones are entered. */
  readonly wires?: WiresKnown;
}

/** More points than this are too many for a table of every one by every other. */
const MOST_POINTS = 600;

/**
 * The state of rest of a set with what its volts yield to. Undefined where no state of rest was
 * found, where nothing but tubes holds one part of it to the other, and for a set of more than
 * 600 points. About the cube of the points; never throws.
 */
export function restModel(
  circuit: Circuit,
  settings: Settings | SettingsOn,
  options: RestModelOptions = {},
): RestModel | undefined {
  const held = options.held ?? new Map<string, number>();
  const laws: TubeLaws = options.laws ?? new WeakMap();
  const wires: WiresKnown = options.wires ?? new WeakMap();
  const rest = restOf(circuit, settings, held, laws, wires);
  const { system, search, failures } = rest;
  if (!search.found || failures.length > 0) return undefined;
  if (system.tubes.some(({ leakage }) => leakage.some((siemens) => siemens !== 0)))
    return undefined;
  const compact = new Map<number, number>();
  for (let junction = 0; junction < circuit.junctions.length; junction++) {
    const point = system.pointOf(junction);
    if (!compact.has(point)) compact.set(point, compact.size);
  }
  if (compact.size > MOST_POINTS) return undefined;
  const pointOf = (junction: number): number => compact.get(system.pointOf(junction)) as number;
  const before = named(system.elements, system.curves);
  const devices: Device[] = [];
  for (const [index, key] of before.keys.entries()) {
    const element = system.elements[index];
    const curve = system.curves[index];
    if (!element || !curve) continue;
    const ends = [
      pointOf(element.branch.fromJunction),
      pointOf(element.branch.toJunction),
    ] as const;
    const device = curvedDevice(key, ends, curve);
    if (device) devices.push(device);
    else if (element.control === 'ballast')
      devices.push(ballastDevice(key, ends, element.part.values.ratedCurrent?.value ?? 0));
    // A rheostat whose stand is still to be found would move with every change.
    else if (element.control !== undefined) return undefined;
  }
  for (const tube of system.tubes) devices.push(tubeDevice(tube, tube.law, pointOf));
  const volts = new Float64Array(compact.size);
  for (const [point, at] of compact) volts[at] = system.volts[point] as number;
  const transfer = transferOf(rest, compact);
  if (!transfer) return undefined;
  const state = straightBallasts(stateAt(volts, transfer, devices), before, system.ohms);
  const asItIs = changedRest({
    circuit,
    settings,
    conduction: rest.conduction,
    state,
    elements: before,
    ohms: new Map(
      before.keys.map((key, index) => [
        key,
        { ohms: system.ohms[index] as number, volts: system.elements[index]?.volts ?? 0 },
      ]),
    ),
    tubes: system.tubes.map((tube) => ({ tube, law: tube.law })),
    groups: { of: rest.groups.of, loose: rest.loose },
    islands: islandLabels(circuit.junctions.length, system.elements),
    pointOf,
  });
  return {
    circuit,
    settings,
    asItIs,
    changed: (other, otherSettings) =>
      changedFrom(rest, asItIs, before, state, other, otherSettings, held, laws, wires),
  };
}

/** Volts of every point for an ampere pushed into each. */
function transferOf(
  { system }: Rest,
  compact: ReadonlyMap<number, number>,
): Float64Array | undefined {
  const { plan } = system;
  const size = compact.size;
  const factors = Float64Array.from(system.coefficients);
  const pivots = new Float64Array(plan.order.length);
  factorDirected(plan, factors, pivots);
  const heldPoints = new Set(
    system.held.map(({ tube, electrode }) => system.pointOf(tube.electrodes[electrode] as number)),
  );
  const transfer = new Float64Array(size * size);
  const points = Int32Array.from(compact.keys());
  const right = new Float64Array(system.points);
  const volts = new Float64Array(system.points);
  for (const point of plan.order) {
    const column = compact.get(point);
    if (column === undefined || heldPoints.has(point)) continue;
    right.fill(0);
    right[point] = 1;
    solveDirected(plan, factors, pivots, right, volts);
    // They are numbered in the order in which they were met.
    for (let row = 0; row < size; row++)
      transfer[row * size + column] = volts[points[row] as number] as number;
  }
  return transfer.every(Number.isFinite) ? transfer : undefined;
}

/** The transfer resistances were had with each ballast as so many ohms: so it counts as straight. */
function straightBallasts(
  state: State,
  { elements, keys }: NamedElements,
  ohms: Float64Array,
): State {
  const ballasts = new Map(
    keys.flatMap((key, index) =>
      elements[index]?.control === 'ballast' ? [[key, 1 / (ohms[index] as number)] as const] : [],
    ),
  );
  if (ballasts.size === 0) return state;
  const devices = state.devices.map((each) => {
    const slope = ballasts.get(each.device.key);
    if (slope === undefined) return each;
    const [a, b] = each.device.points as readonly [number, number];
    const amperes = slope * ((state.volts[a] as number) - (state.volts[b] as number));
    return {
      ...each,
      rest: {
        leaving: Float64Array.of(amperes, 0 - amperes),
        slopes: Float64Array.of(slope, 0 - slope, 0 - slope, slope),
      },
    };
  });
  // From there it is let go, to hold its current as a ballast does.
  return moved({ ...state, devices }, []) ?? { ...state, devices };
}

function changedFrom(
  rest: Rest,
  asItIs: ChangedRest,
  before: NamedElements,
  state: State,
  circuit: Circuit,
  settings: Settings | SettingsOn,
  held: ReadonlyMap<string, number>,
  laws: TubeLaws,
  wires: WiresKnown,
): ChangedRest | undefined {
  const { system } = rest;
  const { base } = asItIs;
  if (!isJoinedAlike(base.circuit, circuit)) return undefined;
  const { elements, curves, tubes, unknownSources, conduction } = dcElements(
    circuit,
    settings,
    held,
    laws,
    wires,
  );
  if (unknownSources.length > 0) return undefined;
  const islands = islandLabels(circuit.junctions.length, elements);
  if (islands.some((label, junction) => label !== base.islands[junction])) return undefined;
  const after = named(elements, curves);
  const changes = elementChanges(system, before, after, base.pointOf);
  if (!changes) return undefined;
  const replacements = new Map(changes.replacements);
  const standing: { tube: DcTube; law: TubeLaw }[] = [];
  const tubesNow = new Map(tubes.map((tube) => [tube.part.name, tube]));
  for (const tube of system.tubes) {
    const now = tubesNow.get(tube.part.name);
    tubesNow.delete(tube.part.name);
    const key = `tube ${tube.part.name}`;
    if (!now) {
      // What hung on this tube alone would hang on nothing.
      if (tube.electrodes.some((at) => at >= 0 && rest.loose.has(rest.groups.of(at))))
        return undefined;
      replacements.set(key, noDevice);
      continue;
    }
    const alike = { ...tube, part: now.part };
    if (now.law !== tube.law) replacements.set(key, tubeDevice(alike, now.law, base.pointOf));
    standing.push({ tube: alike, law: now.law });
  }
  if (tubesNow.size > 0) return undefined;
  const next =
    changes.branches.length === 0 && replacements.size === 0
      ? state
      : moved(state, changes.branches, replacements);
  return (
    next &&
    changedRest({
      ...base,
      circuit,
      settings,
      conduction,
      state: next,
      elements: after,
      ohms: changes.now,
      tubes: standing,
    })
  );
}
