import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { collectionMark } from '@setwright/report';
import { removeLeftovers, writeWhole } from './write-whole.ts';

/** A folder that the pages of a collection and their index are written to. */
export interface Site {
  /** Whether a page lies there as it was written: one with this SHA-256. */
  hasPage(name: string, hash: string): boolean;
  /** Writes a page, unless it is there as it is. @throws Error that says why it cannot be */
  writePage(name: string, text: string): void;
  /** Writes the index, then takes away pages that it does not name. @throws the same */
  writeIndex(text: string, pages: ReadonlySet<string>): void;
}

/** The folder of the pages, seen from the index. */
export const pagesFolder = 'sets';

const indexName = 'index.html';

/** Every page is called so: letters and digits of its file, then some of a hash. */
const isPageName = (name: string): boolean => /^[a-z0-9-]{1,60}-[0-9a-f]{12}\.html$/.test(name);

/**
 * Opens a folder for the pages of a collection, and makes it where there is none.
 *
 * @throws Error whose message says why it is none: "it is a file"
 */
export function openSite(folder: string): Site {
  const there = statSync(folder, { throwIfNoEntry: false });
  if (there && !there.isDirectory()) throw new Error('it is a file');
  const index = join(folder, indexName);
  const old = textOf(index);
  if (old !== undefined && !old.slice(0, 2000).includes(collectionMark))
    throw new Error(`the ${indexName} in it is not of a collection`);
  mkdirSync(join(folder, pagesFolder), { recursive: true });
  const placeOf = (name: string): string => join(folder, pagesFolder, name);
  const put = (file: string, text: string): void => {
    if (textOf(file) !== text) writeWhole(file, text);
  };
  return {
    hasPage: (name, hash) => {
      const text = textOf(placeOf(name));
      return text !== undefined && pageHash(text) === hash;
    },
    writePage: (name, text) => put(placeOf(name), text),
    writeIndex: (text, pages) => {
      put(index, text);
      for (const name of readdirSync(join(folder, pagesFolder)))
        if (isPageName(name) && !pages.has(name)) rmSync(placeOf(name), { force: true });
      for (const each of [folder, join(folder, pagesFolder)]) removeLeftovers(each);
    },
  };
}

/** SHA-256 of a page in hexadecimal. */
export const pageHash = (text: string): string => hashOf(text, 'hex');

/**
 * The name of the page of a set: like that of its file, and never that of another, whatever files
 * are called and wherever they lie.
 *
 * @param path of its file, seen from the folder of the collection
 * @param index which set of that file, from 0
 */
export function pageName(path: string, index: number): string {
  const file = path.slice(path.lastIndexOf('/') + 1).replace(/\.receiver$/i, '');
  const plain = file
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 48);
  return `${plain === '' ? 'set' : plain}-${hashOf(`${index}\n${path}`, 'hex').slice(0, 12)}.html`;
}

const hashOf = (text: string, how: 'hex' | 'base64'): string =>
  createHash('sha256').update(text, 'utf8').digest(how);

function textOf(file: string): string | undefined {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return undefined;
  }
}
