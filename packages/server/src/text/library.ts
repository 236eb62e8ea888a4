import type { Place } from '@setwright/circuit';
import { libraryFile, tubeLibraryText } from '@setwright/language';
import type { Location } from 'vscode-languageserver-protocol';
import { libraryUri } from '../texts.ts';
import { once } from './once.ts';
import { type Snapshot, snapshotOf } from './snapshot.ts';

/** The tube library as a document. */
export const librarySnapshot: () => Snapshot = once(() =>
  snapshotOf(libraryUri, 0, tubeLibraryText),
);

/** Where a place of a document, of a file that it uses, or of the tube library is. */
export function locationOf(snapshot: Snapshot, place: Place): Location | undefined {
  if (place.file === snapshot.uri) return { uri: snapshot.uri, range: snapshot.range(place) };
  if (place.file === libraryFile) return { uri: libraryUri, range: librarySnapshot().range(place) };
  const used = snapshot.file.usedFiles.find(({ file }) => file === place.file)?.text;
  if (used === undefined) return undefined;
  const { range } = snapshotOf(place.file, 0, used);
  return { uri: place.file, range: range(place) };
}
