import { type SpawnSyncOptions, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const root = join(import.meta.dirname, '../..');
export const command = join(root, 'dist/setwright.cjs');
export const examples = join(root, 'examples');

if (!existsSync(command))
  throw new Error('dist/setwright.cjs is missing: run `npm run build` first');

export interface Answer {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the command as built, as a shell would. */
export function setwright(args: readonly string[], options: SpawnSyncOptions = {}): Answer {
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...args], {
    cwd: root,
    maxBuffer: 64 * 1024 * 1024,
    stdio: options.input === undefined ? ['ignore', 'pipe', 'pipe'] : 'pipe',
    ...options,
    encoding: 'utf8',
  });
  return { status, stdout: String(stdout), stderr: String(stderr) };
}

/** Does something with a file of this text, which is gone afterwards. */
export function withFile<T>(text: string, use: (file: string, folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'setwright-'));
  try {
    const file = join(folder, 'set.receiver');
    writeFileSync(file, text);
    return use(file, folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
