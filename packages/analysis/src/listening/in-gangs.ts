import type { TunedSet } from '../small-signal/aligned-at.ts';
import type { Tuning } from '../small-signal/signal-system.ts';
import type { SmallSignal } from '../small-signal/small-signal.ts';
import type { Listening } from './listening.ts';
import { radioOf } from './radio-heard.ts';

/** Farads by which the members of a gang may want to stand apart without anyone minding. */
const TOGETHER = 0.2e-12;

/**
 * A tuning that one knob for each gang can give: its members move from where they stood in the
 * sound set, whose trimmers were right, all by as much, and by what one of them wants; of such
 * moves the one that lets most through.
 *
 * @param wanted every condenser as it would be in tune by itself
 */
export function inGangs(
  set: SmallSignal,
  listening: Listening,
  present: TunedSet,
  wanted: Tuning,
): Tuning {
  let tuning = wanted;
  for (const { members } of listening.circuit.gangs) {
    const ganged = members.flatMap((name) => {
      const [now, before] = [wanted.get(name), listening.tuning.get(name)];
      return now === undefined || before === undefined || !present.condensers.includes(name)
        ? []
        : [{ name, before, move: now - before }];
    });
    const moves = ganged.map(({ move }) => move);
    if (Math.max(...moves) - Math.min(...moves) < TOGETHER) continue;
    let most = Number.NEGATIVE_INFINITY;
    const apart = tuning;
    for (const move of moves) {
      const trial = new Map([
        ...apart,
        ...ganged.map(({ name, before }) => [name, Math.max(0, before + move)] as const),
      ]);
      const volts = radioOf(set, listening, trial, present).volts ?? 0;
      if (volts > most) [most, tuning] = [volts, trial];
    }
  }
  return tuning;
}
