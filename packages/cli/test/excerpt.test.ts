import { displayWidth } from '@setwright/report';
import { describe, expect, it } from 'vitest';
import { excerptOf } from '../src/excerpt.ts';
import { linesOf } from '../src/text-lines.ts';

/** The words of the source line that the marks stand under, by columns of a terminal. */
function marked(text: string, words: string): { source: string; mark: string; under: string } {
  const start = text.indexOf(words);
  const place = { file: 'x', start, end: start + words.length };
  const { source, mark } = excerptOf(linesOf(text), place);
  const from = mark.indexOf('^');
  let column = 0;
  let under = '';
  for (const character of source) {
    if (column >= from && column < mark.length) under += character;
    column += displayWidth(character);
  }
  return { source, mark, under };
}

describe('the mark under a source line', () => {
  it('stands under the words', () => {
    expect(marked('a\npost ANT aerial\nb', 'ANT').under).toBe('ANT');
  });

  it('counts a tab as far as it reaches', () => {
    expect(marked('\tpost\tANT', 'ANT')).toEqual({
      source: '    post    ANT',
      mark: '            ^^^',
      under: 'ANT',
    });
  });

  it('counts wide characters twice', () => {
    expect(marked('note "漢字" ANT', 'ANT').under).toBe('ANT');
    expect(marked('note "漢字" ANT', '漢字').mark).toBe('      ^^^^');
  });

  it('counts accents set on letters not at all', () => {
    expect(marked('note "e\u0301" ANT', 'ANT').under).toBe('ANT');
  });

  it('counts an escape as it is shown', () => {
    expect(marked('a\u001bb ANT', 'ANT')).toMatchObject({ source: 'a\\x1bb ANT', under: 'ANT' });
  });

  it('is one column wide where there are no words', () => {
    expect(excerptOf(linesOf('ab\n'), { file: 'x', start: 2, end: 2 }).mark).toBe('  ^');
  });

  it('ends with its line', () => {
    expect(excerptOf(linesOf('ab\r\ncd'), { file: 'x', start: 1, end: 6 }).mark).toBe(' ^');
  });

  it('shows of a long line what stands around the words', () => {
    const { source, under } = marked(`${'x'.repeat(5000)} ANT ${'y'.repeat(5000)}`, 'ANT');
    expect(under).toBe('ANT');
    expect(source.length).toBeLessThan(200);
  });
});
