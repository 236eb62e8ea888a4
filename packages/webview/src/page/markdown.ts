/**
 * The little of Markdown that the editor's hovers use, read into plain data. What it does not know
 * stays text: links are their words, HTML is shown as written. Pure; never throws.
 */
export interface Span {
  readonly text: string;
  readonly look: 'plain' | 'strong' | 'emphasis' | 'code';
}

export type Block =
  | { readonly kind: 'heading' | 'paragraph'; readonly spans: readonly Span[] }
  | {
      readonly kind: 'list';
      readonly ordered: boolean;
      /** An item by its lines: the first, and those that carry it on. */
      readonly items: readonly (readonly (readonly Span[])[])[];
    }
  | { readonly kind: 'code'; readonly text: string }
  | { readonly kind: 'table'; readonly rows: readonly (readonly (readonly Span[])[])[] }
  | { readonly kind: 'rule' };

const fence = /^\s*(```+|~~~+)/;
const bullet = /^\s{0,3}[-*+]\s+(.*)$/;
const numbered = /^\s{0,3}\d{1,9}[.)]\s+(.*)$/;
/** A deeper line below an item that is no item of its own. */
const carriedOn = /^\s{2,}(?![-*+]\s|\d{1,9}[.)]\s)\S/;
const heading = /^\s{0,3}#{1,6}\s+(.*?)\s*#*\s*$/;
const rule = /^\s{0,3}([-*_])(\s*\1){2,}\s*$/;
const tableRow = /^\s*\|(.*)\|\s*$/;
const tableRule = /^\s*\|[\s:|-]+\|\s*$/;

/** Reads a Markdown text into blocks. */
export function blocksOf(markdown: string): readonly Block[] {
  const lines = markdown.split(/\r?\n/);
  const blocks: Block[] = [];
  let paragraph: string[] = [];
  const endParagraph = (): void => {
    if (paragraph.length > 0)
      blocks.push({ kind: 'paragraph', spans: spansOf(paragraph.join(' ')) });
    paragraph = [];
  };
  let at = 0;
  const takeItems = (wanted: RegExp): string[][] => {
    const items: string[][] = [];
    while (at < lines.length) {
      const line = lines[at] ?? '';
      const found = wanted.exec(line);
      if (found) items.push([found[1] ?? '']);
      else if (carriedOn.test(line)) items.at(-1)?.push(line.trim());
      else break;
      at += 1;
    }
    return items;
  };
  while (at < lines.length) {
    const line = lines[at] ?? '';
    const opened = fence.exec(line)?.[1];
    if (opened !== undefined) {
      endParagraph();
      at += 1;
      const code: string[] = [];
      while (at < lines.length && !(lines[at] ?? '').trimStart().startsWith(opened)) {
        code.push(lines[at] ?? '');
        at += 1;
      }
      at += 1;
      blocks.push({ kind: 'code', text: code.join('\n') });
    } else if (rule.test(line)) {
      endParagraph();
      at += 1;
      blocks.push({ kind: 'rule' });
    } else if (heading.test(line)) {
      endParagraph();
      blocks.push({ kind: 'heading', spans: spansOf(heading.exec(line)?.[1] ?? '') });
      at += 1;
    } else if (bullet.test(line) || numbered.test(line)) {
      endParagraph();
      const ordered = !bullet.test(line);
      const items = takeItems(ordered ? numbered : bullet).map((item) => item.map(spansOf));
      blocks.push({ kind: 'list', ordered, items });
    } else if (tableRow.test(line)) {
      endParagraph();
      const rows: string[] = [];
      while (at < lines.length && tableRow.test(lines[at] ?? '')) {
        rows.push(lines[at] ?? '');
        at += 1;
      }
      const cells = rows.filter((row) => !tableRule.test(row)).map(cellsOf);
      blocks.push({ kind: 'table', rows: cells });
    } else if (line.trim() === '') {
      endParagraph();
      at += 1;
    } else {
      paragraph.push(line.trim());
      at += 1;
    }
  }
  endParagraph();
  return blocks;
}

const cellsOf = (row: string): readonly (readonly Span[])[] =>
  (tableRow.exec(row)?.[1] ?? '').split(/(?<!\\)\|/).map((cell) => spansOf(cell.trim()));

/** An escaped sign, then code, then strong, then emphasis, then links; each alternative ends at its own mark. */
const marked =
  /(\\[!-/:-@[-`{-~])|`([^`]+)`|\*\*([^*]+)\*\*|__([^_]+)__|\*([^*\s][^*]*)\*|(?<!\w)_([^_\s][^_]*)_(?!\w)|\[([^\]]*)\]\([^)\s]*\)/g;

function spansOf(text: string): readonly Span[] {
  const spans: Span[] = [];
  const add = (words: string | undefined, look: Span['look']): void => {
    if (words) spans.push({ text: look === 'code' ? words : plain(words), look });
  };
  let from = 0;
  for (const found of text.matchAll(marked)) {
    add(text.slice(from, found.index), 'plain');
    const [whole, escaped, code, strong, strongToo, emphasis, emphasisToo, link] = found;
    add(escaped, 'plain');
    add(code, 'code');
    add(strong ?? strongToo, 'strong');
    add(emphasis ?? emphasisToo, 'emphasis');
    add(link, 'plain');
    from = found.index + whole.length;
  }
  add(text.slice(from), 'plain');
  return spans;
}

const entities: Readonly<Record<string, string>> = {
  '&nbsp;': '\u00a0',
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&#39;': "'",
  '&amp;': '&',
};

/** Without the backslashes and entities that keep Markdown from reading a sign as its own. */
const plain = (text: string): string =>
  text
    .replace(/\\([!-/:-@[-`{-~])/g, '$1')
    .replace(/&(?:nbsp|lt|gt|quot|#39|amp);/g, (entity) => entities[entity] ?? entity);
