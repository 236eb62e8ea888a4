import type { Tuning } from './signal-system.ts';
import { driveOf, type Phasor, type SignalSource, type SmallSignal } from './small-signal.ts';
import { eliminateAt, solveDriven, tunedSystem } from './tuned-system.ts';

/**
 * Volts of a terminal over many frequencies in hertz: one entry for each, undefined where there is
 * no answer. The structure of the equations is used again for every one of them.
 *
 * @param reference the terminal below which it is counted; ground where left out
 */
export function sweep(
  set: SmallSignal,
  frequencies: readonly number[],
  sources: readonly SignalSource[],
  terminal: string,
  reference?: string,
  tuning: Tuning = new Map(),
): readonly (Phasor | undefined)[] {
  const at = set.pointOf(terminal);
  const below = reference === undefined ? 0 : set.pointOf(reference);
  if (at === undefined || below === undefined) return frequencies.map(() => undefined);
  const tuned = tunedSystem(set.system, tuning);
  const drive = driveOf(set, sources);
  return frequencies.map((frequency) => {
    if (!(frequency > 0) || !Number.isFinite(frequency)) return undefined;
    const room = eliminateAt(tuned, { growth: 0, radians: 2 * Math.PI * frequency });
    if (!room) return undefined;
    const { re, im } = solveDriven(set.system, room, drive);
    const phasor = {
      re: (re[at] as number) - (re[below] as number),
      im: (im[at] as number) - (im[below] as number),
    };
    return Number.isFinite(phasor.re) && Number.isFinite(phasor.im) ? phasor : undefined;
  });
}
