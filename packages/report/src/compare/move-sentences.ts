import type { Differences, Moved } from '@setwright/compare';
import { listed } from '../text/words.ts';
import { atBeginning, type Names } from './names.ts';
import type { Sentence } from './sentence.ts';

/** More ends than this are told of by number. */
const MOST_NAMED = 6;

/** How ends came to be joined otherwise, both ends of one part in one sentence. */
export function moveSentences({ moved }: Differences, names: Names): Sentence[] {
  const single = new Map<string, Moved[]>();
  const groups: Moved[] = [];
  for (const move of moved) {
    const [end, second] = move.ends;
    const part = end === undefined ? undefined : names.ownerOf(end)?.id;
    if (second !== undefined || part === undefined) groups.push(move);
    else single.set(part, [...(single.get(part) ?? []), move]);
  }
  return [
    ...[...single].flatMap(([part, moves]) => ofOnePart(part, moves, names)),
    ...groups.map((move) => ofGroup(move, names)),
  ];
}

function ofOnePart(part: string, moves: readonly Moved[], names: Names): Sentence[] {
  const of = (name: string) => moves.find(({ ends: [end] }) => end === `${part}.${name}`);
  const [start, finish] = [of('start'), of('finish')];
  const kind = names.ownerOf(moves[0]?.ends[0] ?? '')?.kind;
  const supply = kind === 'battery' || kind === 'eliminator';
  const told = (text: string, brief = '', ends: readonly string[] = []): Sentence => ({
    kind: 'moved',
    text,
    brief,
    before: [],
    after: supply ? [...ends] : [part],
  });
  const [one, other] = moves;
  if (one && other && moves.length === 2 && isTurned(one, other))
    return [
      told(
        `${names.titled(part)} is turned round: ${names.end(one.ends[0] ?? '')} is at ${place(one.to, names)} now and ${names.end(other.ends[0] ?? '')} at ${place(other.to, names)}.`,
        'turned round',
      ),
    ];
  if (!start || !finish || moves.length > 2)
    return moves.map((move) => told(oneMoved(move, names), briefOf(move, names), move.ends));
  if (start.to === undefined && finish.to === undefined)
    return [
      told(
        `${names.titled(part)} is joined to nothing now; it went from ${place(start.from, names)} to ${place(finish.from, names)}.`,
      ),
    ];
  return [
    told(
      `${names.titled(part)} goes from ${place(start.to, names)} to ${place(finish.to, names)} now; it went from ${place(start.from, names)} to ${place(finish.from, names)}.`,
      `was from ${place(start.from, names)} to ${place(finish.from, names)}`,
    ),
  ];
}

/** Whether two ends have exchanged their places. */
function isTurned(one: Moved, other: Moved): boolean {
  return one.from === other.to && other.from === one.to && one.to !== undefined;
}

/** Words for a drawing, which shows where the end is: where it was. */
function briefOf({ ends: [end = ''], from }: Moved, names: Names): string {
  const own = end.slice(end.lastIndexOf('.') + 1);
  return from === undefined ? '' : `${own} was at ${names.terminal(from)}`;
}

const place = (terminal: string | undefined, names: Names): string =>
  terminal === undefined ? 'nothing' : names.terminal(terminal);

function oneMoved({ ends, from, to }: Moved, names: Names): string {
  const end = atBeginning(names.end(ends[0] ?? ''));
  if (from === undefined && to === undefined) return `${end} is joined otherwise.`;
  if (from === undefined)
    return `${end}, joined to nothing before, goes to ${place(to, names)} now.`;
  if (to === undefined)
    return `${end} was taken off ${place(from, names)} and goes to nothing now.`;
  return `${end} went from ${place(from, names)} to ${place(to, names)}.`;
}

function ofGroup({ ends, from, to }: Moved, names: Names): Sentence {
  const shown = ends.slice(0, MOST_NAMED).map((end) => names.terminal(end));
  const more = ends.length - shown.length;
  const all = atBeginning(listed(more > 0 ? [...shown, `${more} more`] : shown));
  const text =
    from === undefined
      ? `${all} are joined to ${place(to, names)} now.`
      : to === undefined
        ? `${all} are no longer joined to ${place(from, names)}; among themselves they still are.`
        : `${all} went together from ${place(from, names)} to ${place(to, names)}.`;
  const parts = new Set(ends.flatMap((end) => names.ownerOf(end)?.id ?? []));
  // Of a whole line of the set nothing is marked but what it is called by.
  return { kind: 'moved', text, brief: '', before: [], after: ends.length <= 3 ? [...parts] : [] };
}
