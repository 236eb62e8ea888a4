import type { DirectCurrent } from '@setwright/analysis';
import {
  type Circuit,
  conductionOf,
  isFilamentSupply,
  isSupply,
  type JoinedBranch,
  openVolts,
  type Part,
  spread,
  supposedOhms,
} from '@setwright/circuit';
import { joinedGroups } from '../wiring/joined-groups.ts';

/** A filament, or a resistance that carries filament current, between two points. */
export interface GroupBranch {
  readonly part: Part;
  /** Points: junctions joined by wire and closed contacts have one number. */
  readonly from: number;
  readonly to: number;
  /** As set, solved or taken; above zero. */
  readonly ohms: number;
}

/**
 * A part of the filament wiring that meets the rest only at the taps of supplies. What happens in
 * it changes nothing in another, but for what a battery loses inside, so it can be judged alone.
 */
export interface FilamentGroup {
  /** The branch of a tube runs from its filament− to its filament+. */
  readonly branches: readonly GroupBranch[];
  /** The tubes' branches, as indices. */
  readonly filaments: readonly number[];
  /** Volts of the points that supplies hold, above one of them, with the set on. */
  readonly rails: ReadonlyMap<number, number>;
  /** The supply that lights it, where it can be told. */
  readonly supply: Part | undefined;
  /** What that supply gives with nothing drawn from it, over what it gives with the set on. */
  readonly unloaded: number;
  /** False where a resistance or a tube's type that matters is not said, so that no number holds. */
  readonly known: boolean;
}

/** A wire, a contact or a control at its stop still has this much, in ohms. */
export const LEAST_OHMS = 1e-6;

/** The filament circuits of a set, as solved. Linear. */
export function filamentGroupsOf(circuit: Circuit, solved: DirectCurrent): FilamentGroup[] {
  const conduction = conductionOf(circuit, solved.settings);
  const stands = new Map(solved.controls.map((stand) => [stand.part, stand]));
  const points = joinedGroups(circuit.junctions.length);
  for (const branch of conduction.branches) {
    if (isWire(circuit, branch)) points.join(branch.fromJunction, branch.toJunction);
  }
  const railEnds = new Map<number, string>();
  const supplies = circuit.parts.filter(isSupply);
  for (const { ends } of supplies) {
    for (const end of ends) {
      const point = points.of(end.junction);
      if (!railEnds.has(point)) railEnds.set(point, end.id);
    }
  }
  const drafts: Draft[] = [];
  for (const branch of conduction.branches) {
    const part = circuit.partNamed.get(branch.part);
    if (!part || branch.direct.kind !== 'conducts') continue;
    const from = points.of(branch.fromJunction);
    const to = points.of(branch.toJunction);
    if (from === to) continue;
    drafts.push({ part, from, to, ...ohmsOf(circuit, branch, part, stands) });
  }
  const live = withoutDeadEnds(drafts, railEnds);
  return componentsOf(live, railEnds, circuit.junctions.length)
    .filter((branches) => branches.some(({ part }) => part.kind === 'tube'))
    .map((branches) => groupOf(supplies, solved, branches, railEnds, points.of));
}

interface Draft extends GroupBranch {
  readonly known: boolean;
}

/** Whether a branch joins its two ends outright and can never do otherwise at this position. */
function isWire(circuit: Circuit, { part, direct }: JoinedBranch): boolean {
  const kind = circuit.partNamed.get(part)?.kind;
  if (kind === 'rheostat' || kind === 'potentiometer' || kind === 'ballast' || kind === 'tube')
    return false;
  return direct.kind === 'conducts' && direct.ohms !== undefined && direct.ohms <= 0;
}

function ohmsOf(
  circuit: Circuit,
  branch: JoinedBranch,
  part: Part,
  stands: ReadonlyMap<string, DirectCurrent['controls'][number]>,
): { readonly ohms: number; readonly known: boolean } {
  const stand = stands.get(part.name);
  if (stand)
    return { ohms: Math.max(LEAST_OHMS, stand.ohms), known: stand.outcome !== 'unsettled' };
  const stated = branch.direct.kind === 'conducts' ? branch.direct.ohms : undefined;
  if (stated !== undefined && stated >= 0)
    return { ohms: Math.max(LEAST_OHMS, stated), known: true };
  return {
    ohms: Math.max(LEAST_OHMS, supposedOhms(circuit, branch).ohms),
    known: isNextToNothing(circuit, part),
  };
}

