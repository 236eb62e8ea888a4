import { fork } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, describe, expect, it } from 'vitest';
import { command, examples, setwright } from './command.ts';
import {
  endInOrder,
  type Heard,
  type RawClient,
  rawClient,
  startedClient,
} from './lsp/raw-client.ts';

const uri = 'file:///five.receiver';
const textDocument = { uri };
const text = readFileSync(join(examples, 'five-tube-trf.receiver'), 'utf8');
const leakless = text.replace('leak R3 "grid leak" 2 meg 30 % from V3.grid to A+', '');

const started: RawClient[] = [];
/** A server that is ended with the test, whatever becomes of it. */
async function server(capabilities: object = {}): Promise<RawClient> {
  const client = await startedClient(capabilities);
  started.push(client);
  return client;
}
afterEach(async () => {
  for (const client of started.splice(0)) {
    client.process.kill('SIGKILL');
    await client.gone;
  }
});

const open = (client: RawClient, words: string, version = 1, of = uri): void =>
  client.notify('textDocument/didOpen', {
    textDocument: { uri: of, languageId: 'setwright', version, text: words },
  });

const positionOf = (words: string, of = text) => {
  const before = of.slice(0, of.indexOf(words)).split('\n');
  return { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
};

/** A change of the first of these words in a text. */
const changing = (words: string, put: string, of: string) => {
  const start = positionOf(words, of);
  const inside = words.split('\n');
  const end = {
    line: start.line + inside.length - 1,
    character: inside.length > 1 ? (inside.at(-1)?.length ?? 0) : start.character + words.length,
  };
  return { range: { start, end }, text: put };
};

/** Resolves once the numbers of a version are known. */
const known = (client: RawClient, version: number): Promise<Heard> =>
  client.hear(
    ({ method, params }) =>
      method === 'setwright/changed' && (params as { version: number }).version === version,
  );

/** The checks that speak in what was last published. */
const published = (client: RawClient, of = uri): string[] => {
  const last = client.heard.findLast(
    ({ method, params }) =>
      method === 'textDocument/publishDiagnostics' && (params as { uri: string }).uri === of,
  );
  if (!last) return [];
  return (last.params as { diagnostics: { code: string }[] }).diagnostics.map(({ code }) => code);
};

describe('a conversation with the server', () => {
  it('begins with what it can do, and ends with exit code 0', async () => {
    const client = rawClient();
    started.push(client);
    const { result } = await client.ask('initialize', {
      processId: null,
      rootUri: null,
      capabilities: {},
    });
    const { capabilities, serverInfo } = result as {
      capabilities: Record<string, unknown>;
      serverInfo: { name: string };
    };
    expect(serverInfo.name).toBe('setwright');
    expect(capabilities.positionEncoding).toBe('utf-16');
    expect(capabilities.textDocumentSync).toEqual({ openClose: true, change: 2 });
    client.notify('initialized');
    const shut = await client.ask('shutdown');
    expect(shut.error).toBeUndefined();
    expect((await client.ask('textDocument/hover', { textDocument })).error?.code).toBe(-32600);
    client.notify('exit');
    expect(await client.gone).toBe(0);
    expect(client.errors()).toBe('');
  });

  it('that is broken off ends with exit code 1', async () => {
    const client = await server();
    client.notify('exit');
    expect(await client.gone).toBe(1);
  });

  it('ends when the client closes its end', async () => {
    const client = await server();
    open(client, text);
    client.process.stdin?.end();
    expect(await client.gone).toBe(1);
  });

  it('begins with initialize and nothing else', async () => {
    const client = rawClient();
    started.push(client);
    const { error } = await client.ask('textDocument/hover', {
      textDocument,
      position: positionOf('A'),
    });
    expect(error?.code).toBe(-32002);
  });

  it('answers what it cannot answer with an error, and goes on', async () => {
    const client = await server();
    const position = { line: 0, character: 0 };
    for (const method of ['hover', 'completion', 'rename', 'codeLens', 'inlayHint', 'formatting']) {
      const range = { start: position, end: position };
      const params = { textDocument: { uri: 'file:///none' }, position, range, newName: 'x' };
      const { error } = await client.ask(`textDocument/${method}`, params);
      expect([method, error?.code, error?.message]).toEqual([
        method,
        -32602,
        'The document file:///none is not open.',
      ]);
    }
    expect((await client.ask('setwright/page', { uri: 'file:///none' })).error?.code).toBe(-32602);
    expect((await client.ask('setwright/text', { uri: 'setwright:/no' })).error).toBeDefined();
    expect((await client.ask('setwright/nothing', {})).error?.code).toBe(-32601);
    expect(await endInOrder(client)).toBe(0);
  });
});

describe('a document over the wire', () => {
  it('is told of when it is opened, changed and closed', async () => {
    const client = await server();
    open(client, leakless);
    await known(client, 1);
    expect(published(client)).toContain('grid-condenser-without-leak');
    const put = 'leak R3 2 meg from V3.grid to A+\n    condenser C6';
    client.notify('textDocument/didChange', {
      textDocument: { uri, version: 2 },
      contentChanges: [changing('condenser C6', put, leakless)],
    });
    await known(client, 2);
    expect(published(client)).not.toContain('grid-condenser-without-leak');
    client.notify('textDocument/didClose', { textDocument });
    await client.hear(
      ({ method, params }) =>
        method === 'textDocument/publishDiagnostics' &&
        (params as { diagnostics: unknown[]; version?: number }).version === undefined,
    );
    expect(published(client)).toEqual([]);
  });

  it('counts in UTF-16 units', async () => {
    const client = await server();
    const words = 'receiver "\u{1F4FB} \u00b5" { battery A storage { tap A- tap A+ 6 V } }';
    open(client, words);
    const at = words.indexOf('A storage');
    const { result } = await client.ask('textDocument/hover', {
      textDocument,
      position: { line: 0, character: at },
    });
    expect((result as { range: unknown }).range).toEqual({
      start: { line: 0, character: at },
      end: { line: 0, character: at + 1 },
    });
  });

  it('takes several changes at once, each of the text that the one before left', async () => {
    const client = await server();
    open(client, text);
    const first = changing('tube V3', 'tube V33', text);
    const second = changing('tube V33', 'tube V3', text.replace('tube V3', 'tube V33'));
    client.notify('textDocument/didChange', {
      textDocument: { uri, version: 2 },
      contentChanges: [first, second],
    });
    await known(client, 2);
    expect(published(client)).not.toContain('unknown-name');
  });

  it('that changes while it is examined is told of in its last version', async () => {
    const client = await server();
    open(client, leakless);
    let words = leakless;
    for (let version = 2; version < 30; version += 1) {
      const digit = String(version % 10);
      const before = String((version - 1) % 10);
      const of = version === 2 ? 'year 1926' : `year 192${before}`;
      client.notify('textDocument/didChange', {
        textDocument: { uri, version },
        contentChanges: [changing(of, `year 192${digit}`, words)],
      });
      words = words.replace(of, `year 192${digit}`);
    }
    await known(client, 29);
    const { result } = await client.ask('textDocument/hover', {
      textDocument,
      position: positionOf('year', words),
    });
    expect(result).not.toBeNull();
    expect(published(client)).toContain('grid-condenser-without-leak');
  });

  it('settings that the client tells change what is told', async () => {
    const client = await server();
    open(client, leakless);
    await known(client, 1);
    client.notify('workspace/didChangeConfiguration', {
      settings: { setwright: { checks: { 'grid-condenser-without-leak': 'off' } } },
    });
    await client.ask('textDocument/foldingRange', { textDocument });
    expect(published(client)).not.toContain('grid-condenser-without-leak');
  });

  it('settings are asked for where the client answers', async () => {
    const client = await server({ workspace: { configuration: true } });
    const { id, params } = await client.hear(({ method }) => method === 'workspace/configuration');
    expect(params).toEqual({ items: [{ section: 'setwright' }] });
    client.send({ id, result: [{ units: 'si' }] });
    open(client, text);
    await known(client, 1);
    const range = { start: { line: 0, character: 0 }, end: { line: 200, character: 0 } };
    const { result } = await client.ask('textDocument/inlayHint', { textDocument, range });
    expect((result as { label: string }[]).map(({ label }) => label).join()).toMatch(/kHz/);
  });
});

describe('a request that is cancelled', () => {
  it('is answered with the error for that, be it waiting or at work', async () => {
    const client = await server();
    open(client, text);
    const id = client.nextId();
    const reply = client.ask('setwright/page', {
      uri,
      page: 'response',
      receiver: 0,
      view: 'whole',
      symbols: 'modern',
      values: false,
    });
    client.notify('$/cancelRequest', { id });
    expect((await reply).error?.code).toBe(-32800);
    const { result } = await client.ask('textDocument/documentSymbol', { textDocument });
    expect(result).toHaveLength(1);
  });
});

describe('features over the wire', () => {
  it('lenses come again with gain and stability once these are reckoned', async () => {
    const client = await server({ workspace: { codeLens: { refreshSupport: true } } });
    open(client, text);
    const titles = async (): Promise<string> => {
      const { result } = await client.ask('textDocument/codeLens', { textDocument });
      return (result as { command: { title: string } }[])
        .map((lens) => lens.command.title)
        .join('\n');
    };
    expect(await titles()).toMatch(/\d+ to \d+ kc/);
    const { id } = await client.hear(({ method }) => method === 'workspace/codeLens/refresh');
    client.send({ id, result: null });
    expect(await titles()).toMatch(/gain .* · \d+ to \d+ kc · /);
  });

  it('a page is drawn, explained and exported', async () => {
    const client = await server();
    open(client, text);
    const request = {
      uri,
      page: 'diagram',
      receiver: 0,
      view: 'whole',
      symbols: 'period',
      values: true,
    };
    const { result } = await client.ask('setwright/page', request);
    const { svg, parts, version } = result as { svg: string; parts: object; version: number };
    expect(svg).toMatch(/^<svg /);
    expect(Object.keys(parts)).toContain('V3');
    expect(version).toBe(1);
    const wish = { ...request, theme: 'dark', sheet: true };
    const kept = await client.ask('setwright/export', wish);
    expect((kept.result as { svg: string }).svg).toMatch(/^<svg /);
    const page = await client.ask('setwright/explain', { check: 'dangling-end' });
    expect(page.result).toMatch(/^# dangling-end/);
    const sheet = await client.ask('setwright/sheet', { uri, receiver: 0 });
    expect((sheet.result as { html: string }).html).toMatch(/^<!doctype html>[\s\S]*<svg /);
  });

  it('the tube library is shown, and told of though it is not open', async () => {
    const client = await server();
    const library = { uri: 'setwright:/tubes.receiver' };
    const { result } = await client.ask('setwright/text', library);
    const words = result as string;
    const at = words.slice(0, words.indexOf('01-A "')).split('\n');
    const hover = await client.ask('textDocument/hover', {
      textDocument: library,
      position: { line: at.length - 1, character: at.at(-1)?.length },
    });
    expect(JSON.stringify(hover.result)).toContain('general purpose triode');
    open(client, words, 1, library.uri);
    const symbols = await client.ask('textDocument/documentSymbol', { textDocument: library });
    expect((symbols.result as unknown[]).length).toBeGreaterThan(10);
    expect(client.heard.filter(({ method }) => method.endsWith('publishDiagnostics'))).toEqual([]);
  });

  it('symbols are found in files of the workspace that are not open', async () => {
    const client = rawClient();
    started.push(client);
    const folder = pathToFileURL(examples).href;
    await client.ask('initialize', {
      processId: null,
      rootUri: null,
      capabilities: {},
      workspaceFolders: [{ uri: folder, name: 'examples' }],
    });
    client.notify('initialized');
    const { result } = await client.ask('workspace/symbol', { query: 'Lighthouse' });
    const found = result as { name: string; location: { uri: string } }[];
    expect(found.map(({ name }) => name)).toContain('Lantern Cove Lighthouse');
    expect(found[0]?.location.uri).toMatch(/^file:.*superheterodyne\.receiver$/);
  });
});

describe('the bundles of the server', () => {
  const inputs: Record<string, string[]> = JSON.parse(
    readFileSync(join(command, '../server-meta.json'), 'utf8'),
  );

  it.each(['setwright-server.cjs', 'setwright-server-worker.js'])(
    '%s holds one copy of the wire protocol',
    (bundle) => {
      const copies = new Set(
        inputs[bundle]?.flatMap(
          (file) => /^(.*node_modules\/vscode-jsonrpc)\//.exec(file)?.[1] ?? [],
        ),
      );
      expect([...copies]).toEqual(['node_modules/vscode-jsonrpc']);
    },
  );
});

describe('a server over the channel between processes of Node', () => {
  it.each([
    ['setwright-server.cjs', ['--node-ipc']],
    ['setwright-server-process.cjs', []],
  ])('%s finds faults, and ends in order', async (bundle, args) => {
    const child = fork(join(command, '..', bundle), args, { silent: true });
    const gone = new Promise((resolve) => child.on('exit', resolve));
    try {
      const heard = (suits: (message: { id?: number; method?: string }) => boolean) =>
        new Promise<void>((resolve) => {
          child.on('message', (message) => suits(message as object) && resolve());
        });
      const send = (message: object) => child.send({ jsonrpc: '2.0', ...message });
      const initialized = heard(({ id }) => id === 1);
      const params = { processId: null, rootUri: null, capabilities: {} };
      send({ id: 1, method: 'initialize', params });
      await initialized;
      send({ method: 'initialized', params: {} });
      const changed = heard(({ method }) => method === 'setwright/changed');
      const opened = { uri, languageId: 'setwright', version: 1, text };
      send({ method: 'textDocument/didOpen', params: { textDocument: opened } });
      await changed;
      const shut = heard(({ id }) => id === 2);
      send({ id: 2, method: 'shutdown' });
      await shut;
      send({ method: 'exit' });
      expect(await gone).toBe(0);
    } finally {
      child.kill('SIGKILL');
    }
  });
});

describe('setwright serve', () => {
  it('serves over standard input and output', async () => {
    const client = rawClient(process.execPath, [command, 'serve', '--stdio']);
    started.push(client);
    await client.ask('initialize', { processId: null, rootUri: null, capabilities: {} });
    client.notify('initialized');
    open(client, leakless);
    await known(client, 1);
    expect(published(client)).toContain('grid-condenser-without-leak');
    expect(await endInOrder(client)).toBe(0);
    expect(client.errors()).toBe('');
  });

  it('asks for the way to talk', () => {
    const { status, stderr } = setwright(['serve']);
    expect(status).toBe(2);
    expect(stderr).toContain('--stdio');
  });
});
