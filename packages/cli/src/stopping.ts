/** Whether a long run was told to stop. */
export interface Stopping {
  isStopped(): boolean;
  /** Is called when it is; the last one given counts. */
  onStop(act: () => void): void;
  /** From here on signals do again what they usually do. */
  release(): void;
}

const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** Listens to Ctrl-C and what else asks a program to end, so that it can end in good order. */
export function stopping(): Stopping {
  let isStopped = false;
  let act = (): void => {};
  const stop = (): void => {
    isStopped = true;
    // Who asks twice is not kept waiting.
    release();
    act();
  };
  const release = (): void => {
    for (const signal of signals) process.off(signal, stop);
  };
  for (const signal of signals) process.on(signal, stop);
  return {
    isStopped: () => isStopped,
    onStop: (given) => {
      act = given;
    },
    release,
  };
}
