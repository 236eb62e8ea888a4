import { describe, expect, it } from 'vitest';
import { usedFile } from '../../src/checks/used-file.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const check = usedFile;

describe('used-file', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'used-file error @ parts/not-there.receiver',
    ]);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it.each([
    ['an address', 'https://example.org/coils.receiver', /address/],
    ['a drive', 'C:/parts/coils.receiver', /one machine alone/],
    ['the root', '/parts/coils.receiver', /one machine alone/],
    ['a home folder', '~/coils.receiver', /one machine alone/],
    ['another kind of file', '../.ssh/id_rsa.pub', /names end in/],
    ['a file that is all ending', 'parts/.receiver', /names end in/],
    ['a sign that cannot be seen', 'coils\u202e.receiver', /cannot be seen/],
    ['nothing', ' ', /names no file/],
  ])('does not reach for %s', (_, path, words) => {
    const [found, ...more] = findingsOf(check, `use "${path}"\n${readingExample()}`);
    expect(found?.message).toMatch(words);
    expect(more).toEqual([]);
  });

  it.each([
    ['coils', 'coils.receiver'],
    ['parts\\coils.receiver', 'parts/coils.receiver'],
  ])('offers what %s may be meant to be', (path, meant) => {
    const text = afterFix(check, `use "${path}"\n${readingExample()}`);
    expect(text.split('\n')[0]).toBe(`use "${meant}"`);
  });

  it('is silent: a name that may stand in the file is not called unknown as well', () => {
    const set = readingExample(['.001 mfd', 'like BYPASS'], ['tube V1 01-A', 'tube V1 99-Q']);
    expect(heard(check, `use "parts/not-there.receiver"\n${set}`)).toEqual([
      'parts/not-there.receiver is not read here.',
      'parts/not-there.receiver is not read here.',
    ]);
  });
});
