import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { setWith } from '../../packages/server/test/support.ts';
import { serverBundle } from './lsp/raw-client.ts';

/** What Neovim was told, as neovim.lua writes it down. */
interface Told {
  readonly trouble?: string;
  readonly found?: boolean;
  readonly before?: readonly string[];
  readonly hover?: string;
  readonly definition?: number;
  readonly library?: string;
  readonly mended?: boolean;
  readonly after?: readonly string[];
  readonly symbols?: string;
  readonly edits?: number;
  readonly exit?: number;
}

/** Lets Neovim open a set with the server as built, and gives what it was told. */
function toldToNeovim(text: string): Told {
  const folder = mkdtempSync(join(tmpdir(), 'setwright-'));
  try {
    const [set, out] = [join(folder, 'set.receiver'), join(folder, 'told.json')];
    writeFileSync(set, text);
    const { error, stderr } = spawnSync(
      'nvim',
      [
        '--headless',
        ...['-u', 'NONE', '-i', 'NONE', '-n'],
        ...['-c', `luafile ${join(import.meta.dirname, 'neovim.lua')}`],
      ],
      {
        encoding: 'utf8',
        timeout: 60_000,
        env: {
          ...process.env,
          HOME: folder,
          XDG_STATE_HOME: folder,
          XDG_CACHE_HOME: folder,
          XDG_DATA_HOME: folder,
          NODE: process.execPath,
          SERVER: serverBundle,
          SET: set,
          OUT: out,
        },
      },
    );
    if (error) throw new Error(`Neovim cannot be run (${error.message}): install it first`);
    try {
      return JSON.parse(readFileSync(out, 'utf8'));
    } catch {
      throw new Error(`Neovim wrote nothing: ${stderr}`);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

describe('Neovim as a client', () => {
  let told: Told = {};
  beforeAll(() => {
    told = toldToNeovim(setWith().replace('    leak R1 2 meg from V1.grid to A+\n', ''));
  }, 90_000);

  it('is told what is found, and of nothing that goes wrong', () => {
    expect(told.trouble).toBeUndefined();
    expect(told.found).toBe(true);
    expect(told.before).toContain('grid-condenser-without-leak');
  });

  it('shows hovers', () => {
    expect(told.hover).toMatch(/^\*\*V1\*\*, tube 01-A/);
  });

  it('goes to definitions, in the text and in the library', () => {
    expect(told.definition).toBe(
      setWith()
        .split('\n')
        .findIndex((line) => line.includes('coil L1')),
    );
    expect(told.library).toBe('setwright:/tubes.receiver');
  });

  it('is told anew after an edit', () => {
    expect(told.mended).toBe(true);
    expect(told.after).not.toContain('grid-condenser-without-leak');
  });

  it('lists symbols and formats', () => {
    expect(told.symbols).toBe('Lantern Cove Punt');
    expect(told.edits).toBeGreaterThanOrEqual(0);
  });

  it('ends the server in order', () => {
    expect(told.exit).toBe(0);
  });
});
