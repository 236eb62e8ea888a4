import { readReceivers } from '@setwright/language';
import { isPage, type OlderText, type PageRequest, requests } from '@setwright/webview';
import { serve } from '../../packages/server/src/connection/serve.ts';
import type { Chance } from '../support/random/chance.ts';
import { changedInput, editOf, wordOf } from './inputs.ts';
import { judged, sensible } from './judging.ts';
import { type Place, placesIn, type Span } from './places.ts';
import { withSoundJson } from './written-json.ts';

type Connection = Parameters<typeof serve>[0];
type Handler = (params: unknown, token: unknown) => unknown;

const uri = 'file:///set.receiver';
const textDocument = { uri };
const never = { isCancellationRequested: false, onCancellationRequested: () => ({ dispose() {} }) };

/** The language server with a client that sends messages by calling it, and no wire between. */
interface Editor {
  /** The answer to a request; undefined where the server refuses, which it may. */
  readonly ask: (method: string, params: unknown) => Promise<unknown>;
  /** Sends a notification. */
  readonly tell: (method: string, params: unknown) => void;
  /** What the server has sent of its own accord since last asked. */
  readonly heard: () => readonly (readonly [string, readonly unknown[]])[];
}

/** How the server's methods for handlers are called whose names are not those of the protocol. */
function editor(quiet: number): Editor {
  const handlers = new Map<string, Handler>();
  let sent: (readonly [string, readonly unknown[]])[] = [];
  // Every way in is a function `on…` of the connection or of something in it; the rest are ways out.
  const recorder = (path: string): unknown =>
    new Proxy(() => undefined, {
      get: (_, name) => recorder(path === '' ? String(name) : `${path}.${String(name)}`),
      apply: (_, __, args: readonly unknown[]) => {
        const [first, second] = args;
        if (/(?:^|\.)on[A-Z]\w*$/.test(path)) {
          const method = (first as { method?: string }).method ?? (second ? String(first) : path);
          handlers.set(method, (second ?? first) as Handler);
        } else if (path !== 'listen') sent.push([path, args]);
        return Promise.resolve(null);
      },
    });
  serve(recorder('') as Connection, {
    pause: () => new Promise((resolve) => setImmediate(resolve)),
    quiet,
    receiversIn: async () => [],
    usedFile: () => undefined,
  });
  const handler = (method: string): Handler => {
    const found = handlers.get(method);
    if (!found) throw new Error(`nobody answers ${method}`);
    return found;
  };
  return {
    ask: async (method, params) => {
      try {
        return await handler(method)(params, never);
      } catch (error) {
        // What is refused in so many words is an answer too.
        if (isRefusal(error)) return undefined;
        if (error instanceof Error) error.message = `${method}: ${error.message}`;
        throw error;
      }
    },
    tell: (method, params) => void handler(method)(params, never),
    heard: () => {
      const all = sent;
      sent = [];
      return all;
    },
  };
}

/** Codes of the protocol for what the client may not ask: never for what goes wrong inside. */
const REFUSALS = new Set([-32803, -32802, -32801, -32800, -32602, -32601]);

const isRefusal = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && REFUSALS.has(error.code as number);

/** A client as the editor is, that takes everything. */
const capabilities = {
  workspace: { inlayHint: { refreshSupport: true }, codeLens: { refreshSupport: true } },
  textDocument: {
    completion: { completionItem: { snippetSupport: true } },
    definition: { linkSupport: true },
    codeAction: { resolveSupport: { properties: ['edit'] } },
  },
};

/** Milliseconds without an edit that never come to pass. */
const NEVER = 2 ** 30;

/** A conversation about a text, in which every answer is judged. */
async function conversation(
  text: string,
  quiet: number,
  talk: (about: Talk) => Promise<void>,
): Promise<void> {
  const { ask, tell, heard } = editor(quiet);
  const about: Talk = {
    text,
    places: placesIn(text),
    ask: async (method, params) => {
      const answer = await ask(method, params);
      soundAnswer(method, answer, about);
      return answer;
    },
    change: (change) => {
      const range = about.places.spanOf(change);
      about.text = about.text.slice(0, change.start) + change.text + about.text.slice(change.end);
      about.places = placesIn(about.text);
      version += 1;
      const contentChanges = [{ range, text: change.text }];
      tell('onDidChangeTextDocument', { textDocument: { uri, version }, contentChanges });
    },
  };
  let version = 1;
  await ask('onInitialize', { capabilities, workspaceFolders: null, rootUri: null });
  tell('onInitialized', {});
  const opened = { ...textDocument, version, languageId: 'setwright', text };
  tell('onDidOpenTextDocument', { textDocument: opened });
  try {
    await withSoundJson(() => talk(about));
    for (const [path, args] of heard()) {
      if (path.startsWith('console.')) throw new Error(`${path}: ${String(args[0])}`);
      const [said] = args as [{ version?: number } | undefined];
      if (path === 'sendDiagnostics' && said?.version === version) soundAnswer(path, said, about);
    }
  } finally {
    tell('onDidCloseTextDocument', { textDocument });
    await ask('onShutdown', undefined);
  }
}

