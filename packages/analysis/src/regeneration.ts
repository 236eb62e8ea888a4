import type { Circuit, Part } from '@setwright/circuit';
import { condenserValues } from './condenser-values.ts';
import type { OperatingPoint } from './operating-point.ts';
import { alignedAt, tunedSet } from './small-signal/aligned-at.ts';
import { type FedModes, fedModes } from './small-signal/fed-modes.ts';
import {
  type SmallSignal,
  type SmallSignalOptions,
  smallSignal,
} from './small-signal/small-signal.ts';
import { tunedCircuits } from './tuned-circuits.ts';

/** A set at a station with its control of regeneration at a stand. */
export interface Regenerating {
  /** The tubes that keep an oscillation going there, the strongest first; none where it is quiet. */
  readonly tubes: readonly string[];
  /** Whether every circuit reaches the station. */
  readonly reaches: boolean;
}

/** Where a set oscillates as its control of regeneration is turned. */
export interface Regeneration {
  /**
   * At a station in hertz, with the control at a share of its travel: 0 for plates out or at right
   * angles, 1 for plates in or full aiding, below 0 for a winding turned the other way. Undefined
   * where it cannot be reckoned.
   */
  at(station: number, share: number): Regenerating | undefined;
  /**
   * The share of the travel at which a tube begins to oscillate, between 0 and 1. Undefined where
   * it does at neither or at both of them.
   */
  begins(station: number, tube: string): number | undefined;
}

/** An oscillation so far off the station, as a share of it, is none of its circuit. */
const NEAR = 0.15;

/** Radio modes are looked for between these shares of the station. */
const BELOW = 0.6;
const ABOVE = 1.6;

/** Steps in which the beginning is closed in on: to some two hundredths of the travel. */
const STEPS = 6;

/**
 * How a set regenerates: whether a tube oscillates in tune with a station, the control of its
 * regeneration turned. Neutralizing condensers stand half way. Never throws.
 *
 * @param control a winding or variometer that turns, or a variable condenser; undefined for a set
 * without any, of which all shares are the same
 */
export function regeneration(
  circuit: Circuit,
  point: OperatingPoint,
  control: Part | undefined,
  options: SmallSignalOptions = {},
): Regeneration {
  const values = control && condenserValues(circuit, control);
  const [least, most] = [values?.least.value, values?.most.value];
  const sets = new Map<number, SmallSignal>();
  const known = new Map<string, Regenerating | undefined>();
  const setAt = (share: number): SmallSignal => {
    // A condenser is turned in the finished network, a winding makes another one.
    const key = control && !values ? share : 0;
    const found = sets.get(key);
    if (found) return found;
    const turned = new Map(control && !values ? [[control.name, share] as const] : []);
    const made = smallSignal(circuit, point, { ...options, turned });
    sets.set(key, made);
    return made;
  };
  const at = (station: number, share: number): Regenerating | undefined => {
    const key = `${station} ${control ? share : 0}`;
    if (known.has(key)) return known.get(key);
    const set = setAt(share);
    const stand =
      control && least !== undefined && most !== undefined
        ? [[control.name, least + share * (most - least)] as const]
        : [];
    const tuned = tunedSet(set);
    const aligned = alignedAt(set, station, new Map(stand), tuned);
    const modes = fedModes(set, aligned.tuning, BELOW * station, ABOVE * station);
    const found =
      modes.count === undefined
        ? undefined
        : {
            tubes: near(modes, station),
            reaches: aligned.circuits.every(({ reaches }) => reaches),
          };
    known.set(key, found);
    return found;
  };
  return {
    at,
    begins(station, tube) {
      const isOn = (share: number) => at(station, share)?.tubes.includes(tube);
      const [quiet, loud] = [isOn(0), isOn(1)];
      if (quiet === undefined || loud === undefined || quiet === loud) return undefined;
      let [low, high] = [0, 1];
      for (let step = 0; step < STEPS; step++) {
        const middle = (low + high) / 2;
        if (isOn(middle) === loud) high = middle;
        else low = middle;
      }
      return (low + high) / 2;
    },
  };
}

function near({ modes }: FedModes, station: number): readonly string[] {
  const close = modes.filter(({ frequency }) => Math.abs(frequency / station - 1) < NEAR);
  return [...new Set(close.flatMap(({ tubes = [] }) => tubes))];
}

/**
 * The parts by which regeneration may be turned up and down: windings and variometers that turn,
 * and variable condensers that tune nothing. Whether they do is for `regeneration` to tell.
 */
export function regenerationControls(circuit: Circuit): readonly Part[] {
  const driven = new Set(circuit.dials.flatMap(({ drives }) => drives));
  const tuners = new Set(tunedCircuits(circuit).flatMap(({ tuner, beside }) => [tuner, ...beside]));
  return circuit.parts.filter((part) => {
    if (part.kind === 'winding') return part.setting !== undefined || driven.has(part.name);
    if (part.kind === 'variometer') return !tuners.has(part.name);
    if (part.kind !== 'condenser' || tuners.has(part.name)) return false;
    const values = condenserValues(circuit, part);
    return values?.kind === 'variable' && values.most.value !== undefined;
  });
}
