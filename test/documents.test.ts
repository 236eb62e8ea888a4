import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';
import { printed } from './support/shown.ts';

const root = join(import.meta.dirname, '..');

/** All files below a folder, seen from the root; but for what is built or fetched. */
function filesBelow(folder: string): readonly string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (['node_modules', 'dist', '.git'].includes(entry.name)) return [];
    return entry.isDirectory() ? filesBelow(path) : [relative(root, path).replaceAll('\\', '/')];
  });
}

const files = filesBelow(root);
const pages = files.filter((file) => file.endsWith('.md'));
const textOf = (file: string) => readFileSync(join(root, file), 'utf8');

/** The folder that the links of a page start from; the extension's page is packed at the top. */
const folderOf = (page: string) =>
  page === 'packages/client/README.md' ? root : join(root, dirname(page));

/** A page without its blocks of code: there nothing is a link. */
const withoutBlocks = (page: string) => page.replace(/^```[\s\S]*?^```$/gm, '');

/** What the headings of a page are called in a link to one. */
const anchorsOf = (page: string): readonly string[] =>
  [...withoutBlocks(page).matchAll(/^#+ (.*)$/gm)].map(([, heading = '']) =>
    heading
      .toLowerCase()
      .replace(/[^\p{L}\p{N} _-]/gu, '')
      .replaceAll(' ', '-'),
  );

describe.each(pages)('%s', (page) => {
  const links = [...withoutBlocks(textOf(page)).matchAll(/\]\(([^)\s]+)\)/g)]
    .map(([, target = '']) => target)
    .filter((target) => !/^[a-z]+:/.test(target));

  it('leads only to what is there', () => {
    const astray = links.filter((link) => {
      const [path = '', anchor] = link.split('#');
      const target = path === '' ? join(root, page) : join(folderOf(page), path);
      if (!existsSync(target)) return true;
      return anchor !== undefined && !anchorsOf(readFileSync(target, 'utf8')).includes(anchor);
    });
    expect(astray).toEqual([]);
  });
});

/** The pieces of code within the lines of a page. */
const spansOf = (page: string): readonly string[] =>
  [...withoutBlocks(page).matchAll(/`([^`\n]+)`/g)].map(([, span = '']) => span);

/** Every line of code of a page, within its lines and in its blocks. */
const codeOf = (page: string): readonly string[] => [
  ...spansOf(page),
  ...[...page.matchAll(/^```\S*\n([\s\S]*?)^```$/gm)].flatMap(([, block = '']) =>
    block.split('\n'),
  ),
];

describe('DEVELOPERS.md', () => {
  const spans = spansOf(textOf('DEVELOPERS.md'));
  const sources = files.filter((file) => /\.(ts|mjs|cjs|json|sh|langium)$/.test(file)).map(textOf);

  it('names only files and folders that are there', () => {
    const isThere = (path: string) =>
      files.some((file) => `/${file}`.endsWith(`/${path}`) || `/${file}`.includes(`/${path}/`));
    const paths = spans
      .filter((span) => /^[\w.@*<>-]+(\/[\w.@*<>-]+)*\/?$/.test(span))
      .filter((span) => span.includes('/') || /\.(ts|mjs|cjs|sh|json|md|langium|txt)$/.test(span))
      // What is built, and what stands for a name of the reader's own.
      .filter((span) => !/^dist\/|[*<>]|^setwright[-/]|^my-|^\//.test(span))
      .map((span) => span.replace(/\/$/, ''));
    expect(paths.length).toBeGreaterThan(50);
    expect(paths.filter((path) => !isThere(path))).toEqual([]);
  });

  it('names only functions and constants that are there', () => {
    const names = spans.flatMap((span) => {
      const [, called] = /^([a-zA-Z]\w*)\(/.exec(span) ?? [];
      const [plain] = /^[a-z]+(?:[A-Z]\w*)+$|^[A-Z][a-z]+(?:[A-Z]\w*)+$/.exec(span) ?? [];
      return [called, plain].filter((name) => name !== undefined);
    });
    expect(names.length).toBeGreaterThan(30);
    const isThere = (name: string) =>
      sources.some((source) => new RegExp(`\\b${name}\\b`).test(source));
    expect([...new Set(names)].filter((name) => !isThere(name))).toEqual([]);
  });

  it('has a line for everything that the benchmarks hold to, and the topic that measures it', () => {
    const [, table = ''] =
      /^\| topic .*\n\| ---.*\n((?:\|.*\n)+)/m.exec(textOf('DEVELOPERS.md')) ?? [];
    const rows = table
      .trim()
      .split('\n')
      .map((row) => row.split('|').map((cell) => cell.trim()));
    const topics = textOf('test/bench/bench.ts');
    expect(rows.filter(([, topic]) => !new RegExp(`^ {2}${topic}[:,]`, 'm').test(topics))).toEqual(
      [],
    );
    const held = files
      .filter((file) => /^test\/bench\/(?!soak).*\.ts$/.test(file))
      .flatMap((file) => [...textOf(file).matchAll(/\b(?:under|over)\(\s*(?:'(.*)'|`(.*)`),/g)])
      .map(([, plain, template]) => plain ?? template ?? '');
    const patterns = held.map(
      (what) =>
        new RegExp(
          `^${what
            .split(/\$\{[^}]*\}/)
            .map((piece) => piece.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))
            .join('.+')}$`,
        ),
    );
    expect(held.length).toBeGreaterThan(10);
    const told = rows.map(([, , what = '']) => what);
    expect(held.filter((_, at) => !told.some((what) => patterns[at]?.test(what)))).toEqual([]);
    expect(told.filter((what) => !patterns.some((pattern) => pattern.test(what)))).toEqual([]);
  });

  it('counts every package, and no other', () => {
    const [, house = ''] =
      /^```\npackages\/\n([\s\S]*?)^examples /m.exec(textOf('DEVELOPERS.md')) ?? [];
    const told = [...house.matchAll(/^ {2}(\w+) {2,}/gm)].map(([, name]) => name);
    expect(told.toSorted()).toEqual(readdirSync(join(root, 'packages')).toSorted());
  });
});

