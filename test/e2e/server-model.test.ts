import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { allChecks } from '@setwright/checks';
import { readReceivers } from '@setwright/language';
import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import { edited } from '../../packages/server/src/text/edits.ts';
import { examples } from './command.ts';
import { endInOrder, type RawClient, type Reply, startedClient } from './lsp/raw-client.ts';

/** What a client holds to be true: the documents that are open, with their texts and versions. */
interface Model {
  readonly texts: Map<string, { text: string; version: number }>;
}

/** A server that the client talks to, and every reply that was not due. */
interface Real {
  readonly client: RawClient;
  readonly wrong: string[];
}

const pool = ['crystal', 'two-tube', 'one-tube-regenerative', 'faulty/grid-return-side'].map(
  (name) => readFileSync(join(examples, `${name}.receiver`), 'utf8'),
);
const uris = ['file:///one.receiver', 'file:///two.receiver'];

/** Pieces of text as somebody types or pastes them. */
const pieces = [
  '',
  ' ',
  '\n',
  'V1',
  'leak R9 2 meg from A+ to ',
  '}',
  '{',
  '"',
  '// ',
  '5',
  'mfd ',
  '\n  bus NEW\n',
  '\u{1F4FB}',
];

const late = new Set(allChecks.filter(({ thorough }) => thorough).map(({ id }) => id));

const NOT_OPEN = -32602;
const CANCELLED = -32800;
const CONTENT_MODIFIED = -32801;
const REFUSED = -32803;

