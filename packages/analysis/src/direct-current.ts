import {
  asOn,
  type Circuit,
  conductionOf,
  isSupply,
  lowestTap,
  type Settings,
  type SettingsOn,
} from '@setwright/circuit';
import { planElimination, solveNetwork } from './elimination.ts';
import { controlGroups } from './filament-controls.ts';
import { type Groups, separateGroups } from './islands.ts';
import { type Element, networkOf } from './network.ts';
import { type Settled, settleControls } from './settle-controls.ts';
import { wireCurrents } from './wire-currents.ts';

/** A filament or heater in its socket. */
export interface FilamentState {
  readonly tube: string;
  /** Volts of filament+ above filament−; 0 when nothing lights it, undefined when not known. */
  readonly volts: number | undefined;
  /** Amperes from filament+ to filament−. */
  readonly amperes: number | undefined;
  readonly ratedVolts: number | undefined;
  readonly ratedAmperes: number | undefined;
}

/** What a supply gives. */
export interface Drain {
  readonly supply: string;
  /** The tap's name, such as `A+`. */
  readonly tap: string;
  /** Amperes out of a tap above the supply's zero; negative when it is being charged. */
  readonly amperes: number | undefined;
}

/** Where a control stands that the text leaves to be found. */
export interface ControlStand {
  readonly part: string;
  readonly ohms: number;
  /** Travel from its start, 0 to 1; undefined for a ballast or a rheostat of unknown size. */
  readonly travel: number | undefined;
  /**
   * - `rated`: its tubes get their rated volts (a ballast: its rated current flows).
   * - `below`: they get less, though it is full on. `above`: more, with all of it in.
   * - `full-on`: others behind it do the work. `no-current`: nothing flows that it could set.
   * - `no-filament`: it lights nothing, and is reckoned with all its wire.
   * - `unsettled`: no stand was found.
   */
  readonly outcome: Settled['outcome'] | 'no-filament';
}

/** A number that was taken because the text does not give it. */
export interface Assumption {
  readonly part: string;
  readonly ohms: number;
  /** What it was taken for. */
  readonly because: string;
}

/** Something that could not be reckoned, and the junction where. */
export interface Failure {
  readonly junction: string;
  readonly why: string;
}

/** Voltages and currents of a set at rest. */
export interface DirectCurrent {
  /**
   * Volts of one terminal above another. Undefined when they float against one another, when
   * what ties them together could not be reckoned, or when a terminal does not exist.
   */
  voltage(terminal: string, reference: string): number | undefined;
  /**
   * Amperes through a part from its first end to its second; of its sections or contacts the one
   * that carries most. For a supply all that its taps give together. 0 for what blocks; undefined
   * when not known, for parts that nothing passes through, and for one of several wires in a ring
   * of no resistance.
   */
  through(part: string): number | undefined;
  /** Every tube in its socket, in the order of the text. */
  readonly filaments: readonly FilamentState[];
  readonly drains: readonly Drain[];
  readonly controls: readonly ControlStand[];
  /** Resistances that were taken, of parts that carry current: elsewhere they change nothing. */
  readonly assumed: readonly Assumption[];
  readonly failures: readonly Failure[];
  /** The settings it holds for, with what was found for the controls. */
  readonly settings: Settings | SettingsOn;
  /** The same with more tubes pulled and the rheostats left where they stand. */
  solveWithout(tubes: Iterable<string>): DirectCurrent;
}

export interface DirectCurrentOptions {
  /** Ohms at which rheostats are held, by name, whatever text and settings say. */
  readonly held?: ReadonlyMap<string, number>;
}

/** Less than this many amperes is no current worth naming an assumption for. */
const NO_CURRENT = 1e-6;

/**
 * Voltages and currents of a set at direct current while its plates, screens and grids carry
 * none: filament volts, battery currents, and the bias that comes from batteries, rheostats and
 * potentiometers.
 *
 * Filaments count with their hot resistance (rated volts over rated amperes), a rheostat with no
 * setting is set so that its tubes get their rated volts, a ballast so that its rated current
 * flows, a potentiometer with no setting stands half way, an eliminator's volts are those at no
 * load. What the text does not say is taken at a usual value and listed. Islands that nothing ties
 * together are reckoned each on its own. About linear in the set. Never throws and gives no NaN.
 *
 * @param settings the set as on where not given.
 */
