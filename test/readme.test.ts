import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '..');
const readme = readFileSync(join(root, 'README.md'), 'utf8');

function setwright(args: readonly string[], cwd = root): string {
  const run = spawnSync(process.execPath, [join(root, 'dist/setwright.cjs'), ...args], {
    cwd,
    encoding: 'utf8',
  });
  return run.stdout;
}

describe('the README', () => {
  const shown = [...readme.matchAll(/```console\n\$ setwright (.*)\n([\s\S]*?)```/g)];

  it('shows what the tool prints', () => expect(shown.length).toBeGreaterThan(1));

  it.each(shown.map((match) => [match[1] ?? '', match[2] ?? '']))(
    'setwright %s prints what is shown',
    (args, output) => expect(setwright(args.split(' '))).toBe(output),
  );

  it('leads a newcomer to a fault, and to a sound set', () => {
    const set = /Save this as `first.receiver`:\n\n```\n([\s\S]*?)```/.exec(readme)?.[1] ?? '';
    const folder = mkdtempSync(join(tmpdir(), 'setwright-readme-'));
    try {
      writeFileSync(join(folder, 'first.receiver'), set);
      const faulty = setwright(['check', 'first.receiver'], folder);
      expect(faulty).toContain('[grid-return-side]');
      expect(faulty).toContain('0 errors, 1 warning');
      writeFileSync(join(folder, 'first.receiver'), set.replace('V1.grid to A-', 'V1.grid to A+'));
      expect(setwright(['check', 'first.receiver'], folder)).toContain('0 errors, 0 warnings');
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