interface Talk {
  text: string;
  places: ReturnType<typeof placesIn>;
  readonly ask: Editor['ask'];
  readonly change: (change: { start: number; end: number; text: string }) => void;
}

/** Asks everything that an editor asks, at places by chance, between edits by chance. */
export function editorOn(text: string, chance: Chance): Promise<void> {
  const isQuiet = chance.percent(10);
  return conversation(text, isQuiet ? 0 : NEVER, async (about) => {
    for (let edits = chance.below(4); edits > 0; edits--) {
      about.change(editOf(about.text, chance));
      if (chance.percent(50)) await about.ask('onHover', at(about, chance));
    }
    for (let places = 4; places > 0; places--) await askAt(about, chance);
    await askOfWhole(about, chance);
  });
}

function at({ text, places }: Talk, chance: Chance): { textDocument: object; position: Place } {
  return { textDocument, position: places.placeOf(chance.below(text.length + 1)) };
}

async function askAt(about: Talk, chance: Chance): Promise<void> {
  const { ask } = about;
  const here = at(about, chance);
  const { position } = here;
  await ask('onHover', here);
  const typed = chance.one([undefined, '.', ' ', '"']);
  await ask('onCompletion', { ...here, context: { triggerCharacter: typed } });
  await ask('onDefinition', here);
  await ask('onReferences', { ...here, context: { includeDeclaration: chance.percent(50) } });
  await ask('onDocumentHighlight', here);
  await ask('textDocument/linkedEditingRange', here);
  await ask('onSelectionRanges', {
    textDocument,
    positions: [position, at(about, chance).position],
  });
  await ask('onDocumentOnTypeFormatting', { ...here, ch: chance.one(['}', '\n']) });
  const items = (await ask('languages.callHierarchy.onPrepare', here)) as readonly unknown[] | null;
  for (const item of items ?? []) {
    await ask('languages.callHierarchy.onIncomingCalls', { item });
    await ask('languages.callHierarchy.onOutgoingCalls', { item });
  }
  if (await ask('onPrepareRename', here)) {
    const newName = chance.one(['X9', 'V1', '', 'a"b', wordOf(about.text, chance)]);
    changed(about, await ask('onRenameRequest', { ...here, newName }));
  }
}

async function askOfWhole(about: Talk, chance: Chance): Promise<void> {
  const { ask, text, places } = about;
  const whole = { textDocument, range: places.spanOf({ start: 0, end: text.length }) };
  const [one, other] = [chance.below(text.length + 1), chance.below(text.length + 1)];
  const some = { start: Math.min(one, other), end: Math.max(one, other) };
  const part = { textDocument, range: places.spanOf(some) };
  await ask('onDocumentSymbol', whole);
  await ask('onWorkspaceSymbol', { query: wordOf(text, chance) });
  await ask('onFoldingRanges', whole);
  soundTokens(await ask('textDocument/semanticTokens/full', whole), about);
  soundTokens(await ask('textDocument/semanticTokens/range', part), about);
  await ask('onDocumentLinks', whole);
  changed(about, edits(await ask('onDocumentFormatting', whole)));
  changed(about, edits(await ask('onDocumentRangeFormatting', part)));
  // These wait for what is found; the second of them would wait for a pause in the typing too.
  if (chance.percent(50)) await ask('textDocument/inlayHint', chance.one([whole, part]));
  else await ask('textDocument/codeLens', whole);
  const context = { diagnostics: [], only: chance.one([undefined, ['source.fixAll']]) };
  const actions = await ask('onCodeAction', { ...whole, context });
  for (const action of actions as readonly { edit?: unknown; data?: unknown }[]) {
    const whatToDo = action.data
      ? ((await ask('onCodeActionResolve', action)) as typeof action)
      : action;
    changed(about, whatToDo.edit);
  }
}

const edits = (of: unknown): unknown => ({ changes: { [uri]: of ?? [] } });

