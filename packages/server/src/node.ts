import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import type { Platform } from './connection/platform.ts';
import { serve } from './connection/serve.ts';
import { receiversIn } from './receivers-in.ts';

/** Milliseconds without an edit after which there is time for what takes long. */
const QUIET = 400;

const platform: Platform = {
  pause: () => new Promise((resolve) => setImmediate(resolve)),
  quiet: QUIET,
  receiversIn,
};

/** Serves over standard input and output, and exits when the client goes. */
export function serveStdio(): void {
  // Whatever is printed would garble the conversation.
  for (const method of ['log', 'info', 'debug', 'dir', 'table'] as const)
    console[method] = console.error;
  serve(createConnection(ProposedFeatures.all, process.stdin, process.stdout), platform);
}

/** Serves over whatever the command line names: `--node-ipc`, `--pipe=NAME`, `--socket=PORT`. */
export function serveAsCalled(): void {
  if (process.argv.includes('--stdio')) serveStdio();
  else serve(createConnection(ProposedFeatures.all), platform);
}
