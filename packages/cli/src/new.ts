import { lstatSync } from 'node:fs';
import { resolve } from 'node:path';
import { type SetPattern, setPatterns, titledPattern } from '@setwright/language';
import { listed } from '@setwright/report';
import { nearest } from '@setwright/units';
import { writeDrawing } from './drawing-file.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import type { Streams } from './streams.ts';
import { stylesFor } from './styles.ts';
import { sayWrong } from './troubles.ts';

export interface NewOptions {
  readonly title: string | undefined;
  /** The file that it is written to; to standard output where there is none. */
  readonly output: string | undefined;
  /** Whether a file that is there may be written over. */
  readonly force: boolean;
}

/** `setwright new`: begins a set from a pattern, or lists the patterns. */
export function newSet(
  name: string | undefined,
  { title, output, force }: NewOptions,
  streams: Streams,
): ExitCode {
  if (name === undefined) {
    if (output !== undefined || title !== undefined) {
      sayWrong(streams, 'Which pattern?', 'For the list of all: setwright new');
      return exitCodes.trouble;
    }
    streams.out.write(listOfPatterns(streams));
    return exitCodes.clean;
  }
  const pattern = patternNamed(name, streams);
  if (!pattern) return exitCodes.trouble;
  const text = title === undefined ? pattern.text : titledPattern(pattern, title);
  if (output === undefined) {
    streams.out.write(text);
    return exitCodes.clean;
  }
  if (!mayBeBegunAt(output, force, streams)) return exitCodes.trouble;
  return writeDrawing(output, text, streams) ? exitCodes.clean : exitCodes.trouble;
}

function patternNamed(name: string, streams: Streams): SetPattern | undefined {
  const found = setPatterns.find((pattern) => pattern.name === name.toLowerCase());
  if (found) return found;
  const likely = nearest(
    name,
    setPatterns.map((pattern) => pattern.name),
  );
  sayWrong(
    streams,
    `No pattern is called "${name}".`,
    likely.length > 0
      ? `Did you mean ${listed(likely, 'or')}?`
      : 'For the list of all: setwright new',
  );
  return undefined;
}

/** Whether a new set may be written under a name; when not, that is said. */
function mayBeBegunAt(output: string, force: boolean, streams: Streams): boolean {
  if (!output.endsWith('.receiver')) {
    sayWrong(
      streams,
      `${output} is no name for a set.`,
      'Let it end in .receiver, as in: -o my-set.receiver',
    );
    return false;
  }
  if (force || !lstatSync(resolve(streams.cwd, output), { throwIfNoEntry: false })) return true;
  sayWrong(
    streams,
    `${output} is there already, and is left as it is.`,
    'Name another place, or write over it with --force.',
  );
  return false;
}

function listOfPatterns(streams: Streams): string {
  const styles = stylesFor(streams.out, streams.env);
  const width = Math.max(...setPatterns.map(({ name }) => name.length));
  const lines = setPatterns.map(
    ({ name, title, words }) =>
      `  ${styles.strong(name)}${' '.repeat(width - name.length + 2)}${title}: ${lowerFirst(words)}`,
  );
  return `${[...lines, '', 'To begin one: setwright new three-dial -o my-set.receiver'].join('\n')}\n`;
}

const lowerFirst = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1);
