import { readReceivers } from '@setwright/language';
import { describedSet, printableJson } from '@setwright/report';
import { type ExitCode, exitCodes } from './exit.ts';
import { readSource } from './read-source.ts';
import { findSources } from './sources.ts';
import type { Streams } from './streams.ts';
import { sayTroubles } from './troubles.ts';
import { usedFilesFor } from './used-files.ts';

/**
 * `setwright describe`: every fact of a set on a line of its own, in an order that does not go by
 * the text. What cannot be read stands there as it is written, so that no change is hidden.
 */
export function describe(file: string, streams: Streams): ExitCode {
  const { sources, troubles } = findSources([file], streams.cwd);
  const [source] = sources;
  const read = source && readSource(source);
  if (!read || 'cause' in read) {
    sayTroubles(read ? [read] : troubles, streams);
    return exitCodes.trouble;
  }
  const { circuits, read: lines } = readReceivers(read.text, file, usedFilesFor(streams.cwd));
  for (const circuit of circuits) streams.out.write(describedSet(circuit));
  for (const { start, end } of lines.unreadable) {
    const words = read.text.slice(start, end).replace(/\s+/g, ' ').trim();
    streams.out.write(`not read  ${printableJson(words)}\n`);
  }
  return exitCodes.clean;
}
