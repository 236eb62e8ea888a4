import type { Grounds } from '../grounds.ts';
import { telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';

/** What a tube does, told once, on the first tube of the signal's way. */
export function tubeOnceStep(grounds: Grounds): TourStep | undefined {
  const first = grounds.places.find(({ part }) => part.kind === 'tube')?.part;
  if (grounds.level !== 'newcomer' || !first) return undefined;
  const tell = telling(grounds, 'tube', 'What a tube does');
  const isAlone = grounds.circuit.parts.filter(({ kind }) => kind === 'tube').length === 1;
  const hot = first.tubeType?.heated ? 'cathode' : 'filament';
  tell.say(
    `In ${first.name}${isAlone ? '' : ', as in every tube here'}, the hot ${hot} gives off electrons, the plate draws them, and the grid between the two governs how many come through.`,
  );
  const gm = tell.value(first.name, 'transconductance');
  const current = tell.value(first.name, 'plate-current');
  if (gm !== undefined && current !== undefined)
    tell.say(
      `At rest ${current} flow to its plate; its mutual conductance of ${gm} says how much a volt on the grid changes that.`,
    );
  tell.say(
    'A grid that stays negative takes no current, so that a weak signal can govern the power of the B supply.',
  );
  tell.parts(first.name);
  return tell.done(grounds.overlay(`plate ${first.name}`));
}
