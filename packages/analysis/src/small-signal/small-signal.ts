import type { Circuit, Conduction } from '@setwright/circuit';
import type { WindingsTurned } from '../coil-matrix.ts';
import { addAerial, type Entrance } from './aerial-pieces.ts';
import { addCondensers } from './condenser-pieces.ts';
import { draftOf, type Lack, networkOf } from './network-draft.ts';
import { addResistances } from './resistive-pieces.ts';
import type { SignalNetwork } from './signal-network.ts';
import type { SignalPoint } from './signal-point.ts';
import { coldSystem, type SignalSystem, signalSystem, type Tuning } from './signal-system.ts';
import { addSingles } from './single-pieces.ts';
import { addSupplies } from './supply-pieces.ts';
import { addTubes } from './tube-pieces.ts';
import {
  type Drive,
  eliminateAt,
  type Solution,
  solveDriven,
  tunedSystem,
} from './tuned-system.ts';
import { addWindings, type CoilsKnown } from './winding-pieces.ts';

/** What may be taken otherwise than usual. */
export interface SmallSignalOptions {
  /** Henries of the leads to every tap of a supply; 2 µH where not given. */
  readonly leadInductance?: number;
  /** Q of all windings on air, instead of what their wire alone gives. */
  readonly quality?: number;
  /** The post or loop at which the signal comes in; the first where not given. */
  readonly aerial?: string;
  /** Farads of condensers that stand otherwise than the text says, such as one that throttles. */
  readonly condensers?: Tuning;
  /** Where windings and variometers that turn stand, as shares, instead of what the text says. */
  readonly turned?: WindingsTurned;
  /** Equations of a set that is much like it, whose plans of elimination may serve. */
  readonly like?: SignalSystem;
  /** What direct current sees of the set as it stands, where that is known already. */
  readonly conduction?: Conduction;
  /** Matrices of coils that are known already, by the coil's name. */
  readonly coils?: CoilsKnown;
  /** Puts a resistance before every grid and a capacity to its plate, at first of nothing. */
  readonly openGrids?: boolean;
}

/** A voltage or current as a complex number. */
export interface Phasor {
  readonly re: number;
  readonly im: number;
}

/** What drives a set: peak or effective values alike, the answers are of the same kind. */
export type SignalSource =
  /** Volts in series with the aerial or loop. */
  | { readonly kind: 'aerial'; readonly volts: number }
  /** Amperes pushed into a terminal out of another; out of ground where that is left out. */
  | {
      readonly kind: 'current';
      readonly into: string;
      readonly outOf?: string;
      readonly amperes: number;
    }
  /** Volts in series with a winding's section, choke, loop or supply section, by its name. */
  | { readonly kind: 'series'; readonly name: string; readonly volts: number };

/** Volts and currents of a set at one frequency. */
export interface SignalAt {
  /** Hertz. */
  readonly frequency: number;
  /** Volts of a terminal above another, above ground where that is left out. */
  voltage(terminal: string, reference?: string): Phasor | undefined;
  /** Amperes from start to finish through a series piece, by its name. */
  current(name: string): Phasor | undefined;
}

/** A set as a small signal sees it. */
export interface SmallSignal {
  readonly circuit: Circuit;
  readonly point: SignalPoint;
  readonly network: SignalNetwork;
  readonly system: SignalSystem;
  /** The same with tubes that amplify nothing: a network that cannot oscillate. */
  readonly cold: SignalSystem;
  /** Where the signal comes in; undefined for a set without aerial post or loop. */
  readonly entrance: Entrance | undefined;
  /** The point of a terminal, 0 for ground; undefined for one that does not exist. */
  pointOf(terminal: string): number | undefined;
  /** What could not be taken up as the set has it. */
  readonly lacks: readonly Lack[];
  /** What was taken because the text does not say it. */
  readonly assumed: readonly string[];
}

