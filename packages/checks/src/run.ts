import type { TubeLaws } from '@setwright/analysis';
import type { Circuit, Finding, Waiver } from '@setwright/circuit';
import { allChecks } from './all.ts';
import type { Check } from './check.ts';
import { worse } from './finding.ts';
import { byPrecedence } from './precedence.ts';
import { studyOf } from './study.ts';
import { unknownWaivers } from './unknown-waivers.ts';

const ids = allChecks.map(({ id }) => id);

/** What the checks say of one set. */
export interface Checked {
  /** What is to be told, by place in the text. */
  readonly findings: readonly Finding[];
  /** What would have been told, had a `meant` not said that it is on purpose. */
  readonly waived: readonly { readonly finding: Finding; readonly waiver: Waiver }[];
  /** Ids of the checks that wait until every line can be read. */
  readonly waiting: readonly string[];
}

/**
 * Runs every check on a set. Where lines cannot be read, the checks that such a line could mislead
 * wait. An exception in a check is a fault of ours and becomes a finding, never a crash.
 *
 * @param laws laws of tube types found before, kept by the caller; those of new types are entered.
 */
export function checkCircuit(
  circuit: Circuit,
  checks: readonly Check[] = allChecks,
  laws?: TubeLaws,
): Checked {
  const study = studyOf(circuit, laws);
  const whole = circuit.unread.length === 0;
  const waiting = whole ? [] : checks.filter((check) => check.needsWholeText).map(({ id }) => id);
  const said = checks
    .filter((check) => whole || !check.needsWholeText)
    .flatMap((check) => findSafely(check, () => check.find(study), circuit));
  // A mistyped `meant` would silence nothing and tell nobody.
  said.push(...unknownWaivers(circuit, ids));
  const waived: { finding: Finding; waiver: Waiver }[] = [];
  const unwaived = said.filter((finding) => {
    const waiver = circuit.waivers.find((candidate) => waives(candidate, finding));
    if (waiver) waived.push({ finding, waiver });
    return !waiver;
  });
  const findings = byPrecedence(unwaived).sort(
    (a, b) =>
      a.place.start - b.place.start ||
      worse(a.severity, b.severity) ||
      (a.check < b.check ? -1 : a.check > b.check ? 1 : 0),
  );
  return { findings, waived, waiting };
}

function waives(waiver: Waiver, finding: Finding): boolean {
  if (waiver.check !== finding.check) return false;
  return waiver.within === undefined || waiver.parts.some((part) => finding.parts.includes(part));
}

function findSafely(
  check: Check,
  find: () => readonly Finding[],
  circuit: Circuit,
): readonly Finding[] {
  try {
    return find();
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    return [
      {
        check: check.id,
        severity: 'warning',
        message: `The check ${check.id} failed on this set (${reason}).`,
        why: 'This is a fault of the tool, not of the set; what this check would have found is not known.',
        cure: 'Please report it together with this file.',
        place: circuit.namePlace,
        related: [],
        parts: [],
        fixes: [],
      },
    ];
  }
}
