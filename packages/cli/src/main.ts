import type { ChildProcess } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { resolve } from 'node:path';
import { startupSnapshot } from 'node:v8';
import { visible } from '@setwright/report';
import type { Draughtsman } from './draw.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { OutputRefused, processStreams } from './process-streams.ts';
import { run } from './program.ts';
import type { Server } from './serve.ts';
import { warmUp } from './warm-up.ts';
import { work, workerWord } from './work/worker.ts';

declare const require: (file: string) => unknown;
declare const __filename: string;

/** Whether this starts from the picture of the tool's memory that the build made. */
const isPicture = startupSnapshot.isBuildingSnapshot();

/** Loads a bundle that the build puts beside this one. */
function beside(bundle: string): unknown {
  if (!isPicture) return require(bundle);
  // Within the picture this knows Node's own parts alone: one of them loads what lies on disk.
  const { createRequire } = require('node:module') as typeof import('node:module');
  return createRequire(resolve(process.argv[1] ?? ''))(bundle);
}

/** The part that draws is in a bundle of its own. */
const drawingBundle = './setwright-draw.cjs';
const draughtsman = () => beside(drawingBundle) as ReturnType<Draughtsman>;

/** The language server is in a bundle of its own too, which editors also start by itself. */
const serverBundle = './setwright-server.cjs';
const server = () => beside(serverBundle) as ReturnType<Server>;

/** Node's part that starts programs, which only a collection needs; kept from the bundler's eyes. */
const programStarter = 'child_process';

/** Starts this tool once more, as it was started itself, to work for it. */
function startWorker(): ChildProcess {
  const { spawn } = require(programStarter) as typeof import('node:child_process');
  const tool = isPicture ? (process.argv[1] ?? '') : __filename;
  return spawn(process.execPath, [...process.execArgv, tool, workerWord], {
    stdio: ['pipe', 'pipe', 'pipe'],
  });
}

const help = { start: startWorker, cores: availableParallelism };

/** Runs the tool in this process; nothing that goes wrong leaves by another way. */
function main(): void {
  if (process.argv[2] === workerWord) {
    // Whatever goes wrong ends it, and is told by the process that it works for.
    void work(draughtsman).catch(() => process.exit(exitCodes.trouble));
    return;
  }
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
    process.exitCode = run(process.argv.slice(2), streams, { draughtsman, server, later, help });
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

if (isPicture) {
  warmUp();
  startupSnapshot.setDeserializeMainFunction(main);
} else main();
