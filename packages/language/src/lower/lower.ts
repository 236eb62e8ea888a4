import {
  assemble,
  type Circuit,
  type Dial,
  endId,
  type Gang,
  type PartDraft,
  type Place,
  partKinds,
  type Range,
  type Stage,
  type SupplyTap,
  type TubeType,
  type Value,
  type Waiver,
} from '@setwright/circuit';
import { nearest, parseNumber } from '@setwright/units';
import type { AstNode } from 'langium';
import {
  type Amount,
  type FactStatement,
  isAmountDetail,
  isByDetail,
  isCompanionDetail,
  isElectrodeStatement,
  isEndDetail,
  isFactStatement,
  isFlagDetail,
  isLieDetail,
  isPartStatement,
  isSizeDetail,
  isTargetStatement,
  isTitleDetail,
  isToDetail,
  isWithDetail,
  isWordDetail,
  type PartStatement,
  type ReceiverStatement,
  type TargetStatement,
} from '../generated/ast.ts';
import { readRangeValues, readValue, splitUnit } from './amounts.ts';
import { benchesAndSupposes } from './bench.ts';
import { collect } from './collect.ts';
import type { Collected, SaidStage } from './collected.ts';
import { noSwitching, switchingOf } from './contacts.ts';
import {
  headPlace,
  inserting,
  type Lowering,
  muted,
  placeOf,
  placeOfProperty,
  remark,
  replacing,
  unquoted,
} from './context.ts';
import { type Read, readDetails } from './details.ts';
import { type Joining, joiningOf, onePoint, readJoins, settleLoose } from './joins.ts';
import {
  list,
  lookUp,
  type Meaning,
  type Mention,
  type Naming,
  nameUp,
  namingOf,
} from './references.ts';
import type { Said } from './said.ts';

export interface LoweredReceiver {
  readonly circuit: Circuit;
  /** Every name in the text that stands for a part or terminal, and what it means. */
  readonly mentions: readonly Mention[];
}

/** Lowers one receiver's block to its circuit. Never throws; what is wrong becomes remarks. */
export function lowerReceiver(
  cx: Lowering,
  node: ReceiverStatement,
  types: ReadonlyMap<string, TubeType>,
  partly: ReadonlySet<number>,
): LoweredReceiver {
  const all = collect(cx, node.statements ?? [], types, partly);
  const reads = new Map<Said, Read>();
  const isName = namesOf(all);
  for (const said of all.parts) {
    shapeEnds(said);
    const read = readDetails(cx, said, isName);
    for (const tap of read.taps) if (!said.ends.includes(tap.end)) said.ends.push(tap.end);
    reads.set(said, read);
  }
  const naming = namingOf(cx, all);
  for (const [said, { links }] of reads)
    for (const link of said.like ? [said.like, ...links] : links)
      naming.mentions.push({ place: link.place, meaning: { kind: 'part', said: link.said } });
  const joining = joiningOf(naming);
  joinPostsToTaps(naming, joining);
  for (const said of all.parts) readJoins(joining, said);
  const leads = readWires(naming, joining, all);
  const gangs = readGangs(naming, joining, all);
  insulateShafts(gangs, reads);
  settleLoose(joining);
  const mentioned = mentionedEnds(naming);
  const named = sidesNamed(naming);
  const plugs = new Map<Said, Said[]>();
  for (const [part, jacks] of joining.into)
    for (const jack of jacks) plugs.set(jack, [...(plugs.get(jack) ?? []), part]);
  const parts: PartDraft[] = all.parts.map((said) => {
    const read = reads.get(said) as Read;
    const switching = switchingOf(joining, said, read, mentioned, plugs);
    const way = switching === noSwitching ? undefined : switching;
    return draftOf(naming, said, read, joining, way, named);
  });
  const facts = readFacts(cx, all);
  const { benches, supposes } = benchesAndSupposes(naming, all);
  const circuit = assemble({
    title: unquoted(node.title) ?? '',
    place: headPlace(cx, node),
    namePlace: placeOfProperty(cx, node, 'title'),
    ...facts,
    parts: [...parts, ...leads],
    joins: joining.joins,
    stages: all.stages.map(stageOf),
    gangs: gangs.map(({ name, members, place }) => ({ name, members, place })),
    dials: readDials(naming, all, gangs),
    waivers: readWaivers(all, cx),
    benches,
    supposes,
    remarks: cx.remarks,
    unread: cx.unread,
  });
  return { circuit, mentions: naming.mentions };
}

