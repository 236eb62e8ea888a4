import {
  type Conduction,
  isSupply,
  type JoinedBranch,
  type Part,
  stepFrom,
} from '@setwright/circuit';
import { partsAt, type TubeAt } from '../tubes/tubes.ts';
import { type Bridge, regionsOf } from '../wiring/regions.ts';

interface Draft {
  readonly supplies: Set<Part>;
  readonly tubes: Set<TubeAt>;
  readonly others: Set<Part>;
  feeds: UnjoinedSupplies['feeds'];
}

/** A way of more ohms than this joins nothing. Common practice. */
const MOST_JOINING_OHMS = 5000;

/** Supplies with no way back from the tubes that they feed. */
export interface UnjoinedSupplies {
  /** Not tied to the filaments or cathodes of these tubes. */
  readonly supplies: readonly Part[];
  /** The tubes whose plates, screens or grids they feed, or whose filaments they light. */
  readonly tubes: readonly TubeAt[];
  /** The supplies on the other side: those that light, or those that feed. */
  readonly others: readonly Part[];
  /** What they do for the tubes. */
  readonly feeds: 'plates' | 'grids' | 'filaments';
}

/**
 * Finds the supplies that feed plates or grids and have no common return with the filaments or
 * cathodes of those tubes. Any way of 5 kilohms and less, or of unknown ohms, through whatever
 * conducts, counts as joined. Linear in the set for each group of supplies that stands apart.
 */
export function unjoinedSupplies(
  conduction: Conduction,
  tubes: readonly TubeAt[],
  bridges: readonly Bridge[],
): readonly UnjoinedSupplies[] {
  const { circuit } = conduction;
  const regions = regionsOf(conduction, joins, bridges);
  const suppliesIn = new Map<number, Part[]>();
  for (const part of circuit.parts) {
    const region = regions[part.ends[0]?.junction ?? -1];
    if (!isSupply(part) || region === undefined) continue;
    const here = suppliesIn.get(region);
    if (here) here.push(part);
    else suppliesIn.set(region, [part]);
  }
  // With all supplies tied together nothing can be amiss.
  if (suppliesIn.size < 2) return [];
  const home = new Map<TubeAt, number>();
  for (const tube of tubes) {
    const region = regions[emitter(conduction, tube) ?? -1];
    if (region !== undefined) home.set(tube, region);
  }
  const homes = new Set(home.values());
  const fedBy = new Map<number, ReadonlySet<number>>();
  for (const region of suppliesIn.keys())
    fedBy.set(region, spread(conduction, regions, region, homes, bridges));
  const feeding = (junction: number | undefined): number[] =>
    junction === undefined
      ? []
      : [...fedBy].flatMap(([region, fed]) => (fed.has(junction) ? [region] : []));

  const found = new Map<string, Draft>();
  const add = (region: number, feeds: Draft['feeds'], tube: TubeAt, other: number): void => {
    // All that stands apart is told together: it was one strap that joined it.
    const key = feeds === 'filaments' ? `lighting ${region}` : 'feeding';
    const draft = found.get(key) ?? {
      supplies: new Set(),
      feeds,
      tubes: new Set(),
      others: new Set(),
    };
    found.set(key, draft);
    for (const supply of suppliesIn.get(region) ?? []) draft.supplies.add(supply);
    for (const supply of suppliesIn.get(other) ?? []) draft.others.add(supply);
    draft.tubes.add(tube);
    if (feeds === 'plates') draft.feeds = feeds;
  };
  for (const [tube, at] of home) {
    for (const [end, feeds] of [
      [tube.plate, 'plates'],
      [tube.screen, 'plates'],
      [tube.grid, 'grids'],
    ] as const) {
      const from = feeding(end?.junction);
      const [first] = from;
      if (first === undefined || from.includes(at)) continue;
      const apart = from.find((region) => !homes.has(region));
      if (apart !== undefined) add(apart, feeds, tube, at);
      else if (feeds === 'plates' && suppliesIn.has(at)) add(at, 'filaments', tube, first);
    }
  }
  return [...found.values()].map(({ supplies, feeds, tubes: fed, others }) => ({
    supplies: circuit.parts.filter((part) => supplies.has(part)),
    feeds,
    tubes: [...fed],
    others: [...others],
  }));
}

function joins({ direct }: JoinedBranch): boolean {
  return (
    direct.kind === 'source' ||
    (direct.kind === 'conducts' && (direct.ohms ?? 0) <= MOST_JOINING_OHMS)
  );
}

/** Where a tube's electrons come from; undefined where nothing at all is joined to it. */
function emitter(conduction: Conduction, tube: TubeAt): number | undefined {
  const ends = tube.cathode ? [tube.cathode] : [tube.filamentMinus, tube.filamentPlus];
  const joined = ends.find(
    (end) =>
      end && partsAt(conduction.circuit, end.junction).some((part) => part.name !== tube.part.name),
  );
  return joined?.junction;
}

/** What conductors of any ohms lead to from a region, but not into the homes of other tubes. */
function spread(
  conduction: Conduction,
  regions: readonly number[],
  region: number,
  homes: ReadonlySet<number>,
  bridges: readonly Bridge[],
): ReadonlySet<number> {
  const { circuit } = conduction;
  const reached = new Set<number>();
  for (const [junction, at] of regions.entries()) if (at === region) reached.add(junction);
  const mayEnter = (junction: number): boolean => {
    const at = regions[junction] as number;
    return at === region || !homes.has(at);
  };
  const across = new Map<number, number[]>();
  for (const [a, b] of bridges) {
    across.set(a, [...(across.get(a) ?? []), b]);
    across.set(b, [...(across.get(b) ?? []), a]);
  }
  for (const here of reached) {
    const there = (conduction.at[here] ?? []).flatMap((branch) =>
      branch.direct.kind !== 'conducts' || circuit.partNamed.get(branch.part)?.kind === 'tube'
        ? []
        : stepFrom(branch, here).junction,
    );
    for (const junction of [...there, ...(across.get(here) ?? [])])
      if (mayEnter(junction)) reached.add(junction);
  }
  return reached;
}
