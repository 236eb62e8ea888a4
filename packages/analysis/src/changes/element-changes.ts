import type { Circuit } from '@setwright/circuit';
import type { Curve, DcSystem } from '../dc-system.ts';
import { separateGroups } from '../islands.ts';
import type { Element } from '../network.ts';
import { curvedDevice } from './devices.ts';
import { noDevice, type Replacements } from './leftovers.ts';
import type { Branch } from './state.ts';

/** What conducts in a changed set, with the name that each piece has before and after. */
export interface NamedElements {
  readonly elements: readonly Element[];
  readonly curves: readonly Curve[];
  readonly keys: readonly string[];
  /** Where each is, by its key. */
  readonly indexOf: ReadonlyMap<string, number>;
}

/** Names pieces by part and ends; several between the same ends are counted. */
export function named(elements: readonly Element[], curves: readonly Curve[]): NamedElements {
  const seen = new Map<string, number>();
  const keys = elements.map(({ branch }) => {
    const key = `${branch.part} ${branch.from} ${branch.to}`;
    const before = seen.get(key) ?? 0;
    seen.set(key, before + 1);
    return before === 0 ? key : `${key} ${before}`;
  });
  const indexOf = new Map<string, number>();
  for (let index = 0; index < keys.length; index++) indexOf.set(keys[index] as string, index);
  return { elements, curves, keys, indexOf };
}

/** Fewer ohms than this are as many. */
const LEAST_OHMS = 1e-6;

/** How the pieces of a set differ from before; undefined where that cannot be laid beside it. */
export interface ElementChanges {
  readonly branches: readonly Branch[];
  readonly replacements: Replacements;
  /** Ohms and volts of every piece of the changed set by its key. */
  readonly now: ReadonlyMap<string, { readonly ohms: number; readonly volts: number }>;
}

/**
 * The branches that make of one set the other, both of the same junctions.
 *
 * @param system of the set before, whose ohms are those it was solved with
 */
export function elementChanges(
  system: DcSystem,
  before: NamedElements,
  after: NamedElements,
  pointOf: (junction: number) => number,
): ElementChanges | undefined {
  const { indexOf } = before;
  const branches: Branch[] = [];
  const replacements = new Map<string, NonNullable<ReturnType<typeof curvedDevice>> | 'out'>();
  const now = new Map<string, { ohms: number; volts: number }>();
  for (const [index, key] of after.keys.entries()) {
    const element = after.elements[index] as Element;
    const curve = after.curves[index] as Curve;
    const old = indexOf.get(key);
    const ends = pointsOf(element, pointOf);
    if (old === undefined) {
      if (curve.kind !== 'ohmic' || element.control !== undefined) return undefined;
      now.set(key, { ohms: element.ohms, volts: element.volts });
      if (ends[0] !== ends[1]) branches.push(added(ends, element.ohms, element.volts));
      continue;
    }
    const was = before.elements[old] as Element;
    const curveBefore = before.curves[old] as Curve;
    if (curve.kind !== curveBefore.kind || element.control !== was.control) return undefined;
    if (curve.kind === 'filament' && curveBefore.kind === 'filament') {
      if (!sameLaw(curve.law, curveBefore.law)) {
        const device = curvedDevice(key, ends, curve);
        if (!device) return undefined;
        replacements.set(key, device);
      }
      continue;
    }
    if (curve.kind === 'crystal') continue;
    const ohmsBefore = system.ohms[old] as number;
    if (element.control !== undefined) {
      // A ballast holds its own current; what it rates at may not change under way.
      if (element.part.values.ratedCurrent?.value !== was.part.values.ratedCurrent?.value)
        return undefined;
      now.set(key, { ohms: ohmsBefore, volts: 0 });
      continue;
    }
    if ((was.ohms === 0) !== (element.ohms === 0)) return undefined;
    const ohms = element.ohms === 0 ? 0 : Math.max(element.ohms, LEAST_OHMS);
    now.set(key, { ohms, volts: element.volts });
    if (ends[0] === ends[1] || ohms === 0) continue;
    if (ohms === ohmsBefore && element.volts === was.volts) continue;
    branches.push({
      from: ends[0],
      to: ends[1],
      ohms: ohmsBefore,
      by: ohmsBefore / ohms - 1,
      fixed: (element.volts * ohmsBefore) / ohms - was.volts,
    });
  }
  for (const [index, key] of before.keys.entries()) {
    if (after.indexOf.has(key)) continue;
    const element = before.elements[index] as Element;
    if ((before.curves[index] as Curve).kind !== 'ohmic' || element.control !== undefined) {
      replacements.set(key, noDevice);
      continue;
    }
    const [from, to] = pointsOf(element, pointOf);
    if (element.ohms === 0) return undefined;
    if (from !== to)
      branches.push({
        from,
        to,
        ohms: system.ohms[index] as number,
        by: -1,
        fixed: 0 - element.volts,
      });
  }
  return { branches, replacements, now };
}

function added([from, to]: readonly [number, number], ohms: number, volts: number): Branch {
  return { from, to, ohms: ohms === 0 ? 0 : Math.max(ohms, LEAST_OHMS), by: 1, fixed: volts };
}

function pointsOf(
  { branch }: Element,
  pointOf: (junction: number) => number,
): readonly [number, number] {
  return [pointOf(branch.fromJunction), pointOf(branch.toJunction)];
}

function sameLaw<T extends object>(one: T, other: T): boolean {
  return (
    one === other ||
    (Object.keys(one) as (keyof T)[]).every((name) => Object.is(one[name], other[name]))
  );
}

/** For every junction the lowest one that pieces and wires join it with. */
export function islandLabels(junctions: number, elements: readonly Element[]): Int32Array {
  const groups = separateGroups(junctions);
  for (const { branch } of elements) groups.merge(branch.fromJunction, branch.toJunction);
  const lowest = new Int32Array(junctions).fill(-1);
  return Int32Array.from({ length: junctions }, (_, junction) => {
    const of = groups.of(junction);
    if (lowest[of] === -1) lowest[of] = junction;
    return lowest[of] as number;
  });
}

/** Whether every terminal of a set lies where it does in the other, if that has it. */
export function isJoinedAlike(before: Circuit, after: Circuit): boolean {
  if (before.junctions.length !== after.junctions.length) return false;
  if (before.endNamed === after.endNamed) return true;
  for (const id of before.endNamed.keys()) {
    const [was, now] = [before.endNamed.get(id), after.endNamed.get(id)];
    if (now !== undefined && now !== was && now.junction !== was?.junction) return false;
  }
  return true;
}
