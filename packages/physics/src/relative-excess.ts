import { arePositive, finiteOrUndefined } from './domain.ts';

/**
 * How far a computed value is above a published one, as a share of it: 0.05 is 5 % high.
 * Undefined where either is missing, the published one is not above 0 or the share overflows.
 */
export function relativeExcess(
  computed: number | undefined,
  published: number | undefined,
): number | undefined {
  return computed === undefined || published === undefined || !arePositive(published)
    ? undefined
    : finiteOrUndefined(computed / published - 1);
}
