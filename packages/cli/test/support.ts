import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach } from 'vitest';
import { run } from '../src/program.ts';
import type { Streams } from '../src/streams.ts';

/** What one run of the tool wrote and answered. */
export interface Run {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A folder of its own for one test, with these files in it. */
export function folderWith(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'setwright-'));
  folders.push(folder);
  for (const [name, contents] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), contents);
  }
  return folder;
}

/** Runs a command that answers later, in a folder of its own with this one set in it. */
export async function runLater(
  text: string,
  command: (file: string, streams: Streams) => Promise<number>,
): Promise<Run & { readonly cwd: string }> {
  const cwd = folderWith({ 'set.receiver': text });
  const written = { out: '', err: '' };
  const writing = (where: 'out' | 'err') => ({
    write: (words: string) => {
      written[where] += words;
    },
  });
  const [out, err] = [writing('out'), writing('err')];
  const code = await command('set.receiver', { out, err, env: {}, cwd, inIsSilent: true });
  return { ...written, code, cwd };
}

/** Runs the tool in this process, as called in a folder. */
export function runIn(cwd: string, args: readonly string[], more: Partial<Streams> = {}): Run {
  const written = { out: '', err: '' };
  const code = run(args, {
    out: {
      write: (text: string) => {
        written.out += text;
      },
    },
    err: {
      write: (text: string) => {
        written.err += text;
      },
    },
    env: {},
    cwd,
    inIsSilent: true,
    ...more,
  });
  return { code, ...written };
}

/** A sound little set: one tube with its grid at home, its plate fed, and nothing over 60 V. */
export const sound = `receiver "Sound" {
  battery A storage { tap A- 0 V tap A+ 6 V }
  battery B dry { tap B- tap B+45 }
  wire A- to B-
  resistor R1 4 ohms from A- to V1.filament-
  resistor R2 100 kilohms from V1.grid to V1.filament-
  tube V1 01-A { filament to A+ }
  phones P1 2000 ohms from V1.plate to B+45
}
`;

/** The same set with a wire from B to the filament. */
export const deadly = sound.replace('wire A- to B-', 'wire A- to B-\n  wire B+45 to V1.filament+');
