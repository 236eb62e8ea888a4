import { make } from './dom.ts';
import { type Block, blocksOf, type Span } from './markdown.ts';

const tags = { strong: 'strong', emphasis: 'em', code: 'code' } as const;

const words = (spans: readonly Span[]): readonly Node[] =>
  spans.map(({ text, look }) =>
    look === 'plain' ? document.createTextNode(text) : make(tags[look], {}, text),
  );

function shown(block: Block): Node {
  switch (block.kind) {
    case 'heading':
      return make('p', { class: 'heading' }, ...words(block.spans));
    case 'paragraph':
      return make('p', {}, ...words(block.spans));
    case 'list':
      return make(
        block.ordered ? 'ol' : 'ul',
        {},
        ...block.items.map((item) =>
          make(
            'li',
            {},
            ...item.flatMap((line, index) => [...(index > 0 ? [make('br')] : []), ...words(line)]),
          ),
        ),
      );
    case 'code':
      return make('pre', {}, make('code', {}, block.text));
    case 'table':
      return make(
        'table',
        {},
        ...block.rows.map((row) =>
          make('tr', {}, ...row.map((cell) => make('td', {}, ...words(cell)))),
        ),
      );
    case 'rule':
      return make('hr');
  }
}

/** A Markdown text as elements; whatever it says, nothing in it runs or fetches. */
export const richText = (markdown: string): readonly Node[] => blocksOf(markdown).map(shown);
