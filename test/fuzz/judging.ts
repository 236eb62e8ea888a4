import { createRequire } from 'node:module';
import { join } from 'node:path';
import Ajv from 'ajv-draft-04';
import addFormats from 'ajv-formats';
import { SaxesParser } from 'saxes';
import { examplesFolder } from './inputs.ts';

/** How something that is told is written, by which it is judged. */
export type Form = 'text' | 'json' | 'sarif' | 'github' | 'csv' | 'markdown' | 'svg' | 'html';

/** What no person should ever read. */
const NONSENSE = new RegExp(
  [
    ...['\\bNaN\\b', '\\bInfinity\\b', '∞', '\\bundefined\\b', '\\[object ', 'failed on this set'],
    // Where the program was when it fell.
    ...['\\n {4}at \\S+ \\(', '\\n {4}at (?:async )?(?:file|node|/)'],
  ].join('|'),
);

/** Everything but line ends that a terminal would take for an order, or that turns letters round. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for.
const ORDERS = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/;

function wrong(what: string, at = ''): never {
  throw new Error(at === '' ? what : `${what}: ${at}`);
}

/**
 * Makes sure that something told is well-formed, harmless, and without figures that are none.
 *
 * @param own what the author wrote himself: nonsense in it is his
 * @throws Error that says what is wrong
 */
export function judged(told: string, form: Form, own: string): void {
  const order = ORDERS.exec(told);
  if (order) wrong('orders to a terminal', around(told, order.index));
  sensible(told, own);
  judges[form](told);
}

/** Makes sure that words hold no figures that are none. */
export function sensible(told: string, own: string): void {
  const left = withoutOwn(told, own);
  const found = NONSENSE.exec(left);
  if (found) wrong(`says ${found[0]}`, around(left, found.index));
}

const judges: Readonly<Record<Form, (told: string) => void>> = {
  text: () => {},
  json: (told) => void JSON.parse(told),
  sarif,
  github,
  csv,
  markdown,
  svg: picture,
  html: page,
};

function around(told: string, index: number): string {
  return JSON.stringify(told.slice(Math.max(0, index - 80), index + 80));
}

/** Nonsense that the text itself says is the author's own. */
function withoutOwn(told: string, own: string): string {
  const words = own.match(/NaN|Infinity|undefined|∞|\[object /g) ?? [];
  return [...new Set(words)].reduce((left, word) => left.replaceAll(word, ''), told);
}

/** The published schema of SARIF 2.1.0, errata 01, a draft-04 schema. */
let isLog: ((log: unknown) => boolean) & { errors?: unknown };

function sarif(told: string): void {
  if (!isLog) {
    const find = createRequire(join(examplesFolder, 'any.js'));
    const schema: unknown = find('@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json');
    const ajv = new Ajv({ strict: false, unicodeRegExp: false });
    addFormats(ajv);
    isLog = ajv.compile(schema as object) as unknown as typeof isLog;
  }
  if (!isLog(JSON.parse(told))) wrong('no SARIF', JSON.stringify(isLog.errors).slice(0, 400));
}

function github(told: string): void {
  for (const line of told.split('\n'))
    if (line !== '' && !/^::(?:error|warning|notice) file=/.test(line))
      wrong('no annotation', line.slice(0, 200));
}

function csv(told: string): void {
  const rows = rowsOfCsv(told);
  const [heading = []] = rows;
  for (const row of rows) {
    if (row.length !== heading.length) wrong('a row of another length', JSON.stringify(row));
    // A spreadsheet reckons what begins so.
    for (const cell of row)
      if (/^[=+@-]/.test(cell) && !Number.isFinite(Number(cell)))
        wrong('a cell that a spreadsheet would reckon', cell);
  }
}

/** Rows of comma-separated values as RFC 4180 has them. */
function rowsOfCsv(told: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  for (const [, quoted, plain, end] of told.matchAll(/(?:"((?:[^"]|"")*)"|([^",\n]*))(,|\n|$)/g)) {
    if (end === '' && row.length === 0 && !quoted && !plain) break;
    row.push(quoted?.replaceAll('""', '"') ?? plain ?? '');
    if (end === ',') continue;
    rows.push(row);
    row = [];
  }
  return rows;
}

