import { type Contact, endId, type Place } from '@setwright/circuit';
import { nearest } from '@setwright/units';
import { isSetDetail, isToDetail, type TapItem, type Target } from '../generated/ast.ts';
import { type Lowering, placeOf, placeOfProperty, remark, replacing } from './context.ts';
import { type Read, tapEnd } from './details.ts';
import { freeEnd, type Joining } from './joins.ts';
import { endOf, firstTwo, list, type Meaning } from './references.ts';
import type { Said } from './said.ts';

export interface Switching {
  readonly positions: readonly string[];
  readonly drawnAt: number;
  readonly contacts: readonly Contact[];
}

export const noSwitching: Switching = { positions: [], drawnAt: 0, contacts: [] };

type Mentioned = ReadonlyMap<Said, ReadonlySet<string>>;

/** The positions and contacts of a switch, selector or jack. */
export function switchingOf(
  joining: Joining,
  said: Said,
  read: Read,
  mentioned: Mentioned,
  plugs: ReadonlyMap<Said, readonly Said[]>,
): Switching {
  if (said.kind === 'switch') return switchContacts(joining, said, read, mentioned);
  if (said.kind === 'selector') return selectorContacts(joining, said, read, mentioned);
  if (said.kind === 'jack') return jackContacts(joining, said, mentioned, plugs);
  return noSwitching;
}

function extraContacts(
  joining: Joining,
  said: Said,
  mentioned: Mentioned,
  breaksAt: readonly number[],
  makesAt: readonly number[],
): Contact[] {
  const { cx } = joining.naming;
  return (joining.contacts.get(said) ?? []).flatMap(({ when, from, to, place }) => {
    const a = freeEnd(cx, from, place, mentioned);
    const b = freeEnd(cx, to, place, mentioned);
    if (a === undefined || b === undefined) return [];
    return [{ from: a, to: b, closedAt: when === 'breaks' ? breaksAt : makesAt, place }];
  });
}

function switchContacts(joining: Joining, said: Said, read: Read, mentioned: Mentioned): Switching {
  const contacts: Contact[] = [];
  // A switch of which only the extra poles are said has no main contact.
  if (said.spoken.size > 0 || (mentioned.get(said)?.size ?? 0) > 0 || !joining.contacts.has(said)) {
    contacts.push({
      from: endId(said, 'start'),
      to: endId(said, 'finish'),
      closedAt: [0],
      place: said.place,
    });
  }
  contacts.push(...extraContacts(joining, said, mentioned, [1], [0]));
  return {
    positions: ['closed', 'open'],
    drawnAt: read.words.has('open') ? 1 : 0,
    contacts,
  };
}

/** Whether every stud that a selector's line names is known; else the one it is set to may be lost. */
function studsAreKnown(said: Said, known: number): boolean {
  const named = said.details.flatMap(({ detail, inherited }) =>
    !inherited && isToDetail(detail) ? detail.targets : [],
  );
  return named.length === known && !said.unread;
}

function selectorContacts(
  joining: Joining,
  said: Said,
  read: Read,
  mentioned: Mentioned,
): Switching {
  const { cx } = joining.naming;
  const studs: { id: string; name: string; place: Place }[] = [];
  for (const { target, meaning } of joining.studs.get(said) ?? []) {
    const place = placeOf(cx, target);
    if (target.tapItems.length > 0) {
      for (const id of tapsNamed(cx, meaning, target)) {
        const name = id.slice(id.lastIndexOf('.') + 1);
        studs.push({ id, name, place });
      }
      continue;
    }
    const id = freeEnd(cx, meaning, place, mentioned);
    if (id !== undefined) studs.push({ id, name: target.ref, place });
    else cx.unread.push(place);
  }
  const positions = studs.map((stud) => stud.name);
  let drawnAt = 0;
  if (read.setTo !== undefined) {
    const setTo = read.setTo;
    const found = studs.findIndex(
      ({ id, name }) => name === setTo || id === setTo || id.endsWith(`.${setTo}`),
    );
    const number = Number(setTo);
    if (found >= 0) drawnAt = found;
    else if (Number.isInteger(number) && number >= 1 && number <= studs.length)
      drawnAt = number - 1;
    else if (studs.length > 0 && studsAreKnown(said, joining.studs.get(said)?.length ?? 0)) {
      const detail = said.details.map((other) => other.detail).find(isSetDetail);
      const property = detail?.word === undefined ? 'amount' : 'word';
      const place = detail ? placeOfProperty(cx, detail, property) : said.place;
      const names = [...new Set(positions.map(lastName))];
      remark(
        cx,
        'unknown-name',
        'error',
        place,
        {
          message: `${said.name} has no stud called "${setTo}".`,
          why: 'What is joined goes by where its arm stands.',
          cure: `It has ${list(names)}.`,
        },
        {
          parts: [said.name],
          fixes: nearest(setTo, names, 2).map((name) =>
            replacing(`Change to ${name}`, place, name),
          ),
        },
      );
    }
  }
  return {
    positions,
    drawnAt,
    contacts: studs.map((stud, index) => ({
      from: endId(said, 'arm'),
      to: stud.id,
      closedAt: [index],
      place: stud.place,
    })),
  };
}

