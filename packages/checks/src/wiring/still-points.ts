import { type Conduction, type JoinedBranch, type Part, stepFrom } from '@setwright/circuit';

/** A resistance of no more than this, in ohms, belongs to a filament lead. Common practice. */
const MOST_LEAD_OHMS = 200;
/**
 * A potentiometer of no more than this, in ohms, lies across a filament supply; one for volume
 * has far more. Common practice.
 */
const MOST_STABILIZER_OHMS = 1000;

export interface StillOptions {
  /** Whether the taps that feed plates belong to them too. True where not given. */
  readonly plateTaps?: boolean;
  /** Whether closed contacts of selectors and jacks lead on. True where not given. */
  readonly contacts?: boolean;
}

/**
 * The junctions that stand still for the signal: supply taps, ground posts, filaments, cathodes,
 * and what hangs on them by filament leads, switches and rheostats. Windings, condensers and high
 * resistances lead away from them. Linear in the set.
 */
export function stillPoints(
  conduction: Conduction,
  { plateTaps = true, contacts = true }: StillOptions = {},
): ReadonlySet<number> {
  const { circuit } = conduction;
  const still = new Set<number>();
  for (const part of circuit.parts) {
    for (const end of part.ends) if (isAnchor(part, end.name, plateTaps)) still.add(end.junction);
  }
  for (const here of still) {
    for (const branch of conduction.at[here] ?? []) {
      if (isLead(conduction, branch, contacts)) still.add(stepFrom(branch, here).junction);
    }
  }
  return still;
}

function isAnchor(part: Part, end: string, plateTaps: boolean): boolean {
  switch (part.kind) {
    case 'battery':
    case 'eliminator': {
      const volts = part.supplyTaps.find((tap) => tap.end === end)?.volts;
      return plateTaps || (volts !== undefined && volts <= 0);
    }
    case 'post':
      return part.words.has('ground');
    case 'tube':
      return end === 'cathode' || end === 'filament-' || end === 'filament+';
    default:
      return false;
  }
}

function isLead(conduction: Conduction, branch: JoinedBranch, contacts: boolean): boolean {
  if (branch.direct.kind !== 'conducts') return false;
  const part = conduction.circuit.partNamed.get(branch.part);
  switch (part?.kind) {
    case 'tube':
    case 'lead':
    case 'switch':
    case 'ballast':
    case 'lamp':
    case 'fuse':
      return true;
    case 'selector':
    case 'jack':
      return contacts;
    case 'rheostat':
      return (part.values.resistance?.value ?? 0) <= MOST_LEAD_OHMS;
    case 'resistor':
      return (branch.direct.ohms ?? Number.POSITIVE_INFINITY) <= MOST_LEAD_OHMS;
    case 'potentiometer':
      return (part.values.resistance?.value ?? Number.POSITIVE_INFINITY) <= MOST_STABILIZER_OHMS;
    default:
      return false;
  }
}
