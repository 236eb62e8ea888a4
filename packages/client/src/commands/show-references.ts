import type { Position as PlainPosition, Range as PlainRange } from '@setwright/webview';
import { commands, Location, Position, Range, Uri } from 'vscode';

const position = ({ line, character }: PlainPosition): Position => new Position(line, character);

const range = ({ start, end }: PlainRange): Range => new Range(position(start), position(end));

/** Shows places that the server lists, in the editor's own way of showing references. */
export async function showReferences(uri: unknown, at: unknown, locations: unknown): Promise<void> {
  if (typeof uri !== 'string' || !Array.isArray(locations)) return;
  const places = (locations as { readonly uri: string; readonly range: PlainRange }[]).map(
    (each) => new Location(Uri.parse(each.uri, true), range(each.range)),
  );
  await commands.executeCommand(
    'editor.action.showReferences',
    Uri.parse(uri, true),
    position(at as PlainPosition),
    places,
  );
}
