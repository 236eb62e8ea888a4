import {
  type Branch,
  type Conduction,
  directPath,
  isSupply,
  type Part,
  type Step,
  type SupplyTap,
} from '@setwright/circuit';
import { tapJunction, tapTerminal } from '../words/supply-words.ts';
import { joinedGroups } from './joined-groups.ts';

/** A way from one tap of a supply to another outside it, with next to nothing to hold back. */
export interface SourceLoop {
  readonly supply: Part;
  /** The two taps, the one that is nearer the supply's zero first. */
  readonly from: SupplyTap;
  readonly to: SupplyTap;
  /** Volts of `to` above `from` as the supply gives them. */
  readonly volts: number;
  /** The same by the supplies that the way leads through; 0 when it leads through none. */
  readonly othersVolts: number;
  /** The other supplies on the way. */
  readonly others: readonly Part[];
  /** From `from` to `to`. Empty when they are on one junction. */
  readonly steps: readonly Step[];
  readonly ohms: number;
}

interface PlacedTap {
  readonly tap: SupplyTap;
  readonly volts: number;
  readonly junction: number;
}

/**
 * Finds the closed ways through supplies that nothing but wires close, one for each tap that
 * closes one. Taps of unknown volts are passed over. Nearly linear in the set; a path is searched
 * only where there is a closed way.
 *
 * @param ohmsOf ohms of a branch that counts as wire, undefined for all others.
 * @param most ohms of the whole way, supplies not counted.
 */
export function sourceLoops(
  conduction: Conduction,
  ohmsOf: (branch: Branch) => number | undefined,
  most: number,
): readonly SourceLoop[] {
  const { circuit } = conduction;
  const isWire = (branch: Branch): boolean => (ohmsOf(branch) ?? Number.POSITIVE_INFINITY) <= most;
  const joined = joinedGroups(circuit.junctions.length);
  for (const branch of conduction.branches)
    if (isWire(branch)) joined.join(branch.fromJunction, branch.toJunction);
  // Copied before the supplies come in: which taps nothing but wire joins.
  const point = circuit.junctions.map(({ index }) => joined.of(index));
  const loops: SourceLoop[] = [];
  for (const supply of circuit.parts) {
    if (!isSupply(supply)) continue;
    const taps = placedTaps(supply);
    const firstAt = new Map<number, PlacedTap>();
    for (const placed of taps) {
      const at = point[placed.junction] as number;
      const before = firstAt.get(at);
      if (before && before.volts !== placed.volts) {
        loops.push(...checked(conduction, supply, before, placed, ohmsOf, most, false));
        continue;
      }
      firstAt.set(at, placed);
    }
    const [base, ...rest] = [...firstAt.values()];
    for (const placed of base ? rest : []) {
      if (!base) continue;
      if (joined.of(base.junction) !== joined.of(placed.junction)) {
        joined.join(base.junction, placed.junction);
        continue;
      }
      loops.push(...checked(conduction, supply, base, placed, ohmsOf, most, true));
    }
  }
  return loops;
}

/** A supply's taps with known volts, those nearest its zero first. */
function placedTaps(supply: Part): readonly PlacedTap[] {
  return supply.supplyTaps
    .flatMap((tap) => {
      const junction = tapJunction(supply, tap);
      return tap.volts === undefined || !Number.isFinite(tap.volts) || junction === undefined
        ? []
        : [{ tap, volts: tap.volts, junction }];
    })
    .sort((a, b) => Math.abs(a.volts) - Math.abs(b.volts));
}

function checked(
  conduction: Conduction,
  supply: Part,
  from: PlacedTap,
  to: PlacedTap,
  ohmsOf: (branch: Branch) => number | undefined,
  most: number,
  throughSources: boolean,
): SourceLoop[] {
  const { circuit } = conduction;
  const path = directPath(conduction, from.junction, (junction) => junction === to.junction, {
    throughSources,
    skip: new Set([supply.name]),
    prefer: 'ohms',
    passes: (branch) =>
      branch.direct.kind === 'source'
        ? branch.direct.volts !== undefined
        : (ohmsOf(branch) ?? Number.POSITIVE_INFINITY) <= most,
  });
  if (!path.found) return [];
  let ohms = 0;
  let othersVolts = 0;
  const others = new Set<Part>();
  for (const step of path.steps) {
    if (step.direct.kind === 'source') {
      othersVolts += step.direct.volts ?? 0;
      const other = circuit.partNamed.get(step.part);
      if (other) others.add(other);
    } else ohms += ohmsOf(step) ?? 0;
  }
  if (ohms > most) return [];
  return [
    {
      supply,
      from: from.tap,
      to: to.tap,
      volts: to.volts - from.volts,
      othersVolts,
      others: [...others],
      steps: path.steps,
      ohms,
    },
  ];
}

/** The full names of a loop's two taps. */
export function tapsOfLoop({ supply, from, to }: SourceLoop): readonly [string, string] {
  return [tapTerminal(supply, from), tapTerminal(supply, to)];
}
