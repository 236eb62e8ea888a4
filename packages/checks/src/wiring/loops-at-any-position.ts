import type { Branch, Settings } from '@setwright/circuit';
import type { Study } from '../study.ts';
import { withEveryContactClosed } from './every-contact.ts';
import { type SourceLoop, sourceLoops } from './source-loops.ts';

/** A closed way through supplies, and a position of the controls at which it is there. */
export interface LoopSomewhere {
  readonly loop: SourceLoop;
  readonly settings: Settings;
}

/**
 * The closed ways through supplies at any position of switches, selectors and jacks: a short does
 * its harm the moment a switch is turned to it. As drawn where it is there as drawn; one for each
 * set of supplies that it runs through, that which drives most.
 *
 * @param isFault which of them count.
 */
export function loopsAtAnyPosition(
  study: Study,
  ohmsOf: (branch: Branch) => number | undefined,
  most: number,
  isFault: (loop: SourceLoop) => boolean,
): readonly LoopSomewhere[] {
  const possible = sourceLoops(withEveryContactClosed(study.conduction), ohmsOf, most);
  if (possible.length === 0) return [];
  const found = new Map<string, LoopSomewhere>();
  for (const { settings, conduction } of study.everyPosition) {
    for (const loop of sourceLoops(conduction, ohmsOf, most)) {
      if (!isFault(loop)) continue;
      const key = [loop.supply, ...loop.others]
        .map(({ name }) => name)
        .sort()
        .join(' ');
      const before = found.get(key);
      if (before && (before.settings !== settings || drives(before.loop) >= drives(loop))) continue;
      found.set(key, { loop, settings });
    }
  }
  return [...found.values()];
}

/** Volts that drive current round a closed way. */
export function drives({ volts, othersVolts }: SourceLoop): number {
  return Math.abs(volts - othersVolts);
}
