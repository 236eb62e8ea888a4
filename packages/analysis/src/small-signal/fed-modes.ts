import { type GrowingModes, growingModes } from './growing-modes.ts';
import { tubesThatFeed } from './mode-shape.ts';
import { isOfRole } from './signal-chain.ts';
import { type Tuning, tunedSystem } from './signal-system.ts';
import type { SmallSignal } from './small-signal.ts';

/** Growing modes with the tubes that feed them; those of an oscillator's stage are meant to be. */
export interface FedModes extends GrowingModes {
  /** Growing roots that are not meant; undefined where their number is not known. */
  readonly unmeant: number | undefined;
}

/**
 * The growing modes of a set between two frequencies in hertz, with the tubes that feed them.
 */
export function fedModes(set: SmallSignal, tuning: Tuning, low: number, high: number): FedModes {
  const found = growingModes(tunedSystem(set.system, tuning), low, high);
  let unmeant = found.count;
  const modes = found.modes.map((mode) => {
    const tubes = tubesThatFeed(set, tuning, mode);
    const isMeant =
      tubes.length > 0 &&
      tubes.every((name) => {
        const part = set.circuit.partNamed.get(name);
        return part !== undefined && isOfRole(set, part, 'oscillator');
      });
    if (isMeant && unmeant !== undefined) unmeant -= mode.frequency > 0 ? 2 : 1;
    return { ...mode, tubes };
  });
  return { ...found, modes, unmeant };
}
