import { allChecks } from '@setwright/checks';
import type { Circuit, TubeType } from '@setwright/circuit';
import { symptoms } from '@setwright/language';
import {
  type CompletionItem,
  CompletionItemKind,
  type CompletionList,
  InsertTextFormat,
  MarkupKind,
  type Position,
} from 'vscode-languageserver-protocol';
import { wordsBefore } from '../../text/context.ts';
import type { Snapshot } from '../../text/snapshot.ts';
import { firstFrom } from '../../text/tokens.ts';
import { plainOf, snippetOf } from '../../words/snippet.ts';
import { type BlockKind, blockKind } from '../../words/statements.ts';
import { typeHover } from '../hover/type-hover.ts';
import { detailsBehind } from './behind.ts';
import type { Entry } from './entry.ts';
import { newNames } from './names.ts';
import { pathEntries } from './paths.ts';
import { stageEntries } from './stages.ts';
import { unitsBehind } from './units.ts';
import { detailEntries, statementEntries } from './words.ts';

/** How completion is asked for. */
export interface CompletionOptions {
  readonly takesSnippets: boolean;
  /** The letter that called for it, where none was asked for. */
  readonly typed?: string | undefined;
  /** Files that may be used, by their URIs: only asked for where `isInPath` says so. */
  readonly files?: readonly string[];
}

/** Whether a position stands in the path of a `use`. */
export function isInPath(snapshot: Snapshot, position: Position): boolean {
  const offset = snapshot.offset(position);
  const inside = snapshot.items[firstFrom(snapshot.items, offset) - 1];
  if (!inside?.image.startsWith('"')) return false;
  const { words } = wordsBefore(snapshot, inside.start);
  return words.length === 1 && words[0]?.image === 'use';
}

/** What may stand at a position: words, names, units, tube types, whole stages. */
export function completionAt(
  snapshot: Snapshot,
  position: Position,
  { takesSnippets, typed, files = [] }: CompletionOptions,
): CompletionList {
  const offset = snapshot.offset(position);
  const found = entriesAt(snapshot, offset, files);
  // A space alone calls for names and units, not for everything that might be written here.
  const { prefix, entries } = typed === ' ' && !found.isSure ? nothing : found;
  const range = snapshot.range({ start: offset - prefix.length, end: offset });
  const items = entries.map((entry, index): CompletionItem => {
    const { label, kind, detail, more, snippet, insert } = entry;
    const isSnippet = snippet !== undefined && takesSnippets;
    const plain = snippet === undefined ? (insert ?? label) : plainOf(snippet);
    return {
      label,
      kind,
      // In the order given, which goes by what is likeliest.
      sortText: String(index).padStart(5, '0'),
      filterText: label,
      textEdit: { range, newText: isSnippet ? snippetOf(snippet) : plain },
      ...(isSnippet ? { insertTextFormat: InsertTextFormat.Snippet } : {}),
      ...(detail === undefined ? {} : { detail }),
      ...(more === undefined ? {} : { documentation: { kind: MarkupKind.Markdown, value: more } }),
    };
  });
  return { isIncomplete: false, items };
}

interface Found {
  /** What is typed already of the word at the cursor. */
  readonly prefix: string;
  readonly entries: readonly Entry[];
  /** Whether something of this kind must come here. */
  readonly isSure: boolean;
}

const nothing: Found = { prefix: '', entries: [], isSure: false };

function entriesAt(snapshot: Snapshot, offset: number, files: readonly string[]): Found {
  const { items, text, file, names } = snapshot;
  const inside = items[firstFrom(items, offset) - 1];
  if (inside && inside.end >= offset) {
    if (inside.kind === 'line-comment') return nothing;
    if (inside.kind === 'block-comment' && inside.end > offset) return nothing;
    const isOpen =
      inside.image.startsWith('"') && (inside.end > offset || isUnclosed(inside.image));
    if (isOpen) return inString(snapshot, offset, inside.start, () => pathEntries(snapshot, files));
  }
  const prefix = /[\p{L}\p{N}_.+\-\u2212%]*$/u.exec(text.slice(0, offset))?.[0] ?? '';
  // A number is not to be completed.
  if (/^[-+\u2212]?\.?\d/.test(prefix) && !/^\d+-?[A-Za-z]*$/.test(prefix)) return nothing;
  const { words, blocks } = wordsBefore(snapshot, offset - prefix.length);
  const block = blockKind(blocks.at(-1)?.map(({ image }) => image));
  const circuit = file.circuits[names.receiverAt(offset)] ?? file.circuits.at(-1);
  const images = words.map(({ image }) => image);
  const owner = blocks.at(-1)?.[1]?.image;
  return { prefix, ...entriesFor(images, block, circuit, prefix, owner, snapshot) };
}

