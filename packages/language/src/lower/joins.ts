import { endId, type Join, type Place, partKinds } from '@setwright/circuit';
import {
  type ElectrodeStatement,
  isAcrossDetail,
  isCentreDetail,
  isCompanionDetail,
  isContactDetail,
  isElectrodeStatement,
  isEndDetail,
  isFromDetail,
  isTapDetail,
  isThroughDetail,
  isToDetail,
  isWordDetail,
  type Target,
} from '../generated/ast.ts';
import { inserting, type Lowering, placeOf, remark, replacing } from './context.ts';
import { tapEnd } from './details.ts';
import { endOf, firstTwo, lookUp, type Meaning, type Naming, namesOf } from './references.ts';
import { refuse } from './refuse.ts';
import type { AnyDetail, Said } from './said.ts';

/** A join of which one side may still be a part whose end is not named. */
export interface LooseJoin {
  /** One side: a terminal, or a name to be settled and where it is written. */
  readonly id: string | Meaning;
  readonly idPlace?: Place;
  readonly other: Meaning;
  readonly otherPlace: Place;
  /** Where the text says the join. */
  readonly place: Place;
  readonly said: string;
}

export interface Joining {
  readonly naming: Naming;
  readonly loose: LooseJoin[];
  readonly joins: Join[];
  /** What a jack or phones are for: who plugs into whom, who is switched through what. */
  readonly into: Map<Said, Said[]>;
  readonly through: Map<Said, Said>;
  readonly around: Map<Said, Said[]>;
  readonly contacts: Map<
    Said,
    { when: 'breaks' | 'makes'; from: Meaning; to: Meaning; place: Place }[]
  >;
  /** Whether a word is the name of a part or tap, or begins with one. */
  readonly isName: (word: string) => boolean;
  /** What the studs of a selector go to, in order. */
  readonly studs: Map<Said, { readonly target: Target; readonly meaning: Meaning }[]>;
}

export function joiningOf(naming: Naming): Joining {
  return {
    naming,
    isName: namesOf(naming.all),
    loose: [],
    joins: [],
    into: new Map(),
    through: new Map(),
    around: new Map(),
    contacts: new Map(),
    studs: new Map(),
  };
}

function ownEnd(joining: Joining, said: Said, end: string, target: Target, led: string) {
  said.spoken.add(end);
  onePoint(joining.naming.cx, target);
  const other = lookUp(joining.naming, target, said.stage);
  const place = placeOf(joining.naming.cx, target);
  if (other)
    joining.loose.push({ id: endId(said, end), other, otherPlace: place, place, said: led });
}

/** Says so where a join names several taps: only a selector goes to more than one. */
export function onePoint(cx: Lowering, target: Target | undefined) {
  const first = target?.tapItems[0];
  if (!target || !first) return;
  const place = { ...placeOf(cx, first), end: placeOf(cx, target).end };
  cx.unread.push(place);
  remark(cx, 'unknown-word', 'error', place, {
    message: `${target.ref} is followed by taps, and only a selector goes to several.`,
    why: 'Which of them is joined here is not said.',
    cure: `Name one terminal, such as ${target.ref}.tap4.`,
  });
}

