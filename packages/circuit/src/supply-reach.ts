import {
  type PossibleBranch,
  type PossibleConduction,
  possibleConduction,
} from './any-position.ts';
import { asOn } from './conduction.ts';
import { leastFirst } from './heap.ts';
import type { Circuit, Part } from './model.ts';
import { controls, type Plug, plugsClash, sharedPlugs } from './positions.ts';
import type { Step } from './reach.ts';
import { positionOf, type Settings } from './settings.ts';
import { isFilamentSupply, isSupply, openVolts, zeroTap } from './supplies.ts';

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

export type SupplyReach =
  | ({ readonly reaches: true } & SupplyPath)
  | {
      readonly reaches: false;
      /** Whether every position of every control was covered; false when it was given up. */
      readonly exhaustive: boolean;
      /**
       * Ways by which a tap does get to a filament, but through a resistance of which the text
       * does not say how much: one for each tap at most. They may or may not do harm.
       */
      readonly through: readonly SupplyPath[];
    };

/** A path of fewer ohms than this counts as a wire: 45 V drive a quarter ampere through it. */
const LEAST_OHMS = 200;
/** A filament is harmed above this part of its rated current. Common practice. */
const MOST_CURRENT = 1.1;
/** The most delicate filaments of the time, taken where the type is not known: from memory. */
const DELICATE_FILAMENT_AMPERES = 0.06;
/** How many times the set is searched before the question is given up as not settled. */
const MOST_SEARCHES = 256;
/** How many impossible paths are looked at in one search before a control is held. */
const MOST_CONFLICTS = 8;

/**
 * Can plate voltage reach a filament, at any position of any switch, selector or jack and any
 * travel of any control?
 *
 * A B tap is one more than 12 V from its supply's own zero, of a battery or eliminator that is no
 * filament supply (12.6 V between its taps at most). It reaches a filament when it comes to one of
 * its terminals through less than 200 ohms, or when the current that this path alone can drive
 * round through the filament is 110 % of what the filament is rated for. The zero (B−) is no B
 * tap, and what has come back to the zero is spent. A tube's own plate current never counts. A
 * battery that biases grids, feeds no plate and closes no circuit through the filament does not
 * count either, however its taps are numbered.
 *
 * All positions are searched at once first: what does not get there so gets there never, which is
 * nearly always the answer. A path that needs one control at two positions, or one plug in two
 * jacks, is no path; then one such control is held at each of its positions in turn and the
 * search is repeated. n log n in the set for each search. Never throws.
 */
export function supplyReachingFilament(circuit: Circuit): SupplyReach {
  const base = asOn(circuit).settings;
  const possible = possibleConduction(circuit, base);
  const search: Search = {
    possible,
    base,
    plugs: sharedPlugs(circuit),
    positions: new Map(controls(circuit).map(({ part, positions }) => [part.name, positions])),
    filamentAt: filamentsByJunction(circuit),
    leastAmperes: Math.min(
      DELICATE_FILAMENT_AMPERES,
      ...circuit.parts.flatMap(({ tubeType }) => tubeType?.filamentAmperes || []),
    ),
    left: MOST_SEARCHES,
  };
  const suppliesForPlates = circuit.parts.filter(
    (part) => isSupply(part) && !isFilamentSupply(part),
  );
  let exhaustive = true;
  let roundabout: SupplyPath | undefined;
  for (const supply of suppliesForPlates) {
    for (const tap of plateTaps(supply)) {
      const found = pathFrom(search, supply, tap, false, new Map());
      if (found === 'unsettled') exhaustive = false;
      else if (found?.steps.every((step) => step.direct.kind !== 'source'))
        return { reaches: true, ...found };
      // A tap of the battery passed on the way is the better one to name, if there is one.
      else roundabout ??= found;
    }
  }
  if (roundabout) return { reaches: true, ...roundabout };
  const through: SupplyPath[] = [];
  for (const supply of suppliesForPlates) {
    for (const tap of plateTaps(supply)) {
      const found = pathFrom(search, supply, tap, true, new Map());
      if (found && found !== 'unsettled') through.push(found);
    }
  }
  return { reaches: false, exhaustive, through };
}

interface Tap {
  readonly id: string;
  readonly junction: number;
  readonly volts: number | undefined;
  /** The tap's own source resistance, where the text gives it. */
  readonly sourceOhms: number;
}

