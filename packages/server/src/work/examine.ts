import type { TubeLaws } from '@setwright/analysis';
import {
  allChecks,
  type Check,
  type CheckGroup,
  type CheckStep,
  checkSteps,
} from '@setwright/checks';
import type { Finding, Place } from '@setwright/circuit';
import type { ReadFile } from '@setwright/language';
import type { Snapshot } from '../text/snapshot.ts';
import { type Pause, SLICE } from './pause.ts';

/** How far the checks of a text have come; each stage holds what those before it found. */
export type Stage = 'text' | 'wiring' | 'numbers' | 'thorough';

/** What is known of a text by the end of a stage. */
export interface Found {
  readonly stage: Stage;
  /** By receiver in order, then what belongs to none. */
  readonly findings: readonly Finding[];
  /** Ids of checks that wait for lines that cannot be read, in any receiver. */
  readonly waiting: readonly string[];
}

/** What an examination needs besides the text. */
export interface Examining {
  /** Findings of an earlier version, moved to where they stand now. */
  readonly standing: readonly Finding[];
  readonly laws: TubeLaws;
  readonly pause: Pause;
  /** True when nobody wants to know any more. */
  readonly isStale: () => boolean;
  /** Resolves when there is time for what takes long; false when nobody wants to know any more. */
  readonly leisure: () => Promise<boolean>;
  readonly tell: (found: Found) => void;
}

const isWiring: ReadonlySet<CheckGroup> = new Set(['Wiring', 'DC returns', 'Batteries', 'Safety']);

const stages: readonly (readonly [Stage, readonly Check[]])[] = [
  ['text', allChecks.filter(({ group }) => group === 'Reading the text')],
  ['wiring', allChecks.filter(({ group, thorough }) => isWiring.has(group) && !thorough)],
  [
    'numbers',
    allChecks.filter(
      ({ group, thorough }) =>
        !isWiring.has(group) && group !== 'Reading the text' && thorough === undefined,
    ),
  ],
  ['thorough', allChecks.filter(({ thorough }) => thorough !== undefined)],
];

/**
 * Runs all checks on a text, what is quickest to know first, and tells what was found by the end of
 * each stage. Works in slices between which others have their turn, and stops between two checks
 * once the text is out of date.
 */
export async function examine(snapshot: Snapshot, work: Examining): Promise<void> {
  const { file } = snapshot;
  const inOrder = stages.flatMap(([, checks]) => checks);
  const sets = file.circuits.map((circuit, receiver) => ({
    steps: checkSteps(circuit, inOrder, work.laws),
    standing: work.standing.filter(({ place }) => receiverOf(file, place) === receiver),
  }));
  let sliceEnds = performance.now() + SLICE;
  for (const [stage, checks] of stages) {
    if (stage === 'thorough' && !(await work.leisure())) return;
    if (work.isStale()) return;
    const findings: Finding[] = [];
    const waiting = new Set<string>();
    for (const { steps, standing } of sets) {
      let last: CheckStep | undefined;
      for (let count = 0; count < checks.length; count++) {
        if (performance.now() >= sliceEnds) {
          await work.pause();
          sliceEnds = performance.now() + SLICE;
        }
        if (work.isStale()) return;
        const step = steps.next();
        if (!step.done) last = step.value;
      }
      const checked = last?.soFar(standing);
      findings.push(...(checked?.findings ?? []));
      for (const id of checked?.waiting ?? []) waiting.add(id);
    }
    work.tell({ stage, findings: [...findings, ...file.remarks], waiting: [...waiting] });
    // What was told is sent in a turn of its own, and is not to wait for the next stage.
    await work.pause();
    sliceEnds = performance.now() + SLICE;
  }
}

/** Which receiver a place belongs to: the last that begins before it; -1 for none. */
function receiverOf({ circuits }: ReadFile, { start }: Place): number {
  return circuits.findLastIndex(({ place }) => place.start <= start);
}
