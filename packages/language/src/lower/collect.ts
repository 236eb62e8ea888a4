import type { PartKindName } from '@setwright/circuit';
import { partKinds } from '@setwright/circuit';
import {
  isElectrodeStatement,
  isFactStatement,
  isMeantStatement,
  isPartStatement,
  isStageStatement,
  isTargetStatement,
  isTitleDetail,
  isTitledStatement,
  isTubeStatement,
  isTubeTypeStatement,
  isTurnsStatement,
  isUnreadableStatement,
  isUseStatement,
  isWireStatement,
  isWordDetail,
  type PartStatement,
  type Statement,
  type TubeStatement,
  type UnreadableStatement,
} from '../generated/ast.ts';
import {
  type BenchOrSuppose,
  type Collected,
  emptyCollection,
  type SaidStage,
} from './collected.ts';
import {
  headPlace,
  type Lowering,
  placeOf,
  placeOfProperty,
  remark,
  replacing,
  unquoted,
} from './context.ts';
import { saysAgain, tellDuplicates } from './duplicates.ts';
import { isCutOff, isGarbledLead } from './facts.ts';
import type { Known } from './known.ts';
import { followLikes } from './likes.ts';
import type { AnyDetail, Said } from './said.ts';
import { findTubeType, likelyTypes } from './tube-types.ts';

/** Words that hold a part's name but make no part of the circuit. */
const notParts = new Set(['tap', 'winding', 'gang', 'dial']);

/** Gathers everything a receiver's block says, in order of the text. */
export function collect(
  cx: Lowering,
  statements: readonly Statement[],
  known: Known,
  partly: ReadonlySet<number>,
): Collected {
  const into = emptyCollection();
  const walk = (list: readonly Statement[], stage: SaidStage | undefined) => {
    for (const statement of list) take(cx, statement, stage, into, known, partly, walk);
  };
  walk(statements, undefined);
  followLikes(cx, into, known);
  windingsAsParts(into);
  tellDuplicates(cx, into);
  return into;
}

/** Gathers the parts that stand outside any receiver, for others to be made like. */
export function collectPatterns(
  cx: Lowering,
  statements: readonly PartStatement[],
  known: Known,
  partly: ReadonlySet<number>,
): Collected {
  const into = emptyCollection();
  for (const statement of statements) {
    const unread = partly.has(statement.$cstNode?.offset ?? -1);
    const said = partSaid(cx, statement, undefined, undefined, unread, known);
    addPart(into, said, undefined);
    inside(cx, said, into, undefined, partly, known);
  }
  followLikes(cx, into, known);
  windingsAsParts(into);
  tellDuplicates(cx, into);
  return into;
}

/** A coil's windings are parts of their own, in the order of the text. */
function windingsAsParts(into: Collected) {
  into.parts = into.parts.flatMap((said) => [said, ...said.windings]);
  for (const said of into.parts) into.named.set(said.name, said);
  for (const stage of into.stages) {
    stage.parts = stage.parts.flatMap((name) => [
      name,
      ...(into.named.get(name)?.windings.map((winding) => winding.name) ?? []),
    ]);
  }
}

function take(
  cx: Lowering,
  statement: Statement,
  stage: SaidStage | undefined,
  into: Collected,
  known: Known,
  partly: ReadonlySet<number>,
  walk: (list: readonly Statement[], stage: SaidStage | undefined) => void,
): void {
  const unread = partly.has(statement.$cstNode?.offset ?? -1);
  if (isStageStatement(statement)) {
    const said: SaidStage = {
      name: statement.name ?? '',
      title: unquoted(statement.title),
      roles: [...statement.roles],
      place: headPlace(cx, statement),
      namePlace: placeOfProperty(cx, statement, 'name'),
      parts: [],
    };
    if (stage) {
      remark(cx, 'unknown-word', 'error', said.place, {
        message: `The stage ${said.name} stands inside the stage ${stage.name}.`,
        why: 'A stage holds parts, not stages.',
        cure: `Close the block of ${stage.name} before it.`,
      });
    }
    into.stages.push(said);
    walk(statement.statements ?? [], said);
  } else if (isTubeStatement(statement) || isPartStatement(statement)) {
    if (isPartStatement(statement) && statement.keyword === 'gang') into.gangs.push(statement);
    else if (isPartStatement(statement) && statement.keyword === 'dial') into.dials.push(statement);
    else if (isPartStatement(statement) && notParts.has(statement.keyword)) {
      const home =
        statement.keyword === 'tap' ? 'a battery or eliminator' : 'a coil or transformer';
      remark(cx, 'unknown-word', 'error', headPlace(cx, statement), {
        message: `A ${statement.keyword} belongs inside ${home}.`,
        why: 'Standing by itself it is joined to nothing.',
        cure: `Move it into the block of its ${home.replace('a ', '')}.`,
      });
      cx.unread.push(headPlace(cx, statement));
    } else {
      const said = partSaid(cx, statement, undefined, stage, unread, known);
      addPart(into, said, stage);
      inside(cx, said, into, stage, partly, known);
    }
  } else if (isWireStatement(statement))
    into.wires.push({ node: statement, stage: stage?.name, unread });
  else if (isMeantStatement(statement)) into.meants.push({ node: statement, within: stage });
  else if (isTitledStatement(statement)) into.titled.push(statement as BenchOrSuppose);
  else if (isFactStatement(statement)) into.facts.push(statement);
  else if (isUnreadableStatement(statement)) {
    // Its header is lost: what its lines say cannot be given to anyone, but stages keep theirs.
    cx.unread.push(placeOf(cx, statement));
    const lost = statement.statements ?? [];
    if (lost.some(isOfBenchOrSuppose)) return;
    const taps = lost.filter((inner) => isPartStatement(inner) && inner.keyword === 'tap');
    if (taps.length > 0) addNameless(cx, statement, taps, stage, into);
    walk(
      lost.filter(
        (inner) =>
          !isElectrodeStatement(inner) &&
          !isInnerPart(inner) &&
          !isMeantStatement(inner) &&
          !isTargetStatement(inner) &&
          !(isFactStatement(inner) && !['year', 'tunes', 'note'].includes(inner.keyword)),
      ),
      stage,
    );
  } else outside(cx, statement, 'a receiver or stage');
}

