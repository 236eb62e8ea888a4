import { escaped } from '../text/escaped.ts';
import { visible } from '../text/visible.ts';
import { counted, listed } from '../text/words.ts';
import type { Digest } from '../tour/page/tour-page.ts';
import { collectionScript } from './collection-script.ts';
import { collectionStyle } from './collection-style.ts';
import type { CollectionRow } from './row.ts';

/** Stands near the head of every index, so that one may be known from another page. */
export const collectionMark = '<meta name="generator" content="Setwright collection">';

/** A set of a collection with its page. */
export interface CollectionEntry extends CollectionRow {
  /** The file it is from, as it is called in messages. */
  readonly path: string;
  /** Where its page lies, seen from the index: a link as it stands. */
  readonly href: string;
}

/** What a collection is made of. */
export interface Collection {
  readonly title: string;
  readonly entries: readonly CollectionEntry[];
  /** Files that could not be read, and what to do about it. */
  readonly unread: readonly {
    readonly path: string;
    readonly cause: string;
    readonly cure: string;
  }[];
  /** Files that hold no set, such as those that others use. */
  readonly without: readonly string[];
  /** What it was made by. */
  readonly madeBy: string;
}

/**
 * The index of a collection as one page that stands by itself: a table that needs no script, and a
 * small script that searches and sorts it. It fetches nothing; its policy lets nothing else run.
 */
export function collectionPage(collection: Collection, digest: Digest): string {
  const { entries, unread, without } = collection;
  const title = words(
    collection.title === '' ? 'A collection of receivers' : `Collection “${collection.title}”`,
  );
  const policy = [
    "default-src 'none'",
    `script-src 'sha256-${digest(collectionScript)}'`,
    `style-src 'sha256-${digest(collectionStyle)}'`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
${collectionMark}
<title>${title}</title>
<style>${collectionStyle}</style>
</head>
<body>
<header>
<h1>${title}</h1>
<p>${escaped(summary(collection))}</p>
</header>
<main>
${entries.length > 0 ? tableOf(entries) : '<p>There is no set to show.</p>'}
${unread.length > 0 ? unreadHtml(unread) : ''}
${without.length > 0 ? withoutHtml(without) : ''}
</main>
<footer><p>B supplies can hurt, and a set that is wired wrong can lose its tubes: read the caution on its sheet before the power goes on.</p><p>${words(collection.madeBy)}</p></footer>
<script>${collectionScript}</script>
</body>
</html>
`;
}

/** Text from a file as it may stand on the page: nothing in it acts or turns the line round. */
const words = (text: string): string => escaped(visible(text));

const nameOf = ({ title }: CollectionRow): string =>
  title.trim() === '' ? 'Receiver without a name' : title;

function summary({ entries, unread }: Collection): string {
  const tubes = entries.reduce((sum, entry) => sum + tubeCount(entry), 0);
  const faulty = entries.filter(({ findings }) => findings.error > 0).length;
  const parts = [
    `${counted(entries.length, 'set')} with ${counted(tubes, 'tube')}`,
    faulty === 0 ? 'no errors found' : `errors in ${counted(faulty, 'set')}`,
    ...(unread.length > 0 ? [`${counted(unread.length, 'file')} that could not be read`] : []),
  ];
  return `${parts.join('; ')}.`;
}

const tubeCount = ({ tubes }: CollectionRow): number =>
  tubes.reduce((sum, { count }) => sum + count, 0);

const columns = ['Set', 'Kind', 'Year', 'Tubes', 'Dials', 'Findings', 'File'] as const;

function tableOf(entries: readonly CollectionEntry[]): string {
  return `<div class="tools needs-script">
<label for="search">Search</label>
<input type="search" id="search" autocomplete="off" spellcheck="false" aria-controls="sets">
<p id="count" role="status"></p>
</div>
<table id="sets" role="table">
<caption>The sets, each with its service sheet</caption>
<thead role="rowgroup"><tr role="row">${columns.map((column) => `<th scope="col" role="columnheader">${column}</th>`).join('')}</tr></thead>
<tbody role="rowgroup">
${entries.map(rowHtml).join('\n')}
</tbody>
</table>
<p class="nothing" id="nothing" hidden>No set holds all of these words.</p>`;
}

/** A row; what it is sorted by stands with each cell where its words would sort otherwise. */
function rowHtml(entry: CollectionEntry): string {
  const { kind, year, tubes, dials, findings, path, href } = entry;
  // Each on one line, as far as it fits.
  const tubesHtml = tubes
    .map(({ type, count }) => `<span>${words(`${count} × ${type}`)}</span>`)
    .join(', ');
  const cell = (column: number, html: string, sorted?: string | number): string =>
    `<td role="cell" data-column="${columns[column]}"${sorted === undefined ? '' : ` data-sort="${words(String(sorted))}"`}>${html}</td>`;
  return `<tr role="row"><th scope="row" role="rowheader"><a href="${escaped(href)}">${words(nameOf(entry))}</a></th>${[
    cell(1, words(kind)),
    cell(2, words(year ?? 'not said'), /\d+/.exec(year ?? '')?.[0] ?? 9999),
    cell(3, tubes.length > 0 ? tubesHtml : 'none', tubeCount(entry)),
    cell(4, dials.length > 0 ? words(dials.join(', ')) : 'none', dials.length),
    cell(5, findingsHtml(findings), weight(findings)),
    cell(6, words(path)),
  ].join('')}</tr>`;
}

type Findings = CollectionRow['findings'];

/** The worse the more: one error outweighs all warnings, one warning all that is said besides. */
const weight = ({ error, warning, information, hint }: Findings): number =>
  error * 1e8 + warning * 1e4 + information + hint;

function findingsHtml({ error, warning, information, hint }: Findings): string {
  const also = information + hint;
  const said = [
    ...(error > 0 ? [`<strong class="error">${counted(error, 'error')}</strong>`] : []),
    ...(warning > 0 ? [`<strong>${counted(warning, 'warning')}</strong>`] : []),
    ...(also > 0 ? [counted(also, 'remark')] : []),
  ];
  return said.length > 0 ? listed(said) : 'none';
}

const unreadHtml = (unread: Collection['unread']): string => `<section aria-labelledby="unread">
<h2 id="unread">Files that could not be read</h2>
<ul>
${unread.map(({ path, cause, cure }) => `<li><b>${words(path)}</b>: ${words(cause)}. ${words(cure)}</li>`).join('\n')}
</ul>
</section>`;

const withoutHtml = (without: Collection['without']): string => `<section aria-labelledby="without">
<h2 id="without">Files without a set</h2>
<ul>
${without.map((path) => `<li>${words(path)}</li>`).join('\n')}
</ul>
</section>`;
