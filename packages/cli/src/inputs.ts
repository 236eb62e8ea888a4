import { findSources, type Sources, standardInput } from './sources.ts';
import type { Streams } from './streams.ts';
import { sayWrong } from './troubles.ts';

/**
 * What a command is to read: the files named, or standard input when none is and something waits
 * there. Undefined when there is nothing to read; that has then been said.
 */
export function inputsOf(
  files: readonly string[],
  command: string,
  streams: Streams,
): Sources | undefined {
  if (files.length > 0) return findSources(files, streams.cwd);
  if (!streams.inIsSilent) return { sources: [standardInput], troubles: [] };
  sayWrong(
    streams,
    `${command} was not told what to read.`,
    `Name files or folders, as in: setwright ${command} my-set.receiver`,
  );
  return undefined;
}
