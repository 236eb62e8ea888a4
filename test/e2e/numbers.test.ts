import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { examples, setwright, withFile } from './command.ts';

const five = join(examples, 'five-tube-trf.receiver');

describe('the numbers of a set, by the command as built', () => {
  it('come with their becauses', () => {
    const { status, stdout, stderr } = setwright(['values', five]);
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/inductance +\d+ µH\n.*current sheet/);
    expect(stdout).toMatch(/grid bias +-\d[.\d]* V\n/);
  });

  it('are read from standard input too', () => {
    const { status, stdout } = setwright(['values', '-', '--format', 'json'], {
      input: readFileSync(five, 'utf8'),
    });
    const report = JSON.parse(stdout);
    expect([status, report.version, report.path]).toEqual([0, 1, '<stdin>']);
    expect(report.values.length).toBeGreaterThan(100);
  });

  it('are the same from the picture of memory and from the tool itself', () => {
    const args = ['values', five, '--format', 'csv'];
    const env = { ...process.env, NODE_OPTIONS: '--no-warnings' };
    expect(setwright(args)).toEqual(setwright(args, { env }));
  });
});

describe('the dials of a set, by the command as built', () => {
  it('are drawn into a file', () => {
    withFile(readFileSync(five, 'utf8'), (file, folder) => {
      const { status, stdout } = setwright(['dials', file, '-o', 'chart.svg'], { cwd: folder });
      expect([status, stdout]).toEqual([0, expect.stringContaining('D3 (C3)')]);
      expect(readFileSync(join(folder, 'chart.svg'), 'utf8')).toMatch(/^<svg [\s\S]*<\/svg>\n$/);
    });
  });
});

describe('what a set makes of a signal, by the command as built', () => {
  it('is told station by station', () => {
    const { status, stdout, stderr } = setwright(['response', five, '--stations', '1000']);
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/^ {2}1000 kc +\d/m);
  });

  it('is followed from a plate home through the bypass', () => {
    const { stdout } = setwright(['trace', five, 'V2.plate', '--kind', 'radio']);
    expect(stdout).toMatch(/2\. C5 \(radio bypass\)/);
  });
});
