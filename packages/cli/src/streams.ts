/** Where a command writes: to the process, or in tests to a string. */
export interface Streams {
  readonly out: Writing;
  readonly err: Writing;
  readonly env: NodeJS.ProcessEnv;
  readonly cwd: string;
  /** Whether nothing waits on standard input: it is a terminal, or no file at all. */
  readonly inIsSilent: boolean;
}

export interface Writing {
  readonly isTTY?: boolean;
  readonly columns?: number | undefined;
  write(text: string): unknown;
}
