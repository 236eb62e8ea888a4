import type { Place } from '@setwright/circuit';
import { isTitleDetail } from '../generated/ast.ts';
import type { Collected } from './collected.ts';
import { type Lowering, placeOfProperty, remark, replacing } from './context.ts';
import type { Said } from './said.ts';

/**
 * Tells of names that are given twice. Runs when everything is collected, so that the name that is
 * offered instead is free.
 */
export function tellDuplicates(cx: Lowering, all: Collected): void {
  const taken = new Set([...all.named.keys()]);
  for (const { said, earlier } of all.duplicates) {
    cx.unread.push(said.namePlace);
    twice(cx, said.name, 'parts', said.namePlace, earlier.namePlace, [said.name], taken);
  }
  const stages = new Map<string, Place>();
  for (const { name, namePlace } of all.stages) {
    const first = stages.get(name);
    if (first) twice(cx, name, 'stages', namePlace, first, [], new Set(stages.keys()));
    else stages.set(name, namePlace);
  }
  const shafts = new Map<string, Place>();
  for (const node of [...all.gangs, ...all.dials]) {
    const name = node.name ?? '';
    const place = placeOfProperty(cx, node, 'name');
    const first = shafts.get(name);
    if (first) twice(cx, name, 'gangs or dials', place, first, [], new Set(shafts.keys()));
    else shafts.set(name, place);
  }
}

function twice(
  cx: Lowering,
  name: string,
  what: string,
  place: Place,
  first: Place,
  parts: readonly string[],
  taken: Set<string>,
) {
  const free = freeName(name, taken);
  taken.add(free);
  const short = free.slice(free.lastIndexOf('.') + 1);
  remark(
    cx,
    'duplicate-name',
    'error',
    place,
    {
      message: `There are two ${what} called ${name}.`,
      why: 'What is said of one would be taken for the other.',
      cure: `Give one of them another name, such as ${short}.`,
    },
    {
      parts,
      related: [{ place: first, message: `the first ${name}` }],
      fixes: [replacing(`Change to ${short}`, place, short)],
    },
  );
}

/** The next number that no name has: C4 after C1 to C3. */
function freeName(name: string, taken: ReadonlySet<string>): string {
  const [, stem = name, number = '1'] = /^(.*?)([0-9]{0,6})$/.exec(name) ?? [];
  for (let next = Number(number || '1') + 1; ; next += 1)
    if (!taken.has(`${stem}${next}`)) return `${stem}${next}`;
}

/**
 * A post or bus that is said again is the same one: posts are often marked on the panel and again
 * on the base. What the second statement says is added to the first.
 */
export function saysAgain(earlier: Said, said: Said): boolean {
  if (earlier.kind !== said.kind || (said.kind !== 'post' && said.kind !== 'bus')) return false;
  earlier.details = [
    ...earlier.details,
    ...said.details.filter(({ detail }) => !isTitleDetail(detail)),
  ];
  return true;
}
