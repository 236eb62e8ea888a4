import type { Branch } from './branch.ts';
import type { Circuit, Part } from './model.ts';
import { isFilamentSupply, spread } from './supplies.ts';

/** A resistance taken where the text gives none. */
export interface SupposedOhms {
  readonly ohms: number;
  /** What it was taken for, to be said beside every number that used it. */
  readonly because: string;
}

/**
 * A usual resistance in ohms for a branch of which the text gives none. All values are common
 * practice unless a source stands beside them; none is good enough for a warning by itself.
 */
export function supposedOhms(circuit: Circuit, branch: Branch): SupposedOhms {
  const part = circuit.partNamed.get(branch.part);
  if (!part) return { ohms: 1, because: 'a wire' };
  const whole = ofPart(circuit, part);
  const sections = part.kind === 'potentiometer' ? 2 : part.taps.length + 1;
  return sections > 1 ? { ...whole, ohms: whole.ohms / sections } : whole;
}

function ofPart(circuit: Circuit, part: Part): SupposedOhms {
  switch (part.kind) {
    case 'winding':
      return ofWinding(
        part,
        part.owner === undefined ? undefined : circuit.partNamed.get(part.owner),
      );
    case 'variometer':
    case 'loop':
      return { ohms: 3, because: 'a usual air-core winding' };
    case 'choke':
      return part.words.has('air')
        ? { ohms: 50, because: 'a usual radio-frequency choke' }
        : { ohms: 500, because: 'a usual iron-core choke' };
    case 'phones':
      return { ohms: 2000, because: 'a usual pair of headphones' };
    case 'horn':
    case 'speaker':
      return { ohms: 1000, because: 'a usual loudspeaker winding' };
    case 'crystal':
      return { ohms: 1000, because: 'a usual crystal in its good direction' };
    case 'lamp':
      return ofLamp(part);
    case 'fuse':
      return { ohms: 0.1, because: 'a usual fuse' };
    case 'ballast':
      return { ohms: 4, because: 'what one quarter-ampere tube wants on six volts' };
    case 'rheostat':
      return { ohms: 20, because: 'a usual rheostat' };
    case 'potentiometer':
      return { ohms: 400, because: 'a usual potentiometer' };
    case 'resistor':
      return { ohms: 10_000, because: 'a resistor of unknown size' };
    case 'leak':
      return { ohms: 2e6, because: 'a usual grid leak' };
    case 'tube':
      return { ohms: 20, because: 'a quarter-ampere filament for five volts' };
    case 'lead':
      return { ohms: 0.05, because: 'a yard or two of battery cable' };
    case 'battery':
    case 'eliminator':
      return ofSupply(part);
    default:
      return { ohms: 1, because: 'a wire' };
  }
}

function ofWinding(part: Part, owner: Part | undefined): SupposedOhms {
  if (owner?.kind !== 'transformer') return { ohms: 1, because: 'a usual air-core winding' };
  if (owner.words.has('air'))
    return { ohms: 50, because: 'a usual intermediate-frequency winding' };
  return part.name.endsWith('.secondary')
    ? { ohms: 5000, because: 'a usual audio secondary' }
    : { ohms: 1000, because: 'a usual audio primary' };
}

function ofLamp(part: Part): SupposedOhms {
  const volts = part.values.volts?.value;
  const amperes = part.values.ratedCurrent?.value;
  const watts = part.values.ratedPower?.value;
  const hot = 'the lamp burning at its rating';
  if (volts && amperes) return { ohms: volts / amperes, because: hot };
  if (volts && watts) return { ohms: (volts * volts) / watts, because: hot };
  if (amperes && watts) return { ohms: watts / (amperes * amperes), because: hot };
  return { ohms: 40, because: 'a six-volt pilot lamp burning' };
}

/** Volts of one dry cell. */
const DRY_CELL_VOLTS = 1.5;

function ofSupply(part: Part): SupposedOhms {
  if (part.kind === 'eliminator') {
    return isFilamentSupply(part)
      ? { ohms: 0.2, because: 'a usual filament supply run from the mains' }
      : { ohms: 3000, because: 'a usual B eliminator' };
  }
  const bias = part.supplyTaps.some((tap) => tap.volts !== undefined && tap.volts < 0);
  if (bias || /^C/i.test(part.name) || !isFilamentSupply(part))
    return { ohms: 30, because: 'a usual B or C battery, no longer new' };
  const volts = spread(part);
  const storage = part.words.has('storage') || (!part.words.has('dry') && volts % 2 === 0);
  if (storage) return { ohms: 0.02, because: 'a usual storage battery' };
  const cells = Math.max(1, Math.round(volts / DRY_CELL_VOLTS));
  return { ohms: 0.3 * cells, because: 'dry cells in use for a while, 0.3 ohm each' };
}
