import type { Circuit } from '@setwright/circuit';
import {
  frequencyAtTurn,
  readingAtFrequency,
  type TunedDial,
  tunedDial,
  turnAtFrequency,
} from './dials.ts';
import type { TunedCircuit } from './tuned-circuits.ts';

/** Where every dial stands for one station. */
export interface StationReadings {
  /** Hertz. */
  readonly frequency: number;
  /** By the tuned circuit's name; undefined for one that does not reach the station. */
  readonly readings: ReadonlyMap<string, number | undefined>;
  /** Highest less lowest of the readings that are known, as a share of the scale. */
  readonly spread: number | undefined;
}

/** How far the circuits on one shaft are from each other when one of them is in tune. */
export interface GangTracking {
  readonly gang: string;
  /** Hertz, of the circuit with the middle one of the frequencies. */
  readonly frequency: number;
  /** Turn of the shaft, 0 plates out to 1 in. */
  readonly turn: number;
  /** Share by which each circuit lies above that, by its name. */
  readonly off: ReadonlyMap<string, number>;
}

/** Readings of all dials at given stations in hertz. */
export function stationReadings(
  circuit: Circuit,
  tuned: readonly TunedCircuit[],
  stations: readonly number[],
): readonly StationReadings[] {
  const dials = dialsOf(circuit, tuned);
  return stations.map((frequency) => {
    const readings = new Map(
      dials.map((of) => [of.circuit.name, readingAtFrequency(of, frequency)] as const),
    );
    const shares = dials.flatMap((of) => {
      const turn = turnAtFrequency(of, frequency);
      return turn === undefined ? [] : [of.dial?.reversed ? 1 - turn : turn];
    });
    const spread = shares.length > 0 ? Math.max(...shares) - Math.min(...shares) : undefined;
    return { frequency, readings, spread };
  });
}

/** How the circuits of a gang keep together, in even steps of its turn. Empty for fewer than two. */
export function gangTracking(
  circuit: Circuit,
  tuned: readonly TunedCircuit[],
  gang: string,
  steps = 10,
): readonly GangTracking[] {
  const dials = dialsOf(circuit, tuned).filter((of) => of.circuit.gang === gang);
  if (dials.length < 2) return [];
  const count = Math.min(1000, Math.max(1, Math.round(steps) || 1));
  return Array.from({ length: count + 1 }, (_, step) => step / count).flatMap((turn) => {
    const found = dials.flatMap((of) => {
      const frequency = frequencyAtTurn(of, turn);
      return frequency === undefined ? [] : [{ name: of.circuit.name, frequency }];
    });
    const sorted = found.map(({ frequency }) => frequency).sort((a, b) => a - b);
    const middle = sorted[Math.floor((sorted.length - 1) / 2)];
    if (middle === undefined) return [];
    const off = new Map(
      found.map(({ name, frequency }) => [name, frequency / middle - 1] as const),
    );
    return [{ gang, frequency: middle, turn, off }];
  });
}

function dialsOf(circuit: Circuit, tuned: readonly TunedCircuit[]): readonly TunedDial[] {
  return tuned.flatMap((each) => tunedDial(circuit, each) ?? []);
}
