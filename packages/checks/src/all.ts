import type { Check } from './check.ts';

/** Every check there is, in the order of the documentation. */
export const allChecks: readonly Check[] = [];
