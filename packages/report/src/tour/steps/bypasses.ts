import { bypassWords } from '../../response/signal-words.ts';
import { listed } from '../../text/words.ts';
import type { Grounds } from '../grounds.ts';
import { plainOverlay, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';

/** Bypasses that are told of. */
const MOST = 3;

/** What the radio current's way home is worth: what its loss does, with a fresh and a tired supply. */
export function bypassesStep(grounds: Grounds): TourStep | undefined {
  const { response, style } = grounds;
  const told = response.bypasses.slice(0, MOST);
  if (told.length === 0) return undefined;
  const tell = telling(grounds, 'bypasses', 'What a bypass is worth');
  const supplies = [...new Set(told.map(({ supply }) => supply.name))];
  const isOfCells = told.every(({ supply }) => supply.kind === 'battery');
  tell.say(
    `Radio current takes whatever way opposes it least; where none is offered it runs through ${listed(supplies)}, and what that costs goes with ${isOfCells ? 'the age of the cells' : 'what opposes it there'}.`,
  );
  for (const each of told) tell.quote(bypassWords(each, style));
  const lit = told.flatMap(({ condenser, tubes, supply }) => [
    ...(condenser ? [condenser.name] : []),
    ...tubes,
    supply.name,
  ]);
  tell.parts(...lit);
  return tell.done(plainOverlay('What a bypass is worth', lit));
}
