import { describe, expect, it } from 'vitest';
import { gathered } from '../src/text/gathered.ts';

const isName = (word: string): boolean => /^(?:[LCT]R?\d|L\d\.finish)$/.test(word);

describe('phrases that differ in one name', () => {
  it('are told once, with all the names', () => {
    expect(
      gathered(
        ['10 mmfd of wiring at L1.finish', 'C1 is old', '10 mmfd of wiring at L2.finish'],
        isName,
      ),
    ).toEqual(['10 mmfd of wiring at L1.finish and L2.finish', 'C1 is old']);
  });

  it('take their names from the middle as well, and their verb along', () => {
    expect(gathered(['TR1 is backed off', 'TR2 is backed off'], isName)).toEqual([
      'TR1 and TR2 are backed off',
    ]);
    expect(
      gathered(['plates of C1 shaped, as usual', 'plates of C2 shaped, as usual'], isName),
    ).toEqual(['plates of C1 and C2 shaped, as usual']);
  });

  it('keep the sign that ends the clause of the name', () => {
    expect(gathered(['a can round L1, as usual', 'a can round L2, as usual'], isName)).toEqual([
      'a can round L1 and L2, as usual',
    ]);
  });

  it('stay apart where another word differs', () => {
    const phrases = ['10 mmfd at L1.finish', '5 mmfd at L2.finish'];
    expect(gathered(phrases, isName)).toEqual(phrases);
  });

  it('stay as they are with two names or none', () => {
    const phrases = ['C1 beside C2', 'C2 beside C1', 'common practice', 'common practice'];
    expect(gathered(phrases, isName)).toEqual(['C1 beside C2', 'C2 beside C1', 'common practice']);
  });
});
