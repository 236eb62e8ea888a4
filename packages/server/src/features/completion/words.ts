import { type PartKindName, partKinds } from '@setwright/circuit';
import { CompletionItemKind } from 'vscode-languageserver-protocol';
import { receiverCode } from '../../text/markdown.ts';
import { detailHelp } from '../../words/details.ts';
import { type BlockKind, statementHelp } from '../../words/statements.ts';
import type { Entry } from './entry.ts';

/** Words that begin a statement in a block. */
export function statementEntries(block: BlockKind): readonly Entry[] {
  return statementHelp
    .filter(({ within }) => within.includes(block))
    .map(({ word, meaning, example, snippet }) => ({
      label: word,
      kind: CompletionItemKind.Keyword,
      detail: meaning,
      more: `${meaning}\n\n${receiverCode(example)}`,
      ...(snippet === undefined ? {} : { snippet }),
    }));
}

const wiring = ['from', 'to', 'across', 'like', 'found'] as const;

/** Words that lead a detail of a kind of part, by the names of its details. */
const ledBy: Readonly<Record<string, readonly string[]>> = {
  from: ['from'],
  to: ['to'],
  across: ['across'],
  set: ['set'],
  taps: ['taps', 'tap', 'centre'],
  winding: ['of', 'beside', 'over', 'inside', 'spaced', 'paper', 'length', 'on', 'at', 'reversed'],
  contacts: ['breaks', 'makes'],
  through: ['through'],
  into: ['into'],
  around: ['around'],
  law: ['law'],
  ratio: ['ratio'],
  like: ['like'],
};

const ofStatements: Readonly<Record<string, readonly string[]>> = {
  wire: ['to'],
  tunes: ['to'],
  form: ['by'],
  filament: ['from', 'to'],
  heater: ['from', 'to'],
  plate: ['to'],
  grid: ['to'],
  screen: ['to'],
  cathode: ['to'],
  gang: ['frame', 'insulated'],
  dial: ['drives', 'reversed'],
  coupling: ['with'],
  reading: ['to', 'on', 'lifted'],
  swap: ['with'],
  join: ['to', 'through'],
  plug: ['into'],
  change: ['to'],
  damped: ['to'],
  tap: ['at', 'resistance', 'to'],
  point: ['plate', 'grid', 'screen', 'current', 'resistance', 'transconductance', 'source'],
};

/** Words that may carry a statement on: those that lead a detail, and plain words. */
export function detailEntries(head: string, block: BlockKind): readonly Entry[] {
  const kind = partKinds[head as PartKindName];
  const isPart = kind && block !== 'bench' && block !== 'suppose' && block !== 'type';
  if (!isPart) return (ofStatements[head] ?? []).map(detailEntry);
  const words = new Set<string>([
    ...kind.details.flatMap((detail) => ledBy[detail] ?? []),
    ...kind.namedEnds.filter((end) => detailHelp.some(({ word }) => word === end)),
    ...(kind.details.includes('from') && kind.details.includes('across') ? wiring : []),
    ...kind.words,
  ]);
  return [...words].map(detailEntry);
}

function detailEntry(word: string): Entry {
  const help = detailHelp.find((each) => each.word === word);
  return {
    label: word,
    kind: help ? CompletionItemKind.Keyword : CompletionItemKind.EnumMember,
    ...(help ? { detail: help.meaning, more: receiverCode(help.example) } : {}),
  };
}
