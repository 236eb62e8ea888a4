import { svgOf } from '../../chart/svg-chart.ts';
import { escaped } from '../../text/escaped.ts';
import { together } from '../../text/together.ts';
import type { Digest } from '../../tour/page/tour-page.ts';
import { NOT_KNOWN } from '../cells.ts';
import type {
  Sheet,
  SheetBlock,
  SheetCell,
  SheetColumn,
  SheetSection,
  SheetTable,
} from '../sheet.ts';
import { sheetStyle } from './sheet-style.ts';

export interface SheetPageOptions {
  /** A link at the head of the page, which is not printed: to where the other sets are. */
  readonly back?: { readonly href: string; readonly words: string } | undefined;
}

/**
 * A sheet as one page that stands by itself: it runs nothing and fetches nothing, and its policy
 * forbids both. Made for paper of A4 and Letter size.
 *
 * @param drawing the schematic as SVG for a screen; undefined leaves its section out
 */
export function sheetPage(
  sheet: Sheet,
  drawing: string | undefined,
  digest: Digest,
  { back }: SheetPageOptions = {},
): string {
  const styles = sheetStyles(drawing).map((text) => `'sha256-${digest(text)}'`);
  const policy = [
    "default-src 'none'",
    `style-src ${styles.join(' ')}`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const title = printable(`${sheet.title}: service sheet`);
  const sections = sheet.sections.filter(({ id }) => id !== 'drawing' || drawing !== undefined);
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<style>${sheetStyle}</style>
</head>
<body>
${back ? `<p class="back"><a href="${escaped(safeLink(back.href))}">${shown(back.words)}</a></p>\n` : ''}<header>
<h1>${shown(sheet.title)}</h1>
<p class="kind">Service sheet</p>
<dl class="facts">
${sheet.facts
  .map(
    ({ term, cell }) =>
      `<div><dt>${shown(term)}</dt><dd${cell ? '' : ' class="line"'}>${cell ? shown(cell.text) : ''}</dd></div>`,
  )
  .join('\n')}
</dl>
</header>
<main>
${sections.map((section) => sectionHtml(section, drawing ?? '')).join('\n')}
</main>
${sheet.madeBy === undefined ? '' : `<footer class="made">${shown(sheet.madeBy)}</footer>\n`}</body>
</html>
`;
}

/** The texts of a page's styles, which its policy lets in by their digests. */
export function sheetStyles(drawing: string | undefined): readonly string[] {
  const ofDrawing = /<style>([\s\S]*?)<\/style>/.exec(drawing ?? '')?.[1];
  return [sheetStyle, ...(ofDrawing === undefined ? [] : [ofDrawing])];
}

/** Text without the characters that no page may hold. */
function printable(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the ones to be found
  return text.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufffe\uffff]/g, '');
}

const shown = (text: string): string => escaped(printable(text));

/** A link to a page beside this one or on the web; anything else leads nowhere. */
function safeLink(href: string): string {
  return /^(?:https?:\/\/|[\w./%-]+(?:[#?][^\s]*)?$)/i.test(href) && !/^[\w+.-]*script:/i.test(href)
    ? href
    : '#';
}

function sectionHtml({ id, heading, blocks }: SheetSection, drawing: string): string {
  return [
    `<section aria-labelledby="${escaped(id)}">`,
    `<h2 id="${escaped(id)}">${shown(heading)}</h2>`,
    ...blocks.map((block, index) => blockHtml(block, heading, `${id}-${index}`, drawing)),
    '</section>',
  ].join('\n');
}

function blockHtml(block: SheetBlock, heading: string, id: string, drawing: string): string {
  switch (block.kind) {
    case 'words':
      return `<p${block.tone === 'plain' ? '' : ` class="${block.tone}"`}>${shown(together(block.words))}</p>`;
    case 'list': {
      const tag = block.isOrdered ? 'ol' : 'ul';
      return [
        `<${tag}>`,
        ...block.items.map((item) => `<li>${shown(together(item))}</li>`),
        `</${tag}>`,
      ].join('\n');
    }
    case 'table':
      return tableHtml(block.table, heading);
    case 'charts':
      return block.charts
        .map(
          (chart, index) =>
            `<figure class="charts">\n${svgOf([chart], 'paper', `${id}-${index}-`).trim()}\n</figure>`,
        )
        .join('\n');
    case 'drawing':
      return `<figure class="drawing" tabindex="0" role="group" aria-label="Schematic">\n${drawing.trim()}\n</figure>`;
  }
}

/** Tables of so many rows stay on one page. */
const MOST_TOGETHER = 16;

/** Amounts of so many letters stay on one line. */
const MOST_ON_A_LINE = 36;

/** Names of so many letters stay on one line. */
const NEAR = 22;

function tableHtml({ caption, columns, rows, groups }: SheetTable, heading: string): string {
  // On a small screen it scrolls within its frame, which keys have to reach.
  const frame = `tabindex="0" role="group" aria-label="${shown(caption ?? heading)}"`;
  const heads = columns.map(
    ({ words, kind }) =>
      `<${words === '' ? 'td' : 'th scope="col"'}${classOf(kind)}>${shown(words)}</${words === '' ? 'td' : 'th'}>`,
  );
  const isBlank = rows.every((row) => row.every(({ text }) => text === ''));
  const named = caption === undefined ? '' : `<caption>${shown(caption)}</caption>`;
  return [
    `<div class="${rows.length <= MOST_TOGETHER ? 'wide together' : 'wide'}" ${frame}><table>${named}`,
    `<thead><tr>${heads.join('')}</tr></thead>`,
    '<tbody>',
    ...rows.flatMap((row, index) => [
      ...groups
        .filter(({ before }) => before === index)
        .map(
          ({ words }) =>
            `<tr class="group"><th colspan="${columns.length}" scope="colgroup">${shown(words)}</th></tr>`,
        ),
      `<tr>${columns.map((column, at) => cellHtml(column, row[at], isBlank)).join('')}</tr>`,
    ]),
    '</tbody></table></div>',
  ].join('\n');
}

function cellHtml({ kind }: SheetColumn, cell: SheetCell | undefined, isBlank: boolean): string {
  const text = cell?.text === NOT_KNOWN ? `<i>${NOT_KNOWN}</i>` : shown(together(cell?.text ?? ''));
  if (kind === 'name' && text !== '')
    return `<th scope="row"${(cell?.text ?? '').length <= NEAR ? ' class="near"' : ''}>${text}</th>`;
  if (isBlank) return `<td class="${kind} lines">${text}</td>`;
  const isLong = kind === 'amount' && (cell?.text ?? '').length > MOST_ON_A_LINE;
  return `<td${classOf(isLong ? 'words' : kind)}>${text}</td>`;
}

const classOf = (kind: SheetColumn['kind']): string => (kind === 'name' ? '' : ` class="${kind}"`);
