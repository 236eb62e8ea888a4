import {
  type Circuit,
  type Conduction,
  isSupply,
  lowestTap,
  type Settings,
  type SettingsOn,
} from '@setwright/circuit';
import { dcElements } from './dc-elements.ts';
import { findRest, type Search, searchRoom } from './dc-newton.ts';
import {
  type Curve,
  type DcSystem,
  dcSystem,
  type HeldElectrode,
  holdElectrodes,
  writeEquations,
} from './dc-system.ts';
import { closeTubes, type DcTube, looseElectrodes, type Tie } from './dc-tubes.ts';
import { controlGroups } from './filament-controls.ts';
import { type Groups, separateGroups } from './islands.ts';
import type { Element } from './network.ts';
import { type Settled, settleControls } from './settle-controls.ts';
import type { TubeLaws } from './tube-law.ts';
import type { WiresKnown } from './wire-ohms.ts';

/** Something that could not be reckoned: where, and why. */
export interface RestFailure {
  readonly junction: number;
  readonly why: string;
}

/** A set at rest: all its numbers, by element and point. */
export interface Rest {
  readonly system: DcSystem;
  readonly conduction: Conduction;
  /** Points that current or tubes tie together have one group. */
  readonly groups: Groups;
  /** The groups that hang on nothing but a tube's electrodes. */
  readonly loose: ReadonlySet<number>;
  readonly settled: readonly Settled[];
  /** Indices into the system's elements, by part. */
  readonly elementsOf: ReadonlyMap<string, readonly number[]>;
  readonly search: Search;
  readonly failures: readonly RestFailure[];
}

/** Kirchhoff's first law holds at a point when what is left is less than this share. */
const KIRCHHOFF = 1e-9;
/** What conducts at all has at least this much, in ohms. */
const LEAST_OHMS = 1e-6;
/** Amperes that are none, and the share of the largest current in the set that is none. */
const NO_CURRENT = 1e-15;
const NO_SHARE = 1e-14;
/** What two volts may be off each other for want of figures, as a share of them. */
const ROUNDING = 1e-15;
/** Volts by which a second free grid may stand above the one that is held. */
const GRID_NEARNESS = 1e-9;

/**
 * Finds the state of rest of a set: the equations, the controls that the text leaves to be found,
 * the grids that hang on nothing, and the volts at which all currents agree.
 */
export function restOf(
  circuit: Circuit,
  settings: Settings | SettingsOn,
  heldControls: ReadonlyMap<string, number>,
  laws: TubeLaws,
  wires?: WiresKnown,
): Rest {
  const { elements, curves, tubes, unknownSources, conduction } = dcElements(
    circuit,
    settings,
    heldControls,
    laws,
    wires,
  );
  const junctions = circuit.junctions.length;
  const points = separateGroups(junctions);
  const islands = separateGroups(junctions);
  const groups = separateGroups(junctions);
  for (const { branch, ohms, control, part } of elements) {
    islands.merge(branch.fromJunction, branch.toJunction);
    groups.merge(branch.fromJunction, branch.toJunction);
    if (ohms === 0 && control === undefined && part.kind !== 'tube')
      points.merge(branch.fromJunction, branch.toJunction);
  }
  const failures: RestFailure[] = [];
  for (const branch of unknownSources) {
    if (islands.of(branch.fromJunction) === islands.of(branch.toJunction))
      failures.push({
        junction: branch.toJunction,
        why: `the volts of ${branch.to} are not known`,
      });
  }
  closeTubes(tubes, junctions, islands, groups);
  const loose = looseElectrodes(tubes, groups);

  const zeros = zerosOf(circuit, groups, loose);
  const isZero = new Set(zeros.map((junction) => points.of(junction)));
  const system = dcSystem(
    junctions,
    elements,
    curves,
    tubes,
    points.of,
    (point) => points.of(point) !== point || isZero.has(point),
  );
  const held = new Map<number, HeldElectrode>();
  for (const [group, ties] of loose) held.set(group, heldAt(ties[0] as Tie));
  holdElectrodes(system, [...held.values()]);

  const { settled, search } = solve(system, elements, junctions, points.of, loose, held);
  if (!search.found)
    failures.push({
      junction: search.worst,
      why: `no state of rest was found in ${search.iterations} steps; this junction moved last`,
    });
  else failures.push(...unbalanced(system));
  return {
    conduction,
    system,
    groups,
    loose: new Set(loose.keys()),
    settled,
    elementsOf: byPart(elements),
    search,
    failures,
  };
}

/** The junction that each group's volts are counted from, but for those that a tie holds. */
function zerosOf(
  circuit: Circuit,
  groups: Groups,
  loose: ReadonlyMap<number, readonly Tie[]>,
): readonly number[] {
  const zeros = new Map<number, number>();
  const enter = (junction: number): void => {
    const group = groups.of(junction);
    if (!loose.has(group) && !zeros.has(group)) zeros.set(group, junction);
  };
  for (const part of circuit.parts) {
    if (!isSupply(part)) continue;
    const lowest = lowestTap(part)?.end;
    const end = part.ends.find(({ name }) => name === lowest);
    if (end) enter(end.junction);
  }
  for (let junction = 0; junction < circuit.junctions.length; junction++) enter(junction);
  return [...zeros.values()];
}

