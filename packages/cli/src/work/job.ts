import { allChecks, quickChecks } from '@setwright/checks';
import { examine, type FileExamined, type PartsAs } from '../examine.ts';
import type { Trouble } from '../sources.ts';
import { type Parcel, parcelOf } from './parcel.ts';
import type { UsedOnce } from './used-once.ts';

/** How the files of a run are examined. */
export interface Examining {
  readonly partsAs: PartsAs;
  /** Whether the checks that take long are run too. */
  readonly thorough: boolean;
}

/** One file to be examined by another process. */
export interface Job extends Examining {
  readonly kind: 'check';
  readonly path: string;
  readonly text: string;
}

/** What comes back: what was found out, or in what words the tool failed. */
export type Answer = { readonly parcel: Parcel } | { readonly failed: string };

/** Examines a file; a slip of the tool's own spoils this file and no other. */
export function examined(job: Job, used: UsedOnce): FileExamined | Trouble {
  try {
    return examinedOrThrows(job, used);
  } catch (error) {
    return toolFailed(job.path, reasonOf(error));
  }
}

/** The same for another process. */
export function answerTo(job: Job, used: UsedOnce): Answer {
  try {
    return { parcel: parcelOf(examinedOrThrows(job, used), used) };
  } catch (error) {
    return { failed: reasonOf(error) };
  }
}

const examinedOrThrows = (
  { path, text, partsAs, thorough }: Job,
  { reading }: UsedOnce,
): FileExamined => examine(path, text, partsAs, thorough ? allChecks : quickChecks, reading);

/** What an error says. */
export const reasonOf = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);

/** The trouble of a file that the tool itself broke down over. */
export const toolFailed = (path: string, reason: string): Trouble => ({
  path,
  cause: `something went wrong inside the tool (${reason})`,
  cure: 'Please report it together with the file.',
});

/** The trouble of a file over which another process ended, or took too long. */
export const givenUp = (path: string, reason: string): Trouble => ({
  path,
  cause: `the tool had to give it up (${reason})`,
  cure: 'The other files are done. Give it more time (--time-limit), or report it together with the file.',
});
