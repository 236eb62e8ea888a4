import type { Fix } from '@setwright/circuit';
import type { TextEdit, WorkspaceEdit } from 'vscode-languageserver-protocol';
import { leastChange } from '../work/shift.ts';
import type { Snapshot } from './snapshot.ts';

/** A change of a text, by offsets. */
export interface Edit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** A text with edits made; those that overlap an earlier one are left out. */
export function edited(text: string, edits: readonly Edit[]): string {
  let out = '';
  let at = 0;
  for (const { start, end, text: put } of inOrder(edits)) {
    if (start < at) continue;
    out += text.slice(at, start) + put;
    at = end;
  }
  return out + text.slice(at);
}

const inOrder = (edits: readonly Edit[]): readonly Edit[] =>
  edits
    .map((edit, index) => ({ edit, index }))
    .sort((a, b) => a.edit.start - b.edit.start || a.index - b.index)
    .map(({ edit }) => edit);

/** The edits of a fix; undefined where it changes another text than this. */
export function editsOf(snapshot: Snapshot, { edits }: Fix): readonly Edit[] | undefined {
  if (edits.some(({ place }) => place.file !== snapshot.uri)) return undefined;
  return edits.map(({ place: { start, end }, text }) => ({ start, end, text }));
}

/** Edits as the client makes them. */
export function textEdits(snapshot: Snapshot, edits: readonly Edit[]): TextEdit[] {
  return edits.map((edit) => ({ range: snapshot.range(edit), newText: edit.text }));
}

/** Edits of one document as the client makes them. */
export function workspaceEdit(snapshot: Snapshot, edits: readonly Edit[]): WorkspaceEdit {
  return { changes: { [snapshot.uri]: textEdits(snapshot, edits) } };
}

/**
 * The edits that lead from a text to the same with other space between its words: one for each
 * space that differs, so that cursors and marks between them stay. Where more than space differs
 * it is one edit.
 */
export function spaceEdits(before: string, after: string): readonly Edit[] {
  const edits: Edit[] = [];
  let from = 0;
  let to = 0;
  while (from < before.length || to < after.length) {
    const space = spaceFrom(before, from);
    const wanted = spaceFrom(after, to);
    if (space !== wanted) {
      // What is the same at both ends stays: the end of the line above is no part of an indentation.
      const { start, end, text } = leastChange(space, wanted, 0);
      edits.push({ start: from + start, end: from + end, text });
    }
    from += space.length;
    to += wanted.length;
    if (before[from] !== after[to]) {
      const change = leastChange(before, after, 0);
      return [change];
    }
    from += 1;
    to += 1;
  }
  return edits;
}

const spaces = /[ \t\r\n]*/y;

function spaceFrom(text: string, from: number): string {
  spaces.lastIndex = from;
  return spaces.exec(text)?.[0] ?? '';
}
