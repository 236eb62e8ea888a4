/**
 * A long day at the editor: a server that is written to some twenty thousand times, in ten sets that
 * are opened and closed again and again, with lines broken and mended, and asked for hovers,
 * completions and pages in between. Its memory must end where it was once it was warm, and its
 * answers must come as quickly at the end as at the beginning.
 */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { getHeapSpaceStatistics } from 'node:v8';
import { printRatios, processorClock, under } from './measuring.ts';
import { type WireClient, wireClient } from './wire-client.ts';

const { values: options } = parseArgs({ options: { edits: { type: 'string', default: '20000' } } });
const EDITS = Number(options.edits);

const names = [
  'five-tube-trf',
  'crystal',
  'two-tube',
  'one-tube-regenerative',
  'superheterodyne',
  'faulty/grid-return-side',
  'faulty/grid-condenser-without-leak',
  'faulty/unreadable-line',
  'faulty/dangling-end',
  'faulty/battery-reversed',
] as const;
const sets = names.map((name) => readFileSync(`examples/${name}.receiver`, 'utf8'));

/** So many edits to a set before it is closed and the next one opened. */
const VISIT = 25;
/** All sets once. */
const ROUND = VISIT * sets.length;
/** A quarter of the edits, in whole rounds: after them memory and time are taken for the first time. */
const WARM = ROUND * Math.floor(EDITS / 4 / ROUND);

if (!(WARM > 0)) {
  console.error(`soak: so few edits tell nothing; take ${4 * ROUND} or more, as in: --edits 2000`);
  process.exit(2);
}

/** Numbers from 0 to 1 by chance, the same in every run ("mulberry32", public domain). */
function chances(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}
const chance = chances(1926);
const upTo = (count: number): number => Math.floor(chance() * count);
const oneOf = <T>(all: readonly T[]): T => all[upTo(all.length)] as T;

interface Edit {
  readonly start: number;
  readonly end: number;
  readonly put: string;
}

/** What somebody types or pastes, much of it half a line. */
const pieces = [
  '\n  resistor R99 25000 ohms from A- to A+',
  '\n  condenser C99 from @',
  '\n  leak',
  '}',
  '{',
  '"',
  ' // spare',
  '1',
  '\u{1F4FB}',
];

/** A small edit; after some of them the text is put back as it was. */
function anyEdit(text: string, original: string, turn: number): Edit {
  if (turn % 6 === 5) return { start: 0, end: text.length, put: original };
  const at = upTo(text.length);
  if (turn % 3 === 0) {
    const number = /\d+/.exec(text.slice(at));
    if (number) {
      const start = at + number.index;
      return { start, end: start + number[0].length, put: `${1 + upTo(99)}` };
    }
  }
  return { start: at, end: Math.min(text.length, at + upTo(7)), put: oneOf(pieces) };
}

const positionAt = (text: string, offset: number) => {
  const lines = text.slice(0, offset).split('\n');
  return { line: lines.length - 1, character: lines.at(-1)?.length ?? 0 };
};

/** What is asked in between, and at every how many edits. */
const asked = [
  [3, 'textDocument/hover'],
  [5, 'textDocument/completion'],
  [7, 'textDocument/codeAction'],
  [11, 'textDocument/semanticTokens/full'],
  [13, 'textDocument/inlayHint'],
  [17, 'textDocument/codeLens'],
  [23, 'setwright/page diagram'],
  [97, 'setwright/page dials'],
  [211, 'setwright/page bench'],
  [307, 'setwright/page response'],
  [401, 'setwright/page tour'],
] as const;

async function askInBetween(client: WireClient, uri: string, text: string, turn: number) {
  const position = positionAt(text, upTo(text.length));
  for (const [every, what] of asked) {
    if (turn % every !== 0) continue;
    const [method = what, page = 'diagram'] = what.split(' ');
    await client.ask(method, {
      textDocument: { uri },
      position,
      range: { start: { line: 0, character: 0 }, end: position },
      context: { diagnostics: [] },
      ...{ uri, page, receiver: 0, view: 'whole', symbols: 'modern', values: turn % 2 === 0 },
    });
  }
}

