import { execFileSync } from 'node:child_process';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderWith, runIn, sound } from './support.ts';

const parts = `tube type 77-Q "as measured" {
  filament 5 V .25 A
  amplification 8
}
resistor FIL 4 ohms
condenser BYPASS .5 mfd
`;

const set = `use "../parts/common.receiver"
${sound
  .replace('resistor R1 4 ohms', 'resistor R1 like FIL')
  .replace('V1 01-A', 'V1 77-Q')
  .replace('Sound', 'Pier Light')}`;

const collection = { 'sets/pier.receiver': set, 'parts/common.receiver': parts };

describe('a set that uses a file', () => {
  it.each([
    ['check', []],
    ['check', ['--as', 'found']],
    ['check', ['--format', 'json']],
    ['check', ['--format', 'sarif']],
    ['check', ['--format', 'github']],
    ['format', ['--check']],
  ])('%s %s', (command, more) => {
    const folder = folderWith(collection);
    const { code, out, err } = runIn(folder, [command, 'sets/pier.receiver', ...more]);
    expect([err, code]).toEqual(['', 0]);
    expect(out).not.toMatch(/cannot be used|Nothing in this set|not in the library/);
  });

  it('is found from whatever folder the tool is called in', () => {
    const folder = folderWith(collection);
    for (const [cwd, path] of [
      ['sets', 'pier.receiver'],
      ['parts', '../sets/pier.receiver'],
      ['.', join(folder, 'sets/pier.receiver')],
    ] as const)
      expect(runIn(join(folder, cwd), ['check', path]).out).not.toContain('used-file');
  });

  it('has the numbers of the patterns and types that it uses', () => {
    const folder = folderWith(collection);
    const { out } = runIn(folder, ['values', 'sets/pier.receiver', '--format', 'json']);
    const { values } = JSON.parse(out) as {
      values: { part: string; quantity: string; value: number }[];
    };
    const filament = values.find(
      (each) => each.part === 'V1' && /filament-volt/.test(each.quantity),
    );
    // 5 V at .25 A behind 4 ohms from 6 V.
    expect(filament?.value).toBeCloseTo(5, 1);
  });

  it('follows a path through them', () => {
    const folder = folderWith(collection);
    const { code, out } = runIn(folder, ['trace', 'sets/pier.receiver', 'V1.plate']);
    expect(code).toBe(0);
    expect(out).toContain('R1');
  });
});

it('a command that needs what cannot be had says so', () => {
  const folder = folderWith({ 'sets/pier.receiver': set });
  const { code, err } = runIn(folder, ['values', 'sets/pier.receiver']);
  expect([code, err]).toEqual([
    0,
    expect.stringContaining(
      'setwright: sets/pier.receiver: There is no ../parts/common.receiver here, so a number may be missing or wrong here.\n',
    ),
  ]);
});

describe('what is wrong in a used file', () => {
  const bad = { ...collection, 'parts/common.receiver': parts.replace('.5 mfd', '.5') };

  it('is told in full with that file, and in a word with the set, each once', () => {
    const { out } = runIn(folderWith(bad), ['check', '.']);
    expect(out.match(/\[missing-unit\]/g)).toHaveLength(1);
    expect(out).toMatch(/^parts\/common\.receiver:6:18: error: .*\[missing-unit\]$/m);
    expect(out.match(/\[used-file\]/g)).toHaveLength(1);
    expect(out).toMatch(/^sets\/pier\.receiver:1:6: warning: .*something wrong in it/m);
    expect(out).toMatch(/^ {2}see parts\/common\.receiver:6:18: /m);
  });

  it('is pointed at in its own text in every format', () => {
    const folder = folderWith(bad);
    const json = JSON.parse(runIn(folder, ['check', 'sets', '--format', 'json']).out);
    const [finding] = json.files[0].findings.filter(
      ({ check }: { check: string }) => check === 'used-file',
    );
    expect(finding.related[0]).toMatchObject({
      path: 'parts/common.receiver',
      range: { start: { line: 5, character: 17 } },
    });
    const sarif = JSON.parse(runIn(folder, ['check', 'sets', '--format', 'sarif']).out);
    const result = sarif.runs[0].results.find(
      ({ ruleId }: { ruleId: string }) => ruleId === 'used-file',
    );
    expect(result.relatedLocations[0].physicalLocation.region.startLine).toBe(6);
  });
});

