import { startupSnapshot } from 'node:v8';
import { exitCodes } from './exit.ts';
import { OutputRefused, processStreams } from './process-streams.ts';
import { run } from './program.ts';
import { visible } from './visible.ts';
import { warmUp } from './warm-up.ts';

/** Runs the tool in this process; nothing that goes wrong leaves by another way. */
function main(): void {
  const streams = processStreams();
  try {
    process.exitCode = run(process.argv.slice(2), streams);
  } catch (error) {
    process.exitCode = exitCodes.trouble;
    if (error instanceof OutputRefused && error.readerIsGone) return;
    try {
      streams.err.write(`setwright: ${whatFailed(error)}\n`);
    } catch {
      // Nobody is left to be told.
    }
  }
}

function whatFailed(error: unknown): string {
  const reason = visible(error instanceof Error ? error.message : String(error));
  return error instanceof OutputRefused
    ? `the output cannot be written (${reason}). Write it somewhere else.`
    : `something went wrong inside the tool (${reason}). Please report it together with the file.`;
}

if (startupSnapshot.isBuildingSnapshot()) {
  warmUp();
  startupSnapshot.setDeserializeMainFunction(main);
} else main();
