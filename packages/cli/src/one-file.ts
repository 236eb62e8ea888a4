import { asFound, type Circuit, type Finding } from '@setwright/circuit';
import { readReceivers } from '@setwright/language';
import { linesListed, visible } from '@setwright/report';
import { nearest } from '@setwright/units';
import type { PartsAs } from './examine.ts';
import { readSource } from './read-source.ts';
import { findSources } from './sources.ts';
import type { Streams } from './streams.ts';
import { linesOf, positionAt } from './text-lines.ts';
import { sayTroubles, sayWrong } from './troubles.ts';
import { usedFilesFor } from './used-files.ts';

/** The sets of one file. */
export interface OneFile {
  /** As it is called in messages. */
  readonly path: string;
  /** Where it lies; undefined for standard input. */
  readonly file: string | undefined;
  readonly circuits: readonly Circuit[];
}

/**
 * Reads the sets of the one file that an argument names. Undefined when it cannot be read; that
 * has then been said, as have the lines of it that cannot be understood.
 *
 * @param because what that means for the answer: `a path may be missing here`
 * @param partsAs whether parts are what they should be or what they were found to be
 */
export function readOneFile(
  file: string,
  because: string,
  streams: Streams,
  partsAs: PartsAs = 'written',
): OneFile | undefined {
  const { sources, troubles } = findSources([file], streams.cwd);
  const [source, second] = sources;
  if (!source) {
    sayTroubles(troubles, streams);
    return undefined;
  }
  if (second) {
    sayWrong(streams, `${file} stands for ${sources.length} files.`, 'Name one of them.');
    return undefined;
  }
  const read = readSource(source);
  if ('cause' in read) {
    sayTroubles([read], streams);
    return undefined;
  }
  const reading = usedFilesFor(streams.cwd);
  const { circuits, remarks } = readReceivers(read.text, source.path, reading);
  sayUnread(source.path, read.text, circuits, because, streams);
  const all = [...remarks, ...circuits.flatMap((circuit) => circuit.remarks)];
  sayUnusable(source.path, all, because, streams);
  return { ...source, circuits: partsAs === 'found' ? circuits.map(asFound) : circuits };
}

function sayUnread(
  path: string,
  text: string,
  circuits: readonly Circuit[],
  because: string,
  streams: Streams,
): void {
  const lines = linesOf(text);
  const unread = circuits.flatMap(({ unread }) =>
    unread.map((place) => positionAt(lines, place.start).line + 1),
  );
  if (unread.length === 0) return;
  streams.err.write(
    `setwright: ${visible(path)}: ${linesListed(unread)} cannot be read, so ${because}.\n`,
  );
}

/** Says which files it uses and cannot have as they stand. */
function sayUnusable(
  path: string,
  remarks: readonly Finding[],
  because: string,
  streams: Streams,
): void {
  for (const { check, message } of remarks)
    if (check === 'used-file')
      streams.err.write(
        `setwright: ${visible(path)}: ${visible(message.replace(/\.$/, ''))}, so ${because}.\n`,
      );
}

/** Says that a file holds no set. */
export function sayNoReceiver(path: string, streams: Streams): void {
  sayWrong(streams, `${path}: there is no receiver in it.`, 'Name the file of a set.');
}

/** The set that is asked for; what is wrong with the asking has been said where there is none. */
export function theReceiver(
  { path, circuits }: OneFile,
  wanted: string | undefined,
  streams: Streams,
): Circuit | undefined {
  const [only, second] = circuits;
  if (!only) {
    sayNoReceiver(path, streams);
    return undefined;
  }
  const list = circuits.map(({ title }, index) => `${index + 1} "${title}"`).join(', ');
  if (wanted === undefined) {
    if (!second) return only;
    sayWrong(
      streams,
      `${path} holds ${circuits.length} receivers: ${list}.`,
      'Say which, as in: --receiver 1',
    );
    return undefined;
  }
  const plain = (text: string): string => text.trim().toLowerCase();
  const found = /^\d+$/.test(wanted.trim())
    ? circuits[Number(wanted) - 1]
    : circuits.find(({ title }) => plain(title) === plain(wanted));
  if (found) return found;
  const [likely] = nearest(
    wanted,
    circuits.map(({ title }) => title),
    1,
  );
  sayWrong(
    streams,
    `${path} holds no receiver "${wanted}".`,
    likely !== undefined ? `Did you mean "${likely}"?` : `It holds: ${list}.`,
  );
  return undefined;
}
