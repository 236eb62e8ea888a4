import { type ColdNetwork, coldNetwork } from '../chart/cold-network.ts';
import { reckonCold, reckonOn } from '../chart/expected.ts';
import { errorOf, type Meter } from '../chart/meter.ts';
import { modelOf, type RestSource, sourceOf, withTubesOut } from '../chart/rest-source.ts';
import type { Spot } from '../chart/spot.ts';
import { COLD_FILAMENT, type Deviation } from '../chart/tolerances.ts';
import type { SetStanding } from '../edits/workbench.ts';
import { faultyRest, type SoundSet } from '../effects/sound-set.ts';

/**
 * What a meter is foreseen to show at a spot of a set with a certain fault: a normal law whose
 * spread comes from what may deviate, which it shares with other spots, and from the meter, which
 * it does not. Ohms count by their logarithm, so that a leak of megohms and a dirty contact weigh
 * alike.
 */
export interface Foreseen {
  /** Volts, amperes, or the logarithm of ohms; endless where the ohmmeter shows open. */
  readonly mean: number;
  /** By how much one standard deviation of each thing that may deviate moves it, in their order. */
  readonly slopes: Float64Array;
  /** Variance that it has for itself. */
  readonly own: number;
}

/** A set in a certain state, of which readings can be foreseen. */
export interface Foreseeing {
  readonly standing: SetStanding;
  /** Undefined where nothing can be told: floating points, a set that finds no rest. */
  foresee(spot: Spot): Foreseen | undefined;
}

/** From so many ohms on an ohmmeter shows open. */
export const OPEN_FROM = 10e6;

/** Ohms that leads and contacts of an ohmmeter add: below them all is a short. */
const LEAD_OHMS = 0.5;

/** Ohms as they are counted. */
export function countedOhms(ohms: number): number {
  return ohms >= OPEN_FROM ? Number.POSITIVE_INFINITY : Math.log(Math.max(ohms, 0) + LEAD_OHMS);
}

/** What was counted, as ohms again. */
export function ohmsCounted(counted: number): number {
  return counted === Number.POSITIVE_INFINITY
    ? counted
    : Math.max(0, Math.exp(counted) - LEAD_OHMS);
}

/** What a voltmeter shows where there is nothing to show: volts picked up on the way. */
const STRAY_VOLTS = 0.02;
/** A point that only the meter ties to the rest goes by leakage: its volts are off by this share. */
const FREE_SHARE = 0.2;
/** And so many amperes leak over damp posts. */
const STRAY_AMPERES = 3e-6;

/** How far reckoned volts, amperes and ohms are off by themselves, as a share. An estimate. */
const RECKONED = 0.012;
/** Figures that people write down: the share by which a written number is rounded. */
const ROUNDED = 0.006;

/** Of something that lies evenly within a width: its standard deviation as a share of the width. */
const EVEN = 1 / Math.sqrt(12);

/** A set with a fault in it, or the sound one, ready to be foreseen. */
export function foreseeing(sound: SoundSet, standing: SetStanding): Foreseeing {
  const { known, deviations, chart } = sound;
  const { meter } = chart;
  const seen = new Map<string, Foreseen | undefined>();
  const sources = new Map<boolean, RestSource>();
  const sourceFor = (tubesOut: boolean): RestSource => {
    const made = sources.get(tubesOut);
    if (made) return made;
    const stands = tubesOut ? withTubesOut(standing) : standing;
    const rest = tubesOut ? modelOf(stands, known)?.asItIs : faultyRest(sound, stands).rest;
    const source = sourceOf(stands, known, rest, deviations);
    sources.set(tubesOut, source);
    return source;
  };
  let network: ColdNetwork | undefined;
  return {
    standing,
    foresee(spot) {
      if (seen.has(spot.id)) return seen.get(spot.id);
      network ??= spot.state === 'cold' ? coldNetwork(standing, true, known) : undefined;
      const found =
        spot.state === 'cold' && network
          ? foreseenCold(network, spot, meter, deviations)
          : foreseenOn(sourceFor(spot.tubesOut), spot, meter, deviations);
      seen.set(spot.id, found);
      return found;
    },
  };
}

/** The mean and the standard deviation of what lies evenly between its limits, as shares. */
function lawOf({ up, down }: Deviation): { readonly mean: number; readonly sd: number } {
  return { mean: (up - down) / 2, sd: (up + down) * EVEN };
}

function foreseenOn(
  source: RestSource,
  spot: Spot,
  meter: Meter,
  deviations: readonly Deviation[],
): Foreseen | undefined {
  const found = reckonOn(source, spot, meter);
  if (!source.isDrawKnown) return undefined;
  if (!found && source.rest && spot.quantity === 'voltage')
    return { mean: 0, slopes: new Float64Array(deviations.length), own: STRAY_VOLTS ** 2 };
  if (!found || !Number.isFinite(found.reckoning.value)) return undefined;
  const { reckoning, scale } = found;
  const slopes = new Float64Array(deviations.length);
  let mean = reckoning.value;
  for (const [index, push] of source.pushes.entries()) {
    const deviation = deviations[index];
    if (!deviation) continue;
    const law = lawOf(deviation);
    const slope = reckoning.by(push);
    if (!Number.isFinite(slope)) continue;
    slopes[index] = slope * law.sd;
    mean += slope * law.mean;
  }
  const error = 2 * EVEN * errorOf(meter, spot.quantity, mean, scale);
  const own = error ** 2 + ((RECKONED + ROUNDED) * mean) ** 2;
  if (spot.quantity !== 'voltage') return { mean, slopes, own: own + STRAY_AMPERES ** 2 };
  const isFree = source.rest?.voltage(spot.at, spot.to ?? '') === undefined;
  return { mean, slopes, own: own + STRAY_VOLTS ** 2 + (isFree ? (FREE_SHARE * mean) ** 2 : 0) };
}

function foreseenCold(
  network: ColdNetwork,
  spot: Spot,
  meter: Meter,
  deviations: readonly Deviation[],
): Foreseen | undefined {
  const ohms = reckonCold(network, spot);
  if (!ohms || Number.isNaN(ohms.value)) return undefined;
  const { value } = ohms;
  const slopes = new Float64Array(deviations.length);
  if (value >= OPEN_FROM) return { mean: Number.POSITIVE_INFINITY, slopes, own: 0 };
  const whole = value + LEAD_OHMS;
  const error = 2 * EVEN * errorOf(meter, 'resistance', value, undefined);
  let own = (error / whole) ** 2 + (RECKONED + ROUNDED) ** 2 + ((0.3 * LEAD_OHMS) / whole) ** 2;
  let mean = countedOhms(value);
  for (const [index, deviation] of deviations.entries()) {
    const { kind, part } = deviation.parameter;
    if (kind === 'filament' && part === spot.across) own += (2 * EVEN * COLD_FILAMENT) ** 2;
    if (kind !== 'ohms') continue;
    const law = lawOf(deviation);
    const slope = ohms.by(part) / whole;
    if (!Number.isFinite(slope)) continue;
    slopes[index] = slope * law.sd;
    mean += slope * law.mean;
  }
  return { mean, slopes, own };
}
