import { describe, expect, it } from 'vitest';
import { unusedPost } from '../../src/checks/unused-post.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const check = unusedPost;
const before = 'condenser C1 variable';
/** The example with these lines in it. */
const withLines = (...lines: string[]) =>
  readingExample([before, `${lines.join('\n  ')}\n  ${before}`]);
const found = (...lines: string[]) => {
  const text = withLines(...lines);
  return told(text, findingsOf(check, text));
};

describe('unused-post', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'unused-post hint @ post GND2 ground',
    ]);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('a speaker post and a bus that nothing is on', () => {
    expect(found('post LS1 speaker', 'bus NEG')).toEqual([
      'unused-post hint @ post LS1 speaker',
      'unused-post hint @ bus NEG',
    ]);
  });

  it('posts wired to each other only', () => {
    expect(found('post LS1 speaker', 'post LS2 speaker', 'wire LS1 to LS2')).toHaveLength(2);
  });

  it('the only aerial post', () => {
    const text = readingExample(['from GND to ANT', 'from GND to GND']);
    expect(told(text, findingsOf(check, text))).toEqual([
      'unused-post hint @ post ANT aerial 250 mmfd',
    ]);
  });

  it.each([
    ['battery taps', ['battery C dry {', '  tap C+', '  tap C-4.5', '}']],
    ['a post for a short aerial beside the one in use', ['post ANT2 aerial']],
    ['posts for a loop', ['post LP1 loop', 'post LP2 loop']],
    ['a post strapped to one in use', ['post B9 speaker', 'wire B9 to B+45']],
    ['a stud of a selector', ['post P9 phones', 'selector S9 from ANT to GND, P9']],
    ['a post that says it is alternative', ['post P9 phones alternative']],
    ['a post whose title says so', ['post P9 "spare" phones']],
    [
      'a post that a note calls alternative',
      ['post P9 phones', 'note "P9 is an alternative to the jack."'],
    ],
  ])('is silent: %s', (_, lines) => {
    expect(heard(check, withLines(...lines))).toEqual([]);
  });
});
