import type { schematicOf } from './drawing.ts';
import { mayBeDrawnTo, writeDrawing } from './drawing-file.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { readOneFile, sayNoReceiver } from './one-file.ts';
import type { Streams } from './streams.ts';
import { sayWrong } from './troubles.ts';

export interface DrawCommandOptions {
  readonly output: string | undefined;
  readonly theme: 'light' | 'dark' | 'transparent';
  readonly symbols: 'modern' | 'period';
  readonly rows: 'page' | 'one';
}

/** What draws a schematic; loaded only when one is wanted. */
export type Draughtsman = () => { readonly schematicOf: typeof schematicOf };

/** `setwright draw`: the schematic of a set, laid out from its text. */
export async function draw(
  file: string,
  options: DrawCommandOptions,
  streams: Streams,
  draughtsman: Draughtsman,
): Promise<ExitCode> {
  const read = readOneFile(file, 'something may be missing in the drawing', streams);
  if (!read) return exitCodes.trouble;
  const [circuit, second] = read.circuits;
  if (!circuit) {
    sayNoReceiver(streams);
    return exitCodes.trouble;
  }
  if (second) {
    sayWrong(
      streams,
      `${read.path} holds ${read.circuits.length} receivers.`,
      'Put the one to be drawn into a file of its own.',
    );
    return exitCodes.trouble;
  }
  const { output } = options;
  if (output !== undefined && !mayBeDrawnTo(output, read.file, streams)) return exitCodes.trouble;
  const svg = await draughtsman().schematicOf(circuit, options);
  if (output === undefined) streams.out.write(svg);
  else if (!writeDrawing(output, svg, streams)) return exitCodes.trouble;
  return exitCodes.clean;
}
