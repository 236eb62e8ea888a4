import { createHash } from 'node:crypto';
import type { UsedOnce } from '../work/used-once.ts';
import type { CacheFolder } from './folder.ts';

/** What was made of files in earlier runs. */
export interface EntryCache<Entry extends Resting> {
  /** What there is for a text under this path; undefined where it must be examined. */
  find(path: string, text: string): Entry | undefined;
  keep(path: string, text: string, entry: Entry): void;
  /** Why nothing more is kept, where that is so. */
  readonly trouble: string | undefined;
  /** To be called once, when all is kept. */
  close(): void;
}

/** An entry says which files it rests on besides its own. */
export interface Resting {
  readonly uses: readonly { readonly file: string; readonly stamp: string }[];
}

/**
 * A cache of results in a folder. An entry is good for the very tool, options, path, text and used
 * files that it was made with, and never otherwise.
 *
 * @param made everything besides path, text and used files that a result depends on
 * @param isEntry whether what was read is an entry through and through
 */
export function entryCache<Entry extends Resting>(
  folder: CacheFolder,
  made: readonly string[],
  used: UsedOnce,
  isEntry: (value: unknown) => value is Entry,
): EntryCache<Entry> {
  const keyOf = (path: string, text: string): string =>
    hashOf(JSON.stringify([...made, path, hashOf(text)]));
  let trouble: string | undefined;
  let hasKept = false;
  return {
    find: (path, text) => {
      const key = keyOf(path, text);
      const value = valueIn(folder.read(key), key);
      const isGood =
        isEntry(value) && value.uses.every(({ file, stamp }) => used.stampOf(file) === stamp);
      return isGood ? value : undefined;
    },
    keep: (path, text, entry) => {
      if (trouble !== undefined) return;
      try {
        const key = keyOf(path, text);
        folder.write(key, textOf(key, entry));
        hasKept = true;
      } catch (error) {
        trouble = error instanceof Error ? error.message : String(error);
      }
    },
    get trouble() {
      return trouble;
    },
    close: () => {
      if (!hasKept) return;
      try {
        folder.tidy();
      } catch {
        // What cannot be tidied now may be tidied by another run.
      }
    },
  };
}

const hashOf = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');

/** The hash of all that follows, so that what was cut off or changed is known. */
function textOf(key: string, entry: Resting): string {
  const body = JSON.stringify({ key, ...entry });
  return `${hashOf(body)}\n${body}`;
}

function valueIn(text: string | undefined, key: string): unknown {
  const end = text?.indexOf('\n') ?? -1;
  if (text === undefined || end < 0) return undefined;
  const body = text.slice(end + 1);
  if (hashOf(body) !== text.slice(0, end)) return undefined;
  try {
    const value: unknown = JSON.parse(body);
    const isOurs = typeof value === 'object' && value !== null && 'key' in value;
    return isOurs && value.key === key ? value : undefined;
  } catch {
    return undefined;
  }
}
