import { createHash } from 'node:crypto';
import type { Reading } from '@setwright/language';
import { usedFilesFor } from '../used-files.ts';

/** The files that sets use, each as it was when this run first asked for it. */
export interface UsedOnce {
  readonly reading: Reading;
  /** Changes when anything does that a set can have of the file: its text, or why there is none. */
  stampOf(file: string): string;
  textOf(file: string): string | undefined;
}

type Used = ReturnType<NonNullable<Reading['used']>>;

/** @param cwd the folder that the paths of sets are seen from */
export function usedOnce(cwd: string): UsedOnce {
  const { used, memory } = usedFilesFor(cwd);
  const known = new Map<string, Used>();
  const stamps = new Map<string, string>();
  const once = (file: string): Used => {
    if (!known.has(file)) known.set(file, used(file));
    return known.get(file);
  };
  return {
    reading: { used: once, memory },
    stampOf: (file) => {
      const stamp = stamps.get(file) ?? hashOf(JSON.stringify(once(file) ?? null));
      stamps.set(file, stamp);
      return stamp;
    },
    textOf: (file) => {
      const found = once(file);
      return found && 'text' in found ? found.text : undefined;
    },
  };
}

const hashOf = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');
