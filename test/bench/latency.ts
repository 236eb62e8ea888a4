import { readFileSync } from 'node:fs';
import { checkCircuit } from '@setwright/checks';
import { readReceivers, readText } from '@setwright/language';
import { bigSet } from '../support/big-set.ts';
import { processorClock, type Ratio, under } from './measuring.ts';
import { wireClient } from './wire-client.ts';

/** Milliseconds of some work, done once after a turn of the event loop as the server's is. */
async function once(work: () => unknown): Promise<number> {
  await new Promise((resolve) => setImmediate(resolve));
  const start = processorClock();
  work();
  return processorClock() - start;
}

/** Of a hundred keystrokes so many are quicker than the one that is told of. */
const LATE = 0.95;

const share = (values: readonly number[], of: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(of * values.length))] ??
  0;

/** A line that is typed letter by letter, so that most of the time it cannot be read yet. */
const typed = '\n  resistor R999 "bleeder" 25000 ohms from A- to A+';

async function typing(name: string, text: string): Promise<readonly Ratio[]> {
  // What takes long is measured by itself: here nobody leaves it the time.
  const client = wireClient(60_000);
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
    // In alternation, so that all three meet with the same luck.
    const parse = await once(() => readText(words));
    const alone = await once(() => analysis(words));
    const start = processorClock();
    client.notify('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: [{ range, text: put }],
    });
    const [toText, toNumbers] = await Promise.all([found, numbers]);
    if (!counts) return;
    keystrokes.push({ toText: toText - start, toNumbers: toNumbers - start, parse, alone });
  };
  const [before, behind] = [text.slice(0, begin), text.slice(begin)];
  const column = (text.slice(0, begin).split('\n').at(-1) ?? '').length;
  // The small set takes little time, and its figures jump: it is typed in more often.
  const rounds = text.length < 20_000 ? 8 : 4;
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
  type Keystroke = (typeof keystrokes)[number];
  const at = (pick: (each: Keystroke) => number, part: number): number =>
    share(keystrokes.map(pick), part);
  const row = (
    what: string,
    pick: (each: Keystroke) => number,
    by?: (each: Keystroke) => number,
  ) => {
    const figures = [0.5, LATE].map((part) => {
      const times =
        by === undefined ? '' : ` (${(at(pick, part) / at(by, part)).toFixed(2)} times)`;
      return `${at(pick, part).toFixed(1)}${times}`;
    });
    console.log(`  ${what.padEnd(34)} ${figures.map((each) => each.padStart(20)).join('')}`);
  };
  const lines = text.split('\n').length;
  console.log(
    `\nTyping in ${name}, ${lines} lines: ${keystrokes.length} keystrokes (milliseconds; median, 95th of 100)`,
  );
  row('bare parse of the same text', ({ parse }) => parse);
  row(
    'keystroke to findings in the text',
    ({ toText }) => toText,
    ({ parse }) => parse,
  );
  row('reading and checking alone', ({ alone }) => alone);
  row(
    'keystroke to the numbers',
    ({ toNumbers }) => toNumbers,
    ({ alone }) => alone,
  );
  return [
    under(
      `typing in ${name}: to findings in the text, parses`,
      at(({ toText }) => toText, LATE) / at(({ parse }) => parse, LATE),
      3,
    ),
    under(
      `typing in ${name}: to the numbers, analyses`,
      at(({ toNumbers }) => toNumbers, LATE) / at(({ alone }) => alone, LATE),
      1.3,
    ),
  ];
}

/** How long an editor waits from a keystroke to what the server finds. */
export async function latency(): Promise<readonly Ratio[]> {
  const five = readFileSync('examples/five-tube-trf.receiver', 'utf8');
  return [
    ...(await typing('the five-tube set', five)),
    ...(await typing('a set of 1,000 lines', bigSet(80))),
  ];
}
