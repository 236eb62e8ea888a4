import {
  type Conduction,
  isSupply,
  type JoinedBranch,
  openVolts,
  type Part,
  type Settings,
  type SettingsOn,
  supposedOhms,
} from '@setwright/circuit';
import { type WiresKnown, wireOhmsOf } from './wire-ohms.ts';

/** One piece of the set with the numbers that it is reckoned with. */
export interface Element {
  readonly branch: JoinedBranch;
  readonly part: Part;
  /** Volts of `branch.to` above `branch.from` with no current; 0 for everything but supplies. */
  readonly volts: number;
  /** Ohms, zero or more, finite. For a control: before it is solved. */
  readonly ohms: number;
  /** What the ohms were taken for, where the text does not give them. */
  readonly supposed: string | undefined;
  /** A rheostat whose setting, or a ballast whose resistance, is to be found. */
  readonly control: 'rheostat' | 'ballast' | undefined;
}

export interface Network {
  readonly elements: readonly Element[];
  /** Supplies between two taps of which nobody knows the volts. */
  readonly unknownSources: readonly JoinedBranch[];
}

/** Fewer ohms than this are none. */
const NO_OHMS = 1e-9;
/** A supply said to have no resistance is given this much, in ohms, so that it can be solved. */
const LEAST_SOURCE_OHMS = 1e-3;
/** A control is looked for within this much where the text does not say how much it has. */
const MOST_CONTROL_OHMS = 200;

/**
 * What carries direct current in a set, in numbers. Plates, screens and grids carry none here.
 *
 * @param held ohms of rheostats that stand at a resistance found before, by name.
 * @param wires ohms of windings found before.
 */
export function networkOf(
  conduction: Conduction,
  held: ReadonlyMap<string, number>,
  wires?: WiresKnown,
): Network {
  const elements: Element[] = [];
  const unknownSources: JoinedBranch[] = [];
  const wireOhms = wireOhmsOf(conduction.circuit, wires);
  for (const branch of conduction.branches) {
    const part = conduction.circuit.partNamed.get(branch.part);
    if (!part || branch.direct.kind === 'blocks') continue;
    const volts = isSupply(part) ? openVoltsAcross(part, branch) : 0;
    if (volts === undefined) {
      unknownSources.push(branch);
      continue;
    }
    const heldOhms = part.kind === 'rheostat' ? held.get(part.name) : undefined;
    const control = heldOhms === undefined ? controlOf(conduction, part) : undefined;
    const byWire =
      part.kind === 'winding' && branch.direct.ohms === undefined
        ? wireOhms(branch, part)
        : undefined;
    const stated = heldOhms ?? branch.direct.ohms ?? byWire;
    // A wire that is broken for good.
    if (stated === Number.POSITIVE_INFINITY) continue;
    const { ohms, supposed } = resistanceOf(conduction, branch, stated, control);
    elements.push({ branch, part, volts, ohms, supposed, control });
  }
  return { elements, unknownSources };
}

function openVoltsAcross(part: Part, branch: JoinedBranch): number | undefined {
  const tap = part.supplyTaps.find(({ end }) => branch.to === `${part.name}.${end}`);
  const volts = tap && openVolts(part, tap);
  return volts !== undefined && Number.isFinite(volts) ? volts : undefined;
}

function controlOf(conduction: Conduction, part: Part): 'rheostat' | 'ballast' | undefined {
  const { settings } = conduction;
  if (part.kind === 'ballast')
    return part.values.resistance === undefined && (part.values.ratedCurrent?.value ?? 0) > 0
      ? 'ballast'
      : undefined;
  if (part.kind !== 'rheostat') return undefined;
  if (releasedIn(settings).has(part.name)) return 'rheostat';
  const isSet = part.setting !== undefined || settings.travels.has(part.name);
  return isSet ? undefined : 'rheostat';
}

/** Rheostats that are drawn off and stand wherever is right, where the settings name any. */
function releasedIn(settings: Settings | SettingsOn): ReadonlySet<string> {
  return 'released' in settings ? settings.released : new Set();
}

function resistanceOf(
  conduction: Conduction,
  branch: JoinedBranch,
  stated: number | undefined,
  control: Element['control'],
): { readonly ohms: number; readonly supposed: string | undefined } {
  if (stated !== undefined && stated >= 0) {
    if (stated < NO_OHMS && branch.direct.kind !== 'source')
      return { ohms: 0, supposed: undefined };
    return branch.direct.kind === 'source' && stated < LEAST_SOURCE_OHMS
      ? { ohms: LEAST_SOURCE_OHMS, supposed: 'next to no resistance' }
      : { ohms: stated, supposed: undefined };
  }
  if (control === 'rheostat')
    return { ohms: MOST_CONTROL_OHMS, supposed: 'a rheostat of any size that is wanted' };
  const { ohms, because } = supposedOhms(conduction.circuit, branch);
  if (control === 'ballast') return { ohms, supposed: 'a ballast that holds its rated current' };
  return { ohms, supposed: because };
}
