/**
 * The worker's bundle as a process of its own that speaks over Node's channel between processes: the
 * messages are the same, so one bundle serves the editor on a desk and in a browser.
 */
import { receiversIn } from './receivers-in.ts';

declare function require(path: string): unknown;

type Hear = (event: { readonly data: unknown }) => void;

const isExit = (message: unknown): boolean =>
  (message as { readonly method?: unknown } | undefined)?.method === 'exit';

const surroundings = {
  postMessage: (message: unknown) => process.send?.(message),
  set onmessage(hear: Hear) {
    process.on('message', (data) => {
      if (isExit(data)) process.exit(0);
      hear({ data });
    });
  },
  // Trouble with the channel ends it, which is heard below.
  addEventListener: () => undefined,
  close: () => process.exit(0),
  receiversIn,
};

process.on('disconnect', () => process.exit(0));
Object.assign(globalThis, { self: surroundings });
require('./setwright-server-worker.js');
