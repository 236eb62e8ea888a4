import { checkCircuit } from '@setwright/checks';
import type { Finding, Fix } from '@setwright/circuit';
import { readReceivers } from '@setwright/language';
import type { Settings } from '../settings.ts';
import { type Edit, edited, editsOf } from '../text/edits.ts';
import { type Snapshot, snapshotOf } from '../text/snapshot.ts';
import { leastChange } from '../work/shift.ts';
import { wantedFindings } from './diagnostics.ts';

/** No more findings than these are mended at once, and no longer than this many milliseconds. */
const MOST_FIXES = 60;
const LONGEST = 2000;

/**
 * Mends all that can be mended without a choice: errors that have one fix alone, as long as each
 * fix does away with its finding and brings up no other fault.
 */
export function fixAllEdits(snapshot: Snapshot, settings: Settings): readonly Edit[] {
  const { uri } = snapshot;
  const until = performance.now() + LONGEST;
  const tried = new Set<string>();
  let { text } = snapshot;
  let { faults, waiting } = faultsOf(snapshot, text, settings);
  for (let round = 0; round < MOST_FIXES && performance.now() < until; round++) {
    const next = faults.find((fault) => !tried.has(keyOf(fault)) && isMended(fault));
    const fix = next && onlyFix(next);
    if (!next || !fix) break;
    tried.add(keyOf(next));
    const edits = editsOf(snapshotOf(uri, 0, text), fix);
    if (!edits) continue;
    const mended = edited(text, edits);
    const left = faultsOf(snapshot, mended, settings);
    const before = new Set(faults.map(keyOf));
    const isGone = !left.faults.some((fault) => keyOf(fault) === keyOf(next));
    // A check that has waited for this may speak now: its fault was there all along.
    const isNew = (fault: Finding): boolean =>
      !before.has(keyOf(fault)) && !waiting.has(fault.check);
    if (!isGone || left.faults.some(isNew)) continue;
    text = mended;
    ({ faults, waiting } = left);
  }
  return text === snapshot.text ? [] : [leastChange(snapshot.text, text, 0)];
}

/** Whether there is anything that may be mended without a choice. */
export function mayFixAll(findings: readonly Finding[]): boolean {
  return findings.some(isMended);
}

const isFault = ({ severity }: Finding): boolean => severity === 'error' || severity === 'warning';

/** A warning may be the set's own way, and its cure a part to be bought: those are left to a person. */
const isMended = (finding: Finding): boolean =>
  finding.severity === 'error' && onlyFix(finding) !== undefined;

/** What adds a part is never done without a word, and is no choice beside a correction. */
const onlyFix = ({ fixes }: Finding): Fix | undefined => {
  const [only, ...others] = fixes.filter(({ adds }) => adds !== true);
  return others.length === 0 ? only : undefined;
};

const keyOf = ({ check, message }: Finding): string => `${check} ${message}`;

function faultsOf({ uri, reading }: Snapshot, text: string, settings: Settings): Faults {
  const { circuits, remarks } = readReceivers(text, uri, reading);
  const checked = circuits.map((circuit) => checkCircuit(circuit));
  const all = [...checked.flatMap(({ findings }) => findings), ...remarks];
  return {
    faults: wantedFindings(all, settings).filter(isFault),
    waiting: new Set(checked.flatMap((each) => each.waiting)),
  };
}

/** Faults of a text, and the checks that wait for lines that cannot be read. */
interface Faults {
  readonly faults: readonly Finding[];
  readonly waiting: ReadonlySet<string>;
}
