import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import type { Platform } from './connection/platform.ts';
import { serve } from './connection/serve.ts';
import { receiversIn } from './receivers-in.ts';
import { usedFile } from './used-file.ts';
import { QUIET } from './work/pause.ts';

const platform: Platform = {
  pause: () => new Promise((resolve) => setImmediate(resolve)),
  quiet: QUIET,
  receiversIn,
  usedFile,
};

/** Serves over standard input and output, and exits when the client goes. */
export function serveStdio(): void {
  // Whatever is printed would garble the conversation.
  for (const method of ['log', 'info', 'debug', 'dir', 'table'] as const)
    console[method] = console.error;
  serveStreams(process.stdin, process.stdout);
}

/**
 * Serves over two streams, and exits when the first ends.
 *
 * @param quiet milliseconds without an edit after which there is time for what takes long
 */
export function serveStreams(
  input: NodeJS.ReadableStream,
  output: NodeJS.WritableStream,
  quiet = QUIET,
): void {
  serve(createConnection(ProposedFeatures.all, input, output), { ...platform, quiet });
}

/** Serves over whatever the command line names: `--node-ipc`, `--pipe=NAME`, `--socket=PORT`. */
export function serveAsCalled(): void {
  if (process.argv.includes('--stdio')) serveStdio();
  else serve(createConnection(ProposedFeatures.all), platform);
}
