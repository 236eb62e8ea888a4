import type { Item } from '@setwright/language';
import { blockKind, statementHelp } from '../words/statements.ts';
import type { Snapshot } from './snapshot.ts';

/** What stands before an offset. */
export interface Context {
  /** Words of the statement that the offset stands in, those before it. */
  readonly words: readonly Item[];
  /** Words that lead the blocks around it, outermost first. */
  readonly blocks: readonly (readonly Item[])[];
}

/**
 * The words of the statement before an offset, and the blocks around it. Goes by words and braces
 * alone, so that it knows them on lines that cannot be read.
 */
export function wordsBefore({ items, text }: Snapshot, offset: number): Context {
  const blocks: { head: readonly Item[]; line: number }[] = [];
  let words: Item[] = [];
  let last: Item | undefined;
  for (const item of items) {
    if (item.start >= offset) {
      if (item.start === offset && item.kind === 'token' && item.leadsLine) words = [];
      break;
    }
    if (item.kind !== 'token') continue;
    last = item;
    if (item.brace === '{') {
      blocks.push({ head: words, line: item.startLine });
      words = [];
    } else if (item.brace === '}') {
      blocks.pop();
      words = [];
    } else if (item.leadsLine || beginsOnLine(item, blocks.at(-1), words.at(-1))) words = [item];
    else words.push(item);
  }
  const between = text.slice(last?.end ?? 0, offset);
  const isCarriedOn = last?.image === ',' || isDetailAt(items, offset);
  if (/[\r\n]/.test(between) && !isCarriedOn) words = [];
  return { words, blocks: blocks.map(({ head }) => head) };
}

/** Whether the word at an offset carries on the line above. */
function isDetailAt(items: readonly Item[], offset: number): boolean {
  const here = items.find(({ start, end }) => start <= offset && offset <= end);
  return here !== undefined && here.kind === 'token' && !here.leadsLine;
}

/** Whether a word begins a statement in a block that stands on one line. */
function beginsOnLine(
  item: Item,
  block: { readonly head: readonly Item[]; readonly line: number } | undefined,
  before: Item | undefined,
): boolean {
  if (!block || block.line !== item.startLine || before === undefined) return false;
  const kind = blockKind(block.head.map(({ image }) => image));
  return statementHelp.some(({ word, within }) => word === item.image && within.includes(kind));
}
