import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import * as drawings from '../../packages/cli/src/drawing.ts';
import { run } from '../../packages/cli/src/program.ts';

/** What one call of the tool wrote and answered. */
export interface Called {
  readonly code: number;
  readonly out: string;
  readonly err: string;
  /** Files that it made, by their paths in the folder it was called in. */
  readonly made: ReadonlyMap<string, string>;
}

/** Calls the command line tool in this process, in a folder of its own with these files in it. */
export async function called(
  args: readonly string[],
  files: Readonly<Record<string, string>>,
): Promise<Called> {
  const cwd = mkdtempSync(join(tmpdir(), 'setwright-fuzz-'));
  try {
    for (const [name, contents] of Object.entries(files)) {
      mkdirSync(join(cwd, name, '..'), { recursive: true });
      writeFileSync(join(cwd, name), contents);
    }
    const written = { out: '', err: '' };
    const writing = (where: 'out' | 'err') => ({
      columns: 80,
      write: (words: string) => {
        written[where] += words;
      },
    });
    const streams = { out: writing('out'), err: writing('err'), env: {}, cwd, inIsSilent: true };
    const later: Promise<number>[] = [];
    const nobody = (): never => {
      throw new Error('no editor and no other process is wanted here');
    };
    const code = run(args, streams, {
      draughtsman: () => drawings,
      server: nobody,
      later: (answer) => void later.push(answer),
      help: { start: nobody, cores: () => 1 },
    });
    const [answer = code] = await Promise.all(later);
    return { code: answer, ...written, made: madeIn(cwd, files) };
  } finally {
    rmSync(cwd, { recursive: true, force: true });
  }
}

function madeIn(folder: string, given: Readonly<Record<string, string>>): Map<string, string> {
  const made = new Map<string, string>();
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const file = join(entry.parentPath, entry.name);
    const name = file.slice(folder.length + 1);
    if (entry.isFile() && !(name in given)) made.set(name, readFileSync(file, 'utf8'));
  }
  return made;
}
