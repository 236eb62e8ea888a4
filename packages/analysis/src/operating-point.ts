import {
  asOn,
  type Circuit,
  emitterOf,
  isSupply,
  type Settings,
  type SettingsOn,
} from '@setwright/circuit';
import { type Rest, restOf } from './dc-rest.ts';
import type { ControlStand, Failure } from './direct-current.ts';
import { type PartAtWork, partAtWork } from './part-at-work.ts';
import { type ContactFlow, flowsOf } from './rest-flows.ts';
import { type SupplyAtWork, supplyAtWork } from './supply-at-work.ts';
import { type Known, type TubeAtWork, tubeAtWork } from './tube-at-work.ts';
import type { TubeLaws } from './tube-law.ts';

/** A resistance or law that was taken because the text does not give it. */
export interface Taken {
  readonly part: string;
  /** Ohms; undefined where a tube's law is missing instead. */
  readonly ohms: number | undefined;
  readonly because: string;
}

/** Volts and currents of a set at work without a signal. */
export interface OperatingPoint {
  /**
   * True when a state of rest was found. When false the failures say where and why not; when true
   * they can still name a control for which no right stand was found.
   */
  readonly converged: boolean;
  /** Steps of Newton's iteration that it took, all settings of the controls together. */
  readonly iterations: number;
  readonly failures: readonly Failure[];
  /**
   * Volts of one terminal above another; undefined when one does not exist, when they float
   * against one another, or when no state of rest was found.
   */
  voltage(terminal: string, reference: string): number | undefined;
  /**
   * Amperes that go into a part at one of its terminals; undefined when not known, for a terminal
   * that nothing passes through, and in a ring of wires of no resistance.
   */
  current(terminal: string): number | undefined;
  /** Every tube in its socket, in the order of the text. */
  readonly tubes: readonly TubeAtWork[];
  readonly supplies: readonly SupplyAtWork[];
  /** Every other part that current can pass through. */
  readonly parts: readonly PartAtWork[];
  /** Closed contacts of selectors and jacks on terminals of other parts; empty on failure. */
  readonly contacts: readonly ContactFlow[];
  readonly controls: readonly ControlStand[];
  readonly taken: readonly Taken[];
  /** The settings it holds for, with what was found for the controls. */
  readonly settings: Settings | SettingsOn;
  /** The same with more tubes pulled and the rheostats left where they stand. */
  solveWithout(tubes: Iterable<string>): OperatingPoint;
}

/** What an operating point may be given besides the set. */
export interface OperatingPointOptions {
  /** Ohms at which rheostats are held, by name, whatever text and settings say. */
  readonly held?: ReadonlyMap<string, number>;
  /** Laws of tube types found before. Kept by the caller; those of new types are entered. */
  readonly laws?: TubeLaws;
}

/** Less than this many amperes is no current worth naming an assumption for. */
const NO_CURRENT = 1e-6;

/**
 * The operating point of a set: all volts and currents with its tubes at work and no signal.
 *
 * Modified nodal analysis with Newton's iteration. Plates and screens draw by the law fitted to
 * the published points of their types, along the filament's drop and held down by its emission;
 * grids by the retarding and the positive law; what they draw comes home through cathode or
 * filament. Filaments and lamps are cold far below hot. A battery's taps share its cells and
 * their resistance; an eliminator's stand at their stated load. A rheostat with no setting stands
 * where its tubes get their rated volts, a ballast where its rated current flows. A crystal is an
 * approximate rectifier. A grid that nothing leads to is told as free, with the place it was
 * taken to have. Currents without a way home are none.
 *
 * Plate currents are good to about 10 % for a tube such as its type's points, and real tubes of
 * one type differ by more. Gas, leakage and contact potentials of single tubes are left out.
 * Never throws and gives no NaN. About linear in the set.
 *
 * @param settings the set as on where not given.
 */