function markdown(told: string): void {
  // What stands in a fence or in back-ticks, or behind a stroke, is letters and nothing more.
  const open = told
    .replace(/^(`{3,})[\s\S]*?^\1$/gm, '')
    .replace(/\\[\s\S]/g, '')
    .replace(/(`+)(?!`)[^\n]*?[^`\n]\1(?!`)/g, '');
  const element = /<\/?(?:script|img|iframe|a|b|svg)\b/i.exec(open);
  if (element) wrong('an element in Markdown', around(open, element.index));
  const link = /\]\(\s*(?:javascript|https?|command|data):/i.exec(open);
  if (link) wrong('a link in Markdown', around(open, link.index));
  let columns = 0;
  for (const line of open.split('\n')) {
    const cells = line.startsWith('|') ? line.split('|').length : 0;
    if (cells > 0 && !line.trimEnd().endsWith('|')) wrong('a broken row', line);
    if (cells > 0 && columns > 0 && cells !== columns) wrong('a row of another length', line);
    columns = cells;
  }
}

/** Attributes whose values are measures. */
const MEASURES =
  /^(?:d|x|y|x1|y1|x2|y2|cx|cy|r|rx|ry|width|height|viewBox|transform|points|font-size)$/;

function picture(told: string): void {
  const parser = new SaxesParser();
  parser.on('error', (error) => wrong('no XML', error.message));
  parser.on('opentag', ({ name, attributes }) => {
    if (/^(?:script|image|foreignObject|iframe|a)$/i.test(name)) wrong('an element', name);
    for (const [key, value] of Object.entries(attributes)) {
      if (/^on/i.test(key)) wrong('an attribute', key);
      if (/href$/i.test(key) && !value.startsWith('#')) wrong('a link', value);
      if (MEASURES.test(key) && /NaN|Infinity|undefined|null/.test(value))
        wrong('a measure', `${key}="${value.slice(0, 200)}"`);
    }
  });
  parser.write(told).close();
}

const EMPTY = new Set(['br', 'hr', 'img', 'input', 'link', 'meta', 'col', 'wbr']);
const TAG = /<!--[\s\S]*?-->|<!doctype html>|<(\/?)([a-zA-Z][\w-]*)((?:[^"'<>]|"[^"]*")*?)(\/?)>/gy;
const ATTRIBUTES = /^(?:\s+[a-zA-Z:_][\w:.-]*(?:="[^"]*")?)*\s*$/;
const REFERENCE = /&(?!(?:[a-z]+|#\d+|#x[\da-f]+);)/i;

/** A page of HTML: elements that close in order, names that lead somewhere, no foreign script. */
function page(told: string): void {
  const open: string[] = [];
  const ids = new Set<string>();
  const named: string[] = [];
  let at = 0;
  while (at < told.length) {
    const next = told.indexOf('<', at);
    const words = told.slice(at, next < 0 ? undefined : next);
    if (REFERENCE.test(words)) wrong('a bare &', words.slice(0, 200));
    if (next < 0) break;
    TAG.lastIndex = next;
    const tag = TAG.exec(told);
    if (!tag) wrong('a bare <', around(told, next));
    at = TAG.lastIndex;
    const [, closes, name = '', attributes = '', closed] = tag;
    if (name === '') continue;
    if (closes) {
      if (open.pop() !== name) wrong(`</${name}> closes another`, around(told, next));
      continue;
    }
    if (!ATTRIBUTES.test(attributes)) wrong('attributes', attributes.slice(0, 300));
    attributesOf(attributes, ids, named);
    if (closed || EMPTY.has(name)) continue;
    if (name === 'script' || name === 'style') {
      at = told.indexOf(`</${name}>`, at);
      if (at < 0) wrong(`no end of ${name}`);
      at += name.length + 3;
      continue;
    }
    open.push(name);
  }
  if (open.length > 0) wrong('left open', open.join(' '));
  for (const name of named) if (!ids.has(name)) wrong('a name that leads nowhere', name);
  if (!told.includes('Content-Security-Policy')) wrong('a page without a policy');
}

function attributesOf(attributes: string, ids: Set<string>, named: string[]): void {
  for (const [, key = '', value = ''] of attributes.matchAll(/([\w:.-]+)="([^"]*)"/g)) {
    if (REFERENCE.test(value)) wrong('a bare &', `${key}="${value.slice(0, 200)}"`);
    if (/^on/i.test(key)) wrong('an attribute', key);
    if (/^(?:href|src)$/.test(key) && /^\s*(?:\w+:|\/\/)/.test(value) && !/^data:image/.test(value))
      wrong('a link', value.slice(0, 200));
    if (MEASURES.test(key) && /NaN|Infinity|undefined|null/.test(value))
      wrong('a measure', `${key}="${value.slice(0, 200)}"`);
    if (key === 'id') {
      if (ids.has(value)) wrong('two of one id', value);
      ids.add(value);
    } else if (key === 'href' && value.startsWith('#') && value.length > 1)
      named.push(value.slice(1));
    else if (/^(?:aria-labelledby|aria-describedby|for)$/.test(key))
      named.push(...value.split(/\s+/).filter((name) => name !== ''));
  }
}
