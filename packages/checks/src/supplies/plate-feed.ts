import {
  type Conduction,
  isFilamentSupply,
  isSupply,
  type Part,
  type SupplyTap,
  stepFrom,
  zeroTap,
} from '@setwright/circuit';

/** A tap that feeds a junction. */
export interface Feed {
  readonly supply: Part;
  readonly tap: SupplyTap;
  /** Ohms of the way there that the text states; what is not stated counts as none. */
  readonly ohms: number;
  /** Parts on the way. */
  readonly distance: number;
}

/** A plate resistor as high as this sets the plate current by itself, in ohms. Common practice. */
export const PLATE_RESISTOR = 10_000;

/** Whether a part is a supply for plates: a B battery or a B eliminator. */
export function isPlateSupply(part: Part): boolean {
  return isSupply(part) && !isFilamentSupply(part) && plateTapsOf(part).length > 0;
}

/** The taps of a supply for plates that are above its zero. Taps of unknown volts are. */
export function plateTapsOf(part: Part): readonly SupplyTap[] {
  const zero = zeroTap(part);
  return part.supplyTaps.filter((tap) => tap !== zero && (tap.volts ?? 1) > 0);
}

/**
 * For every junction that direct current from a B tap reaches through conductors the nearest such
 * tap. What has come back to a supply's zero is spent and leads no further; a way through a
 * filament is none. Linear in the set.
 */
export function plateFeeds(conduction: Conduction): ReadonlyMap<number, Feed> {
  const { circuit } = conduction;
  const feeds = new Map<number, Feed>();
  const spent = new Set<number>();
  for (const supply of circuit.parts) {
    if (!isPlateSupply(supply)) continue;
    const junctionOf = (tap: SupplyTap | undefined): number | undefined =>
      supply.ends.find((end) => end.name === tap?.end)?.junction;
    const zero = junctionOf(zeroTap(supply));
    if (zero !== undefined) spent.add(zero);
    for (const tap of plateTapsOf(supply)) {
      const junction = junctionOf(tap);
      if (junction !== undefined && !feeds.has(junction))
        feeds.set(junction, { supply, tap, ohms: 0, distance: 0 });
    }
  }
  for (const [here, feed] of feeds) {
    for (const branch of conduction.at[here] ?? []) {
      if (branch.direct.kind !== 'conducts') continue;
      if (circuit.partNamed.get(branch.part)?.kind === 'tube') continue;
      const there = stepFrom(branch, here).junction;
      if (feeds.has(there) || spent.has(there)) continue;
      const ohms = feed.ohms + Math.max(0, branch.direct.ohms ?? 0);
      feeds.set(there, { ...feed, ohms, distance: feed.distance + 1 });
    }
  }
  return feeds;
}
