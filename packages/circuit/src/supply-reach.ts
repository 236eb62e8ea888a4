import { possibleConduction } from './any-position.ts';
import { asOn } from './as-on.ts';
import type { Circuit, Part } from './model.ts';
import { controls, sharedPlugs } from './positions.ts';
import { isFilamentSupply, isSupply, openVolts, zeroTap } from './supplies.ts';
import {
  DELICATE_FILAMENT_AMPERES,
  type Filament,
  pathFrom,
  type SupplyPath,
  type SupplySearch,
  type Tap,
} from './supply-search.ts';
import { isTurnedRound } from './turned-round.ts';

export type { SupplyPath } from './supply-search.ts';

/** Whether plate voltage can reach a filament, and how. */
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

/** How many times the set is searched before the question is given up as not settled. */
const MOST_SEARCHES = 256;

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
 * count either, however its taps are numbered; nor does one that is in backwards, with its zero on
 * the plates alone.
 *
 * All positions are searched at once first: what does not get there so gets there never, which is
 * nearly always the answer. A path that needs one control at two positions, or one plug in two
 * jacks, is no path; then one such control is held at each of its positions in turn and the
 * search is repeated. n log n in the set for each search. Never throws.
 */
export function supplyReachingFilament(circuit: Circuit): SupplyReach {
  const base = asOn(circuit).settings;
  const possible = possibleConduction(circuit, base);
  const search: SupplySearch = {
    possible,
    base,
    plugs: sharedPlugs(circuit),
    positions: new Map(controls(circuit).map(({ part, positions }) => [part.name, positions])),
    filamentAt: filamentsByJunction(circuit),
    leastAmperes: circuit.parts.reduce(
      (least, { tubeType }) => Math.min(least, tubeType?.filamentAmperes || least),
      DELICATE_FILAMENT_AMPERES,
    ),
    left: MOST_SEARCHES,
  };
  const suppliesForPlates = circuit.parts.filter(
    (part) => isSupply(part) && !isFilamentSupply(part) && !isTurnedRound(possible, part),
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

/** A tap within this many volts of its supply's zero burns no filament out at once. */
const MOST_PLATELESS_VOLTS = 12;

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
