import { fstatSync, writeSync } from 'node:fs';
import { isatty } from 'node:tty';
import type { Streams, Writing } from './streams.ts';

/**
 * The streams of this process, looked up when asked for. They are written to at once, byte by
 * byte: nothing is left unwritten when the process ends, and Node's own streams need not be
 * loaded.
 */
export function processStreams(): Streams {
  return {
    out: writingTo(1),
    err: writingTo(2),
    env: process.env,
    cwd: process.cwd(),
    inIsSilent: isDevice(0),
  };
}

function writingTo(descriptor: 1 | 2): Writing {
  const isTTY = isDevice(descriptor) && isatty(descriptor);
  return {
    isTTY,
    columns: isTTY ? (descriptor === 1 ? process.stdout : process.stderr).columns : undefined,
    write: (text) => writeAll(descriptor, text),
  };
}

/** A terminal, or a device such as /dev/null. */
function isDevice(descriptor: number): boolean {
  try {
    return fstatSync(descriptor).isCharacterDevice();
  } catch {
    return true;
  }
}

/** What is written cannot be: the disk is full, or whoever read it has gone, as `head` does. */
export class OutputRefused extends Error {
  readonly readerIsGone: boolean;

  constructor(code: unknown, message: string) {
    super(message);
    this.readerIsGone = code === 'EPIPE';
  }
}

function writeAll(descriptor: number, text: string): void {
  const bytes = Buffer.from(text, 'utf8');
  for (let at = 0; at < bytes.length; ) {
    try {
      at += writeSync(descriptor, bytes, at);
    } catch (error) {
      const code = error instanceof Error && 'code' in error ? error.code : undefined;
      if (code !== 'EAGAIN') throw new OutputRefused(code, String(error));
      // The pipe is full: wait a moment until its reader has caught up.
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 5);
    }
  }
}