describe('what cannot be used is said, each in its own words', () => {
  const said = (folder: string) => {
    const { out } = runIn(folder, ['check', 'sets/pier.receiver']);
    return out.match(/^sets\/pier\.receiver:1:6: error: (.*) \[used-file\]$/m)?.[1];
  };
  const where = 'parts/common.receiver';

  it('a file that is not there', () => {
    const folder = folderWith({ 'sets/pier.receiver': set });
    expect(said(folder)).toBe('There is no ../parts/common.receiver here.');
  });

  it('a folder', () => {
    const folder = folderWith({ 'sets/pier.receiver': set });
    mkdirSync(join(folder, where), { recursive: true });
    expect(said(folder)).toBe('../parts/common.receiver cannot be used: it is a folder.');
  });

  it('a link to another kind of file', () => {
    const folder = folderWith({ 'sets/pier.receiver': set, 'parts/secret.txt': parts });
    symlinkSync(join(folder, 'parts/secret.txt'), join(folder, where));
    expect(said(folder)).toMatch(/it leads to a file whose name does not end in \.receiver\.$/);
  });

  it('a link to nothing', () => {
    const folder = folderWith({ 'sets/pier.receiver': set, 'parts/x.receiver': '' });
    symlinkSync(join(folder, 'gone.receiver'), join(folder, where));
    expect(said(folder)).toMatch(/it is a link that leads to nothing\.$/);
  });

  it('links that lead round', () => {
    const folder = folderWith({ 'sets/pier.receiver': set, 'parts/x.receiver': '' });
    symlinkSync(join(folder, where), join(folder, where));
    expect(said(folder)).toMatch(/its links lead round in a circle\.$/);
  });

  it.skipIf(process.platform === 'win32')('a pipe, which would never end', () => {
    const folder = folderWith({ 'sets/pier.receiver': set, 'parts/x.receiver': '' });
    execFileSync('sh', ['-c', 'mkfifo "$0"', join(folder, where)]);
    expect(said(folder)).toMatch(/it is a device or a pipe, and no file\.$/);
  });

  it('a file that no patterns fill', () => {
    const folder = folderWith(collection);
    writeFileSync(join(folder, where), ' '.repeat(2_000_001));
    expect(said(folder)).toMatch(/it is larger than 2 MB/);
  });

  it('a file of other signs than letters', () => {
    const folder = folderWith({ 'sets/pier.receiver': set, [where]: new Uint8Array([65, 0, 66]) });
    expect(said(folder)).toMatch(/it is no text: there is a zero byte on line 1\.$/);
  });

  it('a set that uses itself by way of a linked folder', () => {
    const folder = folderWith({
      'sets/pier.receiver': set,
      [where]: `use "again/common.receiver"\n${parts}`,
    });
    symlinkSync(join(folder, 'parts'), join(folder, 'parts/again'));
    expect(said(folder)).toBe('common.receiver uses itself.');
  });
});

it('a hostile path does no harm in what is printed', () => {
  const folder = folderWith({ 'a.receiver': 'use "\u001b]0;x\u0007`|](<script>-->.receiver"\n' });
  for (const how of ['text', 'json', 'sarif', 'github']) {
    const { out } = runIn(folder, ['check', 'a.receiver', '--format', how]);
    expect(out).toContain('used-file');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not come through
    expect(out).not.toMatch(/[\u0007\u001b]/);
  }
});
