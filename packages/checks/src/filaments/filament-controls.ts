import type { Part } from '@setwright/circuit';
import { type FilamentGroup, LEAST_OHMS } from './filament-groups.ts';
import { groupVolts } from './group-volts.ts';

/** A rheostat, or another part of a filament group, and the filaments that depend on it. */
export interface FilamentControl {
  readonly part: Part;
  /** Its branch in the group. */
  readonly branch: number;
  /** All of its wire, in ohms; undefined where the text does not say. */
  readonly whole: number | undefined;
  /** The filaments' branches whose volts it sets. */
  readonly filaments: readonly number[];
  /** Volts of a branch with none of it in. */
  readonly fullOn: (branch: number) => number;
}

/** A group with more controls than this is not judged one by one: its supply's leads are at fault. */
const MOST_CONTROLS = 64;
/** A filament whose volts a control changes by less than this part of them does not depend on it. */
const LEAST_INFLUENCE = 0.05;
/** More than any filament lead has, in ohms. */
const MANY_OHMS = 1e4;

/** The rheostats of a group with the filaments that each of them sets. */
export function controlsOf(group: FilamentGroup): FilamentControl[] {
  return influences(group, isControl);
}

/** The fixed resistances and ballasts of a group with the filaments that each of them feeds. */
export function fixedPartsOf(group: FilamentGroup): FilamentControl[] {
  return influences(
    group,
    (part) => !isControl(part) && (part.kind === 'resistor' || part.kind === 'ballast'),
  ).filter(({ filaments, fullOn }) => {
    // What lies beside a filament, and not before it, takes volts away when it has no ohms.
    const asIs = groupVolts(group);
    return filaments.some((filament) => Math.abs(fullOn(filament)) > Math.abs(asIs(filament)));
  });
}

function isControl(part: Part): boolean {
  return part.kind === 'rheostat' || (part.kind === 'resistor' && part.words.has('variable'));
}

function influences(group: FilamentGroup, wanted: (part: Part) => boolean): FilamentControl[] {
  const indices = [...group.branches.keys()].filter((index) => {
    const part = group.branches[index]?.part;
    return part !== undefined && wanted(part);
  });
  if (indices.length > MOST_CONTROLS) return [];
  return indices.flatMap((branch) => {
    const part = group.branches[branch]?.part;
    if (!part) return [];
    const fullOn = groupVolts(group, { ohms: new Map([[branch, LEAST_OHMS]]) });
    const whole = part.values.resistance?.value;
    const most = isControl(part) ? (whole ?? MANY_OHMS) : MANY_OHMS;
    const fullIn = groupVolts(group, { ohms: new Map([[branch, most]]) });
    const filaments = group.filaments.filter((filament) => {
      const high = Math.abs(fullOn(filament));
      const low = Math.abs(fullIn(filament));
      return Math.abs(high - low) > LEAST_INFLUENCE * Math.max(high, low);
    });
    return filaments.length > 0 ? [{ part, branch, whole, filaments, fullOn }] : [];
  });
}