export function operatingPoint(
  circuit: Circuit,
  settings: Settings | SettingsOn = asOn(circuit).settings,
  options: OperatingPointOptions = {},
): OperatingPoint {
  const laws: TubeLaws = options.laws ?? new WeakMap();
  const held = options.held ?? new Map<string, number>();
  const rest = restOf(circuit, settings, held, laws);
  const { system, groups } = rest;
  const converged = rest.search.found && rest.failures.length === 0;
  const failed = new Set(rest.failures.map(({ junction }) => groups.of(junction)));
  const isKnown: Known = (a, b) =>
    rest.search.found && groups.of(a) === groups.of(b) && !failed.has(groups.of(a));
  const flows = flowsOf(circuit, settings, rest);
  const controls = standsOf(rest);
  const travels = new Map(settings.travels);
  for (const { part, travel } of controls) if (travel !== undefined) travels.set(part, travel);
  const heldNow = new Map(held);
  for (const { part, ohms } of controls) heldNow.set(part, ohms);
  const unsettled = rest.settled.filter(({ outcome }) => outcome === 'unsettled');
  return {
    converged,
    iterations: rest.search.iterations,
    failures: [
      ...rest.failures.map(({ junction, why }) => ({ junction, why })),
      ...unsettled.flatMap(({ group }) => {
        const element = system.elements[group.members[0] as number];
        if (!element) return [];
        const why = `no stand of ${element.part.name} was found that is right`;
        return [{ junction: element.branch.toJunction, why }];
      }),
    ].map(({ junction, why }) => ({ junction: circuit.junctions[junction]?.name ?? '', why })),
    voltage(terminal, reference) {
      const a = circuit.endNamed.get(terminal)?.junction;
      const b = circuit.endNamed.get(reference)?.junction;
      if (a === undefined || b === undefined || !isKnown(a, b)) return undefined;
      const volts =
        (system.volts[system.pointOf(a)] as number) - (system.volts[system.pointOf(b)] as number);
      return Number.isFinite(volts) ? volts : undefined;
    },
    current(terminal) {
      const junction = circuit.endNamed.get(terminal)?.junction;
      const amperes = flows.into.get(terminal);
      if (junction === undefined || amperes === undefined) return undefined;
      return isKnown(junction, junction) && Number.isFinite(amperes) ? amperes : undefined;
    },
    tubes: system.tubes.map((tube) => tubeAtWork(circuit, rest, isKnown, tube)),
    supplies: circuit.parts
      .filter((part) => isSupply(part) && !settings.removed.has(part.name))
      .map((part) => supplyAtWork(part, rest, flows, isKnown)),
    parts: circuit.parts.flatMap((part) => {
      if (isSupply(part) || part.kind === 'tube') return [];
      return partAtWork(part, rest, flows, isKnown) ?? [];
    }),
    contacts: rest.search.found ? flows.contacts : [],
    controls,
    taken: takenOf(circuit, settings, rest, flows.amperes),
    settings:
      'released' in settings
        ? { ...settings, travels, released: new Set() }
        : { ...settings, travels },
    solveWithout(tubes) {
      const removed = new Set([...settings.removed, ...tubes]);
      return operatingPoint(circuit, { ...settings, removed }, { held: heldNow, laws });
    },
  };
}

/** Where each control came to stand. */
function standsOf({ system, settled }: Rest): readonly ControlStand[] {
  const found = new Map(settled.flatMap((each) => each.group.members.map((at) => [at, each])));
  return system.elements.flatMap(({ part, control, supposed }, index) => {
    if (control === undefined) return [];
    const each = found.get(index);
    const isSized = control === 'rheostat' && supposed === undefined;
    const ohms = each?.stand === 0 ? 0 : (system.ohms[index] as number);
    const travel = isSized ? (each ? each.stand : 1) : undefined;
    return { part: part.name, ohms, travel, outcome: each?.outcome ?? ('no-filament' as const) };
  });
}

function takenOf(
  circuit: Circuit,
  settings: Settings,
  { system }: Rest,
  amperes: Float64Array,
): readonly Taken[] {
  const resistances = system.elements.flatMap(({ part, supposed }, index) =>
    supposed !== undefined && Math.abs(amperes[index] ?? 0) > NO_CURRENT
      ? { part: part.name, ohms: system.ohms[index] as number, because: supposed }
      : [],
  );
  const lawful = new Set(system.tubes.flatMap(({ part, law }) => (law.plate ? part.name : [])));
  const lawless = circuit.parts.flatMap((part) => {
    if (part.kind !== 'tube' || settings.removed.has(part.name)) return [];
    if (lawful.has(part.name) || !emitterOf(part)) return [];
    const because = `no published point of type ${part.typeName ?? 'unknown'}: no plate current`;
    return { part: part.name, ohms: undefined, because };
  });
  return [...resistances, ...lawless];
}
