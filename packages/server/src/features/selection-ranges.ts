import type { Position, SelectionRange } from 'vscode-languageserver-protocol';
import { blocksAt } from '../text/blocks.ts';
import type { Snapshot } from '../text/snapshot.ts';
import { itemAt } from '../text/tokens.ts';

type Span = { readonly start: number; readonly end: number };

/** What a selection grows to from each position: word, statement, its block, and so outwards. */
export function selectionRanges(
  snapshot: Snapshot,
  positions: readonly Position[],
): SelectionRange[] {
  return positions.map((position) => selectionAt(snapshot, snapshot.offset(position)));
}

function selectionAt(snapshot: Snapshot, offset: number): SelectionRange {
  const { text, names, items, blocks } = snapshot;
  const word = itemAt(items, offset);
  const inside: Span[] = [{ start: 0, end: text.length }];
  for (const { start, end, headEnd, open, close } of blocksAt(blocks, offset)) {
    inside.push({ start, end });
    if (offset <= headEnd) inside.push({ start, end: headEnd });
    else if (open !== undefined && close !== undefined && offset > open && offset <= close)
      inside.push({ start: open + 1, end: close });
  }
  if (word && word.end > word.start) {
    inside.push(word);
    if (word.image.startsWith('"') && word.image.endsWith('"') && word.image.length > 2)
      inside.push({ start: word.start + 1, end: word.end - 1 });
  }
  const name = names.at(offset);
  if (name) inside.push(name);
  let range: SelectionRange | undefined;
  let last: Span | undefined;
  for (const span of inside) {
    // Each lies within the one before and is smaller.
    const fits = !last || (span.start >= last.start && span.end <= last.end);
    const isSame = last && span.start === last.start && span.end === last.end;
    if (!fits || isSame || offset < span.start || offset > span.end) continue;
    range = { range: snapshot.range(span), ...(range ? { parent: range } : {}) };
    last = span;
  }
  return range ?? { range: snapshot.range({ start: offset, end: offset }) };
}
