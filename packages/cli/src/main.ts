import { startupSnapshot } from 'node:v8';
import { visible } from '@setwright/report';
import type { Draughtsman } from './draw.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { OutputRefused, processStreams } from './process-streams.ts';
import { run } from './program.ts';
import type { Server } from './serve.ts';
import { warmUp } from './warm-up.ts';

declare const require: (file: string) => unknown;

/** The part that draws is in a bundle of its own, which the build puts beside this one. */
const drawingBundle = './setwright-draw.cjs';
const draughtsman = () => require(drawingBundle) as ReturnType<Draughtsman>;

/** The language server is in a bundle of its own too, which editors also start by itself. */
const serverBundle = './setwright-server.cjs';
const server = () => require(serverBundle) as ReturnType<Server>;

/** Runs the tool in this process; nothing that goes wrong leaves by another way. */
function main(): void {
  const streams = processStreams();
  const fail = (error: unknown) => {
    process.exitCode = exitCodes.trouble;
    if (error instanceof OutputRefused && error.readerIsGone) return;
    try {
      streams.err.write(`setwright: ${whatFailed(error)}\n`);
    } catch {
      // Nobody is left to be told.
    }
  };
  const later = (answer: Promise<ExitCode>) =>
    void answer.then((code) => {
      process.exitCode = code;
    }, fail);
  try {
    process.exitCode = run(process.argv.slice(2), streams, { draughtsman, server, later });
  } catch (error) {
    fail(error);
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
