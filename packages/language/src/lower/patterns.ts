import { type PartKindName, partKinds } from '@setwright/circuit';
import {
  isAcrossDetail,
  isCompanionDetail,
  isContactDetail,
  isEndDetail,
  isFromDetail,
  isPartStatement,
  isThroughDetail,
  isToDetail,
  type PartStatement,
  type Statement,
} from '../generated/ast.ts';
import { coilFactsOf } from './coils.ts';
import { collectPatterns } from './collect.ts';
import { type Lowering, muted, placeOf, remark } from './context.ts';
import { readDetails } from './details.ts';
import type { Known, Pattern, PatternUse } from './known.ts';
import { type Mention, namesOf, namingOf } from './references.ts';
import type { AnyDetail, Said } from './said.ts';

/** Words that are written like a part's line and say something of other parts, or of one set. */
const notAlone: ReadonlySet<string> = new Set([
  'tap',
  'winding',
  'gang',
  'dial',
  'battery',
  'eliminator',
]);

/** Whether a statement outside any receiver is a pattern: a part of a kind that is made like others. */
export function isPattern(node: Statement): node is PartStatement {
  return (
    isPartStatement(node) &&
    !notAlone.has(node.keyword) &&
    partKinds[node.keyword as PartKindName].details.includes('like')
  );
}

/** The patterns of a file, those of the files that it uses being known. */
export function patternsOf(
  cx: Lowering,
  statements: readonly Statement[],
  known: Known,
  partly: ReadonlySet<number>,
): {
  readonly patterns: readonly Pattern[];
  readonly mentions: readonly Mention[];
  readonly likes: readonly PatternUse[];
} {
  const nodes = statements.filter(isPattern);
  if (nodes.length === 0) return { patterns: [], mentions: [], likes: [] };
  const all = collectPatterns(cx, nodes, known, partly);
  const isName = namesOf(all);
  const naming = namingOf(cx, all);
  const factsOf = coilFactsOf(naming);
  const likes: PatternUse[] = [];
  for (const said of all.parts) {
    const { links } = readDetails(cx, said, isName);
    for (const { place, said: other } of said.like ? [said.like, ...links] : links) {
      const pattern = other.text && known.patterns.get(other.name);
      if (pattern) likes.push({ place, pattern });
      else if (place.file === cx.file)
        naming.mentions.push({ place, meaning: { kind: 'part', said: other } });
    }
    if (said.kind === 'coil' || said.kind === 'transformer') factsOf(said);
    for (const { detail, inherited } of said.details)
      if (!inherited && goesSomewhere(detail)) endsElsewhere(cx, said, detail);
  }
  const silent = { ...muted(cx), unread: [...cx.unread] };
  for (const said of all.parts) said.text = silent;
  const patterns = all.parts
    .filter(({ owner }) => !owner)
    .map((said) => ({
      name: said.name,
      kind: said.kind,
      title: said.title,
      place: said.place,
      namePlace: said.namePlace,
      said,
    }));
  return { patterns, mentions: naming.mentions, likes };
}

const goesSomewhere = (detail: AnyDetail): boolean =>
  isFromDetail(detail) ||
  isToDetail(detail) ||
  isAcrossDetail(detail) ||
  isEndDetail(detail) ||
  isContactDetail(detail) ||
  isCompanionDetail(detail) ||
  isThroughDetail(detail);

function endsElsewhere(cx: Lowering, said: Said, detail: AnyDetail) {
  remark(
    cx,
    'unknown-word',
    'error',
    placeOf(cx, detail),
    {
      message: `${said.name} stands outside any receiver, so its ends go nowhere.`,
      why: 'There it is a pattern that the parts of sets are made like, and each of those says its own ends.',
      cure: `Move ${said.owner?.name ?? said.name} into its receiver, or take this out.`,
    },
    { parts: [said.name] },
  );
}
