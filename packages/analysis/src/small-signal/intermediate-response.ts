import { tunedCircuits } from '../tuned-circuits.ts';
import { lastDetector, plateDrive } from './detector-port.ts';
import { fedModes } from './fed-modes.ts';
import { type Selectivity, selectivity } from './selectivity.ts';
import { isOfRole, tubePoints } from './signal-chain.ts';
import type { Tuning } from './signal-system.ts';
import type { SmallSignal } from './small-signal.ts';
import { eliminateAt, solveDriven, tunedSystem } from './tuned-system.ts';

/** What the intermediate amplifier of a superheterodyne passes. */
export interface IntermediateResponse {
  readonly mixer: string;
  readonly detector: string;
  /** Hertz that the text says its circuits are tuned to, in the middle of what it says. */
  readonly stated: number;
  /** Hertz that comes through best. */
  readonly frequency: number;
  /**
   * Volts at the second detector for one volt of that frequency that the mixer's grid would have:
   * what is lost in mixing is not in it. Undefined for an amplifier that oscillates.
   */
  readonly gain: number | undefined;
  readonly selectivity: Selectivity | undefined;
  /** Whether it oscillates by itself within a factor of two of its frequency. */
  readonly oscillates: boolean;
}

/** Steps over the range in which the best frequency is sought, and how far to either side. */
const STEPS = 200;
const REACH = 1.5;

/**
 * The intermediate amplifier from the mixer's plate to the second detector. Undefined for a set
 * without mixer, second detector, or a circuit that the text tunes to a frequency of its own.
 */
export function intermediateResponse(
  set: SmallSignal,
  tuning: Tuning,
): IntermediateResponse | undefined {
  const { circuit, point, system } = set;
  const mixer = tubePoints(set).find(({ part }) => isOfRole(set, part, 'mixer'));
  const detector = lastDetector(set);
  if (!mixer || !detector || detector.part === mixer.part) return undefined;
  const said = tunedCircuits(circuit, point.settings)
    .flatMap(({ windings }) =>
      windings.flatMap(({ edge }) => {
        const tuned = circuit.partNamed.get(edge.coil?.coil ?? '')?.values.tuned?.value;
        return tuned !== undefined && tuned > 0 ? tuned : [];
      }),
    )
    .sort((a, b) => a - b);
  const stated = said[Math.floor(said.length / 2)];
  if (stated === undefined) return undefined;
  const { part, grid, reference } = mixer;
  const currents = plateDrive(set, { part, plus: grid, minus: reference, tube: mixer });
  if (!currents) return undefined;
  const tuned = tunedSystem(system, tuning);
  const strength = (frequency: number): number | undefined => {
    const room = eliminateAt(tuned, { growth: 0, radians: 2 * Math.PI * frequency });
    if (!room) return undefined;
    const { re, im } = solveDriven(system, room, { currents });
    const { plus, minus } = detector;
    return Math.hypot(
      (re[plus] as number) - (re[minus] as number),
      (im[plus] as number) - (im[minus] as number),
    );
  };
  let frequency = stated;
  let most = 0;
  for (let step = 0; step <= STEPS; step++) {
    const here = (stated / REACH) * REACH ** ((2 * step) / STEPS);
    const volts = strength(here) ?? 0;
    if (volts > most) [frequency, most] = [here, volts];
  }
  const oscillates = fedModes(set, tuning, stated / 2, 2 * stated).unmeant !== 0;
  return {
    mixer: part.name,
    detector: detector.part.name,
    stated,
    frequency,
    gain: oscillates || most === 0 ? undefined : most,
    selectivity: oscillates ? undefined : selectivity(strength, frequency),
    oscillates,
  };
}
