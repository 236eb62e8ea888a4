import { capacitiesOf, reachedBy, type Stamped, stampsOf } from './reduced-network.ts';
import { SCALE_OHMS, type SignalSystem, type Tuning } from './signal-system.ts';
import { eliminateFirst } from './small-matrix.ts';
import type { MatrixAt } from './station-model.ts';
import { eliminateAt, keeping, type TunedSystem, tunedSystem } from './tuned-system.ts';

/** What is put to a set besides what it has. */
export interface Knobs {
  /** Ohms of series pieces, by their name. */
  readonly ohms: ReadonlyMap<string, number>;
  /** Farads of capacities that are nothing in the set itself, by their name. */
  readonly farads: Tuning;
}

/**
 * A network drawn together onto its tuning condensers, of which some resistances and capacities
 * can be changed too: they are kept with it until they stand.
 */
export interface KnobbedNetwork {
  readonly system: SignalSystem;
  readonly tuned: TunedSystem;
  /** Unknowns that only the knobs reach, then those of the tuning condensers. */
  readonly kept: readonly number[];
  /** What the tuning condensers add to what is left when the knobs stand. */
  readonly left: Stamped;
  /** What the knobs' capacities add before. */
  readonly capacities: Stamped;
  /** Where the knobs' resistances stand before, by their name. */
  readonly resistances: ReadonlyMap<string, number>;
  /** What was reckoned before, by radians per second. */
  readonly known: Map<number, Float64Array | undefined>;
}

/**
 * Prepares a network.
 *
 * @param condensers those that tune @param fixed how others stand
 * @param series names of the pieces whose ohms can be changed
 * @param capacities names of the capacities that can be changed
 */
export function knobbedNetwork(
  system: SignalSystem,
  condensers: readonly string[],
  fixed: Tuning,
  series: readonly string[],
  capacities: readonly string[],
): KnobbedNetwork {
  const tuning = reachedBy(system, condensers);
  const rows = series.flatMap((name) => system.rowOfSeries.get(name) ?? []);
  const knobs = [...new Set([...rows, ...reachedBy(system, capacities)])];
  const kept = [...knobs.filter((unknown) => !tuning.includes(unknown)), ...tuning];
  const nothing = [...condensers, ...capacities].map((name) => [name, 0] as const);
  return {
    system,
    tuned: keeping(tunedSystem(system, new Map([...fixed, ...nothing])), kept),
    kept,
    left: { size: tuning.length, stamps: stampsOf(system, condensers, tuning) },
    capacities: { size: kept.length, stamps: stampsOf(system, capacities, kept) },
    resistances: new Map(
      series.flatMap((name) => {
        const place = kept.indexOf(system.rowOfSeries.get(name) ?? -1);
        return place < 0 ? [] : [[name, place * (kept.length + 1)] as const];
      }),
    ),
    known: new Map(),
  };
}

/** What is left for the tuning condensers with the knobs in one way. */
export function matricesWith(network: KnobbedNetwork, knobs: Knobs): MatrixAt {
  const { kept, left, resistances } = network;
  const size = kept.length;
  const added = capacitiesOf(network.capacities, knobs.farads);
  const matrix = new Float64Array(2 * size * size);
  const many = size - left.size;
  return (radians, matrices, start) => {
    const before = matrixBefore(network, radians);
    if (!before) return false;
    for (let entry = 0; entry < added.length; entry++) {
      const at = 2 * entry;
      matrix[at] = before[at] as number;
      matrix[at + 1] = (before[at + 1] as number) + radians * (added[entry] as number);
    }
    for (const [name, ohms] of knobs.ohms) {
      const place = resistances.get(name);
      if (place === undefined) return false;
      matrix[2 * place] = (matrix[2 * place] as number) - ohms / SCALE_OHMS;
    }
    if (!eliminateFirst(matrix, size, many)) return false;
    for (let row = 0; row < left.size; row++) {
      const from = 2 * ((many + row) * size + many);
      matrices.set(matrix.subarray(from, from + 2 * left.size), start + 2 * row * left.size);
    }
    return true;
  };
}

/** What is kept with the knobs at nothing. */
function matrixBefore(
  { tuned, kept, known }: KnobbedNetwork,
  radians: number,
): Float64Array | undefined {
  if (known.has(radians)) return known.get(radians);
  const room = eliminateAt(tuned, { growth: 0, radians });
  const corner = room?.plan.corner;
  const found =
    room &&
    corner &&
    Float64Array.from({ length: 2 * kept.length * kept.length }, (_, at) => {
      const slot = corner[at >> 1] as number;
      return slot < 0 ? 0 : ((at % 2 === 0 ? room.re[slot] : room.im[slot]) as number);
    });
  known.set(radians, found);
  return found;
}
