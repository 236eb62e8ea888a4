import type { TubeLaws } from '@setwright/analysis';
import {
  allChecks,
  type Check,
  type Checked,
  checkedAndLeft,
  quickChecks,
} from '@setwright/checks';
import { asFound, type Finding, type Severity } from '@setwright/circuit';
import { type Reading, readReceivers, type UsedFile } from '@setwright/language';
import { type SupplyAnswer, supplyAnswer } from './supply-answer.ts';
import { linesOf, positionAt, type TextLines } from './text-lines.ts';

/** What is to be told of one set beside its findings. */
export interface SetExamined {
  readonly title: string;
  readonly supply: SupplyAnswer;
  /** Checks that wait until every line can be read. */
  readonly waiting: readonly string[];
  /** Numbers of the lines that they wait for. */
  readonly unreadLines: readonly number[];
  readonly waived: Checked['waived'];
  /** Checks that take long, were not asked for, and have something to examine in the set. */
  readonly notRun: readonly string[];
}

/** What is to be told of one file. */
export interface FileExamined {
  readonly path: string;
  readonly lines: TextLines;
  /** In order of the text. */
  readonly findings: readonly Finding[];
  readonly sets: readonly SetExamined[];
  /** The files that it uses, those of used ones too; without text where there is none to be had. */
  readonly usedFiles: readonly UsedFile[];
}

/** How the parts are taken: as the text says they should be, or as they were found on the bench. */
export type PartsAs = 'written' | 'found';

const severities: readonly Severity[] = ['error', 'warning', 'information', 'hint'];

/** Laws fitted to tube types, which stay the same from set to set. */
const laws: TubeLaws = new WeakMap();

const known = new Set(allChecks.map(({ id }) => id));

/**
 * Reads and checks every set in a text.
 *
 * @param checks those that are run; where not given all that do not take long
 * @param reading gives the files that the text uses
 */
export function examine(
  path: string,
  text: string,
  partsAs: PartsAs,
  checks: readonly Check[] = quickChecks,
  reading: Reading = {},
): FileExamined {
  const { circuits, remarks, usedFiles } = readReceivers(text, path, reading);
  const lines = linesOf(text);
  const findings: Finding[] = [...remarks];
  const sets: SetExamined[] = [];
  for (const circuit of circuits) {
    const taken = partsAs === 'found' ? asFound(circuit) : circuit;
    const { checked, left } = checkedAndLeft(taken, checks, laws);
    // Nearly everything that is remarked while reading is told by a check of that name.
    for (const remark of circuit.remarks) if (!known.has(remark.check)) findings.push(remark);
    for (const finding of checked.findings) findings.push(finding);
    const unread = checked.waitsFor.map((place) => positionAt(lines, place.start).line + 1);
    sets.push({
      title: circuit.title || `Receiver on line ${positionAt(lines, circuit.place.start).line + 1}`,
      supply: supplyAnswer(taken, remarks, lines),
      waiting: checked.waiting,
      unreadLines: [...new Set(unread)].sort((a, b) => a - b),
      waived: checked.waived,
      notRun: left.map(({ id }) => id),
    });
  }
  return { path, lines, findings: findings.sort(inOrder), sets, usedFiles };
}

function inOrder(a: Finding, b: Finding): number {
  return (
    a.place.start - b.place.start ||
    severities.indexOf(a.severity) - severities.indexOf(b.severity) ||
    compare(a.check, b.check) ||
    compare(a.message, b.message)
  );
}

const compare = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);
