import { type Draft, lineOf, newDraft, textOf } from './random/draft.ts';
import { putSet, putSpareParts } from './random/sets.ts';
import { leaveUnfinished, miswire, trace } from './random/spoil.ts';
import { putAnything } from './random/wild.ts';

/**
 * What a receiver put together by chance is like: `sane` is a whole set that makes electrical
 * sense; `unfinished` is one with parts missing and ends in the air, which still reads without an
 * error; `wild` is a set wired wrongly or parts joined anyhow, of which nothing may be expected.
 */
export type RandomMode = 'sane' | 'unfinished' | 'wild';

/**
 * The text of a receiver by chance: the same for the same seed and mode. Tests that use it print
 * the seed of what fails.
 */
export function randomReceiver(seed: number, options: { readonly mode?: RandomMode } = {}): string {
  const { mode = 'sane' } = options;
  const draft: Draft = newDraft(seed);
  const { chance } = draft;
  if (mode === 'wild' && chance.percent(50)) putAnything(draft);
  else {
    putSet(draft);
    if (mode === 'wild') miswire(draft);
    else putSpareParts(draft);
    if (mode === 'unfinished' || (mode === 'wild' && chance.percent(40))) leaveUnfinished(draft);
    if (chance.percent(15)) trace(draft.lines);
  }
  const title = `"Lantern Cove by chance, ${mode} ${seed}"`;
  const facts = chance.percent(50) ? [lineOf('year 1926'), lineOf('tunes 550 kc to 1500 kc')] : [];
  return `receiver ${title} {\n${textOf([...facts, ...draft.lines])}}\n`;
}
