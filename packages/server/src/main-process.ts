/**
 * The worker's bundle as a process of its own that speaks over Node's channel between processes: the
 * messages are the same, so one bundle serves the editor on a desk and in a browser.
 */
import { receiversIn } from './receivers-in.ts';
import { usedFile } from './used-file.ts';

declare function require(path: string): unknown;

type Hear = (event: { readonly data: unknown }) => void;

const methodOf = (message: unknown): unknown =>
  (message as { readonly method?: unknown } | undefined)?.method;

let isShut = false;

const surroundings = {
  postMessage: (message: unknown) => process.send?.(message),
  set onmessage(hear: Hear) {
    process.on('message', (data) => {
      if (methodOf(data) === 'exit') process.exit(isShut ? 0 : 1);
      isShut ||= methodOf(data) === 'shutdown';
      hear({ data });
    });
  },
  // Trouble with the channel ends it, which is heard below.
  addEventListener: () => undefined,
  close: () => process.exit(0),
  receiversIn,
  usedFile,
};

process.on('disconnect', () => process.exit(isShut ? 0 : 1));
Object.assign(globalThis, { self: surroundings });
// Beside this file once both are bundled; in the source there is nothing of that name.
const worker = './setwright-server-worker.js';
require(worker);