/** The help of a command of the tool, asked for once. */
const helps = new Map<string, string>();
const helpOf = (command: string) => {
  if (!helps.has(command)) helps.set(command, printed([command, '--help'], root));
  return helps.get(command) ?? '';
};

describe.each(['README.md', 'DEVELOPERS.md', 'examples/collection/README.md'])(
  'the commands in %s',
  (page) => {
    const code = codeOf(textOf(page));
    const { scripts } = JSON.parse(textOf('package.json')) as { scripts: Record<string, string> };

    it('of npm are scripts of the project, and what they are given is there', () => {
      const called = code.flatMap((line) => [
        ...line.matchAll(/\bnpm run (\w+)(?: -- ([a-z]\w*))?/g),
      ]);
      expect(called.filter(([, script = '']) => !(script in scripts)).map(([all]) => all)).toEqual(
        [],
      );
      const topics = textOf('test/bench/bench.ts');
      const unknown = called
        .filter(([, script, topic]) => script === 'bench' && topic !== undefined)
        .filter(([, , topic]) => !new RegExp(`^ {2}${topic}[:,]`, 'm').test(topics));
      expect(unknown.map(([all]) => all)).toEqual([]);
    });

    it('of node and npx run files that are there', () => {
      const run = code.flatMap((line) =>
        [...line.matchAll(/\b(?:node|vitest run) ((?:packages|test|\.ci)\/[\w./-]+)/g)].map(
          ([, file = '']) => file,
        ),
      );
      expect(run.filter((file) => !existsSync(join(root, file)))).toEqual([]);
    });

    it('of the tool are commands of it, with options that they take', () => {
      const calls = code
        .flatMap((line) => [
          ...line.matchAll(/(?:\bsetwright|setwright\.cjs) ([a-z]+)\b([^|#"`]*)/g),
        ])
        .map(([call, command = '', rest = '']) => ({ call, command, rest }));
      const wrong = calls.filter(({ command, rest }) => {
        const help = helpOf(command);
        if (!help.startsWith(`Usage: setwright ${command} `)) return true;
        const options = rest.match(/(?<= )--?[a-z][a-z-]*/g) ?? [];
        return options.some((option) => !new RegExp(`^ .*${option}\\b`, 'm').test(help));
      });
      expect(wrong.map(({ call }) => call)).toEqual([]);
    });
  },
);

describe('README.md', () => {
  it('names every tube type of the library, and no other', () => {
    const library = textOf('packages/language/src/library/tubes.receiver');
    const types = [...library.matchAll(/^tube type (\S+)/gm)].map(([, type]) => type);
    const [, told = ''] =
      /The library describes the (.*?) in the language/.exec(textOf('README.md')) ?? [];
    expect(told.split(/, | and /)).toEqual(types);
  });

  it('counts the examples', () => {
    const sets = files.filter((file) => /^examples\/[^/]+\.receiver$/.test(file));
    // Another count wants another word here, in the README and in the list of the examples.
    expect(sets).toHaveLength(14);
    expect(textOf('README.md')).toContain('The fourteen sets in [examples]');
    const listed = textOf('examples/README.md');
    expect(listed).toContain('Fourteen sets');
    expect(sets.filter((set) => !listed.includes(`\`${set.replace('examples/', '')}\``))).toEqual(
      [],
    );
  });
});

describe('how often the suspects are right (npm run repair)', () => {
  const figures = textOf('test/bench/repair-figures.txt');
  const rowOf = (name: string): readonly string[] => {
    const [, cells = ''] = new RegExp(`^${name} +(\\d.*)$`, 'm').exec(figures) ?? [];
    return cells.trim().split(/ {2,}/);
  };

  it('is told by the README as it was measured', () => {
    const [, first = '', three = ''] = rowOf('all').map((cell) =>
      String(Math.floor(parseFloat(cell))),
    );
    expect(textOf('README.md')).toContain(
      `first in ${first} of 100 and among the first three in ${three} of 100`,
    );
  });

  it('and by DEVELOPERS.md', () => {
    const [repairs = '', ...shares] = rowOf('all');
    const [, ...heard] = rowOf('whatever is heard');
    const [unheard = '', ...silent] = rowOf('nothing');
    const wanted = [
      `of ${repairs} simulated repairs`,
      ...shares,
      ...heard,
      unheard,
      silent[0] ?? '',
    ];
    expect(wanted.filter((words) => !textOf('DEVELOPERS.md').includes(words))).toEqual([]);
  });
});

describe('files of the project', () => {
  it('that pages show as pictures are not empty', () => {
    const pictures = pages.flatMap((page) =>
      [...textOf(page).matchAll(/!\[[^\]]*\]\(([^)]+)\)/g)].map(([, target = '']) =>
        join(folderOf(page), target),
      ),
    );
    expect(pictures.length).toBeGreaterThan(3);
    expect(pictures.filter((picture) => statSync(picture).size < 1000)).toEqual([]);
  });
});
