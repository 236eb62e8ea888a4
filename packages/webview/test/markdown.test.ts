import { describe, expect, it } from 'vitest';
import { type Block, blocksOf, type Span } from '../src/page/markdown.ts';

const textOf = (spans: readonly Span[]): string =>
  spans.map(({ text, look }) => (look === 'plain' ? text : `${look}(${text})`)).join('');

/** A block in one line, for comparing. */
function told(block: Block): string {
  switch (block.kind) {
    case 'list':
      return `list: ${block.items.map((item) => item.map(textOf).join(' / ')).join('; ')}`;
    case 'code':
      return `code: ${block.text}`;
    case 'table':
      return `table: ${block.rows.map((row) => row.map(textOf).join(' | ')).join('; ')}`;
    case 'rule':
      return 'rule';
    default:
      return `${block.kind}: ${textOf(block.spans)}`;
  }
}

const read = (markdown: string): readonly string[] => blocksOf(markdown).map(told);

describe('Markdown of a hover', () => {
  it('has headings, paragraphs and rules', () => {
    expect(read('# R3\n\nA leak\nof 2 megohms.\n\n---\nEnd')).toEqual([
      'heading: R3',
      'paragraph: A leak of 2 megohms.',
      'rule',
      'paragraph: End',
    ]);
  });

  it('has strong, emphasized and code words', () => {
    expect(read('**R3** is *not* `V1.grid`, snake_case_name is plain')).toEqual([
      'paragraph: strong(R3) is emphasis(not) code(V1.grid), snake_case_name is plain',
    ]);
  });

  it('has lists whose items may go on', () => {
    expect(read('- current **2 µA**\n  because I = V/R\n- bias\n\n1. one\n2. two')).toEqual([
      'list: current strong(2 µA) / because I = V/R; bias',
      'list: one; two',
    ]);
  });

  it('has fenced code that means nothing but itself', () => {
    expect(read('```setwright\nleak R1 **2** meg\n```\nafter')).toEqual([
      'code: leak R1 **2** meg',
      'paragraph: after',
    ]);
  });

  it('has tables', () => {
    expect(read('| a | b |\n|---|--:|\n| 1 | `2` |')).toEqual(['table: a | b; 1 | code(2)']);
  });

  it('keeps links as their words and HTML as written', () => {
    expect(read('[page](command:evil) <b onclick=x>bold</b>')).toEqual([
      'paragraph: page <b onclick=x>bold</b>',
    ]);
  });

  it('undoes escapes', () => {
    expect(read('1\\. A\\+ \\*plain\\* &lt;tag&gt; a&nbsp;b')).toEqual([
      'paragraph: 1. A+ *plain* <tag> a\u00a0b',
    ]);
  });

  it('gives something of every text', () => {
    for (const text of ['', '```', '|', '- ', '**', '`', '[](', '#', '1.', '\n\n', '| a'])
      expect(Array.isArray(blocksOf(text))).toBe(true);
  });
});
