import { randomBytes } from 'node:crypto';
import {
  accessSync,
  closeSync,
  constants,
  fchmodSync,
  fchownSync,
  lstatSync,
  openSync,
  readdirSync,
  readlinkSync,
  realpathSync,
  renameSync,
  rmSync,
  type Stats,
  statSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';

/** What files are called while they are being written; such a name is nobody else's. */
const besideName = () => `.setwright-${process.pid}-${randomBytes(6).toString('hex')}.tmp`;

/** Whether a file name is one of those that {@link writeWhole} writes beside. */
export const isBesideName = (name: string): boolean =>
  /^\.setwright-\d+-[0-9a-f]{12}\.tmp$/.test(name);

/** What is still being written is younger than this, in milliseconds. */
const LONGEST_WRITING = 60 * 60 * 1000;

/** Takes away what runs that were killed left half-written in a folder of the tool's own. */
export function removeLeftovers(folder: string): void {
  for (const name of readdirSync(folder)) {
    const file = join(folder, name);
    const stats = isBesideName(name) ? lstatSync(file, { throwIfNoEntry: false }) : undefined;
    if (stats && Date.now() - stats.mtimeMs > LONGEST_WRITING) rmSync(file, { force: true });
  }
}

/** Links are followed this far; more lead round in a circle. */
const MOST_LINKS = 40;

/**
 * Writes a file whole or not at all: beside its place first, then put there at one stroke. Whoever
 * reads it meanwhile has the old one or the new one, and what was there outlives a full disk and
 * a run that is ended. A link is followed and stays; mode and owner of a file that was there stay,
 * the owner where the system lets him. Other names of the same file (hard links) keep the old one.
 *
 * @throws Error whose message says in plain words why it cannot be: "it is a folder"
 */
export function writeWhole(path: string, contents: string | Uint8Array): void {
  const target = targetOf(resolve(path));
  const before = statSync(target, { throwIfNoEntry: false });
  if (before) refuseUnlessReplaceable(target, before);
  putInPlace(target, contents, before);
}

/**
 * The same for a file that is the tool's own: whatever bears its name is replaced, a link too.
 *
 * @throws Error whose message says in plain words why it cannot be
 */
export function replaceWhole(path: string, contents: string | Uint8Array): void {
  putInPlace(path, contents, undefined);
}

function putInPlace(
  target: string,
  contents: string | Uint8Array,
  before: Stats | undefined,
): void {
  const beside = join(dirname(target), besideName());
  try {
    writeBeside(beside, contents, before);
    renameSync(beside, target);
  } catch (error) {
    rmSync(beside, { force: true });
    throw new Error(whyNotWritten(error));
  }
}

/** The place that links lead to; there need be nothing yet. */
function targetOf(path: string): string {
  let target = path;
  for (let links = 0; links <= MOST_LINKS; links += 1) {
    try {
      return realpathSync(target);
    } catch (error) {
      if (codeOf(error) !== 'ENOENT') throw new Error(whyNotWritten(error));
    }
    // Nothing is there: a new name, or a link that leads to one.
    const link = lstatSync(target, { throwIfNoEntry: false });
    if (!link?.isSymbolicLink()) return inRealFolder(target);
    target = resolve(dirname(target), readlinkSync(target));
  }
  throw new Error(words.ELOOP);
}

function inRealFolder(target: string): string {
  try {
    return join(realpathSync(dirname(target)), basename(target));
  } catch (error) {
    throw new Error(whyNotWritten(error));
  }
}

function refuseUnlessReplaceable(target: string, before: Stats): void {
  if (before.isDirectory()) throw new Error(words.EISDIR);
  if (!before.isFile()) throw new Error('it is a device or a pipe, and no file');
  // A file that nobody may write is kept from harm even from those who may write everything.
  if ((before.mode & 0o222) === 0) throw new Error('it is read-only');
  try {
    accessSync(target, constants.W_OK);
  } catch (error) {
    throw new Error(whyNotWritten(error));
  }
}

function writeBeside(
  beside: string,
  contents: string | Uint8Array,
  before: Stats | undefined,
): void {
  // Nobody reads it by a wider leave than the file itself gives.
  const descriptor = openSync(beside, 'wx', before ? 0o600 : 0o666);
  try {
    const bytes = typeof contents === 'string' ? Buffer.from(contents, 'utf8') : contents;
    for (let at = 0; at < bytes.length; ) at += writeSync(descriptor, bytes, at);
    if (!before) return;
    try {
      fchownSync(descriptor, before.uid, before.gid);
    } catch {
      // Only the superuser may give a file away; then it is the writer's own.
    }
    fchmodSync(descriptor, before.mode);
  } finally {
    closeSync(descriptor);
  }
}

const words = {
  EISDIR: 'it is a folder',
  EACCES: 'it or its folder is read-only',
  EPERM: 'it or its folder is read-only',
  EROFS: 'the disk is read-only',
  ENOENT: 'there is no such folder',
  ENOTDIR: 'a part of its path is no folder',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk is full',
  ENAMETOOLONG: 'its name is too long',
  ELOOP: 'its links lead round in a circle',
} as const;

function codeOf(error: unknown): string | undefined {
  return error instanceof Error && 'code' in error ? String(error.code) : undefined;
}

/** Why something cannot be written, in plain words. */
export function whyNotWritten(error: unknown): string {
  const code = codeOf(error) ?? '';
  if (code in words) return words[code as keyof typeof words];
  return error instanceof Error ? error.message : String(error);
}

/** Whether two names stand for one file, by whatever links; not so where one is of nothing. */
export function isSameFile(one: string, other: string): boolean {
  if (resolve(one) === resolve(other)) return true;
  try {
    const [a, b] = [statSync(one), statSync(other)];
    return a.dev === b.dev && a.ino === b.ino;
  } catch {
    return false;
  }
}
