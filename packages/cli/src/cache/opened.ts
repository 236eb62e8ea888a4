import { resolve } from 'node:path';
import type { Streams } from '../streams.ts';
import { sayWrong } from '../troubles.ts';
import { toolDigest, version } from '../version.ts';
import type { UsedOnce } from '../work/used-once.ts';
import { whyNotWritten } from '../write-whole.ts';
import { type EntryCache, entryCache, type Resting } from './entries.ts';
import { openCacheFolder } from './folder.ts';

/**
 * The cache that a call asks for, if it does; `refused` where it cannot be one, which is then said.
 *
 * @param made options that what is kept depends on; the tool itself and its Node are seen to here
 */
export function openedCache<Entry extends Resting>(
  folder: string | false | undefined,
  made: readonly string[],
  isEntry: (value: unknown) => value is Entry,
  used: UsedOnce,
  streams: Streams,
): EntryCache<Entry> | 'refused' | undefined {
  if (folder === undefined || folder === false) return undefined;
  try {
    const opened = openCacheFolder(resolve(streams.cwd, folder));
    return entryCache(opened, [version, toolDigest, process.version, ...made], used, isEntry);
  } catch (error) {
    sayWrong(
      streams,
      `${folder} cannot be the folder of the cache: ${whyNotWritten(error)}.`,
      'Name another, as in: --cache .setwright-cache',
    );
    return 'refused';
  }
}

/** Says why nothing more could be kept, where that is so. */
export function sayCacheTrouble(
  cache: { readonly trouble: string | undefined } | undefined,
  streams: Streams,
): void {
  if (cache?.trouble !== undefined)
    streams.err.write(`setwright: nothing more is kept in the cache: ${cache.trouble}.\n`);
}
