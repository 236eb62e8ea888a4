import type { Parameter } from '@setwright/analysis';
import {
  type Circuit,
  isBias,
  isFilamentSupply,
  isSupply,
  type Part,
  type PartKindName,
} from '@setwright/circuit';

/** By how much something may be above or below what is written, as a share. */
export interface Deviation {
  readonly parameter: Parameter;
  readonly up: number;
  readonly down: number;
  readonly source: string;
}

const PRACTICE = 'common practice';

/**
 * How far parts of the time are off as made and aged, as a share, where no tolerance is stated.
 * Common practice: carbon leaks wander most, wire least; what is wound on iron goes by its ohms.
 */
const OHMS: Readonly<Partial<Record<PartKindName, number>>> = {
  leak: 0.3,
  resistor: 0.2,
  choke: 0.2,
  phones: 0.2,
  horn: 0.2,
  speaker: 0.2,
  rheostat: 0.1,
  potentiometer: 0.1,
  lamp: 0.2,
  fuse: 0.5,
  lead: 0.5,
  loop: 0.2,
  variometer: 0.2,
};
const IRON_WINDING = 0.2;
const AIR_WINDING = 0.15;

/**
 * A battery of which nobody says what it gives: 7 % more while fresh, 15 % less when tired; a
 * storage cell 10 % to either side (2.2 to 1.8 volts of 2). Common practice.
 */
const DRY = { up: 0.07, down: 0.15 };
const STORAGE = { up: 0.1, down: 0.1 };
const MAINS = { up: 0.15, down: 0.15 };
/** Where it was measured there is only the error of the meter, which comes on top. */
const MEASURED = { up: 0.01, down: 0.01 };
/** Ohms inside a battery: half of what is taken, or twice; inside an eliminator they are parts. */
const INSIDE = { up: 1, down: 0.5 };
const INSIDE_MAINS = { up: 0.3, down: 0.3 };

/**
 * Tubes of one type differ in plate current by a quarter to either side, in filament current by a
 * twentieth; in grid current several times, which a share of one stands for. Common practice.
 */
const PLATE = 0.25;
const FILAMENT = 0.05;
const GRID = 1;

/** Everything of a set that may be otherwise than written, with how far. */
export function deviationsOf(
  circuit: Circuit,
  measured: ReadonlySet<string>,
): readonly Deviation[] {
  return circuit.parts.flatMap((part): Deviation[] => {
    if (part.kind === 'tube') {
      const both = (kind: Parameter['kind'], share: number): Deviation => ({
        parameter: { kind, part: part.name },
        up: share,
        down: share,
        source: PRACTICE,
      });
      return [both('draw', PLATE), both('filament', FILAMENT), both('grid', GRID)];
    }
    if (isSupply(part)) {
      return [
        {
          parameter: { kind: 'volts', part: part.name },
          ...(measured.has(part.name) ? MEASURED : stateOf(part)),
          source: PRACTICE,
        },
        {
          parameter: { kind: 'ohms', part: part.name },
          ...(part.kind === 'eliminator' ? INSIDE_MAINS : INSIDE),
          source: PRACTICE,
        },
      ];
    }
    const share = toleranceOf(circuit, part);
    if (share === undefined) return [];
    const { value, isStated } = share;
    return [
      {
        parameter: { kind: 'ohms', part: part.name },
        up: value,
        down: value,
        source: isStated ? 'as the text says' : PRACTICE,
      },
    ];
  });
}

function stateOf(part: Part): { readonly up: number; readonly down: number } {
  if (part.kind === 'eliminator') return MAINS;
  const isStorage = isFilamentSupply(part) && !isBias(part) && !part.words.has('dry');
  return isStorage ? STORAGE : DRY;
}

/** The tolerance of a part's ohms, stated or as made. */
function toleranceOf(
  circuit: Circuit,
  part: Part,
): { readonly value: number; readonly isStated: boolean } | undefined {
  const owner = circuit.partNamed.get(part.owner ?? '');
  const stated = part.values.tolerance?.value ?? owner?.values.tolerance?.value;
  if (stated !== undefined && stated > 0) return { value: stated, isStated: true };
  const isIron = owner?.kind === 'transformer' && !owner.words.has('air');
  const value = part.kind === 'winding' ? (isIron ? IRON_WINDING : AIR_WINDING) : OHMS[part.kind];
  return value === undefined ? undefined : { value, isStated: false };
}

/** A filament measured cold: by its law no better than this to either side. */
export const COLD_FILAMENT = 0.4;