/** An insulated shaft insulates every condenser on it. */
function insulateShafts(gangs: readonly (Gang & Shaft)[], reads: ReadonlyMap<Said, Read>) {
  const shafts = new Set(gangs.flatMap((gang) => (gang.insulated ? gang.members : [])));
  for (const [said, read] of reads) if (shafts.has(said.name)) read.words.add('insulated');
}

/** Whether a word is the name of a part or tap, or begins with one. */
function namesOf(all: Collected): (word: string) => boolean {
  const taps = new Set<string>();
  for (const said of all.parts)
    if (said.kind === 'battery' || said.kind === 'eliminator')
      for (const tap of said.ends) taps.add(tap);
  return (word) => {
    const plain = word.replace(/\u2212/g, '-');
    return taps.has(plain) || all.named.has(plain) || all.named.has(plain.split('.')[0] ?? '');
  };
}

/** A tap is also the set's post of its name: where a post or bus is said as well, they are one. */
function joinPostsToTaps(naming: Naming, joining: Joining) {
  for (const said of naming.all.parts) {
    if (said.kind !== 'post' && said.kind !== 'bus') continue;
    const homes = naming.tapHomes.get(said.name) ?? [];
    const home =
      homes.find(({ stage }) => stage === said.stage) ??
      (homes.length === 1 ? homes[0] : undefined);
    if (!home) continue;
    joining.joins.push({
      from: said.name,
      to: endId(home, said.name),
      place: said.namePlace,
      said: 'tap',
    });
  }
}

/** Ends that depend on what the line and block say: electrodes, rotor and stator, polarity. */
function shapeEnds(said: Said) {
  if (said.kind === 'tube') {
    const has = (end: string) => said.ends.includes(end);
    const says = (word: string) =>
      said.children.some((inner) => isElectrodeStatement(inner) && inner.keyword === word);
    if ((said.tubeType?.screen || says('screen')) && !has('screen')) said.ends.push('screen');
    if ((said.tubeType?.heated || says('cathode')) && !has('cathode')) said.ends.push('cathode');
    return;
  }
  if (said.kind !== 'condenser') return;
  const flags = new Set(
    said.details.flatMap(({ detail }) => (isFlagDetail(detail) ? [detail.word] : [])),
  );
  const named = new Set(
    said.details.flatMap(({ detail }) => (isEndDetail(detail) ? [detail.led] : [])),
  );
  if (flags.has('variable') || named.has('rotor') || named.has('stator'))
    said.ends = ['rotor', 'stator'];
  else if (flags.has('electrolytic') || named.has('positive') || named.has('negative'))
    said.ends = ['positive', 'negative'];
}

function mentionedEnds(naming: Naming): Map<Said, Set<string>> {
  const found = new Map<Said, Set<string>>();
  for (const { meaning } of naming.mentions) {
    if (meaning.kind !== 'end') continue;
    const set = found.get(meaning.said) ?? new Set();
    set.add(meaning.end);
    found.set(meaning.said, set);
  }
  return found;
}

/** Ends that tell one side of a part from the other, and how a joint at them is written. */
const sideWords = ['rotor', 'stator', 'positive', 'negative', 'mineral', 'whisker'];

/** Names of parts of which some line names an end by its side, as `wire GND to C1.rotor` does. */
function sidesNamed(naming: Naming): Set<Said> {
  const found = new Set<Said>();
  for (const { place, meaning } of naming.mentions) {
    const word = naming.cx.text.slice(place.start, place.end).split('.').at(-1) ?? '';
    if (sideWords.includes(word)) found.add(meaning.said);
  }
  return found;
}

/**
 * Whether the text says which end of a part is which: rotor and stator of a condenser, the
 * positive side of an electrolytic one or of a loudspeaker. A part whose ends are alike knows them.
 */
function sidesKnown(said: Said, named: ReadonlySet<Said>): boolean {
  if (!['condenser', 'phones', 'horn', 'speaker', 'crystal'].includes(said.kind)) return true;
  if (named.has(said)) return true;
  return said.details.some(({ detail }) => isEndDetail(detail) && sideWords.includes(detail.led));
}