/** Makes sure that edits do not overlap, and that what they lead to can be read. */
function changed({ text, places }: Talk, edit: unknown): void {
  const own = (edit as { changes?: Record<string, readonly { range: Span; newText: string }[]> })
    ?.changes?.[uri];
  if (!own) return;
  const inOrder = own
    .map(({ range, newText }) => ({ ...places.offsetsOf(range), newText }))
    .sort((a, b) => a.start - b.start || a.end - b.end);
  let [after, from] = ['', 0];
  for (const { start, end, newText } of inOrder) {
    if (start < from) throw new Error('edits overlap');
    after += text.slice(from, start) + newText;
    from = end;
  }
  readReceivers(after + text.slice(from), uri);
}

/** Pages of the preview, and drawings and sheets to keep. */
export function pagesOn(text: string, seed: number, chance: Chance): Promise<void> {
  return conversation(text, NEVER, async ({ ask }) => {
    const older: OlderText = { text: changedInput(text, seed), title: 'as it was saved' };
    for (let pages = 2; pages > 0; pages--) {
      const request: PageRequest = {
        uri,
        page: chance.one(['diagram', 'dials', 'response', 'bench', 'tour', 'compare'] as const),
        receiver: chance.below(3),
        view: chance.one(['whole', 'radio', 'audio', 'bias', 'plate', 'filaments', 'suppose 1']),
        symbols: chance.one(['modern', 'period'] as const),
        values: chance.percent(50),
        against: older,
      };
      const page = await ask(requests.page, request);
      if (!isPage(page)) throw new Error(`no page: ${JSON.stringify(page).slice(0, 300)}`);
      if (page.svg) judged(page.svg, 'svg', `${text}\n${older.text}`);
      const theme = chance.one(['light', 'dark', 'transparent'] as const);
      const wish = { ...request, theme, sheet: chance.percent(30) };
      const kept = chance.percent(30) && ((await ask(requests.export, wish)) as { svg: string });
      if (kept) judged(kept.svg, 'svg', `${text}\n${older.text}`);
    }
    const sheet = chance.percent(20) && (await ask(requests.sheet, { uri, receiver: 0 }));
    if (sheet) judged((sheet as { html: string }).html, 'html', text);
  });
}

/** Makes sure that an answer can be sent, that its places are in the text, and its words are words. */
function soundAnswer(method: string, answer: unknown, { text, places }: Talk): void {
  const walk = (value: unknown, path: string, isOurs: boolean): void => {
    const fail = (what: string): never => {
      throw new Error(`${method}${path}: ${what}: ${JSON.stringify(value)?.slice(0, 300)}`);
    };
    if (typeof value === 'number' && !Number.isFinite(value)) fail('no number');
    if (typeof value === 'function') fail('no data');
    if (typeof value === 'string' && !/^<(?:svg|!doctype)/.test(value)) {
      try {
        sensible(value, text);
      } catch (error) {
        fail((error as Error).message);
      }
    }
    if (typeof value !== 'object' || value === null) return;
    const fields = value as Readonly<Record<string, unknown>>;
    if (fields.kind === 'markdown' && typeof fields.value === 'string')
      judged(fields.value, 'markdown', text);
    const ours = isOurs && (typeof fields.uri !== 'string' || fields.uri === uri);
    if (isSpan(value)) {
      const trouble = places.troubleIn(value, ours);
      if (trouble) fail(trouble);
      return;
    }
    for (const [key, each] of Object.entries(fields)) {
      const elsewhere =
        (key.startsWith('target') && fields.targetUri !== uri) || /^[a-z]+:\//.test(key);
      walk(each, `${path}.${key}`, ours && (!elsewhere || key === uri));
    }
  };
  walk(answer, '', true);
}

const isSpan = (value: object): value is Span =>
  'start' in value && typeof value.start === 'object' && 'end' in value;

/** Makes sure that tokens come in order, and that none is longer than its line. */
function soundTokens(answer: unknown, { places }: Talk): void {
  const { data } = answer as { data: readonly number[] };
  let [line, character, end] = [0, 0, 0];
  if (data.length % 5 !== 0) throw new Error('tokens are no fives');
  for (let at = 0; at < data.length; at += 5) {
    const [lines = -1, characters = -1, length = 0] = data.slice(at, at + 3);
    if (lines > 0) [line, character, end] = [line + lines, 0, 0];
    character += characters;
    if (lines < 0 || characters < 0 || length <= 0 || character < end)
      throw new Error('tokens are not in order');
    end = character + length;
    const start = { line, character };
    const trouble = places.troubleIn({ start, end: { line, character: end } }, true);
    if (trouble) throw new Error(`a token: ${trouble}`);
  }
}
