import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { asShown, printed, shownIn } from './support/shown.ts';

const root = join(import.meta.dirname, '..');
const readme = readFileSync(join(root, 'README.md'), 'utf8');
const firstSet = /Save this as `first.receiver`:\n\n```\n([\s\S]*?)```/.exec(readme)?.[1] ?? '';

/** A folder of a newcomer's, and a repository of somebody's. */
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'setwright-readme-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the README', () => {
  const shown = shownIn(readme);

  it('shows what the tool prints', () => expect(shown.length).toBeGreaterThan(6));

  it.each(shown.map(({ args, output }) => [args.join(' '), args, output] as const))(
    'setwright %s prints what is shown',
    (_, args, output) => {
      writeFileSync(join(folder, 'first.receiver'), firstSet);
      const where = args.includes('first.receiver') ? folder : root;
      expect(asShown(printed(args, where), output)).toBe(output);
    },
  );

  it('shows no output that is not compared', () => {
    // A block without a language is a text or what is to be typed; printed lines know their words.
    const blocks = [...readme.matchAll(/^```(\w*)\n([\s\S]*?)^```$/gm)].flatMap(
      ([, language, block = '']) => (language === '' ? [block] : []),
    );
    expect(blocks.length).toBeGreaterThan(5);
    const printedLines = /^\s+why: |^\d+ errors?, |expected +within|before +after$/m;
    expect(blocks.filter((block) => printedLines.test(block))).toEqual([]);
  });

  it('leads a newcomer to a fault, and to a sound set', () => {
    writeFileSync(join(folder, 'first.receiver'), firstSet);
    const faulty = printed(['check', 'first.receiver'], folder);
    expect(faulty).toContain('[grid-return-side]');
    expect(faulty).toContain('0 errors, 1 warning');
    writeFileSync(
      join(folder, 'first.receiver'),
      firstSet.replace('V1.grid to A-', 'V1.grid to A+'),
    );
    expect(printed(['check', 'first.receiver'], folder)).toContain('0 errors, 0 warnings');
  });

  it('shows how sets share parts', () => {
    const [, coils = ''] = /^```\n(\/\/ parts\/coils[\s\S]*?)^```$/m.exec(readme) ?? [];
    const [, set = ''] = /^```\n(use [\s\S]*?)^```$/m.exec(readme) ?? [];
    for (const name of ['parts', 'sets']) mkdirSync(join(folder, name));
    writeFileSync(join(folder, 'parts/coils.receiver'), coils);
    const leftOut = 'battery A dry { tap A- tap A+ 1.5 V }';
    writeFileSync(join(folder, 'sets/dinghy.receiver'), set.replace('…', leftOut));
    expect(printed(['describe', 'sets/dinghy.receiver'], folder)).toContain(
      'L1.grid  turns  56 turns',
    );
    expect(printed(['check', 'sets/dinghy.receiver'], folder)).not.toMatch(
      /\[(?:unreadable-line|unknown-word|unknown-name|used-file|unused-use)\]/,
    );
  });

  it('shows rows of the service sheet as they are', () => {
    const rows = readme.match(/^\| C\d+ \|.*$/gm) ?? [];
    expect(rows.length).toBeGreaterThan(1);
    const sheet = join(folder, 'sheet.md');
    printed(['report', 'examples/five-tube-trf.receiver', '-o', sheet], root);
    const printedRows = readFileSync(sheet, 'utf8').split('\n');
    expect(rows.filter((row) => !printedRows.includes(row))).toEqual([]);
  });

  it('shows what git prints of sets that are described', () => {
    const git = (...args: string[]) =>
      spawnSync('git', args, {
        cwd: folder,
        encoding: 'utf8',
        env: { ...process.env, GIT_CONFIG_GLOBAL: '/dev/null', GIT_CONFIG_NOSYSTEM: '1' },
      }).stdout;
    const copyHere = (name: string) =>
      copyFileSync(join(root, 'examples/at-work', name), join(folder, 'storm-glass.receiver'));
    const tool = `"${process.execPath}" "${join(root, 'dist/setwright.cjs')}"`;
    git('init', '--quiet');
    writeFileSync(join(folder, '.gitattributes'), '*.receiver diff=receiver\n');
    git('config', 'diff.receiver.textconv', `${tool} describe`);
    copyHere('storm-glass-as-copied.receiver');
    git('add', '--all');
    copyHere('storm-glass.receiver');
    const lines = git('diff', '-U0').match(/^[-+](?![-+]).*$/gm) ?? [];
    const [, diff = ''] = /^```diff\n([\s\S]*?)^```$/m.exec(readme) ?? [];
    expect(lines.join('\n')).toBe(diff.trimEnd());
  });
});