const nothing = { values: {}, ranges: {}, taps: [], contacts: [], positions: [] } as const;

function draftOf(
  naming: Naming,
  said: Said,
  read: Read,
  joining: Joining,
  switching:
    | { positions: readonly string[]; drawnAt: number; contacts: PartDraft['contacts'] }
    | undefined,
  named: ReadonlySet<Said>,
): PartDraft {
  const { cx } = naming;
  const values = { ...read.values };
  const ranges = { ...read.ranges };
  const words = new Set(read.words);
  let supplyTaps: readonly SupplyTap[] = [];
  if (said.kind === 'battery' || said.kind === 'eliminator')
    supplyTaps = readSupply(naming, said, values, words);
  let winding = read.winding;
  if (winding && said.owner) {
    const form = formOf(cx, said.owner);
    if (!winding.form && form) winding = { ...winding, form };
  }
  if (said.kind === 'coil' || said.kind === 'transformer') readCoilFacts(naming, said, values);
  return {
    name: said.name,
    kind: said.kind,
    title: said.title,
    owner: said.owner?.name,
    stage: said.stage,
    place: said.place,
    namePlace: said.namePlace,
    ends: said.ends,
    values,
    ranges,
    words,
    setting: read.setting,
    positions: switching?.positions ?? [],
    drawnAt: switching?.drawnAt ?? 0,
    contacts: switching?.contacts ?? [],
    taps: read.taps,
    supplyTaps,
    winding,
    typeName: said.typeName,
    tubeType: said.tubeType,
    sidesKnown: sidesKnown(said, named),
    companions: [
      ...(joining.around.get(said) ?? []),
      ...(joining.into.get(said) ?? []),
      ...(joining.through.has(said) ? [joining.through.get(said) as Said] : []),
    ].map((other) => other.name),
    unread: said.unread,
  };
}

function formOf(cx: Lowering, coil: Said): Value | undefined {
  for (const inner of coil.children) {
    if (!isFactStatement(inner) || inner.keyword !== 'form') continue;
    const amount = inner.details.find(isAmountDetail);
    return readValue(muted(cx), amount?.amount?.low, 'length', coil.name);
  }
  return undefined;
}

function readCoilFacts(naming: Naming, said: Said, values: Record<string, Value>) {
  const { cx } = naming;
  for (const inner of said.children) {
    if (isFactStatement(inner)) {
      const isTuned = inner.keyword === 'tuned';
      if (!isTuned && inner.keyword !== 'form') continue;
      for (const detail of inner.details) {
        if (isAmountDetail(detail) && !detail.amount?.high) {
          const dimension = isTuned ? 'frequency' : 'length';
          const what = isTuned ? `What ${said.name} is tuned to` : `The form of ${said.name}`;
          const value = readValue(cx, detail.amount?.low, dimension, what);
          if (value) values[isTuned ? 'tuned' : 'form'] = value;
        } else if (isByDetail(detail) && !isTuned) {
          const value = readValue(cx, detail.amount, 'length', `The form of ${said.name}`);
          if (value) values.formLength = value;
        } else {
          leftOver(cx, detail, `the ${inner.keyword} of ${said.name}`, [
            isTuned ? 'tuned 45 kc' : 'form 2 3/4 in by 4 in',
          ]);
        }
      }
      needsAmount(cx, inner, isTuned ? 'tuned 45 kc' : 'form 2 3/4 in');
    } else if (isTargetStatement(inner) && inner.keyword === 'coupling') {
      readCoupling(naming, said, inner, values);
    }
  }
}