/** The B taps of a supply, one for each junction: the one of the most volts. */
function plateTaps(supply: Part): readonly Tap[] {
  const zero = zeroTap(supply);
  const taps = new Map<number, Tap>();
  for (const tap of supply.supplyTaps) {
    if (tap === zero) continue;
    const end = supply.ends.find((candidate) => candidate.name === tap.end);
    if (!end) continue;
    const volts = openVolts(supply, tap);
    if (volts !== undefined && Math.abs(volts) <= MOST_PLATELESS_VOLTS) continue;
    const before = taps.get(end.junction);
    if (before && Math.abs(before.volts ?? Infinity) >= Math.abs(volts ?? Infinity)) continue;
    const sourceOhms = Math.max(0, tap.resistance ?? supply.values.resistance?.value ?? 0);
    taps.set(end.junction, { id: end.id, junction: end.junction, volts, sourceOhms });
  }
  return [...taps.values()];
}

/** A tap within this many volts of its supply's zero burns no filament out at once. */
const MOST_PLATELESS_VOLTS = 12;

interface Filament {
  readonly tube: Part;
  readonly terminal: string;
  readonly other: number;
}

function filamentsByJunction(circuit: Circuit): ReadonlyMap<number, readonly Filament[]> {
  const found = new Map<number, Filament[]>();
  for (const tube of circuit.parts) {
    if (tube.kind !== 'tube') continue;
    const negative = tube.ends.find((end) => end.name === 'filament-');
    const positive = tube.ends.find((end) => end.name === 'filament+');
    if (!negative || !positive) continue;
    for (const [end, other] of [
      [negative, positive],
      [positive, negative],
    ] as const) {
      const filament = { tube, terminal: end.id, other: other.junction };
      const here = found.get(end.junction);
      if (here) here.push(filament);
      else found.set(end.junction, [filament]);
    }
  }
  return found;
}

interface Search {
  readonly possible: PossibleConduction;
  readonly base: Settings;
  readonly plugs: readonly Plug[];
  /** Positions that differ electrically, by control. */
  readonly positions: ReadonlyMap<string, readonly number[]>;
  readonly filamentAt: ReadonlyMap<number, readonly Filament[]>;
  /** The least current that any filament of the set is rated for. */
  readonly leastAmperes: number;
  /** Searches that may still be made. */
  left: number;
}

/** How a control is held: a position's index, or a potentiometer's arm at 0 (start) or 1. */
type Held = ReadonlyMap<string, number>;

/** A path that cannot be, and the control that must be held to find out whether another can. */
interface Conflict {
  readonly control: string;
  readonly choices: readonly number[];
}

