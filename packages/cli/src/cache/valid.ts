import type { CollectionRow } from '@setwright/report';
import type { Parcel } from '../work/parcel.ts';
import type { Resting } from './entries.ts';

/**
 * Whether what was read from a cache is what is told of a file, through and through. A cache may be
 * damaged, or made to harm: whatever is not as it must be is no entry at all.
 */
export function isParcel(value: unknown): value is Parcel {
  return has(value, {
    findings: (findings) => every(findings, isFinding),
    sets: (sets) => every(sets, isSet),
    uses: areUses,
  });
}

type Test = (value: unknown) => boolean;

const severities: ReadonlySet<unknown> = new Set(['error', 'warning', 'information', 'hint']);
const answers: ReadonlySet<unknown> = new Set([
  'can-reach',
  'cannot-reach',
  'cannot-tell',
  'no-b-supply',
  'no-filament',
]);

const isText: Test = (value) => typeof value === 'string';
const isOffset: Test = (value) => Number.isSafeInteger(value) && Number(value) >= 0;

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const every = (value: unknown, test: Test): boolean => Array.isArray(value) && value.every(test);

const has = (value: unknown, members: Readonly<Record<string, Test>>): boolean =>
  isObject(value) &&
  Object.entries(members).every(([name, test]) => Object.hasOwn(value, name) && test(value[name]));

const areUses: Test = (value) => every(value, (use) => has(use, { file: isText, stamp: isText }));

const isPlace: Test = (value) => has(value, { file: isText, start: isOffset, end: isOffset });

/** One that was not to be had has no text. */
const isEdit: Test = (value) => has(value, { place: isPlace, text: isText });

const isFinding: Test = (value) =>
  has(value, {
    check: isText,
    severity: (severity) => severities.has(severity),
    message: isText,
    why: isText,
    cure: isText,
    place: isPlace,
    related: (related) => every(related, (each) => has(each, { place: isPlace, message: isText })),
    parts: (parts) => every(parts, isText),
    fixes: (fixes) =>
      every(fixes, (fix) => has(fix, { title: isText, edits: (edits) => every(edits, isEdit) })),
  });

const isWaived: Test = (value) =>
  has(value, { finding: isFinding, waiver: (waiver) => has(waiver, { reason: isText }) });

const isWay: Test = (value) =>
  has(value, {
    tap: isText,
    tube: isText,
    terminal: isText,
    through: (through) => every(through, isText),
  });

const isSupplyAnswer: Test = (value) =>
  has(value, { answer: (answer) => answers.has(answer), sentence: isText }) &&
  (!isObject(value) || value.path === undefined || isWay(value.path));

const isSet: Test = (value) =>
  has(value, {
    title: isText,
    supply: isSupplyAnswer,
    waiting: (waiting) => every(waiting, isText),
    unreadLines: (lines) => every(lines, isOffset),
    waived: (waived) => every(waived, isWaived),
    notRun: (ids) => every(ids, isText),
  });

/** What a cache keeps of the pages of a file. */
export interface KeptPages extends Resting {
  readonly pages: readonly {
    readonly row: CollectionRow;
    /** SHA-256 of the page as it was written. */
    readonly hash: string;
  }[];
}

/** The same for what is kept of pages. */
export function areKeptPages(value: unknown): value is KeptPages {
  return has(value, {
    uses: areUses,
    pages: (pages) => every(pages, (page) => has(page, { row: isRow, hash: isText })),
  });
}

const isCounts: Test = (value) =>
  has(value, { error: isOffset, warning: isOffset, information: isOffset, hint: isOffset });

const isRow: Test = (value) =>
  has(value, {
    title: isText,
    kind: isText,
    tubes: (tubes) => every(tubes, (tube) => has(tube, { type: isText, count: isOffset })),
    dials: (dials) => every(dials, isText),
    findings: isCounts,
  }) &&
  isObject(value) &&
  (value.year === undefined || isText(value.year));
