import { isUtf8 } from 'node:buffer';
import { closeSync, openSync, readSync } from 'node:fs';
import type { Source, Trouble } from './sources.ts';
import { troubleWith } from './sources.ts';

/** A set of a thousand parts takes 100 kB; what is longer than this is no set. */
const MOST_BYTES = 20 * 1024 * 1024;
const CHUNK = 256 * 1024;

export interface SourceText {
  /** Without the mark of byte order. */
  readonly text: string;
  /** Whether the file begins with a mark of byte order. */
  readonly marked: boolean;
}

/** Reads a source as text, or says why it cannot be. Standard input is read to its end. */
export function readSource({ path, file }: Source): SourceText | Trouble {
  try {
    const bytes = readBytes(file);
    if (!bytes) return tooLarge(path);
    return file === undefined && bytes.length === 0 ? nothingSent(path) : decoded(path, bytes);
  } catch (error) {
    return troubleWith(path, error);
  }
}

const tooLarge = (path: string): Trouble => ({
  path,
  cause: 'it is larger than 20 MB, which no set is',
  cure: 'Name the file of a set; split a file that holds very many.',
});

const nothingSent = (path: string): Trouble => ({
  path,
  cause: 'nothing was sent to standard input',
  cure: 'Name files or folders, or send a text.',
});

/** At most 20 MB; undefined when there is more. */
function readBytes(file: string | undefined): Buffer | undefined {
  const descriptor = file === undefined ? 0 : openSync(file, 'r');
  try {
    const chunks: Buffer[] = [];
    let length = 0;
    for (;;) {
      const chunk = Buffer.allocUnsafe(CHUNK);
      const count = readSome(descriptor, chunk);
      if (count === 0) return Buffer.concat(chunks, length);
      chunks.push(chunk.subarray(0, count));
      length += count;
      if (length > MOST_BYTES) return undefined;
    }
  } finally {
    if (file !== undefined) closeSync(descriptor);
  }
}

function readSome(descriptor: number, chunk: Buffer): number {
  for (;;) {
    try {
      return readSync(descriptor, chunk);
    } catch (error) {
      const code = error instanceof Error && 'code' in error ? error.code : undefined;
      if (code === 'EOF') return 0;
      if (code !== 'EAGAIN') throw error;
      // Standard input that does not wait by itself: look again in a moment.
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 10);
    }
  }
}

function decoded(path: string, bytes: Buffer): SourceText | Trouble {
  const wide = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
  if (wide) {
    return { path, cause: 'it is written in UTF-16', cure: 'Save it as UTF-8.' };
  }
  const nothing = bytes.indexOf(0);
  if (nothing >= 0) {
    return {
      path,
      cause: `it is no text: there is a zero byte on line ${lineOf(bytes, nothing)}`,
      cure: 'Name the file of a set, which is plain text.',
    };
  }
  if (!isUtf8(bytes)) {
    return {
      path,
      cause: `it is not written in UTF-8: line ${firstBadLine(bytes)} holds other signs`,
      cure: 'Save it as UTF-8.',
    };
  }
  const text = bytes.toString('utf8');
  return text.startsWith('\ufeff')
    ? { text: text.slice(1), marked: true }
    : { text, marked: false };
}

const LF = 0x0a;

function lineOf(bytes: Buffer, offset: number): number {
  let line = 1;
  for (let at = bytes.indexOf(LF); at >= 0 && at < offset; at = bytes.indexOf(LF, at + 1))
    line += 1;
  return line;
}

function firstBadLine(bytes: Buffer): number {
  let start = 0;
  for (let line = 1; ; line += 1) {
    const end = bytes.indexOf(LF, start);
    if (end < 0 || !isUtf8(bytes.subarray(start, end))) return line;
    start = end + 1;
  }
}
