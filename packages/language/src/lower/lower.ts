import {
  assemble,
  type Circuit,
  type Dial,
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
import { parseNumber } from '@setwright/units';
import {
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
  isWordDetail,
  type PartStatement,
  type ReceiverStatement,
} from '../generated/ast.ts';
import { readValue } from './amounts.ts';
import { benchesAndSupposes } from './bench.ts';
import { collect } from './collect.ts';
import type { Collected, SaidStage } from './collected.ts';
import { noSwitching, switchingOf } from './contacts.ts';
import { headPlace, type Lowering, placeOf, placeOfProperty, remark, unquoted } from './context.ts';
import { type Read, readDetails } from './details.ts';
import { freeEnd, type Joining, joiningOf, readJoins, settleLoose } from './joins.ts';
import {
  lookUp,
  type Meaning,
  type Mention,
  meaningOf,
  type Naming,
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
  for (const said of all.parts) {
    shapeEnds(said);
    const read = readDetails(cx, said);
    for (const tap of read.taps) if (!said.ends.includes(tap.end)) said.ends.push(tap.end);
    reads.set(said, read);
  }
  const naming = namingOf(cx, all);
  const joining = joiningOf(naming);
  for (const said of all.parts) readJoins(joining, said);
  const leads = readWires(naming, joining, all);
  const gangs = readGangs(cx, naming, joining, all);
  settleLoose(joining);
  const mentioned = mentionedEnds(naming);
  const plugs = new Map<Said, Said[]>();
  for (const [part, jacks] of joining.into)
    for (const jack of jacks) plugs.set(jack, [...(plugs.get(jack) ?? []), part]);
  const parts: PartDraft[] = all.parts.map((said) => {
    const read = reads.get(said) as Read;
    const switching = switchingOf(joining, said, read, mentioned, plugs);
    return draftOf(cx, said, read, joining, switching === noSwitching ? undefined : switching);
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
    gangs,
    dials: readDials(cx, naming, all, gangs),
    waivers: readWaivers(all, cx),
    benches,
    supposes,
    remarks: cx.remarks,
    unread: cx.unread,
  });
  return { circuit, mentions: naming.mentions };
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

const nothing = { values: {}, ranges: {}, taps: [], contacts: [], positions: [] } as const;

function draftOf(
  cx: Lowering,
  said: Said,
  read: Read,
  joining: Joining,
  switching:
    | { positions: readonly string[]; drawnAt: number; contacts: PartDraft['contacts'] }
    | undefined,
): PartDraft {
  const values = { ...read.values };
  const ranges = { ...read.ranges };
  const words = new Set(read.words);
  let supplyTaps: readonly SupplyTap[] = [];
  if (said.kind === 'battery' || said.kind === 'eliminator')
    supplyTaps = readSupply(cx, said, values, words);
  let winding = read.winding;
  if (winding && said.owner) {
    const form = formOf(cx, said.owner);
    if (!winding.form && form) winding = { ...winding, form };
  }
  if (said.kind === 'coil' || said.kind === 'transformer') readCoilFacts(cx, said, values);
  const sidesKnown =
    said.kind !== 'condenser' ||
    said.details.some(
      ({ detail }) => isEndDetail(detail) && (detail.led === 'rotor' || detail.led === 'stator'),
    );
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
    sidesKnown,
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

/** The same text, with remarks going nowhere: for facts that are read a second time. */
function muted(cx: Lowering): Lowering {
  return { ...cx, remarks: [], unread: [] };
}

function readCoilFacts(cx: Lowering, said: Said, values: Record<string, Value>) {
  for (const inner of said.children) {
    if (isFactStatement(inner)) {
      for (const detail of inner.details) {
        if (isAmountDetail(detail)) {
          const dimension = inner.keyword === 'tuned' ? 'frequency' : 'length';
          const value = readValue(
            cx,
            detail.amount?.low,
            dimension,
            `The ${inner.keyword} of ${said.name}`,
          );
          if (value) values[inner.keyword === 'tuned' ? 'tuned' : 'form'] = value;
        } else if (isByDetail(detail)) {
          const value = readValue(cx, detail.amount, 'length', `The form of ${said.name}`);
          if (value) values.formLength = value;
        }
      }
    } else if (isTargetStatement(inner) && inner.keyword === 'coupling') {
      const first = inner.target?.ref;
      const second = inner.details.find((detail) => detail.$type === 'WithDetail');
      const other = second && 'target' in second ? second.target?.ref : undefined;
      const amount = inner.details.find(isAmountDetail);
      for (const name of [first, other]) {
        if (name !== undefined && said.windings.some((winding) => winding.ownName === name))
          continue;
        remark(
          cx,
          'unknown-name',
          'error',
          placeOf(cx, inner),
          {
            message: `${said.name} has no winding called "${name ?? ''}".`,
            why: 'How closely its windings are coupled is not known.',
            cure: `It has ${said.windings.map((winding) => winding.ownName).join(', ') || 'none yet'}.`,
          },
          { parts: [said.name] },
        );
      }
      const value = readValue(
        cx,
        amount?.amount?.low,
        ['number', 'percent'],
        `The coupling of ${said.name}`,
      );
      if (value && first !== undefined && other !== undefined)
        values[`coupling ${first} ${other}`] = value;
    }
  }
}

function readSupply(
  cx: Lowering,
  said: Said,
  values: Record<string, Value>,
  words: Set<string>,
): SupplyTap[] {
  const taps: {
    node: PartStatement;
    name: string;
    said: Value | undefined;
    load?: number;
    ohms?: number;
  }[] = [];
  for (const inner of said.children) {
    if (isFactStatement(inner)) {
      const amount = inner.details.find(isAmountDetail);
      if (inner.keyword === 'capacity') {
        const value = readValue(cx, amount?.amount?.low, 'charge', `The capacity of ${said.name}`);
        if (value) values.capacity = value;
      } else if (inner.keyword === 'resistance') {
        const value = readValue(
          cx,
          amount?.amount?.low,
          'resistance',
          `The resistance of ${said.name}`,
        );
        if (value) values.resistance = value;
      }
    } else if (isTargetStatement(inner) && inner.keyword === 'earthed') {
      words.add(`earthed ${inner.target?.ref ?? ''}`);
    } else if (isPartStatement(inner) && inner.keyword === 'tap') {
      const name = (inner.name ?? '').replace(/\u2212/g, '-');
      const details = inner.details.filter((detail) => detail.$type !== 'PlaceWord');
      const entry: (typeof taps)[number] = { node: inner, name, said: undefined };
      for (const detail of details) {
        if (isAmountDetail(detail)) {
          const value = readValue(cx, detail.amount?.low, 'voltage', `The tap ${name}`);
          if (value) entry.said = value;
        } else if (isLieDetail(detail) && detail.amount) {
          entry.load = readValue(cx, detail.amount, 'current', `The load of ${name}`)?.value ?? 0;
        } else if (isSizeDetail(detail) && detail.led === 'resistance') {
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
  const leads: PartDraft[] = [];
  for (const { node, stage } of all.wires) {
    const targets = [node.first, ...node.details.flatMap((d) => (isToDetail(d) ? d.targets : []))];
    const amount = node.details.find(isAmountDetail);
    const place = placeOf(cx, node);
    for (const detail of node.details) {
      if (isToDetail(detail) || isAmountDetail(detail) || isTitleDetail(detail)) continue;
      remark(cx, 'unknown-word', 'error', placeOf(cx, detail), {
        message: 'A wire only says what it joins: wire X to Y to Z.',
        why: 'What is not understood is never passed over in silence.',
        cure: 'Say it on a line of its own.',
      });
    }
    const meanings = targets.map((target) => ({ target, meaning: lookUp(naming, target, stage) }));
    if (targets.length < 2) {
      cx.unread.push(place);
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
      for (const [index, { target, meaning }] of meanings.slice(0, 2).entries()) {
        if (!meaning) continue;
        joining.loose.push({
          id: `${name}.${index === 0 ? 'start' : 'finish'}`,
          other: meaning,
          place: placeOf(cx, target),
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
      if (before) joining.loose.push(...linkOf(naming, before, here, place));
      before = here;
    }
  }
  return leads;
}

/** Both sides of a wire may be parts without a named end: settled like any other. */
function linkOf(
  naming: Naming,
  before: { meaning: Meaning; place: Place },
  here: { meaning: Meaning; place: Place },
  place: Place,
): Joining['loose'] {
  if (before.meaning.kind === 'end')
    return [{ id: before.meaning.id, other: here.meaning, place, said: 'wire' }];
  if (here.meaning.kind === 'end')
    return [{ id: here.meaning.id, other: before.meaning, place, said: 'wire' }];
  const end = freeEnd(naming.cx, before.meaning, before.place, new Map());
  return end === undefined ? [] : [{ id: end, other: here.meaning, place, said: 'wire' }];
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

function readGangs(cx: Lowering, naming: Naming, joining: Joining, all: Collected): Gang[] {
  return all.gangs.map((node) => {
    const members: string[] = [];
    for (const detail of node.details) {
      if (isWordDetail(detail)) {
        for (const word of detail.words) {
          const meaning = meaningOf(naming, word);
          if (meaning) {
            members.push(meaning.said.name);
            naming.mentions.push({ place: placeOf(cx, detail), meaning });
          } else {
            cx.unread.push(placeOf(cx, detail));
            remark(cx, 'unknown-name', 'error', placeOf(cx, detail), {
              message: `Nothing in this set is called "${word}", so ${node.name} cannot turn it.`,
              why: 'What turns together must be known.',
              cure: 'Name the condensers on this shaft.',
            });
          }
        }
      } else if (isEndDetail(detail) && detail.led === 'frame') {
        const frame = lookUp(naming, detail.target, undefined);
        if (!frame) continue;
        for (const name of members) {
          joining.loose.push({
            id: `${name}.rotor`,
            other: frame,
            place: placeOf(cx, detail),
            said: 'frame',
          });
        }
      }
    }
    return { name: node.name ?? '', members, place: placeOf(cx, node) };
  });
}

function readDials(cx: Lowering, naming: Naming, all: Collected, gangs: readonly Gang[]): Dial[] {
  return all.dials.flatMap((node) => {
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
          if (gangs.some((gang) => gang.name === target.ref)) drives.push(target.ref);
          else {
            const meaning = lookUp(naming, target, undefined);
            if (meaning) drives.push(meaning.said.name);
          }
        }
      }
    }
    const title = unquoted(node.details.find(isTitleDetail)?.text);
    return [
      { name: node.name ?? '', title, low, high, reversed, drives, place: placeOf(cx, node) },
    ];
  });
}

function readFacts(cx: Lowering, all: Collected) {
  let year: Value | undefined;
  let tunes: Range | undefined;
  const notes: { text: string; place: Place }[] = [];
  for (const node of all.facts) {
    if (node.keyword === 'note') {
      const text = unquoted(node.details.find(isTitleDetail)?.text);
      if (text !== undefined) notes.push({ text, place: placeOf(cx, node) });
    } else if (node.keyword === 'year') {
      year = readValue(cx, node.details.find(isAmountDetail)?.amount?.low, 'number', 'The year');
    } else if (node.keyword === 'tunes') tunes = readBand(cx, node);
    else {
      remark(cx, 'unknown-word', 'error', placeOf(cx, node), {
        message: `A line that begins with "${node.keyword}" has no meaning here.`,
        why: 'What is not understood is never passed over in silence.',
        cure: 'Move it to the block it belongs to.',
      });
    }
  }
  return { year, tunes, notes };
}

function readBand(cx: Lowering, node: FactStatement): Range | undefined {
  const amount = node.details.find(isAmountDetail)?.amount;
  if (!amount?.low) return undefined;
  const low = readValue(cx, amount.low, 'frequency', 'The band', amount.high);
  const high = amount.high ? readValue(cx, amount.high, 'frequency', 'The band') : low;
  if (!low || !high) return undefined;
  return low.value <= high.value ? { low, high } : { low: high, high: low };
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
