import type { PossibleBranch } from './any-position.ts';
import { leastFirst } from './heap.ts';
import { allowed, type Held, leastOhms, type OpenControls, possibly } from './held-controls.ts';
import type { Part } from './model.ts';
import { plugsClash } from './positions.ts';
import type { Step } from './reach.ts';
import { positionOf, type Settings } from './settings.ts';
import { isSupply } from './supplies.ts';
import { ohmsFromZero, shortedToZero, zeroRegion } from './supply-zero.ts';

/** How a B tap gets to a filament. */
export interface SupplyPath {
  /** Full name of the tap. */
  readonly tap: string;
  /** Volts of the tap above its supply's own zero; undefined when the text does not say. */
  readonly volts: number | undefined;
  /** Full name of the filament's terminal that it gets to. */
  readonly terminal: string;
  readonly tube: string;
  readonly steps: readonly Step[];
  /** The fewest ohms between the two, at the settings given, counting only what is known. */
  readonly ohms: number;
  /** How the controls stand for it. */
  readonly settings: Settings;
}

/** A tap that may bring plate voltage. */
export interface Tap {
  readonly id: string;
  readonly junction: number;
  readonly volts: number | undefined;
  /** The tap's own source resistance, where the text gives it. */
  readonly sourceOhms: number;
}

/** One end of a filament. */
export interface Filament {
  readonly tube: Part;
  readonly terminal: string;
  /** The junction of its other end. */
  readonly other: number;
}

/** What one set is searched with. */
export interface SupplySearch extends OpenControls {
  readonly filamentAt: ReadonlyMap<number, readonly Filament[]>;
  /** The least current that any filament of the set is rated for. */
  readonly leastAmperes: number;
  /** Searches that may still be made. */
  left: number;
}

/** A path of fewer ohms than this counts as a wire: 45 V drive a quarter ampere through it. */
const LEAST_OHMS = 200;

/** A filament is harmed above this part of its rated current. Common practice. */
const MOST_CURRENT = 1.1;

/** The most delicate filaments of the time, taken where the type is not known: from memory. */
export const DELICATE_FILAMENT_AMPERES = 0.06;

/** How many impossible paths are looked at in one search before a control is held. */
const MOST_CONFLICTS = 8;

/** A path that cannot be, and the control that must be held to find out whether another can. */
interface Conflict {
  readonly control: string;
  readonly choices: readonly number[];
}

/**
 * A way from a tap to a filament that is possible while these controls are held, with all others
 * free; undefined when there is none, `unsettled` when the searches allowed were used up.
 */
export function pathFrom(
  search: SupplySearch,
  supply: Part,
  tap: Tap,
  unknownToo: boolean,
  held: Held,
): SupplyPath | undefined | 'unsettled' {
  if (search.left <= 0) return 'unsettled';
  search.left--;
  const found = searchOnce(search, supply, tap, unknownToo, held);
  if (!found) return undefined;
  if ('tap' in found) return found;
  let unsettled = false;
  for (const choice of found.choices) {
    const next = new Map(held).set(found.control, choice);
    const path = pathFrom(search, supply, tap, unknownToo, next);
    if (path === 'unsettled') unsettled = true;
    else if (path) return path;
  }
  return unsettled ? 'unsettled' : undefined;
}

