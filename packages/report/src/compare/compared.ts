import { checkCircuit } from '@setwright/checks';
import type { Circuit } from '@setwright/circuit';
import {
  type Differences,
  differencesOf,
  type FindingsChanged,
  findingsChanged,
  isSame,
  pairedSets,
  plainSetOf,
  renaming,
} from '@setwright/compare';
import type { UnitStyle } from '../values/quantities.ts';
import { type NumbersMoved, numbersMoved } from './numbers-moved.ts';
import type { Sentence } from './sentence.ts';
import { sentencesOf } from './sentences.ts';
import { summaryOf } from './summary.ts';

/** A set that both files have. */
export interface ComparedSet {
  readonly status: 'same' | 'different';
  readonly old: Circuit;
  readonly now: Circuit;
  readonly differences: Differences;
  readonly sentences: readonly Sentence[];
  /** Undefined where nobody asked for numbers, or nothing differs. */
  readonly numbers: NumbersMoved | undefined;
  readonly findings: FindingsChanged;
}

/** A set that only one of the files has. */
export interface LoneSet {
  readonly status: 'new' | 'gone';
  readonly circuit: Circuit;
  readonly summary: readonly string[];
}

export type ComparedReceiver = ComparedSet | LoneSet;

export interface CompareOptions {
  readonly style: UnitStyle;
  /** What the change does to the numbers, which takes a moment. */
  readonly withNumbers: boolean;
  /** Only what this set of the new file was. */
  readonly only?: Circuit;
}

/** Every receiver of two files, compared. Never throws. */
export function comparedReceivers(
  olds: readonly Circuit[],
  nows: readonly Circuit[],
  options: CompareOptions,
): ComparedReceiver[] {
  const wanted = pairedSets(olds, nows).filter(
    ({ now }) => options.only === undefined || now === options.only,
  );
  return wanted.flatMap(({ old, now }): ComparedReceiver[] => {
    if (old && now) return [comparedSet(old, now, options)];
    const circuit = old ?? now;
    if (!circuit) return [];
    const status = old ? 'gone' : 'new';
    return [{ status, circuit, summary: summaryOf(circuit, options.style) }];
  });
}

/** Two states of one set, compared. */
function comparedSet(
  old: Circuit,
  now: Circuit,
  { style, withNumbers }: CompareOptions,
): ComparedSet {
  const [before, after] = [plainSetOf(old), plainSetOf(now)];
  const differences = differencesOf(before, after);
  const same = isSame(differences);
  const rename = renaming(before, differences);
  return {
    status: same ? 'same' : 'different',
    old,
    now,
    differences,
    sentences: same ? [] : sentencesOf(before, after, differences),
    numbers: withNumbers && !same ? numbersMoved(old, now, rename, style) : undefined,
    findings: same
      ? { fresh: [], cured: [] }
      : findingsChanged(checkCircuit(old).findings, checkCircuit(now).findings, rename),
  };
}
