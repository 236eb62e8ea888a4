import type { TubeLaws } from '@setwright/analysis';
import type { Circuit, Finding, Place, Waiver } from '@setwright/circuit';
import { allChecks } from './all.ts';
import type { Check } from './check.ts';
import { leftOut } from './left-out.ts';
import { byPrecedence } from './precedence.ts';
import { quickChecks } from './quick.ts';
import { asSeenHere } from './seen-here.ts';
import { type Study, studyOf } from './study.ts';
import { unknownWaivers } from './unknown-waivers.ts';
import { worse } from './words/finding.ts';

const ids = allChecks.map(({ id }) => id);

/** What the checks say of one set. */
export interface Checked {
  /** What is to be told, by place in the text. */
  readonly findings: readonly Finding[];
  /** What would have been told, had a `meant` not said that it is on purpose. */
  readonly waived: readonly { readonly finding: Finding; readonly waiver: Waiver }[];
  /** Ids of the checks that wait until every line can be read. */
  readonly waiting: readonly string[];
  /** What they wait for. */
  readonly waitsFor: readonly Place[];
}

const slips = new Set(['missing-unit', 'wrong-unit', 'ambiguous-unit']);

/** A check that has run, on the way through all of them. */
export interface CheckStep {
  readonly check: string;
  /**
   * What is to be told by now. `standing` are findings of an earlier reading of the same set: those
   * of checks that have not run yet, or wait, stand until they have.
   */
  readonly soFar: (standing?: readonly Finding[]) => Checked;
}

/**
 * Runs the checks on a set. Where lines cannot be read, the checks that such a line could mislead
 * wait; where only a size cannot be read, those that reckon with sizes. An exception in a check is
 * a fault of ours and becomes a finding, never a crash.
 *
 * @param checks those that are run; where not given all that do not take long
 * @param laws laws of tube types found before, kept by the caller; those of new types are entered.
 */
export function checkCircuit(
  circuit: Circuit,
  checks: readonly Check[] = quickChecks,
  laws?: TubeLaws,
): Checked {
  const steps = checkSteps(circuit, checks, laws);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** The same, and which checks were left out though they would have had something to examine. */
export function checkedAndLeft(
  circuit: Circuit,
  checks: readonly Check[],
  laws?: TubeLaws,
): { readonly checked: Checked; readonly left: readonly Check[] } {
  const steps = stepsOf(circuit, checks, laws);
  for (;;) {
    const step = steps.next();
    if (!step.done) continue;
    const { checked, study } = step.value;
    // With lines or sizes that cannot be read they would wait.
    const isWhole = circuit.unread.length === 0 && doubtfulSizes(circuit).length === 0;
    return { checked, left: isWhole ? leftOut(study, checks) : [] };
  }
}

/**
 * The same as `checkCircuit` check by check, for whoever has to stop between two of them or to tell
 * what is known before the last has run.
 */
export function* checkSteps(
  circuit: Circuit,
  checks: readonly Check[],
  laws?: TubeLaws,
): Generator<CheckStep, Checked> {
  return (yield* stepsOf(circuit, checks, laws)).checked;
}

function* stepsOf(
  circuit: Circuit,
  checks: readonly Check[],
  laws: TubeLaws | undefined,
): Generator<CheckStep, { readonly checked: Checked; readonly study: Study }> {
  const whole = circuit.unread.length === 0;
  const doubtful = doubtfulSizes(circuit);
  let reckoned = false;
  const study = studyOf(circuit, laws, () => {
    reckoned = true;
  });
  const waiting: string[] = [];
  const answered = new Set<string>();
  const said: Finding[] = [];
  const soFar = (standing: readonly Finding[] = []): Checked => {
    const still = standing.filter(({ check }) => !answered.has(check));
    // A mistyped `meant` would silence nothing and tell nobody.
    const all = [...said, ...still, ...unknownWaivers(circuit, ids)];
    const waitsFor = waiting.length === 0 ? [] : [...circuit.unread, ...doubtful];
    return { ...toBeTold(circuit, all), waiting: [...waiting], waitsFor };
  };
  for (const check of checks) {
    reckoned = false;
    const waits = !whole && check.needsWholeText;
    const found = waits ? [] : findSafely(check, () => check.find(study), circuit);
    if (waits || (reckoned && check.needsWholeText && doubtful.length > 0)) waiting.push(check.id);
    else {
      said.push(...found);
      answered.add(check.id);
    }
    yield { check: check.id, soFar };
  }
  return { checked: soFar(), study };
}

/** Sizes that cannot be read: what is reckoned without them may be far out. */
function doubtfulSizes({ remarks }: Circuit): readonly Place[] {
  return remarks
    .filter(({ check, severity }) => severity === 'error' && slips.has(check))
    .map(({ place }) => place);
}

/** What of all that was found is told: not what is meant, and of one fault one finding. */
function toBeTold(
  circuit: Circuit,
  said: readonly Finding[],
): Pick<Checked, 'findings' | 'waived'> {
  const waived: { finding: Finding; waiver: Waiver }[] = [];
  const unwaived = said.map(asSeenHere).filter((finding) => {
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
  return { findings, waived };
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
