import type { Circuit } from '@setwright/circuit';
import type { OperatingPoint } from '../operating-point.ts';
import { SOCKET_CAPACITY } from '../usual-values.ts';
import { type Alignment, alignedAt, tunedSet } from './aligned-at.ts';
import { type EdgeSearch, edge, worstOf } from './edge-search.ts';
import { type Knobs, knobbedNetwork } from './knobbed-network.ts';
import { neutralized } from './neutralizing.ts';
import { shaftsOf } from './shafts.ts';
import { isOfRole, radioChain } from './signal-chain.ts';
import { smallSignal } from './small-signal.ts';
import type { StabilityOptions } from './stability.ts';
import { stationsOf } from './stations.ts';
import { feedbackPiece, gridPiece, socketPiece } from './tube-pieces.ts';

/** How far a set's radio stages are from the edge of oscillation, over band and dials. */
export interface Margin {
  /** The radio tubes that resistance or capacity was put to. */
  readonly tubes: readonly string[];
  /**
   * Ohms in series with every radio grid, besides what the set has, that just keep it quiet; 0 for
   * a set that is quiet without. Undefined where no resistance up to 100 kilohms does.
   */
  readonly seriesResistance: number | undefined;
  /**
   * Farads between every radio tube's grid and plate, besides what they have, at which it is just
   * on the edge: how much may still come on top of a quiet set; less than nothing for one that
   * oscillates, which is what neutralizing would have to balance. Undefined where no such edge is.
   */
  readonly gridPlate: number | undefined;
}

/** Ohms that an oscillating set is tried with, one after another, until it is quiet. */
const TRIED_OHMS: readonly number[] = [
  100, 200, 400, 800, 1600, 3200, 6400, 12.5e3, 25e3, 50e3, 100e3,
];

/** Farads that a quiet set is tried with, one after another, until it oscillates. */
const TRIED_FARADS: readonly number[] = [0.1, 0.3, 1, 3, 10, 30].map((mmfd) => mmfd * 1e-12);

/**
 * What would just cure a set that oscillates, or how much a quiet one can still bear, judged over
 * the band with the dials off in the worst way. Only modes of the circuits tuned to the station
 * count, not howling at audio frequencies.
 *
 * The resistance is put right at the grid: behind it stand the tube's own capacities and what its
 * socket holds, before it the tuned circuit with its wiring.
 */
export function margin(
  circuit: Circuit,
  point: OperatingPoint,
  options: StabilityOptions = {},
): Margin {
  const set = smallSignal(circuit, point, { ...options, openGrids: true });
  const tuned = tunedSet(set);
  const shafts = shaftsOf(tuned);
  const stations = options.stations ?? stationsOf(set);
  const middle = stations[Math.floor(stations.length / 2)] ?? 1e6;
  const fixed = new Map(
    neutralized(set, middle).map(({ condenser, farads }) => [condenser, farads] as const),
  );
  const tubes = radioChain(set, middle, alignedAt(set, middle, fixed, tuned).tuning)
    .filter(({ part }) => !isOfRole(set, part, 'detector', 'mixer') || isOfRole(set, part, 'radio'))
    .map(({ part }) => part.name);
  if (tubes.length === 0 || shafts.length === 0)
    return { tubes, seriesResistance: 0, gridPlate: undefined };
  const leads = tubes.map(gridPiece);
  const feedback = tubes.map(feedbackPiece);
  const sockets = tubes.map(socketPiece).filter((name) => set.system.turned.has(name));
  const known = new Map<string, readonly Alignment[]>();
  const search: EdgeSearch = {
    network: knobbedNetwork(set.system, tuned.condensers, fixed, leads, [...feedback, ...sockets]),
    tuned,
    shafts,
    align(farads) {
      const key = [...farads].join(' ');
      const found =
        known.get(key) ??
        stations.map((each) => alignedAt(set, each, new Map([...fixed, ...farads]), tuned));
      known.set(key, found);
      return found;
    },
  };
  const inGrids = (ohms: number): Knobs => ({
    ohms: new Map(leads.map((lead) => [lead, ohms])),
    farads: new Map(sockets.map((socket) => [socket, SOCKET_CAPACITY])),
  });
  const across = (farads: number): Knobs => ({
    ohms: new Map(),
    farads: new Map(feedback.map((piece) => [piece, farads])),
  });
  const worst = worstOf(search, across(0));
  const isQuiet = worst.growth < 0;
  const own = Math.max(
    ...tubes.map((tube) => circuit.partNamed.get(tube)?.tubeType?.capacitances['grid plate'] ?? 0),
  );
  return {
    tubes,
    seriesResistance: isQuiet ? 0 : edge(search, inGrids, 0, worst, TRIED_OHMS),
    gridPlate: isQuiet ? room(search, across) : edge(search, across, 0, worst, [0 - own]),
  };
}

/** What a quiet set can still bear. */
function room(search: EdgeSearch, across: (farads: number) => Knobs): number | undefined {
  let quiet = 0;
  for (const farads of TRIED_FARADS) {
    const worst = worstOf(search, across(farads));
    if (worst.growth > 0) return edge(search, across, farads, worst, [quiet]);
    quiet = farads;
  }
  return undefined;
}
