import { blocksOf } from './format/blocks.ts';
import { type Item, itemsOf } from './format/items.ts';
import { layOut } from './format/layout.ts';
import type { Document, Statement } from './generated/ast.ts';
import { readText } from './read.ts';

export interface Formatted {
  readonly text: string;
  /** False when the blocks of the text are not clear; it is then given back unchanged. */
  readonly readable: boolean;
}

const BYTE_ORDER_MARK = '\ufeff';

/**
 * Sets a text in order: two spaces for each block, one space between words, what carries a line on
 * two spaces deeper. Words, units, order, comments and single empty lines stay the author's; a
 * block that stood on one line stays there when it fits 100 columns; lines that cannot be read
 * keep their words as they stand and are only moved. Formatting twice changes nothing. Line ends
 * are LF, or CRLF when most of the text's are. Never throws.
 */
export function formatText(text: string): Formatted {
  const unchanged: Formatted = { text, readable: false };
  const items = itemsOf(text);
  const { document, unreadable } = readText(text);
  // Troubles with braces as such name no words of a line.
  if (unreadable.some(({ ofBlocks }) => ofBlocks)) return unchanged;
  const verbatim = linesIn(
    items,
    unreadable.map(({ line }) => line),
  );
  const ordered = bracesJoined(items, verbatim);
  const blocks = blocksOf(ordered);
  if (!blocks) return unchanged;
  const statements = statementStarts(document);
  const plain = layOut({ text, items: ordered, blocks, verbatim, statements });
  // Nothing but the space between words may change; if more did, that is the formatter's fault.
  if (!sameWords(items, itemsOf(plain))) return unchanged;
  const mark = text.startsWith(BYTE_ORDER_MARK) ? BYTE_ORDER_MARK : '';
  return {
    text: mark + (mostlyCrlf(text) ? plain.replaceAll('\n', '\r\n') : plain),
    readable: true,
  };
}

/** Numbers of the lines that hold any token within these places. */
function linesIn(
  items: readonly Item[],
  places: readonly { readonly start: number; readonly end: number }[],
): Set<number> {
  const tokens = items.filter(({ kind }) => kind === 'token');
  const found = new Set<number>();
  for (const { start, end } of places) {
    let low = 0;
    let high = tokens.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((tokens[middle]?.end ?? 0) <= start) low = middle + 1;
      else high = middle;
    }
    for (let token = tokens[low]; token && token.start < end; token = tokens[++low])
      found.add(token.line);
  }
  return found;
}

/**
 * The items with each `{` that stood below its statement before the comments between the two, so
 * that it can join the statement's line.
 */
function bracesJoined(items: readonly Item[], verbatim: ReadonlySet<number>): Item[] {
  const ordered: Item[] = [];
  for (const item of items) {
    let at = ordered.length;
    if (item.brace === '{' && !item.leadsLine && !verbatim.has(item.line)) {
      while (at > 0 && ordered[at - 1]?.kind !== 'token') at -= 1;
      // A comment between two words of one line stays where it is.
      if (ordered[at - 1]?.endLine === item.startLine) at = ordered.length;
    }
    ordered.splice(at, 0, item);
  }
  return ordered;
}

/** Offsets at which the statements of a text begin. */
function statementStarts(document: Document): Set<number> {
  const starts = new Set<number>();
  const open: (Document | Statement)[] = [document];
  for (let node = open.pop(); node; node = open.pop()) {
    if (node.$type !== 'Document' && node.$cstNode) starts.add(node.$cstNode.offset);
    if ('statements' in node) for (const inner of node.statements ?? []) open.push(inner);
  }
  return starts;
}

/** Whether two texts hold the same tokens in order, and the same comments. */
function sameWords(before: readonly Item[], after: readonly Item[]): boolean {
  return [true, false].every((tokens) => {
    const wanted = imagesOf(before, tokens);
    const given = imagesOf(after, tokens);
    return wanted.length === given.length && wanted.every((word, at) => word === given[at]);
  });
}

function imagesOf(items: readonly Item[], tokens: boolean): string[] {
  return items
    .filter(({ kind }) => (kind === 'token') === tokens)
    .map(({ image }) => image.replace(/\r\n?/g, '\n'));
}

function mostlyCrlf(text: string): boolean {
  const all = text.match(/\r\n?|\n/g) ?? [];
  return all.filter((end) => end === '\r\n').length * 2 > all.length;
}