/** Reads what a part's own line and block join it to. */
export function readJoins(joining: Joining, said: Said): void {
  const { cx } = joining.naming;
  const kind = partKinds[said.kind];
  const two = firstTwo(said);
  for (const { detail, inherited } of said.details) {
    if (inherited) continue;
    if (isFromDetail(detail)) {
      const end = said.kind === 'selector' ? 'arm' : two?.[0];
      if (!kind.details.includes('from') || end === undefined) refuse(cx, said, 'from', detail);
      else for (const target of detail.targets) ownEnd(joining, said, end, target, 'from');
    } else if (isToDetail(detail)) {
      if (said.kind === 'selector') {
        readStuds(joining, said, detail);
        continue;
      }
      const end = said.ends.length === 1 ? said.ends[0] : two?.[1];
      if (!kind.details.includes('to') || end === undefined || detail.amount)
        refuse(cx, said, 'to', detail);
      else for (const target of detail.targets) ownEnd(joining, said, end, target, 'to');
    } else if (isAcrossDetail(detail)) readAcross(joining, said, detail, two);
    else if (isEndDetail(detail)) {
      const end = detail.led === 'frame' ? undefined : endOf(said, detail.led);
      if (end === undefined || !kind.namedEnds.includes(detail.led))
        refuse(cx, said, detail.led, detail);
      else if (detail.target) ownEnd(joining, said, end, detail.target, detail.led);
    } else if (isTapDetail(detail)) {
      for (const item of detail.items) {
        if (!item.target || item.at === undefined) continue;
        const end = tapEnd(item);
        if (end !== undefined && said.ends.includes(end))
          ownEnd(joining, said, end, item.target, 'tap');
      }
    } else if (isCentreDetail(detail) && detail.target && said.ends.includes('centre')) {
      ownEnd(joining, said, 'centre', detail.target, 'centre');
    } else if (isThroughDetail(detail)) {
      const meaning = detail.target && lookUp(joining.naming, detail.target, said.stage);
      if (!kind.details.includes('through')) refuse(cx, said, 'through', detail);
      else if (meaning) joining.through.set(said, meaning.said);
    } else if (isCompanionDetail(detail)) readCompanions(joining, said, detail);
    else if (isContactDetail(detail)) {
      if (!kind.details.includes('contacts')) refuse(cx, said, detail.led, detail);
      else {
        const from = lookUp(joining.naming, detail.from, said.stage);
        const to = lookUp(joining.naming, detail.to, said.stage);
        if (from && to) {
          const entry = { when: detail.led, from, to, place: placeOf(cx, detail) };
          joining.contacts.set(said, [...(joining.contacts.get(said) ?? []), entry]);
        }
      }
    }
  }
  if (said.kind === 'tube') readElectrodes(joining, said);
}

/** The studs of a selector are contacts, not joins: only what they go to is read here. */
function readStuds(
  joining: Joining,
  said: Said,
  detail: Extract<AnyDetail, { $type: 'ToDetail' }>,
) {
  if (detail.amount) refuse(joining.naming.cx, said, 'to', detail);
  const studs = joining.studs.get(said) ?? [];
  for (const target of detail.targets) {
    const meaning = lookUp(joining.naming, target, said.stage);
    if (meaning) studs.push({ target, meaning });
  }
  joining.studs.set(said, studs);
}

function readAcross(
  joining: Joining,
  said: Said,
  detail: Extract<AnyDetail, { $type: 'AcrossDetail' }>,
  two: readonly [string, string] | undefined,
) {
  const { cx } = joining.naming;
  if (!partKinds[said.kind].details.includes('across') || !two || !detail.target) {
    refuse(cx, said, 'across', detail);
    return;
  }
  const place = placeOf(cx, detail.target);
  const other = lookUp(joining.naming, detail.target, said.stage);
  for (const end of two) said.spoken.add(end);
  if (!other) return;
  const span = other.kind === 'end' || other.said === said ? undefined : firstTwoOf(other.said);
  if (!span) {
    cx.unread.push(place);
    remark(
      cx,
      'which-end',
      'error',
      place,
      {
        message: `${said.name} cannot lie across ${detail.target.ref}, which is ${
          other.said === said ? 'itself' : other.kind === 'end' ? 'one point' : 'more than one part'
        }.`,
        why: 'Where its two ends go is not said.',
        cure: 'Name a part with two ends after across, or say from … to ….',
      },
      { parts: [said.name] },
    );
    return;
  }
  for (const index of [0, 1] as const) {
    joining.joins.push({
      from: endId(said, two[index]),
      to: endId(other.said, span[index]),
      place,
      said: 'across',
    });
  }
}

