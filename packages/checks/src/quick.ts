import { allChecks } from './all.ts';
import type { Check } from './check.ts';

/** The checks that are quick enough to run at every change of the text, in the same order. */
export const quickChecks: readonly Check[] = allChecks.filter(
  ({ thorough }) => thorough === undefined,
);