/** Bytes in use once everything that can be let go is. */
interface Heap {
  /** What the program holds. */
  readonly data: number;
  /** What the engine has compiled; it grows for as long as it finds code worth to be made quicker. */
  readonly code: number;
}

async function heapInUse(): Promise<Heap> {
  for (let times = 0; times < 4; times += 1) {
    await new Promise((resolve) => setTimeout(resolve, 50));
    globalThis.gc?.();
  }
  const used = (isCode: boolean): number =>
    getHeapSpaceStatistics()
      .filter(({ space_name: name }) => name.startsWith('code_') === isCode)
      .reduce((sum, { space_used_size: size }) => sum + size, 0);
  return { data: used(false), code: used(true) };
}

const megabytes = ({ data, code }: Heap): string =>
  `${(data / 1e6).toFixed(1)} MB and ${(code / 1e6).toFixed(1)} MB of code`;

const client = wireClient();
const times: number[] = [];
let warmHeap: Heap | undefined;
const begun = performance.now();
for (let turn = 0; turn < EDITS; ) {
  if (turn >= WARM) warmHeap ??= await heapInUse();
  const which = Math.floor(turn / VISIT) % sets.length;
  const original = sets[which] ?? '';
  const uri = `file:///${names[which]}.receiver`;
  let [text, version] = [original, 1];
  const opened = client.heard('setwright/changed', version);
  const textDocument = { uri, languageId: 'setwright', version, text };
  client.notify('textDocument/didOpen', { textDocument });
  await opened;
  for (const last = turn + VISIT; turn < last; turn += 1) {
    version += 1;
    const { start, end, put } = anyEdit(text, original, turn);
    const range = { start: positionAt(text, start), end: positionAt(text, end) };
    const found = client.heard('textDocument/publishDiagnostics', version);
    const known = turn % 4 === 0 ? client.heard('setwright/changed', version) : undefined;
    const sent = processorClock();
    client.notify('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: [{ range, text: put }],
    });
    times.push((await found) - sent);
    text = text.slice(0, start) + put + text.slice(end);
    await known;
    await askInBetween(client, uri, text, turn);
  }
  client.notify('textDocument/didClose', { textDocument: { uri } });
  if (turn % (EDITS / 10) < VISIT)
    console.log(
      `${turn} edits, ${Math.round((performance.now() - begun) / 1000)} s, ${megabytes(await heapInUse())}`,
    );
}
// Whatever waits for a pause in the typing has had it.
await new Promise((resolve) => setTimeout(resolve, 1500));
const endHeap = await heapInUse();

const middle = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
const late = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length * 0.95)] ?? 0;
const warm = times.slice(WARM);
// Whole rounds of all sets, so that both ends have the same to do.
const tenth = Math.max(1, Math.floor(warm.length / 10 / ROUND)) * ROUND;
const [first, last] = [warm.slice(0, tenth), warm.slice(-tenth)];
console.log(
  `Heap: ${megabytes(warmHeap ?? endHeap)} once warm (${WARM} edits), ${megabytes(endHeap)} after ${times.length}`,
);
console.log(
  `Edit to findings in the text, ${tenth} edits each, median and 95th of 100: ` +
    `${middle(first).toFixed(1)} and ${late(first).toFixed(1)} ms at first, ` +
    `${middle(last).toFixed(1)} and ${late(last).toFixed(1)} ms at last`,
);
const ratios = [
  under('heap at the end, against once warm', endHeap.data / (warmHeap ?? endHeap).data, 1.1),
  under('an edit of the last tenth, against the first', middle(last) / middle(first), 1.25),
  under('the 95th of 100 of them, likewise', late(last) / late(first), 1.4),
];
printRatios({ soak: ratios });
process.exit(ratios.every(({ isMet }) => isMet) ? 0 : 1);
