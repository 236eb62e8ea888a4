import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { asShown, printed, shownIn } from './support/shown.ts';

const root = join(import.meta.dirname, '..');
const readme = readFileSync(join(root, 'README.md'), 'utf8');

describe('the README', () => {
  const shown = shownIn(readme);

  it('shows what the tool prints', () => expect(shown.length).toBeGreaterThan(1));

  it.each(shown.map(({ args, output }) => [args.join(' '), args, output] as const))(
    'setwright %s prints what is shown',
    (_, args, output) => expect(asShown(printed(args, root), output)).toBe(output),
  );

  it('leads a newcomer to a fault, and to a sound set', () => {
    const set = /Save this as `first.receiver`:\n\n```\n([\s\S]*?)```/.exec(readme)?.[1] ?? '';
    const folder = mkdtempSync(join(tmpdir(), 'setwright-readme-'));
    try {
      writeFileSync(join(folder, 'first.receiver'), set);
      const faulty = printed(['check', 'first.receiver'], folder);
      expect(faulty).toContain('[grid-return-side]');
      expect(faulty).toContain('0 errors, 1 warning');
      writeFileSync(join(folder, 'first.receiver'), set.replace('V1.grid to A-', 'V1.grid to A+'));
      expect(printed(['check', 'first.receiver'], folder)).toContain('0 errors, 0 warnings');
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
