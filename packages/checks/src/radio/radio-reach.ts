import type { Study } from '../study.ts';
import { isAirWinding } from './radio-use.ts';
import { coilOf } from './radio-wiring.ts';

/** What radio current comes to from a coil without passing a tube. */
export interface Reached {
  readonly junctions: ReadonlySet<number>;
  readonly coils: ReadonlySet<string>;
}

/** More resistance than this, in ohms, hands on next to nothing. Common practice. */
const MOST_OHMS = 100_000;

/**
 * What radio current comes to from some coils and junctions by fields, condensers, resistances,
 * and contacts in any position; never through a tube, and not past what is at rest. Linear.
 */
export function radioReach(
  study: Study,
  coils: readonly string[],
  junctions: readonly number[] = [],
): Reached {
  const { circuit, conduction, radio } = study;
  const windings = windingsByCoil(study);
  const reached = new Set<string>();
  const seen = new Set<number>();
  const visit = (junction: number): void => {
    if (!radio.isRest(junction)) seen.add(junction);
  };
  const take = (coil: string): void => {
    if (reached.has(coil)) return;
    reached.add(coil);
    for (const junction of windings.get(coil) ?? []) visit(junction);
  };
  for (const coil of coils) take(coil);
  for (const junction of junctions) visit(junction);
  for (const here of seen) {
    for (const branch of conduction.at[here] ?? []) {
      const part = circuit.partNamed.get(branch.part);
      const there = branch.fromJunction === here ? branch.toJunction : branch.fromJunction;
      if (!part || part.kind === 'tube') continue;
      if (isAirWinding(circuit, part) && part.kind !== 'choke') take(coilOf(part));
      else if (handsOn(part.kind, part.values.resistance?.value)) visit(there);
    }
  }
  return { junctions: seen, coils: reached };
}

function handsOn(kind: string, ohms: number | undefined): boolean {
  switch (kind) {
    case 'condenser':
    case 'lead':
    case 'fuse':
    case 'switch':
    case 'selector':
    case 'jack':
    case 'crystal':
    case 'potentiometer':
    case 'rheostat':
      return true;
    case 'resistor':
    case 'leak':
      return (ohms ?? 0) <= MOST_OHMS;
    default:
      return false;
  }
}

function windingsByCoil({ circuit }: Study): ReadonlyMap<string, readonly number[]> {
  const found = new Map<string, number[]>();
  for (const part of circuit.parts) {
    if (!isAirWinding(circuit, part) || part.kind === 'choke') continue;
    const here = found.get(coilOf(part)) ?? [];
    for (const { junction } of part.ends) here.push(junction);
    found.set(coilOf(part), here);
  }
  return found;
}
