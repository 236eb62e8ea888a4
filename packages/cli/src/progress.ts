import type { Writing } from './streams.ts';

/** Fewer files than this are done before anybody wonders. */
const MANY = 50;
const MILLISECONDS_BETWEEN = 100;

/** Tells how far a long run has come, on a terminal only; takes its line away at the end. */
export function progressOn(stream: Writing, total: number): { step(): void; end(): void } {
  if (!stream.isTTY || total <= MANY) return { step: () => {}, end: () => {} };
  let done = 0;
  let told = 0;
  return {
    step: () => {
      done += 1;
      const now = Date.now();
      if (now - told < MILLISECONDS_BETWEEN) return;
      told = now;
      stream.write(`\r\u001b[K${done} of ${total} files`);
    },
    end: () => stream.write('\r\u001b[K'),
  };
}
