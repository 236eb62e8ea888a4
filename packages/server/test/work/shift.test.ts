import type { Finding } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import { leastChange, shiftedFindings } from '../../src/work/shift.ts';

const text = 'one\ntwo\nthree\n';
const finding = (words: string, more: Partial<Finding> = {}): Finding => {
  const start = text.indexOf(words);
  return {
    check: 'x',
    severity: 'error',
    message: words,
    why: '',
    cure: '',
    place: { file: 'f', start, end: start + words.length },
    related: [],
    parts: [],
    fixes: [],
    ...more,
  };
};
const place = (words: string) => finding(words).place;

/** The findings after some words of the text gave way to others. */
const left = (all: readonly Finding[], words: string, put: string) => {
  const start = text.indexOf(words);
  const after = text.replace(words, put);
  const change = { start, end: start + words.length, text: put };
  return shiftedFindings(all, change, text, after, 'f').map((each) => ({
    each,
    words: after.slice(each.place.start, each.place.end),
  }));
};

describe('findings after an edit', () => {
  it('below it they move', () => {
    expect(left([finding('three')], 'one', 'eleven').map(({ words }) => words)).toEqual(['three']);
  });

  it('above it they stay', () => {
    expect(left([finding('one')], 'three', 'four').map(({ words }) => words)).toEqual(['one']);
  });

  it('on its own line they are dropped', () => {
    expect(left([finding('two')], 'two', 'two more')).toEqual([]);
  });

  it('a line put in above a line leaves its findings', () => {
    const start = text.indexOf('two');
    const after = text.replace('two', 'new\ntwo');
    const moved = shiftedFindings(
      [finding('two')],
      { start, end: start, text: 'new\n' },
      text,
      after,
      'f',
    );
    expect(moved.map(({ place: { start: from, end } }) => after.slice(from, end))).toEqual(['two']);
  });

  it('a line that is joined to the one above loses them', () => {
    expect(left([finding('two')], 'one\n', 'one')).toEqual([]);
  });

  it('fixes and related places that no longer fit go, the finding stays', () => {
    const whole = finding('three', {
      related: [{ place: place('one'), message: 'there' }],
      fixes: [{ title: 'mend', edits: [{ place: place('one'), text: 'ONE' }] }],
    });
    const [after] = left([whole], 'one', 'eleven');
    expect(after?.words).toBe('three');
    expect(after?.each.related).toEqual([]);
    expect(after?.each.fixes).toEqual([]);
  });

  it('places in other texts stay', () => {
    const other = finding('three', { place: { file: 'library', start: 0, end: 3 } });
    const [after] = shiftedFindings(
      [other],
      { start: 0, end: 3, text: '' },
      text,
      '\ntwo\nthree\n',
      'f',
    );
    expect(after?.place).toEqual({ file: 'library', start: 0, end: 3 });
  });
});

describe('the least change between two texts', () => {
  it('is what stands between what is the same at both ends', () => {
    expect(leastChange('one two three', 'one 2 three', 0)).toEqual({ start: 4, end: 7, text: '2' });
  });

  it('of the same text is none', () => {
    expect(leastChange('same', 'same', 0)).toEqual({ start: 4, end: 4, text: '' });
  });

  it('does not use a letter twice', () => {
    expect(leastChange('aa', 'aaa', 0)).toEqual({ start: 2, end: 2, text: 'a' });
  });
});
