import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
} from 'vscode-languageserver/browser';
import type { Platform } from './connection/platform.ts';
import { serve } from './connection/serve.ts';
import { QUIET } from './work/pause.ts';

/** As far as a worker's surroundings are used here; those of Node's (main-process.ts) give more. */
declare const self: ConstructorParameters<typeof BrowserMessageReader>[0] & {
  readonly receiversIn?: Platform['receiversIn'];
  readonly usedFile?: Platform['usedFile'];
};

/** A turn of the worker's own queue, behind whatever waits in it already. */
const { port1, port2 } = new MessageChannel() as unknown as {
  readonly port1: { onmessage: () => void };
  readonly port2: { readonly postMessage: (message: undefined) => void };
};
const waiting: (() => void)[] = [];
port1.onmessage = () => waiting.shift()?.();

serve(createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self)), {
  pause: () =>
    new Promise((resolve) => {
      waiting.push(resolve);
      port2.postMessage(undefined);
    }),
  quiet: QUIET,
  // A worker of a browser reads no files: what is open is all there is.
  receiversIn: self.receiversIn ?? (async () => []),
  ...(self.usedFile ? { usedFile: self.usedFile } : {}),
});
