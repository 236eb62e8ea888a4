import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';

const root = join(import.meta.dirname, '../../..');
export const serverBundle = join(root, 'dist/setwright-server.cjs');

if (!existsSync(serverBundle))
  throw new Error('dist/setwright-server.cjs is missing: run `npm run build` first');

/** A reply as it comes over the wire. */
export interface Reply {
  readonly id: number;
  readonly result?: unknown;
  readonly error?: { readonly code: number; readonly message: string };
}

/** A notification, or a request of the server. */
export interface Heard {
  readonly id?: number;
  readonly method: string;
  readonly params: unknown;
}

/** Whoever waits for a reply. */
interface Waiting {
  readonly answered: (reply: Reply) => void;
  readonly failed: (error: Error) => void;
}

/** A client of the server that knows the framing of messages and nothing else. */
export interface RawClient {
  readonly process: ChildProcess;
  readonly send: (message: object) => void;
  readonly notify: (method: string, params?: object) => void;
  /** Sends a request and gives its whole reply, be it an error. */
  readonly ask: (method: string, params?: object) => Promise<Reply>;
  /** The number that the next request will have. */
  readonly nextId: () => number;
  /** All that has come so far. */
  readonly heard: readonly Heard[];
  /** Resolves with the first message that suits, from now or before. */
  readonly hear: (suits: (heard: Heard) => boolean) => Promise<Heard>;
  /** Resolves with the exit code. */
  readonly gone: Promise<number | null>;
  readonly errors: () => string;
}

/** Starts a server, as built, and talks to it over its standard input and output. */
export function rawClient(
  command: string = process.execPath,
  args: readonly string[] = [serverBundle, '--stdio'],
): RawClient {
  const child = spawn(command, [...args], { stdio: ['pipe', 'pipe', 'pipe'] });
  const heard: Heard[] = [];
  const listeners = new Set<() => void>();
  const waiting = new Map<number, Waiting>();
  let last = 0;
  let rest = Buffer.alloc(0);
  let errors = '';
  child.stderr.setEncoding('utf8').on('data', (text) => {
    errors += text;
  });
  child.stdout.on('data', (data: Buffer) => {
    rest = Buffer.concat([rest, data]);
    for (;;) {
      const end = rest.indexOf('\r\n\r\n');
      if (end < 0) return;
      const length = Number(/Content-Length: (\d+)/i.exec(rest.toString('ascii', 0, end))?.[1]);
      if (!(rest.length >= end + 4 + length)) return;
      const message = JSON.parse(rest.toString('utf8', end + 4, end + 4 + length));
      rest = rest.subarray(end + 4 + length);
      if (message.method === undefined) {
        waiting.get(message.id)?.answered(message);
        waiting.delete(message.id);
      } else {
        heard.push(message);
        for (const listener of listeners) listener();
      }
    }
  });
  const send = (message: object): void => {
    const body = JSON.stringify({ jsonrpc: '2.0', ...message });
    child.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  };
  child.stdin.on('error', () => {});
  return {
    process: child,
    send,
    notify: (method, params = {}) => send({ method, params }),
    ask: (method, params) =>
      new Promise((answered, failed) => {
        last += 1;
        waiting.set(last, { answered, failed });
        send({ id: last, method, ...(params ? { params } : {}) });
      }),
    nextId: () => last + 1,
    heard,
    hear: (suits) =>
      new Promise((resolve) => {
        const look = (): void => {
          const found = heard.find(suits);
          if (!found) return;
          listeners.delete(look);
          resolve(found);
        };
        listeners.add(look);
        look();
      }),
    gone: new Promise((resolve) =>
      child.on('close', (code) => {
        for (const { failed } of waiting.values())
          failed(new Error(`the server is gone: ${errors}`));
        waiting.clear();
        resolve(code);
      }),
    ),
    errors: () => errors,
  };
}

/** Starts a server and opens the conversation. */
export async function startedClient(capabilities: object = {}): Promise<RawClient> {
  const client = rawClient();
  await client.ask('initialize', { processId: process.pid, rootUri: null, capabilities });
  client.notify('initialized');
  return client;
}

/** Ends the conversation in order, and gives the exit code. */
export async function endInOrder(client: RawClient): Promise<number | null> {
  await client.ask('shutdown');
  client.notify('exit');
  return client.gone;
}