/** A grid is held where its current vanishes; any other electrode at its cathode's own volts. */
function heldAt(tie: Tie): HeldElectrode {
  return { ...tie, volts: tie.electrode === 0 ? tie.tube.law.freeGridVolts : 0 };
}

/** Finds the state of rest with all controls where they should be. */
function solve(
  system: DcSystem,
  elements: readonly Element[],
  junctions: number,
  pointOf: (junction: number) => number,
  loose: ReadonlyMap<number, readonly Tie[]>,
  held: Map<number, HeldElectrode>,
): { readonly settled: readonly Settled[]; readonly search: Search } {
  const room = searchRoom(system);
  let search: Search | undefined;
  let iterations = 0;
  const rest = (ohms: Float64Array): ((element: number) => number) => {
    for (let index = 0; index < ohms.length; index++)
      system.ohms[index] = Math.max(ohms[index] as number, LEAST_OHMS);
    for (let round = 0; round <= loose.size; round++) {
      search = findRest(system, room, search?.found ?? false);
      iterations += search.iterations;
      if (!search.found || !raiseTies(system, loose, held)) break;
    }
    writeEquations(system, 1, true);
    return (element) =>
      (system.volts[system.from[element] as number] as number) -
      (system.volts[system.to[element] as number] as number);
  };
  const groups = controlGroups(elements, junctions, pointOf);
  const { settled } = settleControls(elements, groups, rest);
  const ended = search ?? { found: true, iterations: 0, worst: 0, moved: 0 };
  return { settled, search: { ...ended, iterations } };
}

/** Of several free grids on one wire the highest is the one that settles; true when that changed. */
function raiseTies(
  system: DcSystem,
  loose: ReadonlyMap<number, readonly Tie[]>,
  held: Map<number, HeldElectrode>,
): boolean {
  let changed = false;
  const volts = (junction: number): number => system.volts[system.pointOf(junction)] as number;
  for (const [group, ties] of loose) {
    let highest = GRID_NEARNESS;
    for (const tie of ties) {
      const { tube, electrode } = tie;
      if (electrode !== 0) continue;
      const above = volts(tube.electrodes[0]) - volts(tube.reference) - tube.law.freeGridVolts;
      if (above <= highest) continue;
      highest = above;
      held.set(group, heldAt(tie));
      changed = true;
    }
  }
  if (changed) holdElectrodes(system, [...held.values()]);
  return changed;
}

/** Points at which the currents do not agree after all. */
function unbalanced(system: DcSystem): readonly RestFailure[] {
  const sum = new Float64Array(system.points);
  const size = new Float64Array(system.points);
  const noise = new Float64Array(system.points);
  const flow = (point: number, leaving: number): void => {
    sum[point] = (sum[point] as number) + leaving;
    size[point] = (size[point] as number) + Math.abs(leaving);
  };
  for (let index = 0; index < system.elements.length; index++) {
    const a = system.from[index] as number;
    const b = system.to[index] as number;
    if (a === b) continue;
    flow(a, system.amperes[index] as number);
    flow(b, -(system.amperes[index] as number));
    const slope = steepest(system.curves[index]);
    for (const point of [a, b])
      noise[point] =
        (noise[point] as number) + ROUNDING * slope * Math.abs(system.volts[point] as number);
  }
  for (const tube of system.tubes) {
    for (const { junction, amperes } of tubeFlows(tube)) flow(system.pointOf(junction), amperes);
  }
  let largest = 0;
  for (const each of size) largest = Math.max(largest, each);
  const none = NO_CURRENT + NO_SHARE * largest;
  for (let point = 0; point < system.points; point++) {
    const left = Math.abs(sum[point] as number);
    if (left <= KIRCHHOFF * (size[point] as number) + none + (noise[point] as number)) continue;
    const why = `the currents here do not agree: ${left.toPrecision(2)} A is left`;
    return [{ junction: point, why }];
  }
  return [];
}

/** Siemens that a curve has at the most; its current is no better known than its volts. */
function steepest(curve: Curve | undefined): number {
  if (curve?.kind === 'crystal') return 1;
  if (curve?.kind !== 'filament') return 0;
  const { ratedAmperes, ratedVolts, hotOverCold } = curve.law;
  return (hotOverCold * ratedAmperes) / ratedVolts;
}

/** Amperes that leave each junction into a tube's electrodes, cathode and filament. */
export function tubeFlows(
  tube: DcTube,
): readonly { readonly end: string; readonly junction: number; readonly amperes: number }[] {
  const { currents, electrodes, law, reference, plus } = tube;
  const [grid, plate, screen] = electrodes;
  const whole = currents.grid + currents.plate + currents.screen;
  const toPlus = law.heated ? 0 : law.positiveShare;
  const flows = [
    { end: 'grid', junction: grid, amperes: currents.grid },
    { end: 'plate', junction: plate, amperes: currents.plate },
    { end: 'screen', junction: screen, amperes: currents.screen },
    { end: 'reference', junction: reference, amperes: -whole * (1 - toPlus) },
    { end: 'filament+', junction: plus, amperes: -whole * toPlus },
  ];
  return flows.filter(({ junction }) => junction >= 0);
}

function byPart(elements: readonly Element[]): ReadonlyMap<string, readonly number[]> {
  const found = new Map<string, number[]>();
  for (const [index, { part }] of elements.entries()) {
    const here = found.get(part.name);
    if (here) here.push(index);
    else found.set(part.name, [index]);
  }
  return found;
}
