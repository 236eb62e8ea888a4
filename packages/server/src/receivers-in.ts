import { readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { FileText } from './connection/platform.ts';

/** Folders that hold no sets of anybody's. */
const skipped: ReadonlySet<string> = new Set(['node_modules', '.git', 'dist']);
/** So many files are looked through, and none that is longer than this. */
const MOST_FILES = 500;
const LONGEST = 2_000_000;

/** The receivers that lie in folders, by their URIs, as far as they can be read. */
export async function receiversIn(folders: readonly string[]): Promise<readonly FileText[]> {
  const found: FileText[] = [];
  const open = folders.flatMap((uri) => (uri.startsWith('file:') ? [fileURLToPath(uri)] : []));
  for (let folder = open.shift(); folder !== undefined; folder = open.shift()) {
    const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
    for (const entry of entries) {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) {
        if (!skipped.has(entry.name)) open.push(path);
      } else if (entry.isFile() && entry.name.endsWith('.receiver') && found.length < MOST_FILES) {
        const text = await textOf(path);
        if (text) found.push(text);
      }
    }
  }
  return found;
}

async function textOf(path: string): Promise<FileText | undefined> {
  try {
    const { size, mtimeMs } = await stat(path);
    if (size > LONGEST) return undefined;
    const text = await readFile(path, 'utf8');
    return { uri: pathToFileURL(path).href, text, stamp: `${size} ${mtimeMs}` };
  } catch {
    // It has gone in the meantime, or may not be read: there is nothing to find in it.
    return undefined;
  }
}
