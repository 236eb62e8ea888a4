import { allChecks } from '@setwright/checks';
import { describe, expect, it } from 'vitest';
import { folderWith, runIn, sound } from './support.ts';

const squealing = allChecks.find(({ id }) => id === 'stage-oscillates')?.fails ?? '';

describe('check --thorough', () => {
  const codeFor = (...more: string[]) =>
    runIn(folderWith({ 'set.receiver': squealing }), ['check', 'set.receiver', ...more]);

  it('finds what takes long to find', () => {
    const { code, out } = codeFor('--thorough');
    expect(out).toContain('[stage-oscillates]');
    expect(code).toBe(1);
  });

  it('is not what happens without being asked for', () => {
    const { code, out } = codeFor();
    expect(out).not.toContain('[stage-oscillates]');
    expect(code).toBe(0);
  });
});

describe('a plain check', () => {
  const regenerative = allChecks.find(({ id }) => id === 'regeneration-out-of-reach')?.passes ?? '';
  const files = {
    'radio.receiver': squealing,
    'regenerative.receiver': regenerative,
    'both.receiver': squealing + regenerative,
    'neither.receiver': sound,
  };
  const lastLine = (...args: string[]): string | undefined =>
    runIn(folderWith(files), ['check', ...args])
      .out.trimEnd()
      .split('\n')
      .at(-1);

  it('ends with what it did not look into, and how to ask for that', () => {
    expect(lastLine('radio.receiver')).toBe(
      'Not looked into: whether a radio stage squeals. --thorough does it, and takes longer.',
    );
    expect(lastLine('regenerative.receiver')).toBe(
      'Not looked into: whether the detector regenerates over its whole band. --thorough does it, and takes longer.',
    );
  });

  it('says it once for all sets that it concerns', () => {
    const line =
      'Not looked into in 2 sets: whether the detector regenerates over its whole band or whether a radio stage squeals. --thorough does it, and takes longer.';
    expect(lastLine('both.receiver')).toBe(line);
    expect(lastLine('radio.receiver', 'neither.receiver', 'regenerative.receiver')).toBe(line);
  });

  it('does not say so where there is nothing of the kind, nor where it was asked for', () => {
    expect(lastLine('neither.receiver')).toMatch(/ B cannot reach a filament /);
    expect(lastLine('radio.receiver', '--thorough')).toMatch(/ B cannot reach a filament /);
  });

  it('says it to programs as the ids of the checks, set by set', () => {
    const { out } = runIn(folderWith(files), ['check', 'both.receiver', '--format', 'json']);
    expect(
      JSON.parse(out).files[0].receivers.map(({ notRun }: { notRun: string[] }) => notRun),
    ).toEqual([['stage-oscillates'], ['regeneration-out-of-reach']]);
  });

  it.each(['sarif', 'github'])('does not say it in %s, where it is no finding', (format) => {
    const { out } = runIn(folderWith(files), ['check', 'radio.receiver', '--format', format]);
    expect(out).not.toContain('Not looked into');
  });

  it('says the same from the cache', () => {
    const folder = folderWith(files);
    const told = () => runIn(folder, ['check', 'both.receiver', '--cache', 'kept']).out;
    expect(told()).toBe(told());
    expect(told()).toContain('Not looked into in 2 sets');
  });
});