/** One search over all positions that the held controls leave open. */
function searchOnce(
  search: SupplySearch,
  supply: Part,
  tap: Tap,
  unknownToo: boolean,
  held: Held,
): SupplyPath | Conflict | undefined {
  const { possible, filamentAt } = search;
  const can = possibly(search, held);
  const usable = (branch: PossibleBranch): boolean =>
    branch.part !== supply && (branch.known || unknownToo) && can(branch);
  const spent = zeroRegion(search, supply, held);
  if (spent.has(tap.junction)) return undefined;
  // Beyond this many ohms no filament of the set is harmed.
  const most =
    tap.volts === undefined
      ? LEAST_OHMS
      : Math.max(LEAST_OHMS, Math.abs(tap.volts) / (MOST_CURRENT * search.leastAmperes));
  const ohms = new Map<number, number>([[tap.junction, 0]]);
  const arrivedBy = new Map<number, PossibleBranch>();
  const settled = new Set<number>();
  const queue = leastFirst();
  queue.push(tap.junction, 0, 0);
  let conflict: Conflict | undefined;
  let conflicts = 0;
  let home: ReadonlyMap<number, number> | undefined;
  let bias: boolean | undefined;
  for (let next = queue.pop(); next; next = queue.pop()) {
    const here = next.item;
    if (settled.has(here)) continue;
    settled.add(here);
    for (const filament of filamentAt.get(here) ?? []) {
      bias ??= onlyBiases(search, supply);
      if (bias || next.first >= LEAST_OHMS) {
        home ??= ohmsFromZero(search, supply, held, spent);
        if (!harms(tap, filament, next.first, home.get(filament.other))) continue;
      }
      const judged = judge(search, supply, tap, filament, here, arrivedBy, held);
      if ('tap' in judged) return judged;
      conflict ??= judged;
      // Holding a control answers for all of them: what else is here need not be looked at.
      if (++conflicts >= MOST_CONFLICTS) return conflict;
    }
    for (const branch of possible.at[here] ?? []) {
      if (!usable(branch)) continue;
      const there = branch.fromJunction === here ? branch.toJunction : branch.fromJunction;
      if (settled.has(there) || spent.has(there)) continue;
      const ohmsThere = next.first + leastOhms(branch, held);
      if (ohmsThere > most || ohmsThere >= (ohms.get(there) ?? Number.POSITIVE_INFINITY)) continue;
      ohms.set(there, ohmsThere);
      arrivedBy.set(there, branch);
      queue.push(there, ohmsThere, next.second + 1);
    }
  }
  return conflict;
}

/** Whether the current round through the filament, by this path alone, is too much for it. */
function harms(tap: Tap, filament: Filament, ohms: number, home: number | undefined): boolean {
  if (tap.volts === undefined || home === undefined) return false;
  const { filamentVolts, filamentAmperes } = filament.tube.tubeType ?? {};
  const rated = filamentAmperes ?? DELICATE_FILAMENT_AMPERES;
  const hot = filamentVolts !== undefined && filamentAmperes ? filamentVolts / filamentAmperes : 0;
  return Math.abs(tap.volts) / (ohms + hot + home + tap.sourceOhms) >= MOST_CURRENT * rated;
}

/** Whether a supply has to do with grids and no plate or screen, by conductors alone. */
function onlyBiases(search: SupplySearch, supply: Part): boolean {
  const { circuit } = search.possible;
  let grids = false;
  const seen = new Set(supply.ends.map((end) => end.junction));
  for (const here of seen) {
    for (const id of circuit.junctions[here]?.terminals ?? []) {
      const part = circuit.partOfEnd.get(id);
      if (part?.kind !== 'tube') continue;
      if (id.endsWith('.plate') || id.endsWith('.screen')) return false;
      if (id.endsWith('.grid')) grids = true;
    }
    for (const branch of search.possible.at[here] ?? []) {
      if (branch.part.kind === 'tube' || isSupply(branch.part)) continue;
      seen.add(branch.fromJunction);
      seen.add(branch.toJunction);
    }
  }
  return grids;
}

