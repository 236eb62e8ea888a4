import type { TunedSet } from '../small-signal/aligned-at.ts';
import { tubePoints } from '../small-signal/signal-chain.ts';
import type { Tuning } from '../small-signal/signal-system.ts';
import type { SmallSignal } from '../small-signal/small-signal.ts';
import { eliminateAt, solveDriven, tunedSystem } from '../small-signal/tuned-system.ts';
import { detectorPorts, detectorVolts, turnedVolts } from './detector-ports.ts';
import type { Heard, Listening } from './listening.ts';
import { portOf, slopeOf } from './signal-ends.ts';

/** A condenser is turned by this share of what it has to know how sharply it tunes. */
const OFF_TUNE = 0.05;

/** Steps of the intermediate frequency about what was best, and how far to either side. */
export const INTERMEDIATE_STEPS = 12;

const INTERMEDIATE_REACH = 1.08;

/** The radio signal at the detector, and how sharply each condenser tunes it. */
export function radioOf(
  set: SmallSignal,
  listening: Listening,
  tuning: Tuning,
  present: TunedSet,
): Pick<Heard, 'sharpness'> & { readonly volts: number | undefined } {
  const sharpness = new Map<string, number>();
  if (listening.detector === undefined) return { volts: undefined, sharpness };
  const port = portOf(set, listening.detector);
  // A loop that is open brings nothing in.
  const isCutOff = set.entrance === undefined || !port || port.plus === port.minus;
  if (isCutOff) return { volts: 0, sharpness };
  const ports = detectorPorts(set, tuning, present.condensers, listening.station, port);
  if (!ports) return { volts: undefined, sharpness };
  const volts = detectorVolts(ports);
  for (const [at, name] of ports.condensers.entries()) {
    const farads = OFF_TUNE * (ports.farads[at] as number);
    const most = Math.max(
      ...[farads, 0 - farads].map((each) => {
        const off = turnedVolts(ports, at, each);
        return volts > 0 && off > 0 ? Math.abs(20 * Math.log10(volts / off)) : 0;
      }),
    );
    sharpness.set(name, most);
  }
  const passed = intermediateOf(set, listening, tuning);
  return { volts: passed === undefined ? volts : volts * passed, sharpness };
}

/** Hertz of one of the steps about an intermediate frequency, from 0 to their number. */
export function intermediateAt(
  { frequency }: { readonly frequency: number },
  step: number,
): number {
  return frequency * INTERMEDIATE_REACH ** ((2 * step) / INTERMEDIATE_STEPS - 1);
}

/** Volts at the second detector for one at the mixer's grid, at the frequency that passes best. */
function intermediateOf(
  set: SmallSignal,
  { intermediate, audioDetector }: Listening,
  tuning: Tuning,
): number | undefined {
  if (!intermediate) return undefined;
  const mixer = tubePoints(set).find(({ part }) => part.name === intermediate.mixer);
  const gm = slopeOf(set, intermediate.mixer);
  const port = portOf(set, audioDetector);
  if (!mixer || !port || gm === undefined) return 0;
  const currents = new Map([
    [mixer.plate, [0 - gm, 0] as const],
    [mixer.reference, [gm, 0] as const],
  ]);
  const tuned = tunedSystem(set.system, tuning);
  let most = 0;
  for (let step = 0; step <= INTERMEDIATE_STEPS; step++) {
    const frequency = intermediateAt(intermediate, step);
    const room = eliminateAt(tuned, { growth: 0, radians: 2 * Math.PI * frequency });
    if (!room) continue;
    const { re, im } = solveDriven(set.system, room, { currents });
    most = Math.max(
      most,
      Math.hypot(
        (re[port.plus] as number) - (re[port.minus] as number),
        (im[port.plus] as number) - (im[port.minus] as number),
      ),
    );
  }
  return most;
}
