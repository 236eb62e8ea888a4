import { type Findable, findableIn } from '../features/symbols.ts';
import { snapshotOf } from '../text/snapshot.ts';
import type { Documents } from '../work/documents.ts';
import type { Platform } from './platform.ts';

/**
 * What may be found in the workspace: in the documents that are open as they are now, in the other
 * receivers of its folders as they are stored.
 */
export function workspaceFinder(
  platform: Platform,
  documents: Documents,
): (folders: readonly string[]) => Promise<readonly Findable[]> {
  let read = new Map<string, { readonly stamp: string; readonly found: readonly Findable[] }>();
  return async (folders) => {
    const open = documents.all().map(({ snapshot }) => snapshot);
    const isOpen = new Set(open.map(({ uri }) => uri));
    const before = read;
    read = new Map();
    for (const { uri, text, stamp } of await platform.receiversIn(folders)) {
      const known = before.get(uri);
      const found = known?.stamp === stamp ? known.found : findableIn(snapshotOf(uri, 0, text));
      read.set(uri, { stamp, found });
    }
    const stored = [...read].flatMap(([uri, { found }]) => (isOpen.has(uri) ? [] : found));
    return [...open.flatMap(findableIn), ...stored];
  };
}
