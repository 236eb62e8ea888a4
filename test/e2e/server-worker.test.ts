import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { afterEach, describe, expect, it } from 'vitest';
import { command, examples } from './command.ts';

const bundle = join(command, '../setwright-server-worker.js');

/** As much of a browser's worker around the bundle as it asks for. */
const browserLike = `
  const { parentPort, workerData } = require('node:worker_threads');
  globalThis.self = globalThis;
  globalThis.onmessage = null;
  globalThis.postMessage = (message) => parentPort.postMessage(message);
  globalThis.addEventListener ??= () => {};
  for (const name of ['process', 'setImmediate', 'Buffer', 'require', 'module']) delete globalThis[name];
  parentPort.on('message', (data) => globalThis.onmessage?.({ data }));
  (0, eval)(workerData);
`;

let worker: Worker | undefined;
afterEach(async () => {
  await worker?.terminate();
});

interface Message {
  readonly id?: number;
  readonly method?: string;
  readonly result?: unknown;
  readonly error?: unknown;
  readonly params?: unknown;
}

/** Starts the server as a worker and waits for the first message that suits what is asked. */
function startedWorker() {
  const heard: Message[] = [];
  const listeners = new Set<() => void>();
  const made = new Worker(browserLike, { eval: true, workerData: readFileSync(bundle, 'utf8') });
  worker = made;
  made.on('message', (message: Message) => {
    heard.push(message);
    for (const listener of listeners) listener();
  });
  const hear = (suits: (message: Message) => boolean): Promise<Message> =>
    new Promise((resolve, reject) => {
      made.once('error', reject);
      const look = (): void => {
        const found = heard.find(suits);
        if (found) resolve(found);
      };
      listeners.add(look);
      look();
    });
  let last = 0;
  return {
    hear,
    notify: (method: string, params: object) =>
      made.postMessage({ jsonrpc: '2.0', method, params }),
    ask: (method: string, params: object) => {
      last += 1;
      const id = last;
      made.postMessage({ jsonrpc: '2.0', id, method, params });
      return hear((message) => message.id === id && message.method === undefined);
    },
  };
}

describe('the server as a worker of a browser', () => {
  it('finds faults, answers hovers and draws', async () => {
    const client = startedWorker();
    await client.ask('initialize', { processId: null, rootUri: null, capabilities: {} });
    client.notify('initialized', {});
    const uri = 'memory:/crystal.receiver';
    const text = readFileSync(join(examples, 'crystal.receiver'), 'utf8');
    client.notify('textDocument/didOpen', {
      textDocument: { uri, languageId: 'setwright', version: 1, text },
    });
    await client.hear(({ method }) => method === 'setwright/changed');
    const at = text.slice(0, text.indexOf('CR1')).split('\n');
    const hover = await client.ask('textDocument/hover', {
      textDocument: { uri },
      position: { line: at.length - 1, character: at.at(-1)?.length },
    });
    expect(JSON.stringify(hover.result)).toContain('**CR1**');
    const page = await client.ask('setwright/page', {
      uri,
      page: 'diagram',
      receiver: 0,
      view: 'whole',
      symbols: 'modern',
      values: false,
    });
    expect(page.error).toBeUndefined();
    expect((page.result as { svg: string }).svg).toMatch(/^<svg /);
    const symbols = await client.ask('workspace/symbol', { query: '' });
    expect((symbols.result as unknown[]).length).toBeGreaterThan(5);
  });
});
