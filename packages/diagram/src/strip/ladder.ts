import type { Circuit, Part } from '@setwright/circuit';
import { endOf } from '../cell.ts';
import { naturally } from '../natural-order.ts';
import { isFilamentEnd, isSupply, isUnwired, type Rails } from '../rails.ts';

/** What regulates a filament current, between two junctions. */
export interface Regulator {
  readonly part: Part;
  readonly a: number;
  readonly b: number;
}

/** Filaments side by side between two junctions, with what regulates them. */
export interface Group {
  readonly plus: number;
  readonly minus: number;
  readonly tubes: readonly Part[];
  /** In series between `plus` and the upper line, or a part of the way there, from the filament on. */
  readonly above: readonly Part[];
  /** In series between `minus` and the lower line, likewise. */
  readonly below: readonly Part[];
}

/** The filament circuit with the two lines it runs between; -1 where there is none. */
export interface Ladder {
  readonly upper: number;
  readonly lower: number;
  /** The supply's own junctions, beyond a battery switch. */
  readonly upperSupply: number;
  readonly lowerSupply: number;
  readonly upperTail: Part | undefined;
  readonly lowerTail: Part | undefined;
  readonly groups: readonly Group[];
  readonly potentiometers: readonly Part[];
  /** Regulators that stand in no group. */
  readonly others: readonly Regulator[];
}

/** So many parts in series, no more, stand one below the other. */
const longestWay = 3;

/** The filament circuit of a set, parted into what is drawn side by side. */
export function findLadder(circuit: Circuit, rails: Rails): Ladder {
  const parts = [...circuit.parts].sort((a, b) => naturally(a.name, b.name));
  const regulators: Regulator[] = parts
    .filter(({ name, kind }) => rails.stripParts.has(name) && kind !== 'potentiometer')
    .flatMap((part) => {
      const [a, b] = [part.ends[0]?.junction, part.ends[1]?.junction];
      return a === undefined || b === undefined ? [] : [{ part, a, b }];
    });
  const tubes = parts.filter(
    (part) =>
      part.kind === 'tube' &&
      part.ends.some((end) => isFilamentEnd(end.name)) &&
      !isUnwired(circuit, part),
  );
  const lines = findLines(parts, tubes, regulators, rails);
  const used = new Set([lines.upperTail?.name, lines.lowerTail?.name]);
  const found = sideBySide(tubes);
  const onFilaments = new Set(found.flatMap(({ plus, minus }) => [plus, minus]));
  // What lies across a filament regulates no other.
  const inSeries = regulators.filter(
    ({ a, b }) =>
      !found.some(({ plus, minus }) => (a === plus && b === minus) || (a === minus && b === plus)),
  );
  const on = (net: number): Regulator[] =>
    inSeries.filter(({ part, a, b }) => !used.has(part.name) && (a === net || b === net));
  const isPlain = (net: number): boolean =>
    !onFilaments.has(net) &&
    inSeries.filter(({ a, b }) => a === net || b === net).length === 2 &&
    (circuit.junctions[net]?.terminals ?? []).every((id) => {
      const part = circuit.partOfEnd.get(id);
      return part?.kind === 'bus' || inSeries.some((each) => each.part === part);
    });
  /** The way from a junction to a line, through no junction that anything else is on. */
  const wayTo = (net: number, line: number, left: number): Regulator[] | undefined => {
    for (const next of left > 0 ? on(net) : []) {
      const far = next.a === net ? next.b : next.a;
      if (far === line) return [next];
      const rest = isPlain(far) ? wayTo(far, line, left - 1) : undefined;
      if (rest && !rest.includes(next)) return [next, ...rest];
    }
    return undefined;
  };
  const lead = (net: number, line: number): Part[] => {
    if (net === line) return [];
    const [only, more] = on(net);
    const far = only?.a === net ? only.b : only?.a;
    const isOwn = only && !more && far !== undefined && !onFilaments.has(far);
    const way = wayTo(net, line, longestWay) ?? (isOwn ? [only] : []);
    for (const { part } of way) used.add(part.name);
    return way.map(({ part }) => part);
  };
  const groups = found.map((group) => ({
    ...group,
    above: lead(group.plus, lines.upper),
    below: lead(group.minus, lines.lower),
  }));
  return {
    ...lines,
    groups,
    potentiometers: parts.filter(
      ({ name, kind }) => kind === 'potentiometer' && rails.stripParts.has(name),
    ),
    others: regulators.filter(({ part }) => !used.has(part.name)),
  };
}

/** The two lines of the ladder: the supply's own, or what a battery switch makes of it. */
function findLines(
  parts: readonly Part[],
  tubes: readonly Part[],
  regulators: readonly Regulator[],
  rails: Rails,
): Omit<Ladder, 'groups' | 'potentiometers' | 'others'> {
  let upperSupply = -1;
  let lowerSupply = -1;
  for (const part of parts) {
    if (!isSupply(part)) continue;
    const taps = part.supplyTaps
      .flatMap((tap) => {
        const end = part.ends.find(({ name }) => name === tap.end);
        return end && rails.stripNets.has(end.junction)
          ? [{ net: end.junction, volts: tap.volts ?? (tap.end.includes('+') ? 1 : 0) }]
          : [];
      })
      .sort((a, b) => a.volts - b.volts);
    const [first, last] = [taps[0], taps.at(-1)];
    if (!first || !last || first.net === last.net) continue;
    // A battery may be joined to another the wrong way round.
    const isTurned = rails.heightOf(first.net) > rails.heightOf(last.net);
    [lowerSupply, upperSupply] = isTurned ? [last.net, first.net] : [first.net, last.net];
    break;
  }
  const weight = (net: number, end: string): number =>
    tubes.filter((tube) => endOf(tube, end)?.junction === net).length +
    regulators.filter(({ a, b }) => a === net || b === net).length;
  const beyond = (supply: number, end: string, taken?: Regulator): Regulator | undefined =>
    regulators.find(({ part, a, b }) => {
      if (part === taken?.part || !['switch', 'fuse', 'rheostat', 'lead'].includes(part.kind))
        return false;
      if (a !== supply && b !== supply) return false;
      const other = a === supply ? b : a;
      return weight(other, end) > weight(supply, end);
    });
  const upperTail = beyond(upperSupply, 'filament+');
  const lowerTail = beyond(lowerSupply, 'filament-', upperTail);
  const across = (tail: Regulator | undefined, supply: number): number =>
    !tail ? supply : tail.a === supply ? tail.b : tail.a;
  return {
    upperSupply,
    lowerSupply,
    upperTail: upperTail?.part,
    lowerTail: lowerTail?.part,
    upper: across(upperTail, upperSupply),
    lower: across(lowerTail, lowerSupply),
  };
}

/** Tubes whose filaments stand side by side between the same two junctions. */
function sideBySide(tubes: readonly Part[]): { plus: number; minus: number; tubes: Part[] }[] {
  const groups: { plus: number; minus: number; tubes: Part[] }[] = [];
  for (const tube of tubes) {
    const plus = endOf(tube, 'filament+')?.junction ?? -1;
    const minus = endOf(tube, 'filament-')?.junction ?? -1;
    const group = groups.find((each) => each.plus === plus && each.minus === minus);
    if (group) group.tubes.push(tube);
    else groups.push({ plus, minus, tubes: [tube] });
  }
  return groups;
}
