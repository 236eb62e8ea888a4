import type { FileExamined, PartsAs } from './examine.ts';
import type { Trouble } from './sources.ts';

/** Everything that one run of `setwright check` found out. */
export interface CheckRun {
  readonly files: readonly FileExamined[];
  /** Inputs that could not be checked. */
  readonly troubles: readonly Trouble[];
  readonly partsAs: PartsAs;
}
