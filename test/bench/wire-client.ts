import { PassThrough } from 'node:stream';
import { serveStreams } from '../../packages/server/src/node.ts';
import { processorClock } from './measuring.ts';

/** A server in this process, spoken to as over a wire. */
export interface WireClient {
  readonly notify: (method: string, params: object) => void;
  /** Resolves once the request is answered, be it with an error. */
  readonly ask: (method: string, params: object) => Promise<unknown>;
  /** When a notification about a version comes, by the processor's clock. */
  readonly heard: (method: string, version: number) => Promise<number>;
}

/** @param quiet milliseconds without an edit after which there is time for what takes long */
export function wireClient(quiet?: number): WireClient {
  const [toServer, fromServer] = [new PassThrough(), new PassThrough()];
  serveStreams(toServer, fromServer, quiet);
  const waiting = new Map<string, (at: number) => void>();
  const asked = new Map<number, (answer: unknown) => void>();
  let last = 0;
  let rest = '';
  fromServer.setEncoding('latin1').on('data', (data: string) => {
    rest += data;
    for (;;) {
      const found = /^Content-Length: (\d+)\r\n\r\n/.exec(rest);
      const length = Number(found?.[1]);
      if (!found || rest.length < found[0].length + length) return;
      const body = rest.slice(found[0].length, found[0].length + length);
      rest = rest.slice(found[0].length + length);
      const { id, method, params, result } = JSON.parse(body);
      if (method === undefined) {
        asked.get(id)?.(result);
        asked.delete(id);
        continue;
      }
      const key = `${method} ${params?.version}`;
      waiting.get(key)?.(processorClock());
      waiting.delete(key);
    }
  });
  const send = (message: object): void => {
    const body = JSON.stringify({ jsonrpc: '2.0', ...message });
    toServer.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  };
  const ask = (method: string, params: object): Promise<unknown> =>
    new Promise((resolve) => {
      last += 1;
      asked.set(last, resolve);
      send({ id: last, method, params });
    });
  void ask('initialize', { processId: null, rootUri: null, capabilities: {} });
  send({ method: 'initialized', params: {} });
  return {
    notify: (method, params) => send({ method, params }),
    ask,
    heard: (method, version) =>
      new Promise((resolve) => waiting.set(`${method} ${version}`, resolve)),
  };
}
