import { crystalCurrent } from '../crystal-law.ts';
import { tubePoints } from '../small-signal/signal-chain.ts';
import type { Tuning } from '../small-signal/signal-system.ts';
import type { SmallSignal } from '../small-signal/small-signal.ts';
import {
  eliminateAt,
  type Solution,
  solveDriven,
  tunedSystem,
} from '../small-signal/tuned-system.ts';
import type { Heard, Listening } from './listening.ts';
import { portOf, slopeOf } from './signal-ends.ts';
import { tapsOn } from './taps-heard.ts';

const MIDDLE_AUDIO = 1000;

type Drive = readonly (readonly [point: number, amperes: number])[];

/** Audio: what the detector makes of a volt, and what it makes of a signal, in the output. */
export function audioOf(
  set: SmallSignal,
  listening: Listening,
  tuning: Tuning,
): Pick<Heard, 'audio' | 'rectified' | 'clicks'> {
  const nothing = { audio: undefined, rectified: undefined, clicks: new Map<string, number>() };
  const { output, audioDetector, taps } = listening;
  if (output === undefined) return nothing;
  const answer = audioAnswer(set, tuning);
  if (!answer) return nothing;
  const current = (drive: Drive): number => answer.driven(drive, output);
  const drives = audioDrives(set, audioDetector);
  return {
    audio: drives && current(drives.amplified),
    rectified: drives && current(drives.rectified),
    clicks: answer.taps(output, taps.audio),
  };
}

/** Amperes at 1000 cycles in a part that sounds. */
interface AudioAnswer {
  /** For what is pushed into points. */
  readonly driven: (drive: Drive, output: string) => number;
  /** For a volt behind a tap on the grid of each of these tubes. */
  readonly taps: (output: string, tapped: ReadonlySet<string>) => ReadonlyMap<string, number>;
}

/** What a set answers at 1000 cycles; undefined where the network is singular. */
export function audioAnswer(set: SmallSignal, tuning: Tuning): AudioAnswer | undefined {
  const radians = 2 * Math.PI * MIDDLE_AUDIO;
  const room = eliminateAt(tunedSystem(set.system, tuning), { growth: 0, radians });
  if (!room) return undefined;
  // Series currents are counted in milliamperes.
  const amperesIn = ({ re, im }: Solution, output: string): number => {
    const row = set.system.rowOfSeries.get(output);
    return row === undefined ? 0 : Math.hypot(re[row + 1] as number, im[row + 1] as number) / 1000;
  };
  return {
    driven(drive, output) {
      const currents = new Map<number, readonly [number, number]>();
      for (const [point, amperes] of drive)
        currents.set(point, [(currents.get(point)?.[0] ?? 0) + amperes, 0]);
      return amperesIn(solveDriven(set.system, room, { currents }), output);
    },
    taps: (output, tapped) =>
      tapsOn(set, room, radians, tapped, (solution) => amperesIn(solution, output)),
  };
}

/** What a volt at a detector, and a volt squared of signal, push into the audio stages. */
export function audioDrives(
  set: SmallSignal,
  detector: string | undefined,
): { readonly amplified: Drive; readonly rectified: Drive } | undefined {
  const part = set.circuit.partNamed.get(detector ?? '');
  const port = portOf(set, detector);
  if (!part || !port) return detector === undefined ? undefined : { amplified: [], rectified: [] };
  if (part.kind === 'crystal') {
    const [mineral, whisker] = ['mineral', 'whisker'].map(
      (name, at) => (part.ends.find((end) => end.name === name) ?? part.ends[at])?.id ?? '',
    );
    const volts = set.point.voltage(whisker ?? '', mineral ?? '') ?? 0;
    const { slope } = crystalCurrent(volts);
    const bend = (crystalCurrent(volts + 1e-3).slope - crystalCurrent(volts - 1e-3).slope) / 2e-3;
    const flow = (amperes: number): Drive => [
      [port.plus, 0 - amperes],
      [port.minus, amperes],
    ];
    return { amplified: flow(slope), rectified: flow(bend / 4) };
  }
  const tube = tubePoints(set).find((each) => each.part.name === detector);
  if (part.kind !== 'tube' || !tube) return { amplified: [], rectified: [] };
  const gm = slopeOf(set, part.name) ?? 0;
  const { grid = 0, plate = 0 } =
    set.point.tubes.find((each) => each.tube === part.name)?.curvatures ?? {};
  return {
    amplified: [
      [tube.plate, 0 - gm],
      [tube.reference, gm],
    ],
    rectified: [
      [tube.grid, 0 - grid / 4],
      [tube.plate, 0 - plate / 4],
      [tube.reference, (grid + plate) / 4],
    ],
  };
}
