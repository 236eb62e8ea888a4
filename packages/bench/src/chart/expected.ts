import type { Push, Reckoning } from '@setwright/analysis';
import { isSupply, zeroTap } from '@setwright/circuit';
import type { ColdNetwork, ColdOhms } from './cold-network.ts';
import { errorOf, loadOf, type Meter, scaleFor } from './meter.ts';
import { type RestSource, voltsWith } from './rest-source.ts';
import type { Spot } from './spot.ts';
import { COLD_FILAMENT, type Deviation } from './tolerances.ts';

/** A value with the band that it lies in for nineteen sets of twenty. SI; endless ohms are open. */
export interface Expected {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** What a meter is expected to show at a spot, and on which full scale it was taken. */
export interface Shown {
  readonly expected: Expected;
  readonly scale: number | undefined;
}

/** Ohms from which on an ohmmeter shows open: damp wood and old sockets leak as much. */
const OPEN_FROM = 10e6;

/** What is expected at a spot of a set that is on; undefined where it cannot be told. */
export function expectedOn(
  source: RestSource,
  spot: Spot,
  meter: Meter,
  deviations: readonly Deviation[],
): Shown | undefined {
  const found = reckonOn(source, spot, meter);
  if (!found) return undefined;
  const { reckoning, scale } = found;
  const error = errorOf(meter, spot.quantity, reckoning.value, scale);
  return { expected: bandOf(reckoning, source.pushes, deviations, error), scale };
}

/**
 * The value alone, with the full scale it is read on; undefined where nothing ties the points
 * together, or it is not known of every tube what it draws.
 */
export function reckonOn(
  source: RestSource,
  spot: Spot,
  meter: Meter,
): { readonly reckoning: Reckoning; readonly scale: number | undefined } | undefined {
  const { at, to, quantity, range } = spot;
  if (!source.isDrawKnown) return undefined;
  if (quantity === 'current') {
    const reckoning = leadCurrent(source, at);
    return reckoning && { reckoning, scale: range ?? scaleFor(meter, quantity, reckoning.value) };
  }
  if (to === undefined) return undefined;
  // The range is chosen by what is there; the meter then draws by it.
  const open = source.openVolts(at, to);
  let scale = range ?? scaleFor(meter, quantity, open ?? 0);
  for (;;) {
    const reckoning = voltsWith(source, at, to, loadOf(meter, scale));
    // Where only the meter ties the points together, it may show more than its scale has.
    const wider =
      reckoning && range === undefined ? scaleFor(meter, quantity, reckoning.value) : undefined;
    if (!reckoning || wider === undefined || scale === undefined || wider <= scale)
      return reckoning && { reckoning, scale };
    scale = wider;
  }
}

/** Amperes out of a tap into its lead; into the zero of its supply, where they come home. */
function leadCurrent({ rest, standing }: RestSource, at: string): Reckoning | undefined {
  const found = rest?.supplyCurrent(at);
  const part = standing.circuit.partOfEnd.get(at);
  if (!found || !part || !isSupply(part)) return found;
  const zero = part.ends.find(({ name }) => name === zeroTap(part)?.end)?.id;
  return at === zero ? { value: 0 - found.value, by: (push) => 0 - found.by(push) } : found;
}

/** The root of the sum of squares of what every part may do, and the meter's error beyond that. */
function bandOf(
  { value, by }: Reckoning,
  pushes: readonly Push[],
  deviations: readonly Deviation[],
  error: number,
): Expected {
  let above = 0;
  let below = 0;
  for (let index = 0; index < pushes.length; index++) {
    const deviation = deviations[index] as Deviation;
    const slope = by(pushes[index] as Push);
    const up = slope * deviation.up;
    const down = 0 - slope * deviation.down;
    above += Math.max(up, down, 0) ** 2;
    below += Math.min(up, down, 0) ** 2;
  }
  return {
    value,
    low: value - Math.sqrt(below) - error,
    high: value + Math.sqrt(above) + error,
  };
}

/** What an ohmmeter is expected to show at a spot of a set whose batteries are off. */
export function expectedCold(
  network: ColdNetwork,
  spot: Spot,
  meter: Meter,
  deviations: readonly Deviation[],
): Shown | undefined {
  const ohms = reckonCold(network, spot);
  if (!ohms) return undefined;
  const { value } = ohms;
  if (value >= OPEN_FROM)
    return {
      expected: {
        value: Number.POSITIVE_INFINITY,
        low: OPEN_FROM,
        high: Number.POSITIVE_INFINITY,
      },
      scale: spot.range,
    };
  let above = 0;
  let below = 0;
  for (const { parameter, up, down } of deviations) {
    if (parameter.kind !== 'ohms') continue;
    const slope = ohms.by(parameter.part);
    above += (slope * up) ** 2;
    below += (slope * down) ** 2;
  }
  // A filament's own law is the least sure of all.
  const own = deviations.some(
    ({ parameter }) => parameter.kind === 'filament' && parameter.part === spot.across,
  );
  if (own) {
    above += (COLD_FILAMENT * value) ** 2;
    below += (COLD_FILAMENT * value) ** 2;
  }
  const error = errorOf(meter, 'resistance', value, undefined);
  return {
    expected: {
      value,
      low: Math.max(0, value - Math.sqrt(below) - error),
      high: value + Math.sqrt(above) + error,
    },
    scale: spot.range,
  };
}

/** The ohms alone. */
export function reckonCold(network: ColdNetwork, spot: Spot): ColdOhms | undefined {
  const { at, to, lifted, across } = spot;
  if (to === undefined) return undefined;
  return lifted && across !== undefined ? network.lifted(across, at, to) : network.between(at, to);
}

/** Whether a reading lies within what is expected. */
export function isWithin(read: number, { low, high }: Expected): boolean {
  return read >= low && read <= high;
}
