import { readdirSync, statSync } from 'node:fs';
import { isAbsolute, join, relative, resolve, sep } from 'node:path';
import { globSync, isDynamicPattern } from 'tinyglobby';

/** Something to be read. */
export interface Source {
  /** As it is called in messages: relative to the working folder where it lies below it. */
  readonly path: string;
  /** Where it lies; undefined for standard input. */
  readonly file: string | undefined;
}

/** An input that cannot be used, and what to do about it. */
export interface Trouble {
  readonly path: string;
  readonly cause: string;
  readonly cure: string;
}

export interface Sources {
  readonly sources: readonly Source[];
  readonly troubles: readonly Trouble[];
}

export const standardInput: Source = { path: '<stdin>', file: undefined };

/**
 * The files that arguments name: files, folders with all sets below them, patterns, and `-` for
 * standard input. In order of the arguments, those of a folder or pattern by name; each file once.
 */
export function findSources(args: readonly string[], cwd: string): Sources {
  const sources = new Map<string, Source>();
  const troubles: Trouble[] = [];
  for (const arg of args) {
    if (arg === '-') {
      sources.set('-', standardInput);
      continue;
    }
    const found = filesNamed(arg, cwd);
    troubles.push(...found.troubles);
    for (const file of found.files) sources.set(file, { path: shownPath(file, cwd), file });
  }
  return { sources: [...sources.values()], troubles };
}

interface Found {
  readonly files: readonly string[];
  readonly troubles: readonly Trouble[];
}

const nothingBut = (trouble: Trouble): Found => ({ files: [], troubles: [trouble] });

function filesNamed(arg: string, cwd: string): Found {
  const file = resolve(cwd, arg);
  let isFolder: boolean;
  try {
    isFolder = statSync(file).isDirectory();
  } catch (error) {
    // What is there by that very name comes before what it would mean as a pattern.
    if (isDynamicPattern(arg)) return filesMatching(arg, cwd);
    return nothingBut(troubleWith(shownPath(file, cwd), error));
  }
  if (!isFolder) return { files: [file], troubles: [] };
  const inside = setsBelow(file, cwd);
  if (inside.files.length > 0 || inside.troubles.length > 0) return inside;
  return nothingBut({
    path: shownPath(file, cwd),
    cause: 'no set in this folder: nothing in it or below it ends in .receiver',
    cure: 'Name a file or folder with sets; hidden folders, node_modules and links are passed over.',
  });
}

/**
 * Every set in a folder and below it, by name. Links are not followed: one that leads back up would
 * be followed round and round. A folder that may not be read is told of, or its sets would be
 * passed over without a word.
 */
function setsBelow(top: string, cwd: string): Found {
  const files: string[] = [];
  const troubles: Trouble[] = [];
  const left = [top];
  for (let folder = left.pop(); folder !== undefined; folder = left.pop()) {
    try {
      for (const entry of readdirSync(folder, { withFileTypes: true })) {
        if (entry.name.startsWith('.') || entry.name === 'node_modules') continue;
        if (entry.isDirectory()) left.push(join(folder, entry.name));
        else if (entry.isFile() && entry.name.endsWith('.receiver'))
          files.push(join(folder, entry.name));
      }
    } catch (error) {
      troubles.push(troubleWith(shownPath(folder, cwd), error));
    }
  }
  return { files: files.sort(byCode), troubles: troubles.sort((a, b) => byCode(a.path, b.path)) };
}

const byCode = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function filesMatching(pattern: string, cwd: string): Found {
  const matching = globSync([pattern], {
    cwd,
    absolute: true,
    onlyFiles: true,
    ignore: ['**/node_modules/**'],
    followSymbolicLinks: false,
    expandDirectories: false,
  });
  if (matching.length > 0)
    return { files: matching.map((file) => resolve(file)).sort(byCode), troubles: [] };
  return nothingBut({
    path: pattern,
    cause: 'no file matches this pattern',
    cure: 'Put it in quotation marks, so that the shell leaves it alone, and check the folder.',
  });
}

/** A file's path relative to the working folder, with `/` between folders. */
export function shownPath(file: string, cwd: string): string {
  const path = relative(cwd, file);
  const outside = path === '' || path.startsWith('..') || isAbsolute(path);
  return (outside ? file : path).split(sep).join('/');
}

/** Why the system refused a file, in plain words. */
export function troubleWith(path: string, error: unknown): Trouble {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  switch (code) {
    case 'ENOENT':
    case 'ENOTDIR':
      return { path, cause: 'there is no such file', cure: 'Check its name and folder.' };
    case 'EACCES':
    case 'EPERM':
      return { path, cause: 'it may not be read', cure: 'Give yourself leave to read it.' };
    case 'EISDIR':
      return { path, cause: 'it is a folder', cure: 'Name a file.' };
    case 'ELOOP':
      return { path, cause: 'its links lead round in a circle', cure: 'Name the file itself.' };
    case 'EMFILE':
    case 'ENFILE':
      return { path, cause: 'too many files are open', cure: 'Close some programs and try again.' };
    default: {
      const cause = error instanceof Error ? error.message : String(error);
      return { path, cause: `it cannot be read (${cause})`, cure: 'Try another copy of it.' };
    }
  }
}
