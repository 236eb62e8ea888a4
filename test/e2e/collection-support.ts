import { mkdirSync, mkdtempSync, readdirSync, readlinkSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';
import { randomReceiver } from '../support/random-receiver.ts';

/** A folder with these files in it; whoever makes it clears it away. */
export function newFolder(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'setwright-collection-'));
  for (const [name, contents] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), contents);
  }
  return folder;
}

/** The same for one test, after which it is gone. */
export function folderWith(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = newFolder(files);
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A collection of sets by chance, a tenth of them unfinished and a tenth wired anyhow. */
export function collectionOf(count: number, from = 0): Record<string, string> {
  const modes = ['wild', 'unfinished'] as const;
  return Object.fromEntries(
    Array.from({ length: count }, (_, at) => {
      const mode = modes[at % 10] ?? 'sane';
      const name = `sets/${String(at).padStart(5, '0')}.receiver`;
      return [name, randomReceiver(from + at, { mode })];
    }),
  );
}

/** Whether a process is left that works in a folder: workers do where they were started. */
function isAnyoneAt(folder: string): boolean {
  return readdirSync('/proc').some((id) => {
    if (!/^\d+$/.test(id)) return false;
    try {
      return readlinkSync(`/proc/${id}/cwd`) === folder;
    } catch {
      return false;
    }
  });
}

/** Waits until nobody works in a folder any more; false after two seconds. */
export async function isLeftAlone(folder: string): Promise<boolean> {
  for (let look = 0; look < 40; look += 1) {
    if (!isAnyoneAt(folder)) return true;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  return false;
}
