import { readFileSync } from 'node:fs';
import { PassThrough } from 'node:stream';
import { checkCircuit } from '@setwright/checks';
import { readReceivers, readText } from '@setwright/language';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { serve } from '../../packages/server/src/connection/serve.ts';
import { bigSet } from '../support/big-set.ts';

/** A server in this process, spoken to as over a wire. */
function server() {
  const [toServer, fromServer] = [new PassThrough(), new PassThrough()];
  serve(createConnection(ProposedFeatures.all, toServer, fromServer), {
    pause: () => new Promise((resolve) => setImmediate(resolve)),
    // What takes long is measured by itself: here nobody leaves it the time.
    quiet: 60_000,
    receiversIn: async () => [],
  });
  const waiting = new Map<string, (at: number) => void>();
  let rest = '';
  fromServer.setEncoding('latin1').on('data', (data: string) => {
    rest += data;
    for (;;) {
      const found = /^Content-Length: (\d+)\r\n\r\n/.exec(rest);
      const length = Number(found?.[1]);
      if (!found || rest.length < found[0].length + length) return;
      const { method, params } = JSON.parse(rest.slice(found[0].length, found[0].length + length));
      rest = rest.slice(found[0].length + length);
      const key = `${method} ${params?.version}`;
      waiting.get(key)?.(performance.now());
      waiting.delete(key);
    }
  });
  const send = (message: object): void => {
    const body = JSON.stringify({ jsonrpc: '2.0', ...message });
    toServer.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  };
  send({
    id: 1,
    method: 'initialize',
    params: { processId: null, rootUri: null, capabilities: {} },
  });
  send({ method: 'initialized', params: {} });
  return {
    notify: (method: string, params: object) => send({ method, params }),
    /** When a notification about a version comes. */
    heard: (method: string, version: number): Promise<number> =>
      new Promise((resolve) => waiting.set(`${method} ${version}`, resolve)),
  };
}

/** Milliseconds of the quicker of a few runs. */
function quickest(runs: number, work: () => unknown): number {
  let best = Number.POSITIVE_INFINITY;
  for (let run = 0; run < runs; run += 1) {
    const start = performance.now();
    work();
    best = Math.min(best, performance.now() - start);
  }
  return best;
}

const share = (values: readonly number[], of: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(of * values.length))] ??
  0;

/** A line that is typed letter by letter, so that most of the time it cannot be read yet. */
const typed = '\n  resistor R999 "bleeder" 25000 ohms from A- to A+';

async function typing(name: string, text: string): Promise<void> {
  const client = server();
  const uri = `file:///${name}.receiver`;
  const begin = text.indexOf('\n', text.indexOf('bus NEG'));
  const line = text.slice(0, begin).split('\n').length - 1;
  const laws = new WeakMap();
  const analysis = (words: string) => {
    for (const circuit of readReceivers(words, uri).circuits)
      checkCircuit(circuit, undefined, laws);
  };
  let version = 1;
  let words = text;
  const opened = client.heard('setwright/changed', version);
  const textDocument = { uri, languageId: 'setwright', version, text };
  client.notify('textDocument/didOpen', { textDocument });
  await opened;
  const keystrokes: { toText: number; toNumbers: number; parse: number; alone: number }[] = [];
  const change = async (range: object, put: string, after: string, counts: boolean) => {
    version += 1;
    words = after;
    const [found, numbers] = [
      client.heard('textDocument/publishDiagnostics', version),
      client.heard('setwright/changed', version),
    ];
    const start = performance.now();
    client.notify('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: [{ range, text: put }],
    });
    const [toText, toNumbers] = await Promise.all([found, numbers]);
    if (!counts) return;
    keystrokes.push({
      toText: toText - start,
      toNumbers: toNumbers - start,
      parse: quickest(3, () => readText(words)),
      alone: quickest(3, () => analysis(words)),
    });
  };
  const [before, behind] = [text.slice(0, begin), text.slice(begin)];
  const column = (text.slice(0, begin).split('\n').at(-1) ?? '').length;
  const rounds = 4;
  for (let round = 0; round < rounds; round += 1) {
    for (const [index, letter] of [...typed].entries()) {
      const at =
        index === 0 ? { line, character: column } : { line: line + 1, character: index - 1 };
      const after = before + typed.slice(0, index + 1) + behind;
      // The first round makes the code warm.
      await change({ start: at, end: at }, letter, after, round > 0);
    }
    const start = { line, character: column };
    const end = { line: line + 1, character: typed.length - 1 };
    await change({ start, end }, '', text, false);
  }
  const of = (pick: (each: (typeof keystrokes)[number]) => number, at: number) =>
    share(keystrokes.map(pick), at);
  const row = (what: string, value: string) => console.log(`  ${what.padEnd(46)} ${value}`);
  const both = (pick: (each: (typeof keystrokes)[number]) => number): string =>
    `${of(pick, 0.5).toFixed(1)} / ${of(pick, 0.95).toFixed(1)}`;
  console.log(
    `\nTyping in ${name}, ${text.split('\n').length} lines: ${keystrokes.length} keystrokes (median / 95th of 100)`,
  );
  row(
    'bare parse of the same text, ms',
    both(({ parse }) => parse),
  );
  row(
    'keystroke to what is found in the text, ms',
    both(({ toText }) => toText),
  );
  row(
    '  times the bare parse',
    both(({ toText, parse }) => toText / parse),
  );
  row(
    'reading and checking alone, ms',
    both(({ alone }) => alone),
  );
  row(
    'keystroke to the numbers, ms',
    both(({ toNumbers }) => toNumbers),
  );
  row(
    '  times the analysis alone',
    both(({ toNumbers, alone }) => toNumbers / alone),
  );
}

/** How long an editor waits from a keystroke to what the server finds. */
export async function latency(): Promise<void> {
  await typing('five-tube-trf', readFileSync('examples/five-tube-trf.receiver', 'utf8'));
  await typing('a long set', bigSet(80));
}