/**
 * A set as a linear network at its operating point: windings with mutual inductance and losses,
 * condensers with strays, tubes with what they carry and the capacities between their electrodes,
 * batteries with their resistance and the inductance of their leads, and the aerial.
 *
 * The structure is made once; frequency and the stand of the condensers are arguments of every
 * solution. Left out: fields between coils, capacity between windings, losses in condensers and
 * iron, what a can does to a coil. Never throws.
 */
export function smallSignal(
  circuit: Circuit,
  point: SignalPoint,
  options: SmallSignalOptions = {},
): SmallSignal {
  const draft = draftOf(circuit, point.settings, options.conduction);
  if (!point.converged)
    for (const { junction, why } of point.failures)
      draft.lacks.push({ part: junction, why: `no state of rest: ${why}` });
  addTubes(draft, point, options.openGrids === true);
  addResistances(draft, point);
  addSupplies(draft, options.leadInductance);
  addWindings(draft, options.quality, options.turned, options.coils);
  addSingles(draft, options.quality, options.turned);
  addCondensers(draft, options.condensers);
  const entrance = addAerial(draft, options.aerial);
  const network = networkOf(draft);
  const system = signalSystem(network, options.like);
  return {
    circuit,
    point,
    network,
    system,
    cold: coldSystem(system),
    entrance,
    pointOf(terminal) {
      const found = draft.pointOfEnd(terminal);
      // A terminal that nothing of the network ends on has no volts.
      return found === undefined || found > network.points ? undefined : found;
    },
    lacks: draft.lacks,
    assumed: [...draft.assumed],
  };
}

/**
 * Volts and currents at a frequency in hertz, above 0. Undefined outside that, and where the
 * network has no one answer, as a lossless circuit in tune with its source.
 */
export function solveAt(
  set: SmallSignal,
  frequency: number,
  sources: readonly SignalSource[],
  tuning: Tuning = new Map(),
): SignalAt | undefined {
  const { system } = set;
  if (!(frequency > 0) || !Number.isFinite(frequency)) return undefined;
  const radians = 2 * Math.PI * frequency;
  const room = eliminateAt(tunedSystem(system, tuning), { growth: 0, radians });
  if (!room) return undefined;
  const solution = solveDriven(system, room, driveOf(set, sources));
  return answers(set, frequency, solution);
}

/** Sources as what drives the equations. Terminals that do not exist are ground. */
export function driveOf(set: SmallSignal, sources: readonly SignalSource[]): Drive {
  const electromotive = new Map<string, readonly [number, number]>();
  const currents = new Map<number, readonly [number, number]>();
  const push = (terminal: string | undefined, amperes: number): void => {
    const at = terminal === undefined ? 0 : (set.pointOf(terminal) ?? 0);
    currents.set(at, [(currents.get(at)?.[0] ?? 0) + amperes, 0]);
  };
  for (const source of sources) {
    if (source.kind === 'current') {
      push(source.into, source.amperes);
      push(source.outOf, 0 - source.amperes);
      continue;
    }
    const name = source.kind === 'series' ? source.name : set.entrance?.series;
    if (name === undefined) continue;
    electromotive.set(name, [(electromotive.get(name)?.[0] ?? 0) + source.volts, 0]);
  }
  return { electromotive, currents };
}

function answers(set: SmallSignal, frequency: number, { re, im }: Solution): SignalAt {
  const phasor = (x: number, y: number): Phasor | undefined =>
    Number.isFinite(x) && Number.isFinite(y) ? { re: x, im: y } : undefined;
  return {
    frequency,
    voltage(terminal, reference) {
      const at = set.pointOf(terminal);
      const below = reference === undefined ? 0 : set.pointOf(reference);
      if (at === undefined || below === undefined) return undefined;
      return phasor(
        (re[at] as number) - (re[below] as number),
        (im[at] as number) - (im[below] as number),
      );
    },
    current(name) {
      const row = set.system.rowOfSeries.get(name);
      if (row === undefined) return undefined;
      return phasor((re[row + 1] as number) / 1000, (im[row + 1] as number) / 1000);
    },
  };
}