/** Whether a part has so few ohms by nature that a usual value does for them. */
function isNextToNothing(circuit: Circuit, part: Part): boolean {
  if (part.kind === 'lead' || part.kind === 'fuse') return true;
  if (part.kind !== 'winding' || part.owner === undefined) return false;
  return circuit.partNamed.get(part.owner)?.kind === 'coil';
}

/** Without the branches that lead nowhere, such as the coil to a grid: no current flows in them. */
function withoutDeadEnds(drafts: readonly Draft[], rails: ReadonlyMap<number, string>): Draft[] {
  const at = new Map<number, Set<Draft>>();
  for (const draft of drafts) {
    for (const point of [draft.from, draft.to]) {
      if (rails.has(point)) continue;
      const here = at.get(point);
      if (here) here.add(draft);
      else at.set(point, new Set([draft]));
    }
  }
  const dead = new Set<Draft>();
  const ends = [...at].filter(([, here]) => here.size === 1).map(([point]) => point);
  for (let point = ends.pop(); point !== undefined; point = ends.pop()) {
    for (const draft of at.get(point) ?? []) {
      dead.add(draft);
      const other = draft.from === point ? draft.to : draft.from;
      const there = at.get(other);
      there?.delete(draft);
      if (there?.size === 1) ends.push(other);
    }
    at.delete(point);
  }
  return drafts.filter((draft) => !dead.has(draft));
}

function componentsOf(
  drafts: readonly Draft[],
  rails: ReadonlyMap<number, string>,
  junctions: number,
): Draft[][] {
  const inner = joinedGroups(junctions);
  for (const { from, to } of drafts) {
    if (!rails.has(from) && !rails.has(to)) inner.join(from, to);
  }
  const components = new Map<number, Draft[]>();
  const alone: Draft[][] = [];
  for (const draft of drafts) {
    const point = [draft.from, draft.to].find((candidate) => !rails.has(candidate));
    if (point === undefined) {
      alone.push([draft]);
      continue;
    }
    const here = components.get(inner.of(point));
    if (here) here.push(draft);
    else components.set(inner.of(point), [draft]);
  }
  return [...components.values(), ...alone];
}

function groupOf(
  supplies: readonly Part[],
  solved: DirectCurrent,
  branches: readonly Draft[],
  railEnds: ReadonlyMap<number, string>,
  pointOf: (junction: number) => number,
): FilamentGroup {
  const rails = new Map<number, number>();
  let reference: string | undefined;
  let known = branches.every((branch) => branch.known);
  for (const { from, to } of branches) {
    for (const point of [from, to]) {
      const end = railEnds.get(point);
      if (end === undefined || rails.has(point)) continue;
      reference ??= end;
      const volts = solved.voltage(end, reference);
      if (volts === undefined) known = false;
      rails.set(point, volts ?? 0);
    }
  }
  return {
    branches,
    filaments: branches.flatMap(({ part }, index) => (part.kind === 'tube' ? index : [])),
    rails,
    known,
    ...lightedBy(supplies, rails, pointOf),
  };
}

/** Of the supplies at a group's rails the one that drives current through it. */
function lightedBy(
  supplies: readonly Part[],
  rails: ReadonlyMap<number, number>,
  pointOf: (junction: number) => number,
): { readonly supply: Part | undefined; readonly unloaded: number } {
  for (const supply of supplies) {
    const taps = supply.supplyTaps.flatMap((tap) => {
      const end = supply.ends.find(({ name }) => name === tap.end);
      const loaded = end && rails.get(pointOf(end.junction));
      const open = openVolts(supply, tap);
      return loaded === undefined || open === undefined ? [] : { loaded, open };
    });
    const high = taps.reduce((a, b) => (b.open > a.open ? b : a), taps[0] ?? noTap);
    const low = taps.reduce((a, b) => (b.open < a.open ? b : a), taps[0] ?? noTap);
    const loaded = high.loaded - low.loaded;
    if (loaded > 0) return { supply, unloaded: Math.max(1, (high.open - low.open) / loaded) };
  }
  const likely = supplies.find(
    (supply) =>
      isFilamentSupply(supply) &&
      spread(supply) > 0 &&
      supply.ends.some(({ junction }) => rails.has(pointOf(junction))),
  );
  return { supply: likely, unloaded: 1 };
}

const noTap = { loaded: 0, open: 0 } as const;
