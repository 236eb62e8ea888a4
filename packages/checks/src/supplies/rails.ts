import {
  type Circuit,
  type Conduction,
  isFilamentSupply,
  isSupply,
  type JoinedBranch,
  openVolts,
  type Part,
  type SupplyTap,
  zeroTap,
} from '@setwright/circuit';
import { otherJunction, partsAt, type TubeAt } from '../tubes/tubes.ts';
import { regionsOf } from '../wiring/regions.ts';

/** Something that holds a junction at a voltage of its own: where a return ends. */
export type Rail =
  /** Joined to taps of supplies that light filaments, by nothing but what feeds filaments. */
  | { readonly kind: 'filament'; readonly sides: ReadonlyMap<Part, 'positive' | 'negative'> }
  /** The arm of a potentiometer across a filament supply. */
  | { readonly kind: 'arm'; readonly part: Part }
  /** A tap of a C battery, its zero excepted. */
  | { readonly kind: 'bias'; readonly part: Part; readonly tap: SupplyTap }
  /** A positive tap of a supply for plates. */
  | { readonly kind: 'plate'; readonly part: Part; readonly tap: SupplyTap };

export interface Rails {
  /** What holds a junction; one that nothing holds is not listed. */
  readonly at: ReadonlyMap<number, readonly Rail[]>;
  /** The supplies that light filaments. */
  readonly lighting: ReadonlySet<Part>;
}

/** A resistor in a filament lead has no more than this, in ohms; common practice. */
const MOST_FILAMENT_RESISTOR = 100;

/**
 * Finds what every junction is held at by batteries: the two sides of the filament supply, the
 * arms of potentiometers across it, C taps and B taps. Linear in the set.
 */
export function railsOf(conduction: Conduction): Rails {
  const { circuit } = conduction;
  const groups = regionsOf(conduction, (branch) => isWire(circuit, branch));
  const nearest = nearestTaps(conduction, groups);
  const { lighting, sides } = lightingOf(circuit, groups, nearest);
  const at = new Map<number, Rail[]>();
  const add = (junction: number, rail: Rail): void => {
    const here = at.get(junction);
    if (here) here.push(rail);
    else at.set(junction, [rail]);
  };
  for (const { index } of circuit.junctions) {
    const here = sides.get(nearest[groups[index] ?? -1] ?? -1);
    if (here) add(index, { kind: 'filament', sides: here });
  }
  for (const part of circuit.parts) {
    if (!isSupply(part) || lighting.has(part)) continue;
    for (const tap of part.supplyTaps) {
      const junction = part.ends.find(({ name }) => name === tap.end)?.junction;
      if (junction === undefined || tap === zeroTap(part)) continue;
      const isBias = isFilamentSupply(part) || (openVolts(part, tap) ?? 0) < 0;
      add(junction, { kind: isBias ? 'bias' : 'plate', part, tap });
    }
  }
  for (const part of circuit.parts) {
    if (part.kind !== 'potentiometer') continue;
    const arm = armAcrossFilaments(circuit, at, part);
    // An arm that is wired to an end of the filament circuit is held there.
    if (arm !== undefined && !at.has(arm)) add(arm, { kind: 'arm', part });
  }
  return { at, lighting };
}

/** How a tube is lit: its supply, and which side of it the tube's F− is on. */
export function lightOf(
  rails: Rails,
  tube: TubeAt,
): { readonly supply: Part; readonly negativeEnd: 'positive' | 'negative' } | undefined {
  const minus = sidesAt(rails, tube.filamentMinus?.junction);
  const plus = sidesAt(rails, tube.filamentPlus?.junction);
  for (const [supply, side] of minus ?? []) {
    const other = plus?.get(supply);
    if (other !== undefined && other !== side) return { supply, negativeEnd: side };
  }
  return undefined;
}

/** The sides of filament supplies that a junction is on. */
function sidesAt(rails: Rails, junction: number | undefined) {
  const here = junction === undefined ? undefined : rails.at.get(junction);
  return here?.find((rail) => rail.kind === 'filament')?.sides;
}

/** Closed contacts, leads and fuses: one point for direct current. */
function isWire(circuit: Circuit, { part, direct }: JoinedBranch): boolean {
  if (direct.kind !== 'conducts') return false;
  const kind = circuit.partNamed.get(part)?.kind;
  return (
    kind === 'lead' ||
    kind === 'fuse' ||
    kind === 'switch' ||
    kind === 'selector' ||
    kind === 'jack'
  );
}

