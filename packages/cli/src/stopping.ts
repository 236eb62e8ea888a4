/** Whether a long run was told to stop. */
export interface Stopping {
  isStopped(): boolean;
  /** Is called when it is; the last one given counts. */
  onStop(act: () => void): void;
  /** From here on signals do again what they usually do, unless the run was stopped. */
  release(): void;
}

const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** One Ctrl-C may come twice, from the terminal and from what started the tool: milliseconds. */
const SAME = 1000;

/** Listens to Ctrl-C and what else asks a program to end, so that it can end in good order. */
export function stopping(): Stopping {
  let since: number | undefined;
  let act = (): void => {};
  const release = (): void => {
    for (const signal of signals) process.off(signal, stop);
  };
  const stop = (signal: NodeJS.Signals): void => {
    const now = performance.now();
    if (since === undefined) {
      since = now;
      act();
    } else if (now - since > SAME) {
      // Who asks again is not kept waiting.
      release();
      process.kill(process.pid, signal);
    }
  };
  for (const signal of signals) process.on(signal, stop);
  return {
    isStopped: () => since !== undefined,
    onStop: (given) => {
      act = given;
    },
    release: () => {
      // The second half of one Ctrl-C must not end what is about to end by itself.
      if (since === undefined) release();
    },
  };
}
