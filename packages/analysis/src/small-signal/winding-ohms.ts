import { type WindingValues, windingLoss } from '../winding-values.ts';
import { USUAL_Q } from './usual-signal-values.ts';

/** Ohms of a whole winding at a frequency in hertz. */
export type OhmsAt = (frequency: number) => number;

/** Reckoned points of a loss curve for every factor of ten in frequency. */
const PER_DECADE = 16;

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
  return (frequency) => {
    if (frequency === lastFrequency) return lastOhms;
    const place = PER_DECADE * Math.log10(Math.max(1, frequency));
    const index = Math.floor(place);
    const share = place - index;
    lastFrequency = frequency;
    lastOhms = Math.exp(at(index) * (1 - share) + at(index + 1) * share);
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
): OhmsAt {
  const direct = values.resistance.value ?? supposed;
  const byQuality =
    (q: number): OhmsAt =>
    (frequency) =>
      Math.max(direct, (2 * Math.PI * frequency * henries) / q);
  if (quality !== undefined && quality > 0) {
    assumed.add(`a Q of ${quality} in windings on air`);
    return byQuality(quality);
  }
  if (windingLoss(values, 1e6).resistance.value === undefined) {
    assumed.add(`a Q of ${USUAL_Q} in ${values.part.name}`);
    return byQuality(USUAL_Q);
  }
  return tabled((frequency) => windingLoss(values, frequency).resistance.value ?? direct);
}
