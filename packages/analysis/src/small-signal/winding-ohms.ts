import { radioOhms, type WindingValues } from '../winding-values.ts';
import type { SignalNetwork } from './signal-network.ts';
import { USUAL_Q } from './usual-signal-values.ts';

/** Ohms of a whole winding at a frequency in hertz. */
export type OhmsAt = (frequency: number) => number;

/** What a winding loses. */
export interface WindingOhms {
  readonly ohms: OhmsAt;
  /** Hertz at which the curve has a corner besides those of the tables. */
  readonly bends: readonly number[];
}

/** Reckoned points of a loss curve for every factor of ten in frequency. */
const PER_DECADE = 16;

/** Where a frequency in hertz lies between the points of a curve; all windings ask in turn. */
const placeOf: OhmsAt = (() => {
  let lastFrequency = Number.NaN;
  let lastPlace = 0;
  return (frequency) => {
    if (frequency !== lastFrequency) {
      lastFrequency = frequency;
      lastPlace = PER_DECADE * Math.log10(Math.max(1, frequency));
    }
    return lastPlace;
  };
})();

/**
 * A curve that is reckoned where it is first wanted, on 16 points to the decade, and is straight
 * between them by logarithms: within 0.2 % of the winding's own.
 */
function tabled(exact: OhmsAt): OhmsAt {
  const known = new Map<number, number>();
  const at = (index: number): number => {
    const found = known.get(index);
    if (found !== undefined) return found;
    const value = Math.log(Math.max(1e-12, exact(10 ** (index / PER_DECADE))));
    known.set(index, value);
    return value;
  };
  let lastFrequency = Number.NaN;
  let lastOhms = 0;
  let lastIndex = Number.NaN;
  let low = 0;
  let high = 0;
  return (frequency) => {
    if (frequency === lastFrequency) return lastOhms;
    const place = placeOf(frequency);
    const index = Math.floor(place);
    const share = place - index;
    if (index !== lastIndex) {
      lastIndex = index;
      low = at(index);
      high = at(index + 1);
    }
    lastFrequency = frequency;
    lastOhms = Math.exp(low * (1 - share) + high * share);
    return lastOhms;
  };
}

/**
 * What an air-core winding loses, by its wire; a winding of unknown ohms as one of a Q of 100.
 *
 * @param quality Q that it is taken to have instead, for form, covering and shields
 * @param supposed ohms at direct current of a winding that tells none
 */
export function airWindingOhms(
  values: WindingValues,
  henries: number,
  supposed: number,
  quality: number | undefined,
  assumed: Set<string>,
): WindingOhms {
  const direct = values.resistance.value ?? supposed;
  if (quality !== undefined && quality > 0) {
    assumed.add(`a Q of ${quality} in windings on air`);
    return ohmsByQuality(direct, henries, quality);
  }
  const reckoned = radioOhms(values);
  const isKnown = reckoned ? reckoned(1e6) !== undefined : values.resistance.value !== undefined;
  if (!isKnown) {
    assumed.add(`a Q of ${USUAL_Q} in ${values.part.name}`);
    return ohmsByQuality(direct, henries, USUAL_Q);
  }
  if (!reckoned) return { ohms: () => direct, bends: [] };
  return { ohms: tabled((frequency) => reckoned(frequency) ?? direct), bends: [] };
}

/** Ohms of an inductance of a given Q, but no less than at direct current. */
export function ohmsByQuality(direct: number, henries: number, q: number): WindingOhms {
  const perHertz = (2 * Math.PI * henries) / q;
  return {
    ohms: (frequency) => Math.max(direct, frequency * perHertz),
    bends: perHertz > 0 ? [direct / perHertz] : [],
  };
}

/** Hertz between two frequencies at which the losses of a network may have a corner, rising. */
export function lossBends({ series }: SignalNetwork, low: number, high: number): readonly number[] {
  const bends = series.flatMap(({ pieces }) => pieces.flatMap((piece) => piece.bends ?? []));
  const last = PER_DECADE * Math.log10(high);
  for (let knot = Math.ceil(PER_DECADE * Math.log10(low)); knot <= last; knot++)
    bends.push(10 ** (knot / PER_DECADE));
  const inside: number[] = [];
  for (const bend of bends.sort((a, b) => a - b))
    if (bend > (inside.at(-1) ?? low) * APART && bend * APART < high) inside.push(bend);
  return inside;
}

/** Corners nearer together than by this ratio are one. */
const APART = 1 + 1e-9;
