import { CompletionItemKind } from 'vscode-languageserver-protocol';
import type { Snapshot } from '../../text/snapshot.ts';
import type { Entry } from './entry.ts';

/** Files that a text may use, by their paths as seen from it: the nearest first. */
export function pathEntries({ uri, file }: Snapshot, files: readonly string[]): readonly Entry[] {
  const known = new Set(file.uses.map(({ path }) => path));
  const paths = files.flatMap((each) => (each === uri ? [] : (pathFrom(uri, each) ?? [])));
  return [...new Set(paths)]
    .filter((path) => !known.has(path))
    .sort((a, b) => stepsOf(a) - stepsOf(b) || (a < b ? -1 : 1))
    .map((label) => ({ label, kind: CompletionItemKind.File }));
}

const stepsOf = (path: string): number => path.split('/').length;

/** The path from one file to another; undefined where no path leads there. */
function pathFrom(uri: string, other: string): string | undefined {
  const [from, to] = [uri, other].map((each) => /^([^:]+:\/\/[^/]*)\/(.*)$/.exec(each));
  if (!from || !to || from[1] !== to[1]) return undefined;
  try {
    const own = (from[2] ?? '').split('/').map(decodeURIComponent).slice(0, -1);
    const there = (to[2] ?? '').split('/').map(decodeURIComponent);
    let same = 0;
    while (same < own.length && own[same] === there[same]) same += 1;
    return [...own.slice(same).map(() => '..'), ...there.slice(same)].join('/');
  } catch {
    // An address that is no proper one leads nowhere.
    return undefined;
  }
}
