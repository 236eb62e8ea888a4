import { visible } from '@setwright/report';
import type { Trouble } from './sources.ts';
import type { Streams } from './streams.ts';

/** Says on standard error which inputs could not be used, why, and what to do. */
export function sayTroubles(troubles: readonly Trouble[], streams: Streams): void {
  for (const { path, cause, cure } of troubles)
    streams.err.write(`setwright: ${visible(path)}: ${visible(cause)}. ${visible(cure)}\n`);
}

/** Says on standard error what was wrong with the call. */
export function sayWrong(streams: Streams, message: string, cure: string): void {
  streams.err.write(`setwright: ${visible(message)} ${visible(cure)}\n`);
}