const positionAt = (text: string, offset: number) => {
  const before = text.slice(0, offset).split('\n');
  return { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
};

type Command = fc.AsyncCommand<Model, Real>;

const open = (uri: string, which: number): Command => ({
  check: ({ texts }) => !texts.has(uri),
  async run({ texts }, { client }) {
    const text = pool[which % pool.length] ?? '';
    texts.set(uri, { text, version: 1 });
    const textDocument = { uri, languageId: 'setwright', version: 1, text };
    client.notify('textDocument/didOpen', { textDocument });
  },
  toString: () => `open(${uri}, ${which})`,
});

const close = (uri: string): Command => ({
  check: ({ texts }) => texts.has(uri),
  async run({ texts }, { client }) {
    texts.delete(uri);
    client.notify('textDocument/didClose', { textDocument: { uri } });
  },
  toString: () => `close(${uri})`,
});

/** Puts a piece in the place of some letters, at a share of the text. */
const edit = (uri: string, share: number, length: number, piece: string): Command => ({
  check: ({ texts }) => texts.has(uri),
  async run({ texts }, { client }) {
    const { text, version } = texts.get(uri)!;
    const start = Math.floor(share * text.length);
    const end = Math.min(text.length, start + length);
    const range = { start: positionAt(text, start), end: positionAt(text, end) };
    texts.set(uri, { text: text.slice(0, start) + piece + text.slice(end), version: version + 1 });
    client.notify('textDocument/didChange', {
      textDocument: { uri, version: version + 1 },
      contentChanges: [{ range, text: piece }],
    });
  },
  toString: () => `edit(${uri}, ${share}, ${length}, ${JSON.stringify(piece)})`,
});

/** Asks for something, and may think better of it. */
const ask = (uri: string, method: string, share: number, cancels: boolean): Command => ({
  check: () => true,
  async run({ texts }, { client, wrong }) {
    const text = texts.get(uri)?.text;
    const position = positionAt(text ?? '', Math.floor(share * (text?.length ?? 0)));
    const id = client.nextId();
    const reply = client.ask(method, {
      uri,
      page: 'diagram',
      receiver: 0,
      view: 'whole',
      symbols: 'modern',
      values: true,
      textDocument: { uri },
      position,
      positions: [position],
      range: { start: { line: 0, character: 0 }, end: position },
      newName: 'Zz9',
      context: { includeDeclaration: true, diagnostics: [] },
      options: { tabSize: 2, insertSpaces: true },
    });
    if (cancels) client.notify('$/cancelRequest', { id });
    const { error } = await reply;
    const allowed =
      text === undefined
        ? [NOT_OPEN, CANCELLED]
        : [
            ...(cancels ? [CANCELLED, undefined] : [undefined]),
            ...(method.endsWith('ename') ? [REFUSED] : []),
            ...(method === 'setwright/page' ? [CONTENT_MODIFIED] : []),
          ];
    if (!allowed.includes(error?.code)) wrong.push(`${method}: ${JSON.stringify(error)}`);
  },
  toString: () => `ask(${uri}, ${method}, ${share}, ${cancels})`,
});

/** Lets the server rename or format, and does what it says. */
const apply = (uri: string, method: string, share: number): Command => ({
  check: ({ texts }) => texts.has(uri),
  async run({ texts }, { client }) {
    const { text, version } = texts.get(uri)!;
    const position = positionAt(text, Math.floor(share * text.length));
    const { result } = await client.ask(method, {
      textDocument: { uri },
      position,
      newName: 'Zz9',
      options: { tabSize: 2, insertSpaces: true },
    });
    const edits = editsIn(result, uri);
    if (edits.length === 0) return;
    const lines = text.split('\n');
    const offset = ({ line, character }: Place): number =>
      lines.slice(0, line).reduce((sum, each) => sum + each.length + 1, 0) + character;
    const after = edited(
      text,
      edits.map(({ range, newText }) => ({
        start: offset(range.start),
        end: offset(range.end),
        text: newText,
      })),
    );
    texts.set(uri, { text: after, version: version + 1 });
    client.notify('textDocument/didChange', {
      textDocument: { uri, version: version + 1 },
      contentChanges: [{ text: after }],
    });
  },
  toString: () => `apply(${uri}, ${method}, ${share})`,
});

interface Place {
  readonly line: number;
  readonly character: number;
}
interface WireEdit {
  readonly range: { readonly start: Place; readonly end: Place };
  readonly newText: string;
}

function editsIn(result: Reply['result'], uri: string): readonly WireEdit[] {
  if (Array.isArray(result)) return result;
  const changes = (result as { changes?: Record<string, WireEdit[]> } | null | undefined)?.changes;
  return changes?.[uri] ?? [];
}

const methods = [
  'textDocument/hover',
  'textDocument/completion',
  'textDocument/definition',
  'textDocument/references',
  'textDocument/rename',
  'textDocument/prepareRename',
  'textDocument/documentSymbol',
  'textDocument/inlayHint',
  'textDocument/codeLens',
  'textDocument/codeAction',
  'textDocument/semanticTokens/full',
  'textDocument/selectionRange',
  'textDocument/foldingRange',
  'textDocument/formatting',
  'textDocument/prepareCallHierarchy',
  'setwright/page',
];

const anyUri = fc.constantFrom(...uris);
const share = fc.double({ min: 0, max: 1, noNaN: true });
const commands = fc.commands(
  [
    fc.tuple(anyUri, fc.nat(3)).map(([uri, which]) => open(uri, which)),
    anyUri.map(close),
    fc.tuple(anyUri, share, fc.nat(12), fc.constantFrom(...pieces)).map((args) => edit(...args)),
    fc
      .tuple(anyUri, share, fc.constant(0), fc.constantFrom(...pieces))
      .map((args) => edit(...args)),
    fc.tuple(anyUri, fc.constantFrom(...methods), share, fc.boolean()).map((args) => ask(...args)),
    fc
      .tuple(anyUri, fc.constantFrom('textDocument/rename', 'textDocument/formatting'), share)
      .map((args) => apply(...args)),
  ],
  { maxCommands: 40, size: 'max' },
);

/** What a server has published of a version of a document in the end. */
async function findings(client: RawClient, uri: string, version: number): Promise<string[]> {
  await client.hear(
    ({ method, params }) =>
      method === 'setwright/changed' &&
      (params as { uri: string }).uri === uri &&
      (params as { version: number }).version === version,
  );
  const last = client.heard.findLast(
    ({ method, params }) =>
      method === 'textDocument/publishDiagnostics' &&
      (params as { uri: string; version?: number }).uri === uri &&
      (params as { version?: number }).version === version,
  );
  if (!last) return [];
  const { diagnostics } = last.params as { diagnostics: { code: string }[] };
  // What takes long is found a good while later: one server may have come so far, and not the other.
  return diagnostics.filter(({ code }) => !late.has(code)).map((each) => JSON.stringify(each));
}

const started: RawClient[] = [];
const server = async (): Promise<RawClient> => {
  const client = await startedClient();
  started.push(client);
  return client;
};
afterEach(async () => {
  for (const client of started.splice(0)) {
    client.process.kill('SIGKILL');
    await client.gone;
  }
});

describe('a client that does anything in any order', () => {
  it.each([1, 10, 11, 41])(
    'has every answer that is due, and in the end what a fresh server would tell (seed %i)',
    async (seed) => {
      await fc.assert(
        fc.asyncProperty(commands, async (all) => {
          const real: Real = { client: await server(), wrong: [] };
          const model: Model = { texts: new Map() };
          await open('file:///one.receiver', seed).run(model, real);
          await fc.asyncModelRun(() => ({ model, real }), all);
          expect(real.wrong).toEqual([]);
          const fresh = await server();
          for (const [uri, { text, version }] of model.texts) {
            const textDocument = { uri, languageId: 'setwright', version, text };
            fresh.notify('textDocument/didOpen', { textDocument });
            const told = await findings(real.client, uri, version);
            const due = await findings(fresh, uri, version);
            const { circuits, read } = readReceivers(text, uri);
            const isWhole = read.unreadable.length + circuits.flatMap((c) => c.unread).length === 0;
            // While lines cannot be read, what was known before of the others still stands.
            if (isWhole && circuits.flatMap((c) => c.remarks).length === 0)
              expect(told).toEqual(due);
            else expect(told).toEqual(expect.arrayContaining(due));
          }
          expect(await endInOrder(real.client)).toBe(0);
          expect(await endInOrder(fresh)).toBe(0);
          expect(real.client.errors()).toBe('');
        }),
        { seed, numRuns: 1, endOnFailure: true },
      );
    },
  );
});
