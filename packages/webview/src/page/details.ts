import type { Page, PageTable } from '../protocol.ts';
import { make } from './dom.ts';
import { findingLine } from './hover-card.ts';

/** What a page says in words and rows, below its picture. */
export function notesAndTables(
  { notes, tables, parts }: Page,
  reveal: (part: string) => void,
): readonly Node[] {
  return [
    ...(notes.length === 0
      ? []
      : [make('ul', { class: 'notes' }, ...notes.map((note) => make('li', {}, note)))]),
    ...tables.map((each) => table(each, parts, reveal)),
  ];
}

/** The last words of a row, which lead to the line of the part that they are about. */
function linked(cell: string, go: () => void): HTMLElement {
  const button = make('button', { type: 'button', class: 'link' }, cell);
  button.addEventListener('click', go);
  return button;
}

function table(
  { title, heading, rows, about }: PageTable,
  parts: Page['parts'],
  reveal: (part: string) => void,
): HTMLElement {
  const cellOf = (cell: string, row: number, isLast: boolean): Node | string => {
    const part = about?.[row];
    const isKnown = part !== undefined && Object.hasOwn(parts, part);
    return isLast && isKnown ? linked(cell, () => reveal(part)) : cell;
  };
  return make(
    'div',
    // It may be wider than the panel: then it is moved with the arrow keys.
    { class: 'table', tabindex: 0, role: 'group', 'aria-label': title || 'Table' },
    make(
      'table',
      {},
      ...(title === '' ? [] : [make('caption', {}, title)]),
      make(
        'thead',
        {},
        make('tr', {}, ...heading.map((words) => make('th', { scope: 'col' }, words))),
      ),
      make(
        'tbody',
        {},
        ...rows.map((row, number) =>
          make(
            'tr',
            {},
            ...row.map((cell, index) =>
              index === 0
                ? make('th', { scope: 'row' }, cell)
                : make('td', {}, cellOf(cell, number, index === row.length - 1)),
            ),
          ),
        ),
      ),
    ),
  );
}

/** The drawing in words: every part in reading order, with what is found wrong at it. */
export function partList(
  parts: Page['parts'],
  on: { reveal(part: string): void; goTo(part: string): void },
): HTMLElement {
  const items = Object.entries(parts).map(([name, part]) => {
    const go = make('button', { type: 'button', class: 'link' }, part.spoken || name);
    go.addEventListener('click', () => on.reveal(name));
    const show = make(
      'button',
      { type: 'button', class: 'small', 'aria-label': `Show ${name} in the drawing` },
      'Show',
    );
    show.addEventListener('click', () => on.goTo(name));
    return make('li', {}, go, ' ', show, ...part.findings.map(findingLine));
  });
  return make('ol', { class: 'parts' }, ...items);
}