/** For every group of junctions the group of the tap that feeds it as a filament is fed. */
function nearestTaps(conduction: Conduction, groups: readonly number[]): readonly number[] {
  const { circuit } = conduction;
  const members: number[][] = [];
  for (const [junction, group] of groups.entries()) {
    const here = members[group];
    if (here) here.push(junction);
    else members[group] = [junction];
  }
  const from: number[] = members.map(() => -1);
  const waiting: number[] = [];
  for (const part of circuit.parts) {
    if (!isSupply(part) || !isFilamentSupply(part)) continue;
    for (const end of part.ends) {
      const group = groups[end.junction];
      if (group === undefined || from[group] !== -1) continue;
      from[group] = group;
      waiting.push(group);
    }
  }
  for (const group of waiting) {
    for (const junction of members[group] ?? []) {
      for (const branch of conduction.at[junction] ?? []) {
        if (!feedsFilaments(circuit, branch)) continue;
        const there = branch.fromJunction === junction ? branch.toJunction : branch.fromJunction;
        const next = groups[there];
        if (next === undefined || from[next] !== -1) continue;
        from[next] = from[group] as number;
        waiting.push(next);
      }
    }
  }
  return from;
}

function feedsFilaments(circuit: Circuit, branch: JoinedBranch): boolean {
  const { direct } = branch;
  if (direct.kind !== 'conducts') return false;
  const part = circuit.partNamed.get(branch.part);
  if (part?.kind === 'rheostat' || part?.kind === 'ballast') return true;
  if (part?.kind !== 'resistor' || part.taps.length > 0) return false;
  if (direct.ohms !== undefined) return direct.ohms <= MOST_FILAMENT_RESISTOR;
  return [branch.fromJunction, branch.toJunction].some((junction) =>
    (circuit.junctions[junction]?.terminals ?? []).some(isFilamentEnd),
  );
}

const isFilamentEnd = (terminal: string): boolean => /\.filament[-+]$/.test(terminal);

/** The supplies with filaments between two of their taps, and the sides of each tap's group. */
function lightingOf(
  circuit: Circuit,
  groups: readonly number[],
  nearest: readonly number[],
): {
  readonly lighting: ReadonlySet<Part>;
  readonly sides: ReadonlyMap<number, ReadonlyMap<Part, 'positive' | 'negative'>>;
} {
  const fed = new Set<number>();
  for (const part of circuit.parts) {
    if (part.kind !== 'tube') continue;
    for (const end of part.ends) {
      if (isFilamentEnd(end.id)) fed.add(nearest[groups[end.junction] ?? -1] ?? -1);
    }
  }
  const lighting = new Set<Part>();
  const sides = new Map<number, Map<Part, 'positive' | 'negative'>>();
  for (const part of circuit.parts) {
    if (!isSupply(part) || !isFilamentSupply(part)) continue;
    const zero = zeroTap(part);
    const lit = part.ends.filter((end) => fed.has(groups[end.junction] ?? -1));
    if (new Set(lit.map((end) => groups[end.junction])).size < 2) continue;
    lighting.add(part);
    for (const end of part.ends) {
      const group = groups[end.junction] ?? -1;
      const here = sides.get(group) ?? new Map<Part, 'positive' | 'negative'>();
      sides.set(group, here.set(part, end.name === zero?.end ? 'negative' : 'positive'));
    }
  }
  return { lighting, sides };
}

/** The junction of a potentiometer's arm, where its ends lie on filament rails. */
function armAcrossFilaments(
  circuit: Circuit,
  at: ReadonlyMap<number, readonly Rail[]>,
  part: Part,
): number | undefined {
  const junctionOf = (name: string) => part.ends.find((end) => end.name === name)?.junction;
  const [start, finish] = [junctionOf('start'), junctionOf('finish')];
  if (start === undefined || finish === undefined || start === finish) return undefined;
  const isRail = (junction: number | undefined): boolean =>
    at.get(junction ?? -1)?.some(({ kind }) => kind === 'filament') === true;
  const isHeld = (junction: number): boolean =>
    isRail(junction) ||
    partsAt(circuit, junction).some(
      (other) =>
        (other.kind === 'resistor' || other.kind === 'rheostat') &&
        isRail(otherJunction(other, junction)),
    );
  return isHeld(start) && isHeld(finish) ? junctionOf('arm') : undefined;
}