/** `coupling aerial with grid k .3`: two windings of one coil and how closely they couple. */
function readCoupling(
  naming: Naming,
  said: Said,
  inner: TargetStatement,
  values: Record<string, Value>,
) {
  const { cx } = naming;
  const second = inner.details.find(isWithDetail);
  const names: string[] = [];
  for (const target of [inner.target, second?.target]) {
    const written = target?.ref;
    if (target === undefined || written === undefined) continue;
    const place = placeOf(cx, target);
    const winding = said.windings.find(
      ({ ownName, name }) => ownName === written || name === written,
    );
    if (winding) {
      names.push(winding.ownName);
      naming.mentions.push({ place, meaning: { kind: 'part', said: winding } });
      continue;
    }
    const known = said.windings.map(({ ownName }) => ownName);
    remark(
      cx,
      'unknown-name',
      'error',
      place,
      {
        message: `${said.name} has no winding called "${written}".`,
        why: 'How closely its windings are coupled is not known.',
        cure: known.length ? `It has ${list(known)}.` : 'Say its windings first.',
      },
      {
        parts: [said.name],
        fixes: nearest(written, known, 2).map((name) =>
          replacing(`Change to ${name}`, place, name),
        ),
      },
    );
  }
  for (const detail of inner.details) {
    const isK = isWordDetail(detail) && detail.words.every((word) => word === 'k');
    if (detail !== second && !isK && !isAmountDetail(detail))
      leftOver(cx, detail, `the coupling of ${said.name}`, ['coupling aerial with grid k .3']);
  }
  const amount = inner.details.find(isAmountDetail);
  if (!second || !amount) {
    incomplete(cx, inner, second ? 'how closely' : 'with which winding', [
      'coupling aerial with grid k .3',
    ]);
  }
  const what = `The coupling of ${said.name}`;
  const value = readValue(cx, amount?.amount?.low, ['number', 'percent'], what);
  const [first, other] = names;
  if (value && first !== undefined && other !== undefined)
    values[`coupling ${first} ${other}`] = value;
}

/** Words on a fact's line that say nothing there. */
function leftOver(cx: Lowering, node: AstNode, where: string, examples: readonly string[]) {
  const place = placeOf(cx, node);
  remark(cx, 'unknown-word', 'error', place, {
    message: `"${cx.text.slice(place.start, place.end)}" says nothing of ${where}.`,
    why: 'What is not understood is never passed over in silence.',
    cure: `Take it out; such a line reads ${list(examples, 'or')}.`,
  });
}

/** A fact's line that breaks off. */
function incomplete(
  cx: Lowering,
  node: AstNode & { keyword: string },
  what: string,
  examples: readonly string[],
) {
  remark(cx, 'unknown-word', 'error', placeOf(cx, node), {
    message: `This ${node.keyword} does not say ${what}.`,
    why: 'Half a fact says nothing of the set.',
    cure: `Finish the line, as in ${list(examples, 'or')}.`,
  });
}

function needsAmount(cx: Lowering, node: FactStatement, example: string) {
  if (!node.details.some(isAmountDetail)) incomplete(cx, node, 'how much', [example]);
}

/** `earthed B-`: which tap of a supply is joined to the mains' earth. */
function readEarthed(naming: Naming, said: Said, inner: TargetStatement, words: Set<string>) {
  const { cx } = naming;
  const written = (inner.target?.ref ?? '').replace(/\u2212/g, '-');
  const place = placeOf(cx, inner.target ?? inner);
  if (said.ends.includes(written)) {
    words.add(`earthed ${written}`);
    const id = endId(said, written);
    naming.mentions.push({ place, meaning: { kind: 'end', said, end: written, id } });
    return;
  }
  remark(
    cx,
    'unknown-name',
    'error',
    place,
    {
      message: `${said.name} has no tap called "${written}".`,
      why: 'Where two earthed supplies meet goes by it.',
      cure: said.ends.length ? `It has ${list(said.ends)}.` : 'Say its taps first.',
    },
    {
      parts: [said.name],
      fixes: nearest(written, said.ends, 2).map((name) =>
        replacing(`Change to ${name}`, place, name),
      ),
    },
  );
}

