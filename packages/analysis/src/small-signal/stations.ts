import { tunedSet } from './aligned-at.ts';
import type { SmallSignal } from './small-signal.ts';

/** Stations that a band is judged at. */
const STATIONS = 5;

/** Hertz of the broadcast band of 1924, where neither set nor coils tell of a band. */
const USUAL_BAND: readonly [number, number] = [550e3, 1500e3];

/** A little inside the ends of the band, where strays decide. */
const INSIDE = 1.03;

/**
 * Stations in hertz over a set's band, evenly by ratio: the band that the text states, else what
 * all of its tuned circuits reach, else 550 to 1500 kc.
 */
export function stationsOf(set: SmallSignal, count = STATIONS): readonly number[] {
  const [low, high] = bandOf(set);
  const first = low * INSIDE;
  const last = high / INSIDE;
  if (!(last > first)) return [Math.sqrt(low * high)];
  const many = Math.max(2, Math.min(100, Math.round(count) || STATIONS));
  return Array.from({ length: many }, (_, at) => first * (last / first) ** (at / (many - 1)));
}

function bandOf(set: SmallSignal): readonly [number, number] {
  const said = set.circuit.tunes;
  if (said && said.low.value > 0 && said.high.value > said.low.value)
    return [said.low.value, said.high.value];
  let low = 0;
  let high = Number.POSITIVE_INFINITY;
  for (const { lowest, highest } of tunedSet(set).circuits) {
    low = Math.max(low, lowest.value ?? 0);
    high = Math.min(high, highest.value ?? Number.POSITIVE_INFINITY);
  }
  return low > 0 && Number.isFinite(high) && high > low ? [low, high] : USUAL_BAND;
}
