import { allChecks } from './all.ts';
import type { Check } from './check.ts';
import type { Study } from './study.ts';

/**
 * The checks that take long, were not run, and would have had something to examine in a set. One
 * of which the whole set says that what it finds is meant is not missed.
 */
export function leftOut(study: Study, run: readonly Check[]): readonly Check[] {
  const meant = new Set(
    study.circuit.waivers.flatMap(({ check, within }) => (within === undefined ? check : [])),
  );
  return allChecks.filter(
    (check) => !run.includes(check) && !meant.has(check.id) && examines(study, check),
  );
}

function examines(study: Study, { thorough }: Check): boolean {
  try {
    return thorough?.examines(study) === true;
  } catch {
    // What falls over here falls over in the check itself, which tells of it.
    return false;
  }
}
