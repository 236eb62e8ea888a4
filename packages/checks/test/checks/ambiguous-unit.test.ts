import { describe, expect, it } from 'vitest';
import { ambiguousUnit } from '../../src/checks/ambiguous-unit.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const check = ambiguousUnit;

describe('ambiguous-unit', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'ambiguous-unit error @ 2 M',
    ]);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('the first fix cures it', () => {
    expect(findingsOf(check, afterFix(check, check.fails))).toEqual([]);
  });

  it('offers both readings and takes neither', () => {
    const [found] = findingsOf(check, check.fails);
    expect(found?.fixes.map(({ title }) => title)).toEqual(['Write 2 kilohms', 'Write 2 megohms']);
  });

  it('an M before the word ohms is no plainer', () => {
    const text = readingExample(['leak R1 2 meg', 'leak R1 2 M ohms']);
    expect(told(text, findingsOf(check, text))).toEqual(['ambiguous-unit error @ 2 M ohms']);
    expect(afterFix(check, text)).toContain('leak R1 2 kilohms from');
  });

  it.each([
    [
      'the M of MF, MMF and MHY',
      readingExample(
        ['C2 .00025 mfd', 'C2 .00025 MF'],
        ['C3 .001 mfd', 'C3 1000 MMF'],
        ['PH1 2000 ohms', 'PH1 2000 ohms 20 MHY'],
      ),
    ],
    [
      'the M of MEG, MEGOHMS and MA',
      readingExample(['leak R1 2 meg', 'leak R1 2 MEG'], ['PH1 2000 ohms', 'PH1 2000 ohms 5 MA']),
    ],
    ['a small m where a wave is wanted', readingExample(['550 kc to 1500 kc', '200 to 545 m'])],
  ])('is silent: %s', (_, text) => {
    expect(heard(check, text)).toEqual([]);
    expect(findingsOf(check, text)).toEqual([]);
  });
});