function firstTwoOf(said: Said): readonly [string, string] | undefined {
  if (said.kind === 'battery' || said.kind === 'eliminator') {
    const first = said.ends[0];
    const last = said.ends.at(-1);
    return first !== undefined && last !== undefined && said.ends.length >= 2
      ? [first, last]
      : undefined;
  }
  return said.windings.length > 0 ? undefined : firstTwo(said);
}

function readCompanions(
  joining: Joining,
  said: Said,
  detail: Extract<AnyDetail, { $type: 'CompanionDetail' }>,
) {
  const { cx } = joining.naming;
  const kind = partKinds[said.kind];
  const led = detail.led;
  if (led === 'drives' || !kind.details.includes(led)) {
    refuse(cx, said, led, detail);
    return;
  }
  const others: Said[] = [];
  for (const target of detail.targets) {
    const meaning = lookUp(joining.naming, target, said.stage);
    if (!meaning) continue;
    if (led === 'into' && meaning.said.kind !== 'jack') {
      remark(
        cx,
        'unknown-name',
        'error',
        placeOf(cx, target),
        {
          message: `${said.name} plugs into ${meaning.said.name}, which is no jack.`,
          why: 'Only a jack takes a plug.',
          cure: 'Name a jack after into, or say from … to ….',
        },
        { parts: [said.name, meaning.said.name] },
      );
    } else others.push(meaning.said);
  }
  if (led === 'into') {
    for (const end of said.ends) said.spoken.add(end);
    joining.into.set(said, others);
  } else joining.around.set(said, others);
}

const electrodeEnds: Readonly<Record<string, string>> = {
  plate: 'plate',
  grid: 'grid',
  screen: 'screen',
  cathode: 'cathode',
};

function readElectrodes(joining: Joining, said: Said) {
  const { cx } = joining.naming;
  for (const inner of said.children) {
    if (!isElectrodeStatement(inner)) continue;
    for (const detail of inner.details) {
      if (isFromDetail(detail) || isToDetail(detail)) {
        const whole = inner.keyword === 'filament' || inner.keyword === 'heater';
        const end = whole
          ? isFromDetail(detail)
            ? 'filament-'
            : 'filament+'
          : electrodeEnds[inner.keyword];
        if (end === undefined || (isToDetail(detail) && detail.amount))
          refuse(cx, said, detail.led, detail);
        else for (const target of detail.targets) ownEnd(joining, said, end, target, inner.keyword);
      } else if (isAcrossDetail(detail) && inner.keyword === 'filament') {
        readAcross(joining, said, detail, ['filament-', 'filament+']);
      } else electrodeUnsaid(joining, said, inner, detail);
    }
    if (missing(said, inner.keyword)) noElectrode(cx, said, inner);
  }
}

/** Whether a line speaks of an electrode that a tube of this known type has not. */
function missing(said: Said, electrode: string): boolean {
  const type = said.tubeType;
  if (!type) return false;
  return (electrode === 'screen' && !type.screen) || (electrode === 'cathode' && !type.heated);
}

function noElectrode(cx: Lowering, said: Said, inner: ElectrodeStatement) {
  const type = said.tubeType?.name ?? '';
  remark(
    cx,
    'unknown-name',
    'error',
    placeOf(cx, inner),
    {
      message: `${said.name} has no ${inner.keyword}: the ${type} has none.`,
      why: 'What should be joined here is joined to nothing.',
      cure:
        inner.keyword === 'cathode'
          ? `Join its filament instead, or correct the type of ${said.name}.`
          : `Take the line out, or correct the type of ${said.name}.`,
    },
    { parts: [said.name] },
  );
}

