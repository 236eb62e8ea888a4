import { extname } from 'node:path';
import type { Circuit } from '@setwright/circuit';
import {
  type ComparedFiles,
  type ComparedReceiver,
  comparedReceivers,
  compareInJson,
  compareInMarkdown,
  compareInWords,
  markedSet,
  saysTheSame,
  type UnitStyle,
  visible,
} from '@setwright/report';
import { type CompareCall, compareCall } from './compare-call.ts';
import { type ComparedSource, comparedSource } from './compare-sources.ts';
import type { Draughtsman } from './draw.ts';
import { mayBeDrawnTo, writeDrawing } from './drawing-file.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import type { Streams } from './streams.ts';
import { stylesFor } from './styles.ts';
import { sayTroubles, sayWrong } from './troubles.ts';

export const compareFormats = ['text', 'markdown', 'json'] as const;

export interface CompareCommandOptions {
  readonly format: (typeof compareFormats)[number];
  readonly units: UnitStyle;
  /** What the change does to the numbers. */
  readonly numbers: boolean;
  /** What the set is called in what is told, in place of its file. */
  readonly as: string | undefined;
  /** One drawing of both states with marks, in place of words where it goes to standard output. */
  readonly drawing: boolean;
  readonly output: string | undefined;
  readonly theme: 'light' | 'dark' | 'transparent';
  readonly symbols: 'modern' | 'period';
}

/** `setwright compare`: how two states of a set differ, and what that does to its numbers. */
export async function compare(
  words: readonly string[],
  options: CompareCommandOptions,
  streams: Streams,
  draughtsman: Draughtsman | undefined,
): Promise<ExitCode> {
  const call = compareCall(words, streams.env.GIT_DIFF_PATH_COUNTER !== undefined);
  if (!call) {
    sayWrong(
      streams,
      'compare takes two files.',
      'Name the old one and the new, as in: setwright compare old.receiver new.receiver',
    );
    return exitCodes.trouble;
  }
  if ('unmerged' in call) {
    streams.out.write(`${visible(call.unmerged)} is not merged: there are not two to compare.\n`);
    return exitCodes.clean;
  }
  const read = readBoth(call, options.as, streams);
  if (!read) return call.byGit ? exitCodes.clean : exitCodes.trouble;
  const [old, now] = read;
  const wantsDrawing = options.drawing || options.output !== undefined;
  if (options.output !== undefined && !mayBeWritten(options.output, read, streams))
    return exitCodes.trouble;
  const files: ComparedFiles = {
    old: old.name,
    now: now.name,
    receivers: comparedReceivers(old.circuits, now.circuits, {
      style: options.units,
      withNumbers: options.numbers && !(options.drawing && options.output === undefined),
    }),
    cautions: [old, now].flatMap(({ caution }) => caution ?? []),
  };
  if (!options.drawing || options.output !== undefined) tell(files, call, options, streams);
  if (wantsDrawing && draughtsman && !(await drawn(files, options, streams, draughtsman)))
    return exitCodes.trouble;
  return call.byGit || saysTheSame(files) ? exitCodes.clean : exitCodes.findings;
}

type Both = readonly [ComparedSource, ComparedSource];

/** Both sides; what is wrong with them has been said where there are none. */
function readBoth(call: CompareCall, as: string | undefined, streams: Streams): Both | undefined {
  const old = comparedSource(call.old, as ?? call.oldName, streams.cwd);
  const now = comparedSource(call.now, as ?? call.nowName, streams.cwd);
  const troubles = [old, now].flatMap((side) => ('name' in side ? [] : side));
  if ('name' in old && 'name' in now) {
    const noSet = [old, now].every(({ circuits }) => circuits.length === 0);
    const text = [old, now].find(({ isEmpty }) => !isEmpty);
    if (!noSet || !text || call.byGit) return [old, now];
    sayWrong(streams, `There is no receiver in ${text.name}.`, 'Name the files of two sets.');
    return undefined;
  }
  // Git shows what is written to standard output, among the other files.
  if (call.byGit) {
    for (const { path, cause } of troubles)
      streams.out.write(
        `${visible(call.nowName ?? path)} cannot be compared: ${visible(cause)}.\n`,
      );
  } else sayTroubles(troubles, streams);
  return undefined;
}

function mayBeWritten(output: string, read: Both, streams: Streams): boolean {
  return read.every(({ file }) => mayBeDrawnTo(output, file, streams, ['.svg', '.png']));
}

function tell(
  files: ComparedFiles,
  call: CompareCall,
  options: CompareCommandOptions,
  streams: Streams,
): void {
  const { out } = streams;
  switch (options.format) {
    case 'json':
      out.write(compareInJson(files));
      return;
    case 'markdown':
      out.write(compareInMarkdown(files));
      return;
    case 'text': {
      const styles = stylesFor(out, streams.env);
      // Git tells of several files in one go.
      if (call.byGit) {
        const names = files.old === files.now ? files.now : `${files.old} to ${files.now}`;
        out.write(`${styles.strong(visible(names))}\n`);
      }
      out.write(compareInWords(files, { styles, columns: out.columns ?? 80 }));
      if (call.byGit) out.write('\n');
    }
  }
}

/** Draws both states of the set that differs; false where that cannot be, which has been said. */
async function drawn(
  { receivers }: ComparedFiles,
  options: CompareCommandOptions,
  streams: Streams,
  draughtsman: Draughtsman,
): Promise<boolean> {
  const { output } = options;
  const chosen = toBeDrawn(receivers, streams);
  if (!chosen) return false;
  const { schematicOf, pngOf } = draughtsman();
  const { circuit, overlay } = markedSet(chosen);
  const made = await schematicOf(circuit, {
    theme: options.theme,
    symbols: options.symbols,
    units: options.units,
    rows: undefined,
    view: 'whole',
    values: false,
    stages: false,
    page: undefined,
    overlay,
  });
  if ('views' in made) return false;
  for (const note of made.notes) streams.err.write(`setwright: ${visible(note)}\n`);
  if (output === undefined) {
    streams.out.write(made.svg);
    return true;
  }
  if (extname(output).toLowerCase() !== '.png') return writeDrawing(output, made.svg, streams);
  const picture = await pngOf(made.svg, 2, made.strangeLetters);
  if ('png' in picture) return writeDrawing(output, picture.png, streams);
  sayWrong(
    streams,
    `${output} cannot be painted: ${'tooLarge' in picture ? 'it is too large' : picture.painterMissing}.`,
    'Write an SVG, as in: -o change.svg',
  );
  return false;
}

/** The one set that is to be drawn. */
function toBeDrawn(
  receivers: readonly ComparedReceiver[],
  streams: Streams,
): ComparedReceiver | undefined {
  const differing = receivers.filter(({ status }) => status !== 'same');
  const [first, second] = differing;
  if (!first) return receivers[0];
  if (second) {
    const titles = differing.map((each) => titleOf(each)).join(', ');
    streams.err.write(
      `setwright: ${differing.length} sets differ (${visible(titles)}); the first of them is drawn.\n`,
    );
  }
  return first;
}

function titleOf(set: ComparedReceiver): string {
  const circuit: Circuit = 'summary' in set ? set.circuit : set.now;
  return circuit.title === '' ? 'one without a title' : circuit.title;
}