function pathFrom(
  search: Search,
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
  search: Search,
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

/** Which branches can be there while some controls are held. */
function possibly(search: Search, held: Held): (branch: PossibleBranch) => boolean {
  return (branch) =>
    branch.closedAt === undefined || allowed(search, branch.part, held, branch.closedAt).length > 0;
}

/** Of these positions of a part, those that it can stand at while some controls are held. */
function allowed(
  search: Search,
  part: Part,
  held: Held,
  positions: readonly number[],
): readonly number[] {
  const standing = held.get(part.name);
  if (standing !== undefined) return positions.includes(standing) ? [standing] : [];
  const differing = search.positions.get(part.name);
  // A part with one electrical way to stand stands as it does.
  if (!differing) {
    const stands = positionOf(part, search.base);
    return positions.includes(stands) ? [stands] : [];
  }
  return positions.filter(
    (position) =>
      differing.includes(position) &&
      !search.plugs.some(
        (plug) =>
          plug.jacks.get(part.name)?.has(position) &&
          [...plug.jacks].some(([jack, plugged]) => {
            const other = jack === part.name ? undefined : held.get(jack);
            return other !== undefined && plugged.has(other);
          }),
      ),
  );
}

function leastOhms(branch: PossibleBranch, held: Held): number {
  if (branch.side === undefined) return branch.leastOhms;
  const arm = held.get(branch.part.name);
  if (arm === undefined) return 0;
  const whole = branch.part.values.resistance?.value ?? 0;
  return (branch.side === 'start' ? arm : 1 - arm) * Math.max(0, whole);
}

/** The junctions joined to a supply's zero by nothing but wire, at every setting left open. */
function zeroRegion(search: Search, supply: Part, held: Held): ReadonlySet<number> {
  return joinedToZero(search, supply, (branch) => {
    const { closedAt, part } = branch;
    if (closedAt === undefined) return isWire(branch);
    const differing = search.positions.get(part.name);
    if (!differing) return closedAt.includes(positionOf(part, search.base));
    const open = allowed(search, part, held, differing);
    return open.length > 0 && open.every((position) => closedAt.includes(position));
  });
}

/** Whether a branch without contacts joins its ends outright, whatever the controls do. */
function isWire({ part, direct }: PossibleBranch): boolean {
  if (part.kind === 'rheostat' || part.kind === 'potentiometer') return false;
  return direct.kind === 'conducts' && direct.ohms === 0;
}

/** Every junction that these branches tie to a supply's zero; notes by which it was come to. */
function joinedToZero(
  search: Search,
  supply: Part,
  joins: (branch: PossibleBranch) => boolean,
  arrivedBy?: Map<number, PossibleBranch>,
): ReadonlySet<number> {
  const zero = zeroTap(supply);
  const start = supply.ends.find((end) => end.name === zero?.end)?.junction;
  if (start === undefined) return new Set();
  const region = new Set([start]);
  for (const here of region) {
    for (const branch of search.possible.at[here] ?? []) {
      if (branch.part === supply || !joins(branch)) continue;
      const there = branch.fromJunction === here ? branch.toJunction : branch.fromJunction;
      if (region.has(there)) continue;
      region.add(there);
      arrivedBy?.set(there, branch);
    }
  }
  return region;
}

/** The fewest ohms from every junction back to a supply's zero; none for what is not tied to it. */
function ohmsFromZero(
  search: Search,
  supply: Part,
  held: Held,
  region: ReadonlySet<number>,
): ReadonlyMap<number, number> {
  const can = possibly(search, held);
  const ohms = new Map<number, number>();
  const settled = new Set<number>();
  const queue = leastFirst();
  for (const junction of region) {
    ohms.set(junction, 0);
    queue.push(junction, 0, 0);
  }
  for (let next = queue.pop(); next; next = queue.pop()) {
    const here = next.item;
    if (settled.has(here)) continue;
    settled.add(here);
    for (const branch of search.possible.at[here] ?? []) {
      if (branch.part === supply || !can(branch)) continue;
      const there = branch.fromJunction === here ? branch.toJunction : branch.fromJunction;
      const ohmsThere = next.first + leastOhms(branch, held);
      if (ohmsThere >= (ohms.get(there) ?? Number.POSITIVE_INFINITY)) continue;
      ohms.set(there, ohmsThere);
      queue.push(there, ohmsThere, 0);
    }
  }
  return ohms;
}

/** Whether a supply has to do with grids and no plate or screen, by conductors alone. */
function onlyBiases(search: Search, supply: Part): boolean {
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
  search: Search,
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

function conflictOver(search: Search, part: Part, held: Held): Conflict {
  const choices = allowed(search, part, held, search.positions.get(part.name) ?? []);
  return { control: part.name, choices };
}

function standingSo(
  search: Search,
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

/**
 * Where a junction of the path is joined to the supply's zero by wire at these settings, nothing
 * goes on from there; the control on that wire that is not held yet, and may stand otherwise.
 */
function shortedToZero(
  search: Search,
  supply: Part,
  settings: Settings,
  junctions: readonly number[],
  held: Held,
): Part | undefined {
  const arrivedBy = new Map<number, PossibleBranch>();
  const region = joinedToZero(
    search,
    supply,
    (branch) =>
      branch.closedAt === undefined
        ? isWire(branch)
        : branch.closedAt.includes(positionOf(branch.part, settings)),
    arrivedBy,
  );
  const shorted = junctions.find((junction) => region.has(junction));
  if (shorted === undefined) return undefined;
  let here = shorted;
  for (let branch = arrivedBy.get(here); branch; branch = arrivedBy.get(here)) {
    if (search.positions.has(branch.part.name) && !held.has(branch.part.name)) return branch.part;
    here = branch.fromJunction === here ? branch.toJunction : branch.fromJunction;
  }
  return undefined;
}
