import type { Circuit, Finding, TubeType } from '@setwright/circuit';
import { nearest } from '@setwright/units';
import {
  isPartStatement,
  isReceiverStatement,
  isStageStatement,
  isTubeStatement,
  isTubeTypeStatement,
  isUnreadableStatement,
  isUseStatement,
  isWireStatement,
  type ReceiverStatement,
  type Statement,
} from './generated/ast.ts';
import { builtInTubeTypes } from './library.ts';
import { headPlace, type Lowering, placeAt, placeOf, remark, replacing } from './lower/context.ts';
import type { Known, Pattern, PatternUse } from './lower/known.ts';
import { lowerReceiver } from './lower/lower.ts';
import { isPattern, patternsOf } from './lower/patterns.ts';
import type { Mention } from './lower/references.ts';
import { tubeTypeOf } from './lower/tube-types.ts';
import { type ReadText, readText, type Unreadable } from './read.ts';
import { noteUses } from './unused-uses.ts';
import { nameOfFile } from './use-path.ts';
import { type Reading, readUses, type Use } from './uses.ts';

export interface ReadFile {
  readonly file: string;
  readonly text: string;
  readonly read: ReadText;
  readonly circuits: readonly Circuit[];
  /** Names that stand for a part or terminal, over all receivers and patterns of the file. */
  readonly mentions: readonly Mention[];
  /** Tube types that the file itself describes. */
  readonly ownTypes: readonly TubeType[];
  /** Parts outside any receiver, which others may be made like. */
  readonly ownPatterns: readonly Pattern[];
  /** Tube types and patterns that count in its receivers: its own, those it uses, the library's. */
  readonly types: ReadonlyMap<string, TubeType>;
  readonly patterns: ReadonlyMap<string, Pattern>;
  /** Where parts are said to be like a pattern. */
  readonly likes: readonly PatternUse[];
  /** Its lines that use other files. */
  readonly uses: readonly Use[];
  /** Every file that was asked for, the used ones of used ones too; without text if not to be had. */
  readonly usedFiles: readonly UsedFile[];
  /** Findings that belong to no receiver. */
  readonly remarks: readonly Finding[];
}

export interface UsedFile {
  readonly file: string;
  readonly text: string | undefined;
}

/**
 * Reads a file's text to the circuits of its receivers. Never throws on any text: what cannot be
 * read, or is not known, is told in the circuits' remarks and in `remarks`.
 *
 * @param file its path, or its address: what it uses is sought beside it
 * @param reading gives the texts of the files that it uses
 */
export function readReceivers(text: string, file: string, reading: Reading = {}): ReadFile {
  const read = readText(text);
  const { document, unreadable, partly } = read;
  const outer: Lowering = { file, text, remarks: [], unread: [] };
  const described: Lowering = { file, text, remarks: [], unread: [], partly };
  const used = readUses(described, document.statements, reading);
  const types = new Map(builtInTubeTypes());
  for (const [name, { what }] of used.types) types.set(name, what);
  const ownTypes: TubeType[] = [];
  for (const node of document.statements) {
    if (!isTubeTypeStatement(node)) continue;
    const type = tubeTypeOf(described, node, false);
    noteOwnType(described, type, types, ownTypes);
    types.set(type.name, type);
    ownTypes.push(type);
  }
  const patterns = new Map([...used.patterns].map(([name, { what }]) => [name, what] as const));
  // A pattern or tube type may be what a line outside the receivers was to say.
  const isLost = used.isLost || unreadable.some((trouble) => isOutside(trouble, document));
  const known: Known = { types, patterns, isLost };
  const own = patternsOf(described, document.statements, known, partly);
  for (const pattern of own.patterns) patterns.set(pattern.name, pattern);
  const circuits: Circuit[] = [];
  const mentions: Mention[] = [...own.mentions];
  const likes: PatternUse[] = [...own.likes];
  const taken = new Set<Unreadable>();
  // What is found in the file's tube types is told with its first receiver, which uses them.
  let first: Lowering | undefined;
  for (const node of document.statements) {
    if (isReceiverStatement(node) || isLostReceiver(node)) {
      const found = first ? [] : described.remarks;
      const cx: Lowering = { file, text, remarks: [...found], unread: [] };
      first ??= cx;
      const end = node.$cstNode?.end ?? 0;
      const start = node.$cstNode?.offset ?? 0;
      for (const trouble of unreadable) {
        if (taken.has(trouble) || trouble.line.start < start || trouble.start > end) continue;
        taken.add(trouble);
        sayUnreadable(cx, trouble);
      }
      const lowered = lowerReceiver(cx, node, known, partly);
      circuits.push(lowered.circuit);
      for (const mention of lowered.mentions) mentions.push(mention);
      for (const like of lowered.likes) likes.push(like);
    } else if (!isAtHomeOutside(node)) homeless(outer, node);
  }
  for (const trouble of unreadable) if (!taken.has(trouble)) sayUnreadable(outer, trouble);
  noteUses(first ?? described, used, { circuits, likes });
  const remarks = first ? outer.remarks : [...described.remarks, ...outer.remarks];
  return {
    file,
    text,
    read,
    circuits,
    mentions,
    ownTypes,
    ownPatterns: own.patterns,
    types,
    patterns,
    likes,
    uses: used.uses,
    usedFiles: [...used.files].map(([name, of]) => ({ file: name, text: of })),
    remarks,
  };
}

