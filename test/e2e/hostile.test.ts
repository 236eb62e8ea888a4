import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { SaxesParser } from 'saxes';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { setwright } from './command.ts';

/** What a name must not do: be run, colour a terminal, break a table, turn letters round. */
const HOSTILE = [
  '<script>alert(1)</script>',
  '<img src=x onerror=alert(2)>',
  '](javascript:alert(3))',
  '![x](https://example.invalid/x.png)',
  '`rm -rf`',
  '| a | b |',
  '--> ]]> */',
  '\u001b[31mred\u001b]8;;https://example.invalid\u0007',
  '\u202egnorw',
  '\u009b2J',
  '::error::no',
  '%0A::error::no',
  '&lt;b&gt;',
  "';--",
  '$(id)',
].join(' ');

const FILE = `a'b <img src=x onerror=alert(4)> $(id) \`x\`.receiver`;

const text = `receiver "${HOSTILE}" {
  year 1926
  tunes 550 kc to 1500 kc
  note "${HOSTILE}"
  battery A "${HOSTILE}" storage { tap A- tap A+ 6 V }
  battery B dry { tap B- tap B+45 }
  post ANT "${HOSTILE}" aerial
  post GND ground
  bus NEG "${HOSTILE}"
  wire B- to A- to GND to NEG
  rheostat RH1 "${HOSTILE}" 20 ohms from A- set 5 ohms
  detector stage DET "${HOSTILE}" {
    coil L1 "${HOSTILE}" {
      form 3 in
      winding aerial "${HOSTILE}" 10 turns of 24 DCC from GND to ANT
      winding grid 48 turns of 24 DCC beside aerial spaced 1/4 in from GND
    }
    condenser C1 "${HOSTILE}" variable .0005 mfd across L1.grid
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 "${HOSTILE}" 2 meg from V1.grid to A-
    tube V1 "${HOSTILE}" 01-A { filament from RH1 to A+ }
    phones PH1 "${HOSTILE}" 2000 ohms from V1.plate to B+45
  }
  dial D1 "${HOSTILE}" 0 to 100 drives C1
  meant grid-biased-positive "${HOSTILE}"
  bench "${HOSTILE}" {
    meter 10 megohms 1 %
    reading V1.plate 12 V
    heard "silent"
  }
  suppose "${HOSTILE}" { open C2 }
}
`;

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'setwright-hostile-'));
  writeFileSync(join(folder, FILE), text);
  writeFileSync(join(folder, 'other.receiver'), text.replace('2 meg', '3 meg'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const written = (name: string) => readFileSync(join(folder, name), 'utf8');

/** Everything but line ends that a terminal would take for an order, or that turns letters round. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for.
const ORDERS = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/;

function run(...args: readonly string[]) {
  const found = setwright(args, { cwd: folder });
  expect(`${found.stdout}${found.stderr}`).not.toMatch(ORDERS);
  expect(found.stderr).not.toMatch(/^\s+at /m);
  return found;
}

/** Names of all elements and attributes of XML, and what its style sheets and scripts say. */
function insideOf(xml: string) {
  const names: string[] = [];
  const parser = new SaxesParser();
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    names.push(name, ...Object.keys(attributes).map((attribute) => `@${attribute}`));
  });
  parser.write(xml).close();
  return names;
}

describe('hostile names and titles', () => {
  it.each([
    ['check', 'text'],
    ['check', 'github'],
    ['values', 'text'],
    ['dials', 'text'],
    ['response', 'text'],
    ['bench', 'text'],
    ['faults', 'text'],
    ['suspects', 'text'],
    ['compare', 'text'],
  ])('give a terminal no orders: %s as %s', (command, format) => {
    const other = command === 'compare' ? ['other.receiver'] : [];
    const { stdout } = run(command, FILE, ...other, '--format', format);
    expect(stdout).not.toBe('');
    const orders = stdout.split('\n').filter((line) => line.startsWith('::'));
    expect(orders.every((line) => /^::(?:error|warning|notice) file=/.test(line))).toBe(true);
  });

  it.each([
    ['check', 'json'],
    ['check', 'sarif'],
    ['values', 'json'],
    ['dials', 'json'],
    ['response', 'json'],
    ['bench', 'json'],
    ['faults', 'json'],
    ['suspects', 'json'],
    ['compare', 'json'],
  ])('leave JSON sound: %s as %s', (command, format) => {
    const other = command === 'compare' ? ['other.receiver'] : [];
    const { stdout } = run(command, FILE, ...other, '--format', format);
    // What is found carries no titles, but the name of the file.
    expect(JSON.stringify(JSON.parse(stdout))).toMatch(/alert\([14]\)/);
  });

  it('give a terminal no orders where a line cannot be read: describe', () => {
    writeFileSync(
      join(folder, 'unread.receiver'),
      text.replace('post GND', 'pst \u009b2J\u202e GND'),
    );
    expect(run('describe', 'unread.receiver').stdout).toMatch(/^not read .*\\u009b2J/m);
  });

  it.each(['values', 'dials', 'response', 'bench', 'faults'])(
    'give a spreadsheet nothing to reckon: %s',
    (command) => {
      writeFileSync(join(folder, 'sums.receiver'), text.replaceAll(HOSTILE, '=1+2'));
      const cells = run(command, 'sums.receiver', '--format', 'csv').stdout.split(/[,\n]/);
      expect(cells).toContain("'=1+2");
      expect(cells.filter((cell) => /^"?[=+@]/.test(cell))).toEqual([]);
    },
  );

  it.each([
    ['bench', ['--format', 'markdown'], undefined],
    ['compare', ['other.receiver', '--format', 'markdown'], undefined],
    ['tour', ['-o', 'tour/tour.md'], 'tour/tour.md'],
    ['report', ['-o', 'sheet/sheet.md'], 'sheet/sheet.md'],
  ] as const)('bring no element and no link into Markdown: %s', (command, args, file) => {
    const { stdout } = run(command, FILE, ...args);
    const page = (file === undefined ? stdout : written(file)).replace(/\\[\s\S]/g, '');
    expect(page).not.toBe('');
    expect(page).not.toMatch(ORDERS);
    expect(page).not.toMatch(/<(?:script|img)/);
    expect(page).not.toMatch(/\]\((?:javascript|https?):/);
    for (const row of page.split('\n').filter((line) => line.startsWith('|')))
      expect(row.trimEnd()).toMatch(/\|$/);
  });

  it('bring nothing into a drawing', () => {
    run('draw', FILE, '--values', '--stages', '-o', 'x.svg');
    const names = insideOf(written('x.svg'));
    expect(names).toContain('path');
    expect(
      names.filter((name) => /^@?(?:script|img|image|on\w+|(?:xlink:)?href)$/.test(name)),
    ).toEqual([]);
  });

  it.each([
    ['tour', 'tour.html'],
    ['report', 'sheet.html'],
  ])('bring nothing into a page: %s', (command, file) => {
    run(command, FILE, '-o', file);
    const page = written(file);
    expect(page).not.toMatch(/<script>alert|<img src=x/);
    expect(ORDERS.exec(page)?.[0]).toBeUndefined();
    expect(page).toContain('&lt;script&gt;alert(1)');
    expect(page).toMatch(/Content-Security-Policy/);
    expect(page).not.toMatch(/unsafe-inline|unsafe-eval|(?:href|src)="[^"#]*(?:example|alert)/);
  });
});
