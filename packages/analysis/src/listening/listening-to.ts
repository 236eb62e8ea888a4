import { alignedAt, tunedSet } from '../small-signal/aligned-at.ts';
import { lastDetector, radioWay } from '../small-signal/detector-port.ts';
import { fedModes } from '../small-signal/fed-modes.ts';
import { intermediateResponse } from '../small-signal/intermediate-response.ts';
import { neutralized } from '../small-signal/neutralizing.ts';
import { reducedNetwork } from '../small-signal/reduced-network.ts';
import { shaftsOf } from '../small-signal/shafts.ts';
import { isOfRole, tubePoints } from '../small-signal/signal-chain.ts';
import type { SmallSignal } from '../small-signal/small-signal.ts';
import { stationsOf } from '../small-signal/stations.ts';
import { tunedSystem } from '../small-signal/tuned-system.ts';
import { audioAnswer, audioDrives } from './audio-heard.ts';
import { audioAxis } from './audio-winding.ts';
import { worstOffsets } from './growth-heard.ts';
import { heardOf } from './heard-of.ts';
import { type Listening, type TurnedUp, unheard } from './listening.ts';
import { regenerationOf, turnedBack } from './regeneration-turned.ts';
import { shortMatrixOf } from './short-reduction.ts';
import { tapsOf } from './taps-heard.ts';

const AUDIO_LOW = 2;

const DIVIDE = 50e3;

/** Makes ready to listen to a set and its faulty selves. Never throws. */
export function listeningTo(drawn: SmallSignal, turnedUp: TurnedUp): Listening {
  const { circuit } = drawn;
  const stations = stationsOf(drawn, 3);
  const station = stations[1] ?? stations[0] ?? 1e6;
  const shortest = stations.at(-1) ?? station;
  const balanced = new Map(
    neutralized(drawn, station).map(({ condenser, farads }) => [condenser, farads]),
  );
  const tuned = tunedSet(drawn);
  const shafts = shaftsOf(tuned);
  const regeneration = regenerationOf(drawn, tuned);
  const { set, fixed, turned } = turnedBack(
    drawn,
    station,
    balanced,
    tuned,
    regeneration,
    turnedUp,
  );
  const aligned = alignedAt(set, station, fixed, tuned);
  const way = radioWay(set, station, aligned.tuning);
  const between = intermediateResponse(set, aligned.tuning);
  const audioDetector = lastDetector(set) ?? way.detector;
  const oscillators = tubePoints(set).some(({ part }) => isOfRole(set, part, 'oscillator'));
  const meant = oscillators
    ? fedModes(set, aligned.tuning, DIVIDE, 5 * shortest).modes.find(({ tubes }) =>
        tubes?.every((name) => {
          const part = circuit.partNamed.get(name);
          return part !== undefined && isOfRole(set, part, 'oscillator');
        }),
      )
    : undefined;
  const shortAlignment = alignedAt(set, shortest, fixed, tuned);
  const base = {
    circuit,
    station,
    shortest,
    fixed,
    tuned,
    shafts,
    tuning: aligned.tuning,
    shortAlignment,
    detector: way.detector?.part.name,
    audioDetector: audioDetector?.part.name,
    intermediate: between && { mixer: between.mixer, frequency: between.frequency },
    oscillator: meant && { growth: meant.growth, radians: 2 * Math.PI * meant.frequency },
    taps: tapsOf(set),
    output: undefined,
    axis: undefined,
    shortMatrix: undefined,
    apart: undefined,
    system: set.system,
    shortPlans: [],
    regeneration,
    turned,
  };
  const output = loudest(set, { ...base, sound: unheard });
  const whole = {
    ...base,
    output,
    axis: audioAxis(tunedSystem(set.system, aligned.tuning), AUDIO_LOW, DIVIDE, (low, high) =>
      fedModes(set, aligned.tuning, low, high),
    ),
    sound: unheard,
  };
  const sound = heardOf(set, whole, turnedUp);
  const network =
    tuned.condensers.length > 0 ? reducedNetwork(set.system, tuned.condensers, fixed) : undefined;
  const shortMatrix = network && shortMatrixOf(network, shortest);
  return {
    ...whole,
    sound,
    shortMatrix,
    apart: worstOffsets(set, whole),
    shortPlans: network?.tuned.plans ?? [],
  };
}

/** What sounds: of phones and loudspeakers the one that a volt at the detector moves most. */
function loudest(set: SmallSignal, listening: Listening): string | undefined {
  const answer = audioAnswer(set, listening.tuning);
  const drives = audioDrives(set, listening.audioDetector);
  if (!answer || !drives) return undefined;
  let best: string | undefined;
  let most = 0;
  for (const { name, kind } of set.circuit.parts) {
    if (kind !== 'phones' && kind !== 'horn' && kind !== 'speaker') continue;
    const amperes = answer.driven(drives.amplified, name);
    if (amperes > most) [best, most] = [name, amperes];
  }
  return best;
}