/** A path that was found: possible as it is, or what has to be held to find out. */
function judge(
  search: SupplySearch,
  supply: Part,
  tap: Tap,
  filament: Filament,
  junction: number,
  arrivedBy: ReadonlyMap<number, PossibleBranch>,
  held: Held,
): SupplyPath | Conflict {
  const passed: { readonly branch: PossibleBranch; readonly before: number }[] = [];
  let here = junction;
  for (let branch = arrivedBy.get(here); branch; branch = arrivedBy.get(here)) {
    const before = branch.fromJunction === here ? branch.toJunction : branch.fromJunction;
    passed.push({ branch, before });
    here = before;
  }
  passed.reverse();

  const positions = new Map<string, readonly number[]>();
  const arms = new Map<string, number>();
  for (const { branch } of passed) {
    const { part, closedAt, side } = branch;
    if (closedAt) {
      const open = (positions.get(part.name) ?? allowed(search, part, held, closedAt)).filter(
        (position) => closedAt.includes(position),
      );
      if (open.length === 0) return conflictOver(search, part, held);
      positions.set(part.name, open);
    }
    if (side !== undefined && !held.has(part.name)) {
      // Both pieces of a potentiometer are never at their least together.
      if (arms.has(part.name)) return { control: part.name, choices: [0, 1] };
      arms.set(part.name, side === 'start' ? 0 : 1);
    }
  }
  const standing = new Map<string, number>();
  for (const [name, position] of held) {
    if (search.positions.has(name)) standing.set(name, position);
    else arms.set(name, position);
  }
  for (const [name, open] of positions) {
    const part = search.possible.circuit.partNamed.get(name);
    const drawn = part && positionOf(part, search.base);
    standing.set(name, drawn !== undefined && open.includes(drawn) ? drawn : (open[0] as number));
  }
  for (const name of positions.keys()) {
    if (held.has(name)) continue;
    const part = search.possible.circuit.partNamed.get(name);
    if (part && plugsClash(search.plugs, (jack) => standing.get(jack)))
      return conflictOver(search, part, held);
  }
  const settings = standingSo(search, standing, arms, passed);
  const shorted = shortedToZero(
    search,
    supply,
    settings,
    [tap.junction, ...passed.map(({ before }) => before), junction],
    held,
  );
  if (shorted) return conflictOver(search, shorted, held);
  const at = (part: Part, direct: PossibleBranch['direct']): PossibleBranch['direct'] => {
    const position = standing.get(part.name);
    const name = position === undefined ? undefined : part.positions[position];
    return part.contacts.length > 0 && direct.kind === 'conducts' && name !== undefined
      ? { ...direct, because: `its contact is closed (${name})` }
      : direct;
  };
  return {
    tap: tap.id,
    volts: tap.volts,
    terminal: filament.terminal,
    tube: filament.tube.name,
    steps: passed.map(({ branch, before }) => {
      const forward = branch.fromJunction === before;
      return {
        part: branch.part.name,
        from: forward ? branch.from : branch.to,
        to: forward ? branch.to : branch.from,
        direct: at(branch.part, branch.direct),
        junction: forward ? branch.toJunction : branch.fromJunction,
      };
    }),
    ohms: passed.reduce((sum, { branch }) => sum + leastOhms(branch, arms), 0),
    settings,
  };
}

function conflictOver(search: SupplySearch, part: Part, held: Held): Conflict {
  const choices = allowed(search, part, held, search.positions.get(part.name) ?? []);
  return { control: part.name, choices };
}

function standingSo(
  search: SupplySearch,
  standing: ReadonlyMap<string, number>,
  arms: ReadonlyMap<string, number>,
  passed: readonly { readonly branch: PossibleBranch }[],
): Settings {
  const travels = new Map([...search.base.travels, ...arms]);
  for (const { branch } of passed) {
    if (branch.part.kind === 'rheostat') travels.set(branch.part.name, 0);
  }
  const positions = new Map(search.base.positions);
  // The plug that stands in one jack is not left in another.
  for (const plug of search.plugs) {
    const taken = [...plug.jacks].some(([jack, plugged]) => plugged.has(standing.get(jack) ?? -1));
    if (!taken) continue;
    for (const [jack, plugged] of plug.jacks) {
      const part = search.possible.circuit.partNamed.get(jack);
      const empty = part && [...part.positions.keys()].find((index) => !plugged.has(index));
      if (part && empty !== undefined && plugged.has(positionOf(part, search.base)))
        positions.set(jack, empty);
    }
  }
  for (const [name, position] of standing) positions.set(name, position);
  return { ...search.base, positions, travels };
}