/** A word on an electrode's line that does not say where the electrode goes. */
function electrodeUnsaid(
  joining: Joining,
  said: Said,
  inner: ElectrodeStatement,
  detail: AnyDetail,
) {
  const { cx } = joining.naming;
  const place = placeOf(cx, detail);
  cx.unread.push(place);
  const isFilament = inner.keyword === 'filament' || inner.keyword === 'heater';
  const lead = isFilament && !inner.details.some(isFromDetail) ? 'from' : 'to';
  const text = cx.text.slice(place.start, place.end);
  const isName = isWordDetail(detail) && joining.isName(detail.words[0] ?? '');
  remark(
    cx,
    'unknown-word',
    'error',
    place,
    {
      message: `"${text}" does not say where the ${inner.keyword} of ${said.name} goes.`,
      why: 'What is not understood is never passed over in silence.',
      cure: isFilament
        ? 'Write from the negative side to the positive side: filament from RH1 to A+.'
        : `Write ${inner.keyword} to the terminal it goes to.`,
    },
    {
      parts: [said.name],
      fixes: isName ? [inserting(`Write ${lead} ${text}`, place, `${lead} `)] : [],
    },
  );
}

/**
 * Gives every join that names a part, but not which of its ends, the end that is free: the one
 * that neither the part's own line nor any other line speaks of by name.
 */
export function settleLoose(joining: Joining): void {
  const { cx, mentions } = joining.naming;
  const mentionedEnds = new Map<Said, Set<string>>();
  for (const { meaning } of mentions) {
    if (meaning.kind !== 'end') continue;
    const set = mentionedEnds.get(meaning.said) ?? new Set();
    set.add(meaning.end);
    mentionedEnds.set(meaning.said, set);
  }
  for (const { id, idPlace, other, otherPlace, place, said } of joining.loose) {
    const from = typeof id === 'string' ? id : freeEnd(cx, id, idPlace ?? place, mentionedEnds);
    const to = freeEnd(cx, other, otherPlace, mentionedEnds);
    if (from !== undefined && to !== undefined) joining.joins.push({ from, to, place, said });
    else cx.unread.push(place);
  }
}

/** The terminal that a reference means; says so when it cannot be told. */
export function freeEnd(
  cx: Lowering,
  meaning: Meaning,
  place: Place,
  mentionedEnds: ReadonlyMap<Said, ReadonlySet<string>>,
): string | undefined {
  if (meaning.kind === 'end') return meaning.id;
  const { said } = meaning;
  if (meaning.kind === 'filament') return endId(said, 'filament-');
  const two = said.windings.length > 0 || said.kind === 'tube' ? undefined : firstTwo(said);
  if (two) {
    const ownFree = two.filter((end) => !said.spoken.has(end));
    if (ownFree.length === 1 && ownFree[0] !== undefined) return endId(said, ownFree[0]);
    if (ownFree.length === 2) {
      const elsewhere = mentionedEnds.get(said);
      const free = two.filter((end) => !elsewhere?.has(end));
      if (free.length === 1 && free[0] !== undefined) return endId(said, free[0]);
    }
  }
  // Its own line, which would say, cannot be read; that has been told of.
  if (said.unread) return undefined;
  const written = cx.text.slice(place.start, place.end);
  const ends = [
    ...said.ends.map((end) => endId(said, end)),
    ...said.windings.flatMap((winding) => winding.ends.map((end) => endId(winding, end))),
  ];
  remark(
    cx,
    'which-end',
    'error',
    place,
    {
      message: two
        ? said.spoken.size >= 2
          ? `Both ends of ${said.name} are spoken for; which one is meant here?`
          : `Which end of ${said.name} is meant here?`
        : `${said.name} has ${ends.length} ends; which one is meant here?`,
      why: 'A name alone means the free end of a part with two ends, where only one is free.',
      cure: ends.length
        ? `Write ${ends.slice(0, 6).join(' or ')}.`
        : 'Say its ends on its own line.',
    },
    {
      parts: [said.name],
      fixes: ends.slice(0, 6).map((end) => replacing(`Change ${written} to ${end}`, place, end)),
    },
  );
  return undefined;
}
