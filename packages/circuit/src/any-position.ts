import type { Direct } from './branch.ts';
import { partKinds } from './kinds.ts';
import type { Circuit, Part } from './model.ts';
import type { Settings } from './settings.ts';

/**
 * A conductor that may lie between two junctions, at some position or travel of the controls.
 */
export interface PossibleBranch {
  readonly part: Part;
  readonly from: string;
  readonly to: string;
  readonly fromJunction: number;
  readonly toJunction: number;
  /** The fewest ohms it can have, with rheostats and other variable parts turned down. */
  readonly leastOhms: number;
  /** False where the text does not say how many ohms, and they may be many. */
  readonly known: boolean;
  /** Positions of the part at which it is there; undefined when it always is. */
  readonly closedAt: readonly number[] | undefined;
  /** Which side of its arm a piece of a potentiometer is. */
  readonly side: 'start' | 'finish' | undefined;
  readonly direct: Direct;
}

/** All that may conduct in a set, at any position of any control, indexed by junction. */
export interface PossibleConduction {
  readonly circuit: Circuit;
  readonly branches: readonly PossibleBranch[];
  readonly at: readonly (readonly PossibleBranch[])[];
}

/**
 * Every branch that can conduct at some position of a switch, selector or jack and some travel of
 * a rheostat or potentiometer, whether or not two of them can at the same time.
 */
export function possibleConduction(circuit: Circuit, base: Settings): PossibleConduction {
  const branches: PossibleBranch[] = [];
  const at: PossibleBranch[][] = circuit.junctions.map(() => []);
  const add = (
    part: Part,
    from: string,
    to: string,
    given: Pick<PossibleBranch, 'leastOhms' | 'known' | 'closedAt' | 'side' | 'direct'>,
  ): void => {
    const fromJunction = circuit.endNamed.get(from)?.junction;
    const toJunction = circuit.endNamed.get(to)?.junction;
    if (fromJunction === undefined || toJunction === undefined) return;
    if (fromJunction === toJunction) return;
    const branch = { part, from, to, fromJunction, toJunction, ...given };
    branches.push(branch);
    at[fromJunction]?.push(branch);
    at[toJunction]?.push(branch);
  };
  for (const part of circuit.parts) {
    if (part.contacts.length > 0) {
      for (const { from, to, closedAt } of part.contacts) {
        const names = closedAt.flatMap((position) => part.positions[position] ?? []);
        const said = names.length > 0 ? ` (${names.join(', ')})` : '';
        const direct = { kind: 'conducts', ohms: 0, because: `its contact closes${said}` } as const;
        add(part, from, to, { leastOhms: 0, known: true, closedAt, side: undefined, direct });
      }
      continue;
    }
    for (const { from, to, direct } of partKinds[part.kind].conduct(part, base)) {
      if (direct.kind === 'blocks') continue;
      const side =
        part.kind !== 'potentiometer' ? undefined : from.endsWith('.start') ? 'start' : 'finish';
      add(part, from, to, { ...leastOf(circuit, part, direct), closedAt: undefined, side, direct });
    }
  }
  return { circuit, branches, at };
}

/** The fewest ohms a branch can have, and whether the text bounds it. */
function leastOf(
  circuit: Circuit,
  part: Part,
  direct: Direct,
): { readonly leastOhms: number; readonly known: boolean } {
  if (part.kind === 'rheostat' || part.kind === 'potentiometer')
    return { leastOhms: 0, known: true };
  const stated = direct.kind === 'blocks' ? undefined : direct.ohms;
  if (part.kind === 'resistor' || part.kind === 'leak') {
    const range = part.ranges.resistance;
    if (range) return { leastOhms: Math.max(0, range.low.value), known: true };
    if (part.words.has('variable')) return { leastOhms: 0, known: true };
  }
  if (stated !== undefined && stated >= 0) return { leastOhms: stated, known: true };
  return { leastOhms: 0, known: fewOhms(circuit, part) };
}

/**
 * Whether a part is a few ohms by nature, or lets through enough to matter, even where nothing is
 * said of it. Common practice.
 */
function fewOhms(circuit: Circuit, part: Part): boolean {
  switch (part.kind) {
    case 'winding': {
      const owner = part.owner === undefined ? undefined : circuit.partNamed.get(part.owner);
      return owner?.kind === 'coil' || owner?.words.has('air') === true;
    }
    case 'choke':
      return part.words.has('air');
    case 'resistor':
    case 'leak':
    case 'phones':
    case 'horn':
    case 'speaker':
    case 'crystal':
      return false;
    default:
      return true;
  }
}