/** Lines that only a bench or a suppose has: what they say goes with the lost header. */
const isOfBenchOrSuppose = (statement: Statement) =>
  isTurnsStatement(statement) ||
  (isTargetStatement(statement) && statement.keyword !== 'coupling') ||
  (isFactStatement(statement) && ['meter', 'tubes', 'heard'].includes(statement.keyword));

/** A supply whose header cannot be read: its taps are still known by their own names. */
function addNameless(
  cx: Lowering,
  statement: UnreadableStatement,
  taps: readonly Statement[],
  stage: SaidStage | undefined,
  into: Collected,
) {
  const nameless = into.parts.filter((part) => part.name.startsWith('?')).length;
  const place = headPlace(cx, statement);
  const names = taps.map((tap) => ('name' in tap ? (tap.name ?? '') : '').replace(/\u2212/g, '-'));
  const said: Said = {
    name: `?${nameless + 1}`,
    ownName: '?',
    kind: 'battery',
    title: undefined,
    owner: undefined,
    stage: stage?.name,
    node: statement as unknown as PartStatement,
    place,
    namePlace: place,
    details: [],
    children: taps,
    unread: true,
    ends: [...new Set(names)],
    windings: [],
    typeName: undefined,
    tubeType: undefined,
    spoken: new Set(),
  };
  addPart(into, said, stage);
}

const isInnerPart = (statement: Statement) =>
  isPartStatement(statement) && (statement.keyword === 'tap' || statement.keyword === 'winding');

function addPart(into: Collected, said: Said, stage: SaidStage | undefined) {
  const earlier = into.named.get(said.name);
  if (earlier) {
    if (!saysAgain(earlier, said)) into.duplicates.push({ said, earlier });
    return;
  }
  into.named.set(said.name, said);
  into.parts.push(said);
  stage?.parts.push(said.name);
}

function partSaid(
  cx: Lowering,
  node: PartStatement | TubeStatement,
  owner: Said | undefined,
  stage: SaidStage | undefined,
  unread: boolean,
  known: Known,
): Said {
  const kind = node.keyword as PartKindName;
  const ownName = (node.name ?? '').replace(/\u2212/g, '-');
  const name = owner ? `${owner.name}.${ownName}` : ownName;
  const details: AnyDetail[] = [...(node.details ?? [])];
  const said: Said = {
    name,
    ownName,
    kind,
    title: unquoted(
      ('title' in node ? node.title : undefined) ?? details.find(isTitleDetail)?.text,
    ),
    owner,
    stage: stage?.name,
    node,
    place: headPlace(cx, node),
    namePlace: placeOfProperty(cx, node, 'name'),
    details: details.map((detail) => ({ detail, inherited: false })),
    children: node.statements ?? [],
    unread,
    ends: [...partKinds[kind].ends],
    windings: [],
    typeName: undefined,
    tubeType: undefined,
    spoken: new Set(),
  };
  if (unread) cx.unread.push(said.place);
  if (isTubeStatement(node)) nameTubeType(cx, node, said, known);
  return said;
}

function nameTubeType(cx: Lowering, node: TubeStatement, said: Said, { types, isLost }: Known) {
  if (node.type === undefined) return;
  let written = node.type;
  let place = placeOfProperty(cx, node, 'type');
  // `01A` is written as one word and read as two.
  const next = node.details[0];
  if (isWordDetail(next) && placeOf(cx, next).start === place.end && next.words[0] !== undefined) {
    written += next.words[0];
    place = { ...place, end: placeOf(cx, next).end };
    said.details = said.details.slice(1);
  }
  said.typeName = written;
  said.tubeType = findTubeType(types, written);
  // It may be described in a file that cannot be read: that has been told of.
  if (said.tubeType || isLost) return;
  const likely = likelyTypes(types, written);
  remark(
    cx,
    'unknown-tube-type',
    'hint',
    place,
    {
      message: `The tube type ${written} of ${said.name} is not in the library.`,
      why: 'Without its data only the wiring of this tube can be judged.',
      cure: likely.length
        ? `If it is a ${likely.join(' or a ')}, write that; else describe it in a tube type block.`
        : `Describe it in a block: tube type ${written} { … }.`,
    },
    {
      parts: [said.name],
      fixes: likely.map((type) => replacing(`Change to ${type}`, place, type)),
    },
  );
}

