import {
  closeSync,
  constants,
  existsSync,
  fstatSync,
  futimesSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  rmSync,
  statSync,
} from 'node:fs';
import { join } from 'node:path';
import { isBesideName, removeLeftovers, replaceWhole } from '../write-whole.ts';

/** What is kept at most, and how long. */
export interface Limits {
  readonly entries: number;
  readonly bytes: number;
  /** What was not asked for in so many days goes. */
  readonly days: number;
}

const usualLimits: Limits = { entries: 100_000, bytes: 512 * 1024 * 1024, days: 30 };

/** An entry larger than this is none of ours. */
const MOST_BYTES = 8 * 1024 * 1024;

const DAY = 24 * 60 * 60 * 1000;

/** A folder of texts by name, which may lose any of them at any time. */
export interface CacheFolder {
  /** Undefined where there is none, or nothing that may be read. */
  read(name: string): string | undefined;
  /** @throws Error whose message says why it cannot be written */
  write(name: string, text: string): void;
  /** Takes away what is old, and the oldest of what is too much. */
  tidy(): void;
}

/** By this a folder is known as a cache to programs that save folders (Cache Directory Tagging). */
const tagFile = 'CACHEDIR.TAG';
const tag = `Signature: 8a477f597d28d172789f06886806bc55
# Results of setwright, by which unchanged sets need not be checked again. May be deleted.
`;

/** The name of an entry: a hash. */
const isEntry = (name: string): boolean => /^[0-9a-f]{64}$/.test(name);

/**
 * Opens a folder as a cache, and makes it where there is none. Git is told to leave it alone.
 *
 * @throws Error whose message says why the folder is no cache: "it holds other things"
 */
export function openCacheFolder(folder: string, limits: Limits = usualLimits): CacheFolder {
  claim(folder);
  return {
    read: (name) => readEntry(join(folder, name)),
    write: (name, text) => {
      if (text.length <= MOST_BYTES) replaceWhole(join(folder, name), text);
    },
    tidy: () => tidy(folder, limits),
  };
}

function claim(folder: string): void {
  const there = lstatSync(folder, { throwIfNoEntry: false });
  if (there?.isSymbolicLink()) throw new Error('it is a link; name the folder itself');
  if (there && !there.isDirectory()) throw new Error('it is no folder');
  if (there && process.getuid && there.uid !== process.getuid())
    throw new Error('it belongs to somebody else');
  mkdirSync(folder, { recursive: true });
  if (isTagged(folder)) return;
  if (readdirSync(folder).some((name) => !isBesideName(name)))
    throw new Error('it holds other things');
  replaceWhole(join(folder, '.gitignore'), '*\n');
  // Last: a folder with it is whole.
  replaceWhole(join(folder, tagFile), tag);
}

function isTagged(folder: string): boolean {
  const file = join(folder, tagFile);
  return existsSync(file) && lstatSync(file).isFile() && readFileSync(file, 'utf8') === tag;
}

/** Follows no link and waits for no pipe that was put in an entry's place. */
const WITH_CARE = constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0) | (constants.O_NONBLOCK ?? 0);

function readEntry(file: string): string | undefined {
  let descriptor: number;
  try {
    descriptor = openSync(file, WITH_CARE);
  } catch {
    return undefined;
  }
  try {
    const stats = fstatSync(descriptor);
    if (!stats.isFile() || stats.size > MOST_BYTES) return undefined;
    const bytes = Buffer.allocUnsafe(stats.size);
    const length = readSync(descriptor, bytes);
    // What is used is young again; once a day is often enough.
    if (Date.now() - stats.mtimeMs > DAY) futimesSync(descriptor, new Date(), new Date());
    return bytes.toString('utf8', 0, length);
  } catch {
    return undefined;
  } finally {
    closeSync(descriptor);
  }
}

const tidiedFile = 'tidied';

function tidy(folder: string, { entries, bytes, days }: Limits): void {
  const names = readdirSync(folder);
  const now = Date.now();
  const tidied = statSync(join(folder, tidiedFile), { throwIfNoEntry: false })?.mtimeMs ?? 0;
  if (names.length <= entries && Math.abs(now - tidied) < DAY) return;
  replaceWhole(join(folder, tidiedFile), '');
  const kept = names
    .filter(isEntry)
    .flatMap((name) => {
      const stats = lstatSync(join(folder, name), { throwIfNoEntry: false });
      return stats && !stats.isDirectory() ? [{ name, stats }] : [];
    })
    .sort((a, b) => b.stats.mtimeMs - a.stats.mtimeMs);
  removeLeftovers(folder);
  let count = 0;
  let total = 0;
  for (const { name, stats } of kept) {
    count += 1;
    total += stats.size;
    const isOld = now - stats.mtimeMs > days * DAY;
    if (isOld || count > entries || total > bytes) rmSync(join(folder, name), { force: true });
  }
}
