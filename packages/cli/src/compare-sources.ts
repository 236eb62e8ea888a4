import type { Circuit } from '@setwright/circuit';
import { readReceivers } from '@setwright/language';
import { linesListed } from '@setwright/report';
import { readSource } from './read-source.ts';
import { findSources, type Trouble } from './sources.ts';
import { linesOf, positionAt } from './text-lines.ts';
import { usedFilesFor } from './used-files.ts';

/** One side of a comparison. */
export interface ComparedSource {
  /** As it is called in what is told. */
  readonly name: string;
  /** Where it lies; undefined for standard input and for nothing at all. */
  readonly file: string | undefined;
  readonly circuits: readonly Circuit[];
  /** Whether there is nothing in it, as in the file that stands for one that is not there. */
  readonly isEmpty: boolean;
  /** What of it was not read: a plain sentence. */
  readonly caution: string | undefined;
}

/** What stands for a file that is not there, as git and the shell have it. */
const nothing: ReadonlySet<string> = new Set(['/dev/null', 'nul', 'NUL']);

/** Reads one side of a comparison, or says why it cannot be. */
export function comparedSource(
  argument: string,
  name: string | undefined,
  cwd: string,
): ComparedSource | readonly Trouble[] {
  if (nothing.has(argument)) return sideOf(name ?? argument, undefined, '', cwd);
  const { sources, troubles } = findSources([argument], cwd);
  const [source, second] = sources;
  if (!source || second) {
    if (!second) return troubles;
    return [
      { path: argument, cause: `it stands for ${sources.length} files`, cure: 'Name one of them.' },
    ];
  }
  const read = readSource(source);
  return 'cause' in read ? [read] : sideOf(name ?? source.path, source.file, read.text, cwd);
}

function sideOf(name: string, file: string | undefined, text: string, cwd: string): ComparedSource {
  const { circuits, read } = readReceivers(text, name, usedFilesFor(cwd));
  const lines = linesOf(text);
  const unread = [
    ...circuits.flatMap((circuit) =>
      circuit.unread.flatMap((place) => (place.file === name ? place.start : [])),
    ),
    ...read.unreadable.map(({ start }) => start),
  ].map((start) => positionAt(lines, start).line + 1);
  const isEmpty = text.trim() === '';
  const caution =
    unread.length > 0
      ? `${name}: ${linesListed(unread)} cannot be read in full. What is said there is not compared, so that a part may seem to be gone or new.`
      : circuits.length === 0 && !isEmpty
        ? `${name}: there is no receiver in it.`
        : undefined;
  return { name, file, circuits, isEmpty, caution };
}
