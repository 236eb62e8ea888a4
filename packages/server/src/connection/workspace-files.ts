import { type Snapshot, snapshotOf } from '../text/snapshot.ts';
import type { Documents } from '../work/documents.ts';
import type { Platform } from './platform.ts';

/** The receivers of the workspace: those that are open as they are there, the others as stored. */
export function workspaceFiles(
  platform: Platform,
  documents: Documents,
): (folders: readonly string[]) => Promise<readonly Snapshot[]> {
  const read = new Map<string, { readonly stamp: string; readonly snapshot: Snapshot }>();
  return async (folders) => {
    const open = documents.all().map(({ snapshot }) => snapshot);
    const isOpen = new Set(open.map(({ uri }) => uri));
    const stored = (await platform.receiversIn(folders)).flatMap(({ uri, text, stamp }) => {
      if (isOpen.has(uri)) return [];
      const before = read.get(uri);
      const snapshot = before?.stamp === stamp ? before.snapshot : snapshotOf(uri, 0, text);
      read.set(uri, { stamp, snapshot });
      return [snapshot];
    });
    return [...open, ...stored];
  };
}