export function directCurrent(
  circuit: Circuit,
  settings: Settings | SettingsOn = asOn(circuit).settings,
  options: DirectCurrentOptions = {},
): DirectCurrent {
  const held = options.held ?? new Map<string, number>();
  const conduction = conductionOf(circuit, settings);
  const { elements, unknownSources } = networkOf(conduction, held);
  const junctions = circuit.junctions.length;
  const islands = separateGroups(junctions);
  const points = separateGroups(junctions);
  for (const { branch, ohms, control } of elements) {
    islands.merge(branch.fromJunction, branch.toJunction);
    if (ohms === 0 && control === undefined) points.merge(branch.fromJunction, branch.toJunction);
  }
  const failures: Failure[] = [];
  const failed = new Set<number>();
  const fail = (junction: number, why: string): void => {
    failures.push({ junction: circuit.junctions[junction]?.name ?? '', why });
    failed.add(islands.of(junction));
  };
  for (const branch of unknownSources) {
    // Where its two sides meet elsewhere it would drive current, nobody knows how much.
    if (islands.of(branch.fromJunction) === islands.of(branch.toJunction))
      fail(branch.toJunction, `the volts of ${branch.to} are not known`);
  }

  const references = referencesOf(circuit, islands);
  const isReference = new Set([...references.values()].map((junction) => points.of(junction)));
  const edges = elements.map(({ branch }) => ({
    a: points.of(branch.fromJunction),
    b: points.of(branch.toJunction),
  }));
  // A point stands for itself and for all that are wired to it: those are held too, unused.
  const plan = planElimination(
    junctions,
    edges,
    (node) => points.of(node) !== node || isReference.has(node),
  );
  let volts = new Float64Array(junctions);
  const solve = (ohms: Float64Array): ((element: number) => number) => {
    const siemens = new Float64Array(elements.length);
    const injections = new Float64Array(junctions);
    for (const [index, element] of elements.entries()) {
      const { a, b } = edges[index] as { a: number; b: number };
      if (a === b) continue;
      siemens[index] = 1 / (ohms[index] as number);
      const driven = element.volts * (siemens[index] as number);
      injections[b] = (injections[b] as number) + driven;
      injections[a] = (injections[a] as number) - driven;
    }
    volts = solveNetwork(plan, siemens, injections) as Float64Array<ArrayBuffer>;
    return (index) => {
      const { a, b } = edges[index] as { a: number; b: number };
      return (volts[a] as number) - (volts[b] as number);
    };
  };
  const groups = controlGroups(elements, junctions, points.of);
  const { ohms, settled, across } = settleControls(elements, groups, solve);
  for (let junction = 0; junction < junctions; junction++) {
    if (!Number.isFinite(volts[points.of(junction)]) && !failed.has(islands.of(junction)))
      fail(junction, 'its numbers are beyond reckoning');
  }

  const amperes = currentsOf(elements, ohms, across, junctions);
  const isFailed = (element: Element): boolean => failed.has(islands.of(element.branch.toJunction));
  const amperesOf = (index: number): number | undefined => {
    const element = elements[index];
    const flows = amperes[index];
    return element && !isFailed(element) && Number.isFinite(flows) ? flows : undefined;
  };
  const indicesOf = new Map<string, number[]>();
  for (const [index, { part }] of elements.entries()) {
    const indices = indicesOf.get(part.name);
    if (indices) indices.push(index);
    else indicesOf.set(part.name, [index]);
  }
  for (const { group, outcome } of settled) {
    const element = elements[group.members[0] as number];
    if (outcome === 'unsettled' && element)
      failures.push({
        junction: circuit.junctions[element.branch.toJunction]?.name ?? '',
        why: `no stand of ${element.part.name} was found that is right`,
      });
  }
  const controls = standsOf(elements, ohms, settled);
  const travels = new Map(settings.travels);
  for (const { part, travel } of controls) if (travel !== undefined) travels.set(part, travel);
  const heldNow = new Map(held);
  for (const { part, ohms: found } of controls) heldNow.set(part, found);

  return {
    voltage(terminal, reference) {
      const a = circuit.endNamed.get(terminal)?.junction;
      const b = circuit.endNamed.get(reference)?.junction;
      if (a === undefined || b === undefined) return undefined;
      if (islands.of(a) !== islands.of(b) || failed.has(islands.of(a))) return undefined;
      return (volts[points.of(a)] as number) - (volts[points.of(b)] as number);
    },
    through(name) {
      return throughPart(circuit, name, indicesOf.get(name) ?? [], conduction.branches, amperesOf);
    },
    filaments: circuit.parts.flatMap((part) => {
      const index = part.kind === 'tube' ? indicesOf.get(part.name)?.[0] : undefined;
      const element = index === undefined ? undefined : elements[index];
      if (index === undefined || !element) return [];
      const known = !isFailed(element);
      // The branch runs from filament− to filament+.
      return {
        tube: part.name,
        volts: known ? 0 - across(index) : undefined,
        amperes: negative(amperesOf(index)),
        ratedVolts: part.tubeType?.filamentVolts,
        ratedAmperes: part.tubeType?.filamentAmperes,
      };
    }),
    drains: elements.flatMap(({ part, branch }, index) =>
      isSupply(part)
        ? {
            supply: part.name,
            tap: branch.to.slice(part.name.length + 1),
            amperes: amperesOf(index),
          }
        : [],
    ),
    controls,
    assumed: elements.flatMap(({ part, supposed }, index) =>
      supposed !== undefined && Math.abs(amperes[index] ?? 0) > NO_CURRENT
        ? { part: part.name, ohms: ohms[index] as number, because: supposed }
        : [],
    ),
    failures,
    settings:
      'released' in settings
        ? { ...settings, travels, released: new Set() }
        : { ...settings, travels },
    solveWithout(tubes) {
      const removed = new Set([...settings.removed, ...tubes]);
      return directCurrent(circuit, { ...settings, removed }, { held: heldNow });
    },
  };
}

