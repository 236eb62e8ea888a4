import { allChecks } from '@setwright/checks';
import { describe, expect, it } from 'vitest';
import { folderWith, runIn } from './support.ts';

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
