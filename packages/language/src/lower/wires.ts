import { type PartDraft, type Place, partKinds, type Value } from '@setwright/circuit';
import { nearest } from '@setwright/units';
import type { AstNode } from 'langium';
import { isAmountDetail, isTitleDetail, isToDetail, type Target } from '../generated/ast.ts';
import { readValue } from './amounts.ts';
import type { Collected } from './collected.ts';
import { inserting, type Lowering, placeOf, remark, replacing } from './context.ts';
import { toldInstead } from './facts.ts';
import { type Joining, onePoint } from './joins.ts';
import { lookUp, type Meaning, type Naming } from './references.ts';

const nothing = { values: {}, ranges: {}, taps: [], contacts: [], positions: [] } as const;

/** Reads the wires; those whose resistance counts become leads. */
export function readWires(naming: Naming, joining: Joining, all: Collected): PartDraft[] {
  const { cx } = naming;
  const leads: PartDraft[] = [];
  for (const { node, stage, unread } of all.wires) {
    // Of a line that cannot be read in full even the first end may be missing.
    const first: Target | undefined = node.first;
    const targets = [
      ...(first ? [first] : []),
      ...node.details.flatMap((d) => (isToDetail(d) ? d.targets : [])),
    ];
    const amount = node.details.find(isAmountDetail);
    const place = placeOf(cx, node);
    const stray = node.details.filter(
      (detail) => !isToDetail(detail) && !isAmountDetail(detail) && !isTitleDetail(detail),
    );
    if (stray[0]) strayOnWire(cx, stray, joining.isName);
    for (const target of targets) onePoint(cx, target);
    const meanings = targets.map((target) => ({ target, meaning: lookUp(naming, target, stage) }));
    if (targets.length < 2) {
      cx.unread.push(place);
      // A line that breaks off, or has words too many, has been told of already.
      if (unread || stray.length > 0) continue;
      remark(cx, 'dangling-end', 'error', place, {
        message: `This wire has one end only: ${targets[0]?.ref ?? ''}.`,
        why: 'It joins nothing.',
        cure: 'Say where it goes: wire X to Y.',
      });
      continue;
    }
    if (amount) {
      const what = 'The resistance of this wire';
      const value = readValue(cx, amount.amount?.low, 'resistance', what, { lowOhms: true });
      const name = leadName(targets, leads);
      leads.push(leadDraft(name, value, place, stage));
      const extra = targets[2];
      if (extra) {
        cx.unread.push(placeOf(cx, extra));
        remark(cx, 'unknown-word', 'error', placeOf(cx, extra), {
          message: 'A wire whose resistance counts has two ends; this is one more.',
          why: 'Which piece of it has the resistance is not said.',
          cure: 'Write a wire of its own for each piece.',
        });
      }
      for (const [index, { target, meaning }] of meanings.slice(0, 2).entries()) {
        if (!meaning) continue;
        const at = placeOf(cx, target);
        joining.loose.push({
          id: `${name}.${index === 0 ? 'start' : 'finish'}`,
          other: meaning,
          place: at,
          otherPlace: at,
          said: 'wire',
        });
      }
      continue;
    }
    // The chain is joined link by link; a name that means nothing is passed over.
    let before: { meaning: Meaning; place: Place } | undefined;
    for (const { target, meaning } of meanings) {
      if (!meaning) continue;
      const here = { meaning, place: placeOf(cx, target) };
      if (before) {
        joining.loose.push({
          id: before.meaning,
          idPlace: before.place,
          other: here.meaning,
          otherPlace: here.place,
          place,
          said: 'wire',
        });
      }
      before = here;
    }
  }
  return leads;
}

/**
 * A lead has no name of its own. It goes by its two ends, so that its name does not depend on the
 * order of the text: `lead A- to NEG`.
 */
function leadName(targets: readonly Target[], others: readonly PartDraft[]): string {
  const [one, other] = targets.map(({ ref }) => ref?.replaceAll('.', ' ') ?? '');
  const plain = `lead ${one} to ${other}`;
  const alike = others.filter(({ name }) => name === plain || name.startsWith(`${plain} (`)).length;
  return alike === 0 ? plain : `${plain} (${alike + 1})`;
}

/** What stands on a wire's line besides its ends: a name without its `to`, or words too many. */
function strayOnWire(cx: Lowering, stray: readonly AstNode[], isName: (word: string) => boolean) {
  const begin = placeOf(cx, stray[0]);
  const place = { ...begin, end: placeOf(cx, stray.at(-1)).end };
  const text = cx.text.slice(place.start, place.end);
  cx.unread.push(place);
  const first = text.split(/\s/)[0] ?? '';
  const missing = isName(first);
  const garbled = !missing && nearest(first, ['to'], 1).length > 0;
  if (garbled) toldInstead(cx, place.end);
  const word = { ...place, end: place.start + first.length };
  remark(
    cx,
    'unknown-word',
    'error',
    place,
    {
      message: missing
        ? `This wire does not say "to" before "${text}".`
        : `"${text}" says nothing of a wire, which only says what it joins.`,
      why: 'What should be joined here is joined to nothing.',
      cure: missing
        ? `Write to ${text}.`
        : garbled
          ? 'Did you mean "to"?'
          : 'Write wire X to Y to Z, and the rest on its own line.',
    },
    {
      fixes: missing
        ? [inserting(`Write to ${text}`, place, 'to ')]
        : garbled
          ? [replacing('Change to to', word, 'to')]
          : [],
    },
  );
}

function leadDraft(
  name: string,
  resistance: Value | undefined,
  place: Place,
  stage: string | undefined,
): PartDraft {
  return {
    ...nothing,
    name,
    kind: 'lead',
    title: undefined,
    owner: undefined,
    stage,
    place,
    namePlace: place,
    ends: partKinds.lead.ends,
    values: resistance ? { resistance } : {},
    words: new Set(),
    setting: undefined,
    drawnAt: 0,
    supplyTaps: [],
    winding: undefined,
    typeName: undefined,
    tubeType: undefined,
    sidesKnown: true,
    companions: [],
    unread: false,
  };
}
