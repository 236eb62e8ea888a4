import type { Severity } from '@setwright/circuit';
import type { FileExamined } from './examine.ts';
import type { Trouble } from './sources.ts';

/** How many findings there are, by severity. */
export type Tally = Readonly<Record<Severity, number>>;

/** What there is to say of a whole run of `setwright check`, when it is over. */
export interface RunSummary {
  /** How many files were examined. */
  readonly files: number;
  readonly tally: Tally;
  /** Inputs that could not be checked. */
  readonly troubles: readonly Trouble[];
}

/**
 * Tells what a run finds out in one of its formats, file by file and in their order: no more than
 * one file need be kept, however many there are.
 */
export interface Telling {
  /** What stands before all files. */
  readonly head: string;
  file(file: FileExamined): string;
  end(summary: RunSummary): string;
}

/** Counts findings as they come. */
export function counting(): {
  add(file: FileExamined): void;
  summary(): Omit<RunSummary, 'troubles'>;
} {
  const tally = { error: 0, warning: 0, information: 0, hint: 0 };
  let files = 0;
  return {
    add: ({ findings }) => {
      files += 1;
      for (const { severity } of findings) tally[severity] += 1;
    },
    summary: () => ({ files, tally: { ...tally } }),
  };
}

/** All that is told of files that are at hand. */
export function toldOf(
  telling: Telling,
  files: readonly FileExamined[],
  troubles: readonly Trouble[] = [],
): string {
  const count = counting();
  const bodies = files.map((file) => {
    count.add(file);
    return telling.file(file);
  });
  return telling.head + bodies.join('') + telling.end({ ...count.summary(), troubles });
}
