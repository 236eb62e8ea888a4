import { formatText } from '@setwright/language';
import type { Position, Range, TextEdit } from 'vscode-languageserver-protocol';
import { type Edit, spaceEdits, textEdits } from '../text/edits.ts';
import type { Snapshot } from '../text/snapshot.ts';
import { indentOf } from './meant.ts';

/** The edits that put a text in order; none where its blocks are not clear. */
export function formattingEdits(snapshot: Snapshot): TextEdit[] {
  return textEdits(snapshot, inOrder(snapshot));
}

/** The same for the lines that a range touches. */
export function rangeFormattingEdits(snapshot: Snapshot, { start, end }: Range): TextEdit[] {
  const from = snapshot.offset({ line: start.line, character: 0 });
  const isAtStart = end.character === 0 && end.line > start.line;
  const last = isAtStart ? end.line - 1 : end.line;
  const to = snapshot.offset({ line: last + 1, character: 0 });
  return textEdits(snapshot, within(snapshot, from, to));
}

/**
 * What is put in order while one types: behind a line that was just ended its own space and that
 * before the new one, behind a closing brace all lines of its block.
 */
export function typingEdits(snapshot: Snapshot, position: Position, typed: string): TextEdit[] {
  const { text, items } = snapshot;
  const offset = snapshot.offset(position);
  if (typed === '}') {
    const close = items.find(({ brace, end }) => brace === '}' && end === offset);
    if (!close) return [];
    let depth = 0;
    for (const item of [...items].reverse()) {
      if (item.start > close.start || item.brace === undefined) continue;
      depth += item.brace === '}' ? 1 : -1;
      if (depth > 0) continue;
      const line = snapshot.position(item.start).line;
      const from = snapshot.offset({ line, character: 0 });
      return textEdits(snapshot, within(snapshot, from, close.end));
    }
    return [];
  }
  if (position.line === 0) return [];
  const from = snapshot.offset({ line: position.line - 1, character: 0 });
  const lineStart = snapshot.offset({ line: position.line, character: 0 });
  const before = within(snapshot, from, lineStart).filter(({ end }) => end < lineStart);
  const rest = text.slice(lineStart).split(/\r?\n|\r/, 1)[0] ?? '';
  if (rest.trim() !== '') return textEdits(snapshot, before);
  // An empty line has no words to go by: it stands as deep as the blocks that are open.
  let depth = 0;
  for (const { brace, start } of items) {
    if (start >= lineStart) break;
    if (brace === '{') depth += 1;
    else if (brace === '}') depth = Math.max(0, depth - 1);
  }
  const inComment = items.some(
    ({ kind, start, end }) => kind === 'block-comment' && start < lineStart && end > lineStart,
  );
  const wanted = '  '.repeat(depth);
  if (inComment || indentOf(text, offset) === wanted || rest === wanted)
    return textEdits(snapshot, before);
  return textEdits(snapshot, [
    ...before,
    { start: lineStart, end: lineStart + rest.length, text: wanted },
  ]);
}

function inOrder({ text }: Snapshot): readonly Edit[] {
  const formatted = formatText(text);
  return formatted.readable ? spaceEdits(text, formatted.text) : [];
}

function within(snapshot: Snapshot, from: number, to: number): readonly Edit[] {
  return inOrder(snapshot).filter(({ start, end }) => start >= from && end <= to);
}
