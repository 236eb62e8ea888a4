import { readFileSync, realpathSync, statSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { UsedText } from '@setwright/language';

/** What sets have in common takes some kilobytes; what is longer than this is something else. */
const LONGEST = 2_000_000;

/** A file of the disk that a document uses, by its URI; undefined where there is none. */
export function usedFile(uri: string): UsedText | undefined {
  try {
    const real = realpathSync(fileURLToPath(uri));
    // A name that ends rightly must not lead to what is none of a set's business.
    if (!real.endsWith('.receiver'))
      return refused('it leads to a file whose name does not end in .receiver');
    const found = statSync(real);
    if (found.isDirectory()) return refused('it is a folder');
    if (!found.isFile()) return refused('it is a device or a pipe, and no file');
    if (found.size > LONGEST)
      return refused('it is larger than 2 MB, which no file of patterns is');
    const text = new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(real));
    if (text.includes('\0')) return refused('it is no text: there is a zero byte in it');
    return { text, same: pathToFileURL(real).href };
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    if (code === 'ENOENT' || code === 'ENOTDIR') return undefined;
    return refused(reasons[code] ?? 'it cannot be read');
  }
}

const refused = (cause: string): UsedText => ({ cause, cure: 'Put a file of patterns there.' });

const reasons: Readonly<Record<string, string>> = {
  EACCES: 'it may not be read',
  EPERM: 'it may not be read',
  ELOOP: 'its links lead round in a circle',
  ERR_ENCODING_INVALID_ENCODED_DATA: 'it is not written in UTF-8',
  ERR_INVALID_FILE_URL_HOST: 'it lies on another machine',
};