const isUnclosed = (image: string): boolean => image.length === 1 || !image.endsWith('"');

function inString(
  snapshot: Snapshot,
  offset: number,
  start: number,
  paths: () => readonly Entry[],
): Found {
  const { words } = wordsBefore(snapshot, start);
  if (words.length === 1 && words[0]?.image === 'use')
    return { prefix: snapshot.text.slice(start + 1, offset), entries: paths(), isSure: true };
  if (words.at(-1)?.image !== 'heard') return nothing;
  const entries = symptoms.map((label) => ({ label, kind: CompletionItemKind.EnumMember }));
  return { prefix: snapshot.text.slice(start + 1, offset), entries, isSure: true };
}

function entriesFor(
  words: readonly string[],
  block: BlockKind,
  circuit: Circuit | undefined,
  prefix: string,
  owner: string | undefined,
  snapshot: Snapshot,
): Omit<Found, 'prefix'> {
  const [head, second] = words;
  const sure = (entries: readonly Entry[]) => ({ entries, isSure: true });
  const perhaps = (entries: readonly Entry[]) => ({ entries, isSure: false });
  if (head === undefined) {
    const stages = block === 'receiver' ? stageEntries(circuit) : [];
    return perhaps([...statementEntries(block), ...stages]);
  }
  if (head === 'tube') {
    const entries = tubeEntries(words, block, circuit, snapshot);
    return entries.length > 0 ? sure(entries) : perhaps(detailEntries(head, block));
  }
  // The rest of the word alone may be a number, as a tube type is.
  if (/^\d/.test(prefix)) return nothing;
  if (head === 'meant') return sure(words.length === 1 ? checkEntries() : []);
  if (isRole(head) && !words.includes('stage'))
    return sure(block === 'receiver' || block === 'stage' ? roleEntries(words) : []);
  const { patterns } = snapshot.file;
  const behind = detailsBehind(words, block, { circuit, patterns }, prefix, owner);
  if (behind) return sure(behind);
  const last = words.at(-1) ?? '';
  if (words.length > 1 && /^[-+\u2212]?[\d.][\d ./]*$/.test(last))
    return sure([...unitsBehind(words, block), ...detailEntries(head, block)]);
  if (second === undefined && block !== 'suppose' && block !== 'bench' && block !== 'type')
    return sure(newNames(circuit, head));
  return perhaps(detailEntries(head, block));
}

function tubeEntries(
  words: readonly string[],
  block: BlockKind,
  circuit: Circuit | undefined,
  snapshot: Snapshot,
): readonly Entry[] {
  const isType = words[1] === 'type';
  if (words.length === 1)
    return block === 'file'
      ? [{ label: 'type', kind: CompletionItemKind.Keyword }]
      : newNames(circuit, 'tube');
  const named = isType ? words.length === 2 : words.slice(2).every((word) => word.startsWith('"'));
  if (!named) return [];
  const all = [...snapshot.file.types.values()];
  const isTheirs = ({ builtIn }: TubeType): boolean => builtIn;
  return [...all.filter((type) => !isTheirs(type)), ...all.filter(isTheirs)].map((type) => ({
    label: type.name,
    kind: CompletionItemKind.Class,
    ...(type.title === undefined ? {} : { detail: type.title }),
    more: typeHover(type, 'period', snapshot),
  }));
}

function checkEntries(): readonly Entry[] {
  return allChecks
    .filter(({ group, severity }) => group !== 'Reading the text' || severity !== 'error')
    .map(({ id, summary, why }) => ({
      label: id,
      kind: CompletionItemKind.Event,
      detail: summary,
      more: why,
    }));
}

const roles = ['radio', 'detector', 'audio', 'output', 'mixer', 'oscillator', 'intermediate'];
const isRole = (word: string): boolean => roles.includes(word);

function roleEntries(words: readonly string[]): readonly Entry[] {
  return ['stage', ...roles.filter((role) => !words.includes(role))].map((label) => ({
    label,
    kind: CompletionItemKind.Keyword,
  }));
}