/** What may stand outside any receiver. */
const isAtHomeOutside = (node: Statement): boolean =>
  isTubeTypeStatement(node) ||
  isUseStatement(node) ||
  isUnreadableStatement(node) ||
  isPattern(node);

/** A block whose header cannot be read, but whose lines are those of a receiver. */
function isLostReceiver(node: Statement): node is ReceiverStatement {
  return (
    isUnreadableStatement(node) &&
    (node.statements ?? []).some(
      (inner) =>
        (isPartStatement(inner) && !isInnerWord(inner.keyword)) ||
        isTubeStatement(inner) ||
        isStageStatement(inner) ||
        isWireStatement(inner),
    )
  );
}

/** Whether a line that cannot be read stands in no block, or leads one whose kind is not known. */
function isOutside({ line, start }: Unreadable, { statements }: ReadText['document']): boolean {
  return !statements.some((node) => {
    const { offset, end } = node.$cstNode ?? { offset: 0, end: 0 };
    const isKnown = !isUnreadableStatement(node) || isLostReceiver(node);
    return isKnown && offset <= line.start && start <= end;
  });
}

/** Words of lines that stand in the block of a part: a lost part, such as a pattern, holds them. */
const isInnerWord = (word: string): boolean => word === 'winding' || word === 'tap';

function noteOwnType(
  cx: Lowering,
  type: TubeType,
  types: ReadonlyMap<string, TubeType>,
  own: readonly TubeType[],
) {
  const twin = own.find((other) => other.name === type.name);
  if (twin) {
    remark(
      cx,
      'duplicate-name',
      'error',
      type.place,
      {
        message: `The tube type ${type.name} is described twice.`,
        why: 'Only the later description counts.',
        cure: 'Take one of them out.',
      },
      { related: [{ place: twin.place, message: `the first ${type.name}` }] },
    );
  } else {
    const other = types.get(type.name);
    if (!other) return;
    const whose = other.builtIn ? "the library's" : `the one of ${nameOfFile(other.place.file)}`;
    remark(cx, 'own-tube-type', 'hint', type.place, {
      message: `This description of the ${type.name} is used in place of ${whose}.`,
      why: 'Numbers and checks of this file go by it.',
      cure: 'Nothing need be done if that is what you want.',
    });
  }
}

function homeless(cx: Lowering, node: Statement) {
  const place = 'open' in node ? headPlace(cx, node) : placeOf(cx, node);
  remark(cx, 'unknown-word', 'error', place, {
    message: 'This stands outside any receiver.',
    why: 'A file holds receivers, tube types and patterns; what stands elsewhere belongs to no set.',
    cure: 'Put it inside the block of a receiver: receiver "title" { … }.',
  });
}

/** Words that lead a detail and are easily garbled, as `from` to `form`. */
const leads = ['from', 'to', 'across', 'set', 'taps'];

/** What may be meant where the rest of a line begins with a garbled word that should lead it. */
function garbledLead(cx: Lowering, trouble: Unreadable) {
  if (trouble.start <= trouble.line.start) return undefined;
  const [, word, rest] =
    /^([a-z]+)[ \t]+(\S)/.exec(cx.text.slice(trouble.start, trouble.end)) ?? [];
  if (word === undefined || rest === undefined || leads.includes(word)) return undefined;
  const [likely] = nearest(word, leads, 1);
  if (likely === undefined) return undefined;
  const place = placeAt(cx, trouble.start, trouble.start + word.length);
  return {
    fix: replacing(`Change to ${likely}`, place, likely),
    cure: `Did you mean "${likely}" instead of "${word}"?`,
  };
}

function sayUnreadable(cx: Lowering, trouble: Unreadable) {
  const place = placeAt(cx, trouble.start, Math.min(trouble.end, cx.text.length));
  cx.unread.push(place);
  const fixes = [];
  const garbled = trouble.instead ? undefined : garbledLead(cx, trouble);
  if (garbled) fixes.push(garbled.fix);
  if (trouble.instead) {
    const { start, end, word } = trouble.instead;
    fixes.push(replacing(`Change to ${word}`, placeAt(cx, start, end), word));
  }
  if (trouble.insert !== undefined) {
    const at = placeAt(cx, trouble.line.end, trouble.line.end);
    fixes.push(replacing(`Put in ${trouble.insert.trim()}`, at, trouble.insert));
  }
  remark(
    cx,
    'unreadable-line',
    'error',
    place,
    {
      message: trouble.message,
      why: 'What this line says of the set is not known; checks that look for something missing wait until it can be read.',
      cure: garbled?.cure ?? trouble.cure,
    },
    { fixes },
  );
}