function readSupply(
  naming: Naming,
  said: Said,
  values: Record<string, Value>,
  words: Set<string>,
): SupplyTap[] {
  const { cx } = naming;
  const taps: {
    node: PartStatement;
    name: string;
    said: Value | undefined;
    load?: number;
    ohms?: number;
  }[] = [];
  for (const inner of said.children) {
    if (isFactStatement(inner)) {
      if (inner.keyword !== 'capacity' && inner.keyword !== 'resistance') continue;
      const dimension = inner.keyword === 'capacity' ? 'charge' : 'resistance';
      const example = inner.keyword === 'capacity' ? 'capacity 100 Ah' : 'resistance 30 ohms';
      const what = `The ${inner.keyword} of ${said.name}`;
      let skipWord = false;
      for (const [index, detail] of inner.details.entries()) {
        if (isAmountDetail(detail) && !detail.amount?.high) {
          const split = splitUnit(cx, detail.amount?.low, inner.details[index + 1]);
          const value = readValue(cx, detail.amount?.low, dimension, what, { split });
          if (value) values[inner.keyword] = value;
          skipWord = split !== undefined;
        } else if (skipWord) skipWord = false;
        else leftOver(cx, detail, `the ${inner.keyword} of ${said.name}`, [example]);
      }
      needsAmount(cx, inner, example);
    } else if (isTargetStatement(inner) && inner.keyword === 'earthed') {
      readEarthed(naming, said, inner, words);
    } else if (isPartStatement(inner) && inner.keyword === 'tap') {
      const name = (inner.name ?? '').replace(/\u2212/g, '-');
      const details = inner.details.filter((detail) => detail.$type !== 'PlaceWord');
      const entry: (typeof taps)[number] = { node: inner, name, said: undefined };
      for (const detail of details) {
        if (isAmountDetail(detail)) {
          const value = readValue(cx, detail.amount?.low, 'voltage', `The tap ${name}`);
          if (value) entry.said = value;
        } else if (isLieDetail(detail) && detail.amount && said.kind === 'eliminator') {
          entry.load = readValue(cx, detail.amount, 'current', `The load of ${name}`)?.value ?? 0;
        } else if (
          isSizeDetail(detail) &&
          detail.led === 'resistance' &&
          said.kind === 'eliminator'
        ) {
          const ohms = readValue(
            cx,
            detail.amount,
            'resistance',
            `The resistance of ${name}`,
          )?.value;
          if (ohms !== undefined) entry.ohms = ohms;
        } else if (!isTitleDetail(detail)) {
          const saying = isWordDetail(detail)
            ? detail.words.join(', ')
            : 'led' in detail
              ? detail.led
              : '';
          remark(
            cx,
            'unknown-word',
            'error',
            placeOf(cx, detail),
            {
              message: `"${saying}" says nothing of a tap such as ${name}.`,
              why: 'What is not understood is never passed over in silence.',
              cure: 'A tap takes its volts; an eliminator tap also at a current and a resistance. Joins are said by wire or by the other part.',
            },
            { parts: [said.name] },
          );
        }
      }
      taps.push(entry);
    }
  }
  const byName = (name: string): number | undefined => {
    const number = /([-+])([0-9]+(?:\.[0-9]+)?)$/.exec(name);
    return number ? Number(`${number[1]}${number[2]}`) : undefined;
  };
  const numbered = taps.map((tap) => tap.said?.value ?? byName(tap.name));
  const anyPositive = numbered.some((volts) => volts !== undefined && volts > 0);
  const anyNegative = numbered.some((volts) => volts !== undefined && volts < 0);
  return taps.map((tap, index) => {
    let volts = numbered[index];
    // A bare minus is the zero of an A or B battery, a bare plus that of a C battery.
    if (volts === undefined && /-$/.test(tap.name) && !anyNegative) volts = 0;
    if (volts === undefined && /\+$/.test(tap.name) && anyNegative && !anyPositive) volts = 0;
    return {
      end: tap.name,
      volts,
      said: tap.said,
      resistance: tap.ohms,
      atLoad: tap.load,
      place: placeOf(cx, tap.node),
    };
  });
}

