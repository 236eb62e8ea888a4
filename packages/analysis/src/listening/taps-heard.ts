import { rolesOf } from '@setwright/circuit';
import { isOfRole, tubePoints } from '../small-signal/signal-chain.ts';
import type { Tuning } from '../small-signal/signal-system.ts';
import type { SmallSignal } from '../small-signal/small-signal.ts';
import {
  eliminateAt,
  type Solution,
  solveDriven,
  tunedSystem,
} from '../small-signal/tuned-system.ts';
import type { Listening, Taps } from './listening.ts';
import { INTERMEDIATE_STEPS, intermediateAt } from './radio-heard.ts';
import { portOf } from './signal-ends.ts';

/**
 * A grid is tapped with an insulated probe through .01 microfarad, by a hand of some 1500 ohms.
 * Common practice.
 */
const TAP_FARADS = 10e-9;
const TAP_OHMS = 1500;

/**
 * Which tubes are tapped. What comes of a tap on a radio tube by a common battery alone is no
 * click; of a tube that is not known what it is for it is taken as it comes.
 */
export function tapsOf(set: SmallSignal): Taps {
  const radio = new Set<string>();
  const audio = new Set<string>();
  for (const { part } of tubePoints(set)) {
    const isOf = (...roles: string[]) => isOfRole(set, part, ...roles);
    if (isOf('radio', 'mixer', 'intermediate')) radio.add(part.name);
    if (isOf('detector', 'audio', 'output') || rolesOf(set.circuit, part).length === 0)
      audio.add(part.name);
  }
  return { radio, audio };
}

/** A network that was eliminated. */
type Room = NonNullable<ReturnType<typeof eliminateAt>>;

/**
 * What one volt behind a tap on the grid of each tube makes of something that is read off the
 * solution; 0 where the grid lies on its filament.
 *
 * @param radians of the network that was eliminated
 * @param tapped the tubes that are asked for
 */
export function tapsOn(
  set: SmallSignal,
  room: Room,
  radians: number,
  tapped: ReadonlySet<string>,
  readOff: (solution: Solution) => number,
): ReadonlyMap<string, number> {
  const tubes = tubePoints(set).filter(({ part }) => tapped.has(part.name));
  return new Map(
    tubes.map(({ part, grid, reference }) => {
      if (grid === reference) return [part.name, 0] as const;
      const currents = new Map([
        [grid, [1, 0] as const],
        [reference, [-1, 0] as const],
      ]);
      const volts = solveDriven(set.system, room, { currents });
      const re = (volts.re[grid] as number) - (volts.re[reference] as number);
      const im = (volts.im[grid] as number) - (volts.im[reference] as number);
      const whole = Math.hypot(TAP_OHMS + re, im - 1 / (radians * TAP_FARADS));
      return [part.name, readOff(volts) / whole] as const;
    }),
  );
}

/**
 * Volts at the last detector for a volt behind a tap on the grid of each tube before it: at the
 * station, of a superheterodyne at the intermediate frequency that passes best.
 */
export function radioTaps(
  set: SmallSignal,
  { audioDetector, station, intermediate, taps }: Listening,
  tuning: Tuning,
): ReadonlyMap<string, number> {
  const port = portOf(set, audioDetector);
  if (!port || port.plus === port.minus) return new Map();
  const most = new Map<string, number>();
  const frequencies = intermediate
    ? Array.from({ length: INTERMEDIATE_STEPS + 1 }, (_, step) =>
        intermediateAt(intermediate, step),
      )
    : [station];
  const tuned = tunedSystem(set.system, tuning);
  for (const frequency of frequencies) {
    const radians = 2 * Math.PI * frequency;
    const room = eliminateAt(tuned, { growth: 0, radians });
    if (!room) continue;
    const heard = tapsOn(set, room, radians, taps.radio, ({ re, im }) =>
      Math.hypot(
        (re[port.plus] as number) - (re[port.minus] as number),
        (im[port.plus] as number) - (im[port.minus] as number),
      ),
    );
    for (const [tube, volts] of heard) most.set(tube, Math.max(volts, most.get(tube) ?? 0));
  }
  return most;
}
