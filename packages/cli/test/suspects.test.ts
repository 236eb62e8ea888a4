import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { folderWith, runIn } from './support.ts';

const example = readFileSync(
  new URL('../../../examples/two-tube.receiver', import.meta.url),
  'utf8',
);

const withBench = (lines: readonly string[], title = 'dead') =>
  example.replace('  bench "', `  bench "${title}" {\n    ${lines.join('\n    ')}\n  }\n  bench "`);

const suspectsOf = (text: string, ...more: string[]) =>
  runIn(folderWith({ 'set.receiver': text }), ['suspects', 'set.receiver', ...more]);

const dead = withBench([
  'meter 10 megohms 1 %',
  'heard "silent"',
  'reading V1.plate 0 V',
  'reading B+45 0 mA',
  'reading T1.primary open lifted',
]);

describe('setwright suspects', () => {
  it('names the part first, with what speaks for it, and cautions before B is measured', () => {
    const { code, out } = suspectsOf(dead);
    expect(code).toBe(0);
    expect(out).toMatch(/^Lantern Cove .*: suspects by the bench "dead"$/m);
    expect(out).toMatch(/^Caution: The volts of B can hurt/m);
    expect(out).toMatch(/^ {2}9\d %|^ >99 %/m);
    const lines = out.split('\n');
    const first = lines.indexOf('Suspects') + 1;
    expect(lines[first]).toMatch(/% {3}T1\.primary is open \(very common\)$/);
    expect(lines[first + 1]).toMatch(/^ {9}for: V1\.plate 0 V in place of 40\.9 V; /);
    expect(out).toMatch(/^Next: look at T1\.primary\.$/m);
    expect(out).toMatch(/common\s+practice and no\s+statistics/);
  });

  it('says what to measure next while several are left, and how to write it down', () => {
    const { out } = suspectsOf(
      withBench(['meter 10 megohms 1 %', 'heard "silent"', 'reading V1.plate 0 V']),
    );
    expect(out).toMatch(/^Next: (?:Set on|Batteries off)/m);
    expect(out).toMatch(/^ {6}Write in the bench: (?:reading|click|dial) /m);
  });

  it('tells of readings that contradict one another before any suspect', () => {
    const { out } = suspectsOf(
      withBench(['meter 10 megohms 1 %', 'reading V1.plate 41 V', 'reading V1.plate 12 V']),
    );
    expect(out).toMatch(/First: these readings cannot all be true\.\n {2}- V1\.plate is once/);
    expect(out.indexOf('cannot all be true')).toBeLessThan(out.indexOf('\nSuspects'));
  });

  it('gives the same to other programs', () => {
    const { code, out } = suspectsOf(dead, '--format', 'json');
    const report = JSON.parse(out);
    expect([code, report.version]).toEqual([0, 1]);
    expect(report.suspects[0]).toMatchObject({ part: 'T1.primary', bench: 'dead' });
    expect(report.suspects[0].fault).toBe('T1.primary is open');
    expect(report.suspects[0].because).toMatch(/^For it: V1\.plate 0 V in place of 40\.9 V/);
    const shares = report.suspects.map(({ probability }: { probability: number }) => probability);
    expect(shares).toEqual([...shares].sort((a: number, b: number) => b - a));
    expect(Object.keys(report.next).slice(0, 3)).toEqual(['at', 'to', 'because']);
  });

  it('goes by the bench that is named, and by the first where none is', () => {
    expect(suspectsOf(dead, '--bench', 'first power-up').out).toMatch(/bench "first power-up"/);
    const { code, err } = suspectsOf(dead, '--bench', 'nothing');
    expect(code).toBe(2);
    expect(err).toContain('It has "dead" and "first power-up".');
  });

  it('needs a bench', () => {
    const { code, out, err } = suspectsOf(
      'receiver "None" {\n  battery A storage {\n    tap A-\n  }\n}\n',
    );
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(
      /^setwright: There is no bench in this file\. Write what was read and heard/,
    );
  });
});
