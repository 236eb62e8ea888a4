import type { Circuit } from '@setwright/circuit';
import { open, remove } from './breaking.ts';
import { join, leaky, short } from './bridging.ts';
import type { Edit, Verb } from './edit.ts';
import { reverse, swap } from './turning.ts';
import { shortTurns } from './turns-shorted.ts';
import { change, plug, set } from './values.ts';
import { damped, gas, weak } from './wearing.ts';
import { putTogether, type SetStanding, type Workbench, workbenchOf } from './workbench.ts';

/** A set as it is with some faults in it. */
export interface Edited extends SetStanding {
  /** What could not be done, and why; empty where all was. */
  readonly refused: readonly string[];
}

/**
 * A set with edits done to it, one after another; the set itself is left alone. What cannot be
 * done is told and left out. Junctions keep their places: new ones come behind them. A part that
 * was there keeps its name, and every terminal its own. Never throws.
 */
export function edited(standing: SetStanding, edits: readonly Edit[]): Edited {
  const bench = workbenchOf(standing);
  for (const edit of edits) doings[edit.verb](bench, edit);
  return { ...putTogether(bench), refused: bench.refused };
}

const doings: Readonly<Record<Verb, (bench: Workbench, edit: Edit) => void>> = {
  open: (bench, { target }) => open(bench, target),
  remove: (bench, { target }) => remove(bench, target),
  short: (bench, { target }) => short(bench, target),
  leaky: (bench, { target, amount }) => leaky(bench, target, amount),
  join: (bench, { target, other, amount }) => join(bench, target, other ?? '', amount),
  weak: (bench, { target, amount }) => weak(bench, target, amount),
  gas: (bench, { target, amount }) => gas(bench, target, amount),
  change: (bench, { target, amount }) => change(bench, target, amount),
  set: (bench, { target, amount, words }) => set(bench, target, amount, words ?? []),
  reverse: (bench, { target }) => reverse(bench, target),
  swap: (bench, { target, other }) => swap(bench, target, other),
  'turns shorted': (bench, { target, amount }) => shortTurns(bench, target, amount),
  damped: (bench, { target, amount }) =>
    damped(bench, target, amount, middleOf(bench.before.circuit)),
  plug: (bench, { target, other }) => plug(bench, target, other),
  // While they hold off every number is that of the sound set.
  intermittent: () => {},
  microphonic: () => {},
};

/** Hertz of a set of which nothing is said. */
const USUAL_MIDDLE = 1e6;

/** The middle of the band that a set tunes, by ratio. */
function middleOf({ tunes }: Circuit): number {
  const middle = tunes && Math.sqrt(tunes.low.value * tunes.high.value);
  return middle !== undefined && middle > 0 && Number.isFinite(middle) ? middle : USUAL_MIDDLE;
}
