import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const tool = join(root, 'dist/setwright.cjs');
const sets = readdirSync(join(root, 'examples')).filter((name) => name.endsWith('.receiver'));

function draw(...args: string[]) {
  return spawnSync(process.execPath, [tool, 'draw', ...args], { cwd: root, encoding: 'utf8' });
}

describe('setwright draw', () => {
  it.each(sets.slice(0, 4))('draws %s with every tube and condenser of it', (name) => {
    const { status, stdout } = draw(`examples/${name}`);
    expect(status).toBe(0);
    const text = readFileSync(join(root, 'examples', name), 'utf8');
    for (const [, part] of text.matchAll(/^\s*(?:tube|condenser) (\w+) /gm))
      expect(stdout).toContain(`data-part="${part}"`);
    expect(stdout).not.toContain('<script');
  });

  it('writes where it is told, and nowhere else', () => {
    const folder = mkdtempSync(join(tmpdir(), 'setwright-draw-'));
    try {
      const file = join(folder, 'set.svg');
      expect(draw('examples/crystal.receiver', '-o', file).status).toBe(0);
      expect(readFileSync(file, 'utf8')).toContain('</svg>');
      const wrong = draw('examples/crystal.receiver', '-o', join(folder, 'set.txt'));
      expect(wrong.status).toBe(2);
      expect(existsSync(join(folder, 'set.txt'))).toBe(false);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  it('says so when there is no such file', () => {
    const { status, stderr } = draw('no-such.receiver');
    expect(status).toBe(2);
    expect(stderr).toContain('no-such.receiver: there is no such file.');
  });
});
