import { itemsOf } from '@setwright/language';
import { describe, expect, it } from 'vitest';
import {
  formattingEdits,
  rangeFormattingEdits,
  typingEdits,
} from '../../src/features/formatting.ts';
import { spaceEdits } from '../../src/text/edits.ts';
import { after, exampleNames, exampleText, marked, rangeOf, read } from '../support.ts';

const untidy = 'receiver "x" {\nbus   A\n  bus B  // b\n      coil L1 {\n   form 3 in }\n}\n';
const tidy = 'receiver "x" {\n  bus A\n  bus B // b\n  coil L1 {\n    form 3 in\n  }\n}\n';

describe('formatting', () => {
  it('puts a whole text in order by its spaces alone', () => {
    const snapshot = read(untidy);
    const edits = formattingEdits(snapshot);
    expect(after(snapshot, edits)).toBe(tidy);
    expect(edits.map(({ newText }) => newText.trim())).toEqual(edits.map(() => ''));
  });

  it('of a text in order changes nothing', () => {
    expect(formattingEdits(read(tidy))).toEqual([]);
  });

  it('of a range changes its lines alone', () => {
    const snapshot = read(untidy);
    const edits = rangeFormattingEdits(snapshot, rangeOf(snapshot, 'bus   A'));
    expect(after(snapshot, edits)).toBe(untidy.replace('bus   A', '  bus A'));
  });

  it('keeps a text whose blocks are not clear', () => {
    expect(formattingEdits(read('receiver "x" {\nbus   A\n'))).toEqual([]);
  });

  it.each([...exampleNames('sound'), ...exampleNames('faulty').slice(0, 6)])(
    '%s, with its spaces in disorder: keeps every word and comment',
    (name) => {
      const text = exampleText(name).replaceAll('\n  ', '\n\t ');
      const snapshot = read(text);
      const formatted = after(snapshot, formattingEdits(snapshot));
      expect(formatted).toBe(exampleText(name));
      const words = (of: string) => itemsOf(of).map(({ image }) => image);
      expect(words(formatted)).toEqual(words(text));
    },
  );
});

describe('formatting while one types', () => {
  const typed = (text: string, letter: string): string => {
    const { snapshot, position } = marked(text);
    return after(snapshot, typingEdits(snapshot, position, letter));
  };

  it('puts the line that was ended in order, and the new one as deep as its block', () => {
    expect(typed('receiver "x" {\nbus   A\n<|>\n}\n', '\n')).toBe(
      'receiver "x" {\n  bus A\n  \n}\n',
    );
  });

  it('puts the lines of a block in order when it is closed', () => {
    expect(typed('receiver "x" {\n  bus   B\n  coil L1 {\n form   3 in\n}<|>\n}\n', '}')).toBe(
      'receiver "x" {\n  bus   B\n  coil L1 {\n    form 3 in\n  }\n}\n',
    );
  });

  it('leaves a comment that goes over several lines alone', () => {
    const text = 'receiver "x" {\n/* a\n\n b */\n}\n';
    expect(typed(text.replace('a\n\n', 'a\n<|>\n'), '\n')).not.toMatch(/a\n +\n/);
  });

  it('at the very beginning does nothing', () => {
    expect(typed('<|>\n', '\n')).toBe('\n');
  });
});

describe('edits between words', () => {
  it('are one for each space that differs', () => {
    expect(spaceEdits('a  b c', 'a b   c')).toEqual([
      { start: 2, end: 3, text: '' },
      { start: 5, end: 5, text: '  ' },
    ]);
  });

  it('are one in all where the words differ', () => {
    expect(spaceEdits('a b', 'a c')).toEqual([{ start: 2, end: 3, text: 'c' }]);
  });
});
