import {
  type DocumentHighlight,
  DocumentHighlightKind,
  type LinkedEditingRanges,
  type Position,
} from 'vscode-languageserver-protocol';
import type { Snapshot } from '../text/snapshot.ts';
import { occurrencesAt } from './definition.ts';

/** Every place that names what is named at a position; its declaration stands out. */
export function highlightsAt(snapshot: Snapshot, position: Position): DocumentHighlight[] {
  return occurrencesAt(snapshot, position).map((place) => ({
    range: snapshot.range(place),
    kind: place.isDeclaration ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
  }));
}

/** The places that are to change with one another while a name is typed anew. */
export function linkedRangesAt(
  snapshot: Snapshot,
  position: Position,
): LinkedEditingRanges | undefined {
  const at = snapshot.names.at(snapshot.offset(position));
  // Only from where it is declared: elsewhere another name is meant by another word.
  if (!at?.isDeclaration || at.named.kind !== 'part') return undefined;
  const words = snapshot.text.slice(at.start, at.end);
  const same = snapshot.names
    .of(at.named)
    .filter(({ start, end }) => snapshot.text.slice(start, end) === words);
  if (same.length < 2) return undefined;
  return { ranges: same.map((place) => snapshot.range(place)), wordPattern: '[A-Za-z_][\\w+-]*' };
}
