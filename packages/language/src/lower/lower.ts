import {
  assemble,
  type Circuit,
  endId,
  type PartDraft,
  type Place,
  type Stage,
  type SupplyTap,
  type Waiver,
} from '@setwright/circuit';
import {
  isElectrodeStatement,
  isEndDetail,
  isFlagDetail,
  type ReceiverStatement,
} from '../generated/ast.ts';
import { benchesAndSupposes } from './bench.ts';
import { type CoilFacts, coilFactsOf } from './coils.ts';
import { collect } from './collect.ts';
import type { Collected, SaidStage } from './collected.ts';
import { noSwitching, switchingOf } from './contacts.ts';
import { headPlace, type Lowering, placeOf, placeOfProperty, remark, unquoted } from './context.ts';
import { type Read, readDetails } from './details.ts';
import { readFacts } from './facts.ts';
import { type Joining, joiningOf, readJoins, settleLoose } from './joins.ts';
import type { Known, PatternUse } from './known.ts';
import { type Mention, type Naming, namesOf, namingOf } from './references.ts';
import type { Said } from './said.ts';
import { insulateShafts, readDials, readGangs } from './shafts.ts';
import { readSupply } from './supply.ts';
import { readWires } from './wires.ts';

export interface LoweredReceiver {
  readonly circuit: Circuit;
  /** Every name in the text that stands for a part or terminal, and what it means. */
  readonly mentions: readonly Mention[];
  /** Where parts are said to be like a pattern. */
  readonly likes: readonly PatternUse[];
}

/** Lowers one receiver's block to its circuit. Never throws; what is wrong becomes remarks. */
export function lowerReceiver(
  outer: Lowering,
  node: ReceiverStatement,
  known: Known,
  partly: ReadonlySet<number>,
): LoweredReceiver {
  const cx: Lowering = { ...outer, partly };
  const all = collect(cx, node.statements ?? [], known, partly);
  const reads = new Map<Said, Read>();
  const isName = namesOf(all);
  for (const said of all.parts) {
    shapeEnds(said);
    const read = readDetails(cx, said, isName);
    for (const tap of read.taps) if (!said.ends.includes(tap.end)) said.ends.push(tap.end);
    reads.set(said, read);
  }
  const naming = namingOf(cx, all, known.patterns);
  const likes: PatternUse[] = [];
  for (const [said, { links }] of reads) {
    for (const link of said.like && !said.like.said.text ? [said.like, ...links] : links)
      if (link.place.file === cx.file && !link.place.written)
        naming.mentions.push({ place: link.place, meaning: { kind: 'part', said: link.said } });
    const pattern = said.like?.said.text && known.patterns.get(said.like.said.name);
    if (said.like && pattern) likes.push({ place: said.like.place, pattern });
  }
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
  const coilFacts = coilFactsOf(naming);
  const parts: PartDraft[] = all.parts.map((said) => {
    const read = reads.get(said) as Read;
    const switching = switchingOf(joining, said, read, mentioned, plugs);
    const way = switching === noSwitching ? undefined : switching;
    return draftOf(naming, said, read, joining, way, named, coilFacts);
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
  // The same list that the circuit holds: what a line with a slip leaves out is not known either.
  cx.unread.push(...halfSaid(circuit, all));
  return { circuit, mentions: naming.mentions, likes };
}

const slips = new Set(['missing-unit', 'wrong-unit', 'ambiguous-unit', 'unknown-word']);

/**
 * Lines with a slip that probably are not finished: of a supply or tube, by which all else goes,
 * or of a part of which an end goes nowhere yet. What they would say is unknown.
 */
function halfSaid(circuit: Circuit, all: Collected): Place[] {
  const open = new Set<Said>();
  for (const said of all.parts) {
    const ends = circuit.partNamed.get(said.name)?.ends ?? [];
    const whole = said.kind === 'battery' || said.kind === 'eliminator' || said.kind === 'tube';
    if (whole || ends.some((end) => end.joins.length === 0)) open.add(said);
  }
  const slipped = circuit.remarks
    .filter(({ check, severity }) => severity === 'error' && slips.has(check))
    .map(({ place }) => place);
  if (slipped.length === 0) return [];
  const spans = [...open].flatMap(({ node }) => node.$cstNode ?? []);
  return slipped.filter((place) =>
    spans.some((span) => span.offset <= place.start && place.end <= span.end),
  );
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
    const { tubeType } = said;
    // Of a type that is not known, the lines say what it has.
    const screen = tubeType ? tubeType.screen : says('screen');
    const cathode = tubeType ? tubeType.heated : says('cathode');
    if (screen && !has('screen')) said.ends.push('screen');
    if (cathode && !has('cathode')) said.ends.push('cathode');
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

function draftOf(
  naming: Naming,
  said: Said,
  read: Read,
  joining: Joining,
  switching:
    | { positions: readonly string[]; drawnAt: number; contacts: PartDraft['contacts'] }
    | undefined,
  named: ReadonlySet<Said>,
  coilFacts: CoilFacts,
): PartDraft {
  const values = { ...read.values };
  const ranges = { ...read.ranges };
  const words = new Set(read.words);
  let supplyTaps: readonly SupplyTap[] = [];
  if (said.kind === 'battery' || said.kind === 'eliminator')
    supplyTaps = readSupply(naming, said, values, words);
  let winding = read.winding;
  if (winding && said.owner) {
    const { form } = coilFacts(said.owner);
    if (!winding.form && form) winding = { ...winding, form };
  }
  if (said.kind === 'coil' || said.kind === 'transformer') Object.assign(values, coilFacts(said));
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