/** The last name of a terminal; a tap's name may hold a dot before a figure, as `C-4.5` does. */
const lastName = (id: string) => id.slice(id.search(/[^.]+(\.[0-9][^.]*)?$/));

/** `L1.primary taps 1 to 9`: the terminals of those taps that the winding has. */
function tapsNamed(cx: Lowering, meaning: Meaning, target: Target): string[] {
  const ids: string[] = [];
  const tapOf = (name: string) => endOf(meaning.said, name);
  const missing = (item: TapItem, what: string) => {
    const place = placeOf(cx, item);
    cx.unread.push(place);
    const has = meaning.said.ends.filter((end) => end.startsWith('tap'));
    remark(
      cx,
      'unknown-name',
      'error',
      place,
      {
        message: `${meaning.said.name} has no ${what}.`,
        why: 'A stud of the selector goes to nothing.',
        cure: has.length
          ? `It has ${list(has.slice(0, 12))}.`
          : `Say the taps on the line of ${meaning.said.name}.`,
      },
      { parts: [meaning.said.name] },
    );
  };
  for (const item of target.tapItems) {
    const before = ids.length;
    if (item.low !== undefined && item.high !== undefined) {
      const low = Number(item.low);
      const high = Math.min(Number(item.high), low + 1000);
      for (let turn = low; turn <= high; turn += 1) {
        const end = tapOf(`tap${turn}`);
        if (end !== undefined) ids.push(endId(meaning.said, end));
      }
      if (ids.length === before) missing(item, `tap from ${item.low} to ${item.high}`);
      continue;
    }
    const name = tapEnd(item);
    const end = name === undefined ? undefined : tapOf(name);
    if (end !== undefined) ids.push(endId(meaning.said, end));
    else missing(item, `tap at ${item.at?.number ?? 'nothing'}`);
  }
  return ids;
}

function jackContacts(
  joining: Joining,
  said: Said,
  mentioned: Mentioned,
  plugs: ReadonlyMap<Said, readonly Said[]>,
): Switching {
  const plugged = plugs.get(said) ?? [];
  const names = plugged.length > 0 ? plugged.map((part) => part.name) : ['plugged'];
  const positions = ['empty', ...names];
  const makesAt = names.map((_, index) => index + 1);
  const tip = endId(said, 'tip');
  const sleeve = endId(said, 'sleeve');
  const contacts: Contact[] = [];
  const through = joining.through.get(said);
  const extra = joining.contacts.get(said);
  if (through) {
    // Its springs carry the current to whichever ends of the part are not wired elsewhere.
    const two = through.windings.length > 0 ? undefined : firstTwo(through);
    const free = (two ?? []).filter(
      (end) => !through.spoken.has(end) && !mentioned.get(through)?.has(end),
    );
    const toTip = free.find((end) => end === two?.[0]) ?? free[0];
    const toSleeve = free.find((end) => end !== toTip);
    if (toTip !== undefined)
      contacts.push({ from: tip, to: endId(through, toTip), closedAt: [0], place: said.place });
    if (toSleeve !== undefined)
      contacts.push({
        from: sleeve,
        to: endId(through, toSleeve),
        closedAt: [0],
        place: said.place,
      });
  } else if (!extra) contacts.push({ from: tip, to: sleeve, closedAt: [0], place: said.place });
  for (const [index, part] of plugged.entries()) {
    const two = firstTwo(part);
    if (!two) continue;
    contacts.push(
      { from: tip, to: endId(part, two[0]), closedAt: [index + 1], place: part.place },
      { from: sleeve, to: endId(part, two[1]), closedAt: [index + 1], place: part.place },
    );
  }
  // A plug of which nothing is said carries the current through whatever is on its cord.
  if (plugged.length === 0)
    contacts.push({ from: tip, to: sleeve, closedAt: [1], place: said.place });
  contacts.push(...extraContacts(joining, said, mentioned, [0], makesAt));
  const drawn = plugged.findIndex((part) => joining.into.get(part)?.[0] === said);
  return { positions, drawnAt: drawn + 1, contacts };
}
