import { type Branch, type Circuit, type Part, supposedOhms } from '@setwright/circuit';

/**
 * Below this, in ohms, two taps count as shorted. Common practice: a filament of the time is 2 to
 * 60 ohms hot, and never counts.
 */
export const FEW_OHMS = 5;

/**
 * Ohms of what counts as wire: wire, switch and other contacts, fuse, winding, and a control as
 * far as the text says how it stands. Undefined for everything else, and where the ohms are not
 * known: filaments, lamps, ballasts and resistors are there to be lit or to hold back.
 */
export function ohmsOfWire(circuit: Circuit, branch: Branch): number | undefined {
  const part = circuit.partNamed.get(branch.part);
  if (!part || branch.direct.kind !== 'conducts') return undefined;
  const stated = branch.direct.ohms;
  switch (part.kind) {
    case 'switch':
    case 'selector':
    case 'jack':
      return 0;
    case 'lead':
    case 'fuse':
    case 'variometer':
    case 'loop':
      return stated ?? supposedOhms(circuit, branch).ohms;
    case 'winding':
      return stated ?? (isAirCore(circuit, part) ? supposedOhms(circuit, branch).ohms : undefined);
    case 'choke':
      return stated;
    case 'rheostat':
    case 'potentiometer':
      return part.setting === undefined ? undefined : stated;
    default:
      return undefined;
  }
}

function isAirCore(circuit: Circuit, winding: Part): boolean {
  return winding.owner !== undefined && circuit.partNamed.get(winding.owner)?.kind === 'coil';
}
