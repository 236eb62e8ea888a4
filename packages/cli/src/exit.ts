/** What the tool answers to the shell. */
export const exitCodes = {
  /** Nothing wrong. */
  clean: 0,
  /** Findings, or files that are not in order. */
  findings: 1,
  /** The call was wrong, an input could not be read, or the tool itself failed. */
  trouble: 2,
  /** Somebody stopped it: Ctrl-C. */
  stopped: 130,
} as const;

export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];
