import {
  type UnitStyle,
  valuesInCsv,
  valuesInJson,
  valuesInWords,
  valuesOf,
} from '@setwright/report';
import type { PartsAs } from './examine.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { readOneFile, sayNoReceiver } from './one-file.ts';
import type { Streams } from './streams.ts';
import { stylesFor } from './styles.ts';

export const valuesFormats = ['text', 'json', 'csv'] as const;

export interface ValuesOptions {
  readonly format: (typeof valuesFormats)[number];
  readonly units: UnitStyle;
  /** Numbers alone, without their becauses. */
  readonly short: boolean;
  readonly as: PartsAs;
}

/** `setwright values`: every number of a set that can be reckoned, and why it is so. */
export function values(file: string, options: ValuesOptions, streams: Streams): ExitCode {
  const read = readOneFile(file, 'a number may be missing or wrong here', streams, options.as);
  if (!read) return exitCodes.trouble;
  if (read.circuits.length === 0) {
    sayNoReceiver(read.path, streams);
    return exitCodes.trouble;
  }
  const sets = read.circuits.map((circuit) => valuesOf(circuit, options.units));
  switch (options.format) {
    case 'json':
      streams.out.write(valuesInJson(read.path, sets));
      break;
    case 'csv':
      streams.out.write(valuesInCsv(sets));
      break;
    case 'text':
      streams.out.write(
        valuesInWords(sets, {
          style: options.units,
          columns: streams.out.columns ?? 80,
          styles: stylesFor(streams.out, streams.env),
          short: options.short,
        }),
      );
  }
  return exitCodes.clean;
}
