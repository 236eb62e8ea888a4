import { formatText } from '@setwright/language';
import { counted, visible } from '@setwright/report';
import { type ExitCode, exitCodes } from './exit.ts';
import { inputsOf } from './inputs.ts';
import { readSource } from './read-source.ts';
import type { Source, Trouble } from './sources.ts';
import type { Streams } from './streams.ts';
import { sayTroubles, sayWrong } from './troubles.ts';
import { writeWhole } from './write-whole.ts';

export interface FormatOptions {
  /** Only list the files that would change. */
  readonly check: boolean;
  /** Write to standard output and leave the file alone. */
  readonly stdout: boolean;
}

/** `setwright format`: sets texts in order, in their files where no other way is asked for. */
export function format(
  files: readonly string[],
  options: FormatOptions,
  streams: Streams,
): ExitCode {
  const inputs = inputsOf(files, 'format', streams);
  if (!inputs) return exitCodes.trouble;
  if (options.stdout && inputs.sources.length > 1) {
    sayWrong(streams, '--stdout takes one file.', 'Name one, or leave --stdout out.');
    return exitCodes.trouble;
  }
  const troubles: Trouble[] = [...inputs.troubles];
  let changed = 0;
  for (const source of inputs.sources) {
    const done = formatOne(source, options, streams);
    if (typeof done !== 'boolean') troubles.push(done);
    else if (done) changed += 1;
  }
  sayTroubles(troubles, streams);
  if (troubles.length > 0) return exitCodes.trouble;
  if (options.check && changed > 0) {
    streams.err.write(`${counted(changed, 'file is', 'files are')} not in order.\n`);
    return exitCodes.findings;
  }
  return exitCodes.clean;
}

/** Whether the text was not in order. */
function formatOne(source: Source, options: FormatOptions, streams: Streams): boolean | Trouble {
  const read = readSource(source);
  if ('cause' in read) return read;
  const { text, readable } = formatText(read.text);
  const toOutput = options.stdout || source.file === undefined;
  const mark = read.marked ? '\ufeff' : '';
  if (!readable) {
    // What goes to a pipe goes on as it came, so that nothing is lost.
    if (toOutput && !options.check) streams.out.write(mark + read.text);
    return {
      path: source.path,
      cause: 'its braces do not match, so it was left as it is',
      cure: `Put right what setwright check ${source.file === undefined ? '-' : source.path} says, and format it then.`,
    };
  }
  const differs = text !== read.text;
  if (options.check) {
    if (differs) streams.out.write(`${visible(source.path)}\n`);
  } else if (toOutput) streams.out.write(mark + text);
  else if (differs && source.file !== undefined) {
    const trouble = replace(source.path, source.file, mark + text);
    if (trouble) return trouble;
    streams.out.write(`${visible(source.path)}\n`);
  }
  return differs;
}

function replace(path: string, file: string, text: string): Trouble | undefined {
  try {
    writeWhole(file, text);
    return undefined;
  } catch (error) {
    const cause = error instanceof Error ? error.message : String(error);
    return {
      path,
      cause: `it cannot be written: ${cause}`,
      cure: 'Give yourself leave to write it and in its folder, or use --stdout.',
    };
  }
}