/** Reads the block of a part: windings, electrodes, taps, facts. */
function inside(
  cx: Lowering,
  said: Said,
  into: Collected,
  stage: SaidStage | undefined,
  partly: ReadonlySet<number>,
  known: Known,
) {
  for (const inner of said.children) {
    const unread = partly.has(inner.$cstNode?.offset ?? -1);
    if (isMeantStatement(inner)) into.meants.push({ node: inner, within: said });
    else if (isUnreadableStatement(inner)) cx.unread.push(placeOf(cx, inner));
    else if (isFactStatement(inner) && inner.keyword === 'note') into.facts.push(inner);
    else if (said.kind === 'coil' || said.kind === 'transformer') {
      if (isPartStatement(inner) && inner.keyword === 'winding') {
        const winding = partSaid(cx, inner, said, stage, unread, known);
        const earlier = said.windings.find((other) => other.name === winding.name);
        if (earlier) into.duplicates.push({ said: winding, earlier });
        else said.windings.push(winding);
        insideWinding(cx, winding, into);
      } else if (
        !(isFactStatement(inner) && (inner.keyword === 'form' || inner.keyword === 'tuned')) &&
        !(isTargetStatement(inner) && inner.keyword === 'coupling')
      )
        outside(cx, inner, `a ${said.kind}`);
    } else if (said.kind === 'battery' || said.kind === 'eliminator') {
      if (isPartStatement(inner) && inner.keyword === 'tap') {
        const name = (inner.name ?? '').replace(/\u2212/g, '-');
        if (said.ends.includes(name)) {
          remark(cx, 'duplicate-name', 'error', placeOfProperty(cx, inner, 'name'), {
            message: `${said.name} has two taps called ${name}.`,
            why: 'What is said of one would be taken for the other.',
            cure: 'Give one of them another name.',
          });
          cx.unread.push(placeOf(cx, inner));
        } else said.ends.push(name);
      } else if (
        !(
          isFactStatement(inner) &&
          (inner.keyword === 'capacity' || inner.keyword === 'resistance')
        ) &&
        !(isTargetStatement(inner) && inner.keyword === 'earthed')
      )
        outside(cx, inner, `a ${said.kind}`);
    } else if (said.kind === 'tube') {
      if (!isElectrodeStatement(inner)) outside(cx, inner, 'a tube');
    } else outside(cx, inner, `a ${partKinds[said.kind].noun}`);
    if (unread) cx.unread.push(placeOf(cx, inner));
  }
}

/** A winding's block holds nothing but what is meant. */
function insideWinding(cx: Lowering, winding: Said, into: Collected) {
  for (const inner of winding.children) {
    if (isMeantStatement(inner)) into.meants.push({ node: inner, within: winding });
    else if (isFactStatement(inner) && inner.keyword === 'note') into.facts.push(inner);
    else if (isUnreadableStatement(inner)) cx.unread.push(placeOf(cx, inner));
    else outside(cx, inner, 'a winding');
  }
}

function outside(cx: Lowering, statement: Statement, where: string) {
  if (isFactStatement(statement) && isGarbledLead(cx, statement)) return;
  const word = isTubeTypeStatement(statement)
    ? 'tube type'
    : 'keyword' in statement
      ? String(statement.keyword)
      : 'stage';
  const place = 'open' in statement ? headPlace(cx, statement) : placeOf(cx, statement);
  const told = isCutOff(cx, statement);
  cx.unread.push(place);
  if (told) return;
  remark(cx, 'unknown-word', 'error', place, {
    message: `A line that begins with "${word}" has no meaning inside ${where}.`,
    why: 'What is not understood is never passed over in silence.',
    cure: `Move it to ${homeOf(statement)}.`,
  });
}

/** Where a statement belongs. */
function homeOf(statement: Statement): string {
  if (isTubeTypeStatement(statement) || isUseStatement(statement))
    return 'a place outside the receiver';
  if (isElectrodeStatement(statement)) return 'the block of its tube';
  if (isTargetStatement(statement)) {
    if (statement.keyword === 'coupling') return 'the block of its coil';
    if (statement.keyword === 'earthed') return 'the block of its battery or eliminator';
    return ['actual', 'reading', 'click'].includes(statement.keyword)
      ? 'a bench "title" { … }'
      : 'a suppose "title" { … }';
  }
  if (isFactStatement(statement)) {
    if (statement.keyword === 'form' || statement.keyword === 'tuned')
      return 'the block of its coil';
    if (['meter', 'tubes', 'heard'].includes(statement.keyword)) return 'a bench "title" { … }';
  }
  return 'the block it belongs to';
}
