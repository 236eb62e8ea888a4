import type { TunedCircuit } from '@setwright/analysis';
import type { Circuit } from '@setwright/circuit';

/** A band by its edges, in hertz. */
export interface Band {
  readonly low: number;
  readonly high: number;
}

/**
 * What an audio transformer of the time was asked to pass: common practice, the range over which
 * the makers' curves were drawn.
 */
export const audioBand: Band = { low: 100, high: 5000 };

/** What the set tunes: as the text says, else what its variable condensers make of it. */
export function bandOf(circuit: Circuit, tuned: readonly TunedCircuit[]): Band | undefined {
  if (circuit.tunes) return ordered(circuit.tunes.low.value, circuit.tunes.high.value);
  const lows = tuned.flatMap(({ tuner, lowest }) => (tuner ? (lowest.value ?? []) : []));
  const highs = tuned.flatMap(({ tuner, highest }) => (tuner ? (highest.value ?? []) : []));
  if (lows.length === 0 || highs.length === 0) return undefined;
  return ordered(Math.min(...lows), Math.max(...highs));
}

function ordered(one: number, other: number): Band | undefined {
  const low = Math.min(one, other);
  const high = Math.max(one, other);
  return low > 0 && Number.isFinite(high) ? { low, high } : undefined;
}

/** The edges of a band, one where they are the same. */
export function edgesOf({ low, high }: Band): readonly number[] {
  return high > low * (1 + 1e-9) ? [low, high] : [low];
}

/**
 * Where a tuned circuit is told of: at the edges of the band as far as it reaches them, at its own
 * edges where it works elsewhere, as an intermediate circuit does.
 */
export function reachOf(tuned: TunedCircuit, band: Band | undefined): Band | undefined {
  const { lowest, highest } = tuned;
  if (lowest.value === undefined || highest.value === undefined) return undefined;
  const own = ordered(lowest.value, highest.value);
  if (!own || !band || band.high < own.low || band.low > own.high) return own;
  return { low: Math.max(own.low, band.low), high: Math.min(own.high, band.high) };
}