/** For every island the junction that its volts are counted from: its supplies' lowest tap. */
function referencesOf(circuit: Circuit, islands: Groups): ReadonlyMap<number, number> {
  const references = new Map<number, number>();
  for (const part of circuit.parts) {
    if (!isSupply(part)) continue;
    const lowest = lowestTap(part)?.end;
    const junction = part.ends.find(({ name }) => name === lowest)?.junction;
    if (junction !== undefined && !references.has(islands.of(junction)))
      references.set(islands.of(junction), junction);
  }
  for (let junction = 0; junction < circuit.junctions.length; junction++) {
    const island = islands.of(junction);
    if (!references.has(island)) references.set(island, junction);
  }
  return references;
}

/** Amperes from `from` to `to` in every element; NaN where it cannot be told. */
function currentsOf(
  elements: readonly Element[],
  ohms: Float64Array,
  across: (element: number) => number,
  junctions: number,
): Float64Array {
  const amperes = new Float64Array(elements.length);
  const inflow = new Float64Array(junctions);
  const wires: { from: number; to: number; index: number }[] = [];
  for (const [index, { branch, volts, control }] of elements.entries()) {
    const { fromJunction: from, toJunction: to } = branch;
    if (ohms[index] === 0 && control === undefined) {
      wires.push({ from, to, index });
      continue;
    }
    const flows = (across(index) + volts) / (ohms[index] as number);
    amperes[index] = flows;
    inflow[from] = (inflow[from] as number) - flows;
    inflow[to] = (inflow[to] as number) + flows;
  }
  const inWires = wireCurrents(junctions, wires, inflow);
  for (const [place, { index }] of wires.entries()) amperes[index] = inWires[place] as number;
  return amperes;
}

function throughPart(
  circuit: Circuit,
  name: string,
  indices: readonly number[],
  branches: readonly { readonly part: string }[],
  amperesOf: (index: number) => number | undefined,
): number | undefined {
  const part = circuit.partNamed.get(name);
  if (!part) return undefined;
  if (indices.length === 0) return branches.some((branch) => branch.part === name) ? 0 : undefined;
  let most = 0;
  let sum = 0;
  for (const index of indices) {
    const flows = amperesOf(index);
    if (flows === undefined) return undefined;
    sum += flows;
    if (Math.abs(flows) > Math.abs(most)) most = flows;
  }
  return isSupply(part) ? sum : most;
}

function negative(value: number | undefined): number | undefined {
  return value === undefined ? undefined : 0 - value;
}

function standsOf(
  elements: readonly Element[],
  ohms: Float64Array,
  settled: readonly Settled[],
): readonly ControlStand[] {
  const found = new Map<number, Settled>();
  for (const each of settled) for (const member of each.group.members) found.set(member, each);
  return elements.flatMap(({ part, control, supposed }, index) => {
    if (control === undefined) return [];
    const each = found.get(index);
    if (!each)
      return {
        part: part.name,
        ohms: ohms[index] as number,
        travel: control === 'rheostat' && supposed === undefined ? 1 : undefined,
        outcome: 'no-filament' as const,
      };
    const isSized = control === 'rheostat' && supposed === undefined;
    return {
      part: part.name,
      ohms: each.stand === 0 ? 0 : (ohms[index] as number),
      travel: isSized ? each.stand : undefined,
      outcome: each.outcome,
    };
  });
}