function readWires(naming: Naming, joining: Joining, all: Collected): PartDraft[] {
  const { cx } = naming;
  const isName = namesOf(all);
  const leads: PartDraft[] = [];
  for (const { node, stage, unread } of all.wires) {
    const targets = [node.first, ...node.details.flatMap((d) => (isToDetail(d) ? d.targets : []))];
    const amount = node.details.find(isAmountDetail);
    const place = placeOf(cx, node);
    const stray = node.details.filter(
      (detail) => !isToDetail(detail) && !isAmountDetail(detail) && !isTitleDetail(detail),
    );
    if (stray[0]) strayOnWire(cx, stray, isName);
    for (const target of targets) onePoint(cx, target);
    const meanings = targets.map((target) => ({ target, meaning: lookUp(naming, target, stage) }));
    if (targets.length < 2) {
      cx.unread.push(place);
      // A line that breaks off, or has words too many, has been told of already.
      if (unread || stray.length > 0) continue;
      remark(cx, 'dangling-end', 'error', place, {
        message: `This wire has one end only: ${node.first?.ref ?? ''}.`,
        why: 'It joins nothing.',
        cure: 'Say where it goes: wire X to Y.',
      });
      continue;
    }
    if (amount) {
      const value = readValue(cx, amount.amount?.low, 'resistance', 'The resistance of this wire');
      leads.push(leadDraft(`lead ${leads.length + 1}`, value, place, stage));
      const name = leads.at(-1)?.name ?? '';
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

/** What stands on a wire's line besides its ends: a name without its `to`, or words too many. */
function strayOnWire(cx: Lowering, stray: readonly AstNode[], isName: (word: string) => boolean) {
  const first = placeOf(cx, stray[0]);
  const place = { ...first, end: placeOf(cx, stray.at(-1)).end };
  const text = cx.text.slice(place.start, place.end);
  cx.unread.push(place);
  const missing = isName(text.split(/\s/)[0] ?? '');
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
      cure: missing ? `Write to ${text}.` : 'Write wire X to Y to Z, and the rest on its own line.',
    },
    { fixes: missing ? [inserting(`Write to ${text}`, place, 'to ')] : [] },
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

function readGangs(naming: Naming, joining: Joining, all: Collected): (Gang & Shaft)[] {
  const { cx } = naming;
  return all.gangs.map((node) => {
    const members: Said[] = [];
    let insulated = false;
    for (const detail of node.details) {
      if (isWordDetail(detail)) {
        for (const [index, word] of detail.words.entries()) {
          const place = placeOfProperty(cx, detail, 'words', index);
          const meaning = nameUp(naming, word, place, undefined);
          if (meaning?.said.kind === 'condenser') members.push(meaning.said);
          else if (meaning) {
            remark(
              cx,
              'unknown-name',
              'error',
              place,
              {
                message: `${word} is no condenser, so ${node.name} cannot turn it.`,
                why: 'A gang is condensers on one shaft.',
                cure: 'Name condensers only.',
              },
              { parts: [meaning.said.name] },
            );
          }
        }
      } else if (isFlagDetail(detail) && detail.word === 'insulated') insulated = true;
      else if (!isTitleDetail(detail) && !(isEndDetail(detail) && detail.led === 'frame'))
        leftOver(cx, detail, `a gang such as ${node.name}`, ['gang G1 C1, C2 frame to GND']);
    }
    for (const detail of node.details) {
      if (!isEndDetail(detail) || detail.led !== 'frame' || !detail.target) continue;
      onePoint(cx, detail.target);
      const frame = lookUp(naming, detail.target, undefined);
      if (!frame) continue;
      const place = placeOf(cx, detail);
      const otherPlace = placeOf(cx, detail.target);
      for (const member of members) {
        if (!member.ends.includes('rotor')) {
          remark(
            cx,
            'unknown-name',
            'error',
            otherPlace,
            {
              message: `${member.name} has no rotor for the frame of ${node.name} to join.`,
              why: 'A frame is joined to the rotors of variable condensers.',
              cure: `Write condenser ${member.name} variable.`,
            },
            { parts: [member.name] },
          );
          continue;
        }
        member.spoken.add('rotor');
        joining.loose.push({
          id: endId(member, 'rotor'),
          other: frame,
          place,
          otherPlace,
          said: 'frame',
        });
      }
    }
    return {
      name: node.name ?? '',
      members: members.map(({ name }) => name),
      place: placeOf(cx, node),
      insulated,
    };
  });
}

/** Whether the shaft of a gang is insulated from its rotors. */
interface Shaft {
  readonly insulated: boolean;
}

/** Kinds of part that a dial turns. */
const turnable: ReadonlySet<string> = new Set([
  'condenser',
  'rheostat',
  'potentiometer',
  'winding',
  'variometer',
  'resistor',
  'leak',
  'selector',
]);

function readDials(naming: Naming, all: Collected, gangs: readonly Gang[]): Dial[] {
  const { cx } = naming;
  const turnedBy = gangs.map((gang) => gang.name);
  return all.dials.map((node) => {
    let low = 0;
    let high = 100;
    let reversed = false;
    const drives: string[] = [];
    for (const detail of node.details) {
      if (isAmountDetail(detail) && detail.amount?.high) {
        low = parseNumber(detail.amount.low?.number ?? '') ?? 0;
        high = parseNumber(detail.amount.high.number ?? '') ?? 100;
      } else if (isFlagDetail(detail) && detail.word === 'reversed') reversed = true;
      else if (isCompanionDetail(detail) && detail.led === 'drives') {
        for (const target of detail.targets) {
          onePoint(cx, target);
          if (turnedBy.includes(target.ref)) {
            drives.push(target.ref);
            continue;
          }
          const meaning = lookUp(naming, target, undefined, turnedBy);
          if (!meaning) continue;
          if (turnable.has(meaning.said.kind)) drives.push(meaning.said.name);
          else {
            const noun = partKinds[meaning.said.kind].noun;
            remark(
              cx,
              'unknown-name',
              'error',
              placeOf(cx, target),
              {
                message: `${node.name} cannot turn ${target.ref}, a ${noun}.`,
                why: 'A dial turns a gang, condensers, rheostats, potentiometers or movable windings.',
                cure: 'Name what stands on its shaft.',
              },
              { parts: [meaning.said.name] },
            );
          }
        }
      } else if (!isTitleDetail(detail)) {
        leftOver(cx, detail, `a dial such as ${node.name}`, ['dial D1 0 to 100 drives C1']);
      }
    }
    const title = unquoted(node.details.find(isTitleDetail)?.text);
    return { name: node.name ?? '', title, low, high, reversed, drives, place: placeOf(cx, node) };
  });
}

function readFacts(cx: Lowering, all: Collected) {
  let year: Value | undefined;
  let tunes: Range | undefined;
  const notes: { text: string; place: Place }[] = [];
  for (const node of all.facts) {
    if (node.keyword === 'note') {
      const title = node.details.find(isTitleDetail);
      const text = unquoted(title?.text);
      if (text !== undefined) notes.push({ text, place: placeOf(cx, node) });
      else incomplete(cx, node, 'anything in quotation marks', ['note "in original case"']);
      for (const detail of node.details)
        if (detail !== title) leftOver(cx, detail, 'a note', ['note "in original case"']);
    } else if (node.keyword === 'year') {
      year = readValue(cx, factAmount(cx, node, 'year 1926')?.low, 'number', 'The year') ?? year;
    } else if (node.keyword === 'tunes') {
      tunes = readBand(cx, factAmount(cx, node, 'tunes 550 kc to 1500 kc')) ?? tunes;
    } else {
      remark(cx, 'unknown-word', 'error', placeOf(cx, node), {
        message: `A line that begins with "${node.keyword}" has no meaning here.`,
        why: 'What is not understood is never passed over in silence.',
        cure: 'Move it to the block it belongs to.',
      });
    }
  }
  return { year, tunes, notes };
}

/** The one quantity of a fact's line; tells of anything else on it. */
function factAmount(cx: Lowering, node: FactStatement, example: string): Amount | undefined {
  const detail = node.details.find(isAmountDetail);
  const others = node.details.filter((other) => other !== detail);
  if (!detail) incomplete(cx, node, 'a number', [example]);
  else for (const other of others) leftOver(cx, other, `the ${node.keyword}`, [example]);
  return detail?.amount;
}

function readBand(cx: Lowering, amount: Amount | undefined): Range | undefined {
  if (!amount?.low) return undefined;
  if (amount.high) return readRangeValues(cx, amount.low, amount.high, 'frequency', 'The band');
  const only = readValue(cx, amount.low, 'frequency', 'The band');
  return only && { low: only, high: only };
}

function stageOf(said: SaidStage): Stage {
  return {
    name: said.name,
    title: said.title,
    roles: said.roles,
    place: said.place,
    namePlace: said.namePlace,
    parts: said.parts,
  };
}

function readWaivers(all: Collected, cx: Lowering): Waiver[] {
  return all.meants.map(({ node, within }) => {
    const parts =
      within === undefined
        ? []
        : 'parts' in within
          ? within.parts
          : [within.name, ...within.windings.map((winding) => winding.name)];
    const reason = unquoted(node.reason) ?? '';
    if (reason === '') {
      remark(cx, 'unknown-word', 'warning', placeOf(cx, node), {
        message: `This does not say why ${node.check ?? 'it'} is meant.`,
        why: 'The reason is printed in the service sheet.',
        cure: `Write meant ${node.check ?? 'CHECK'} "why".`,
      });
    }
    return {
      check: node.check ?? '',
      reason,
      within: within?.name,
      parts,
      place: placeOf(cx, node),
    };
  });
}
