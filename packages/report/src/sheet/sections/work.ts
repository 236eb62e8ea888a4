import { empty, table, writing } from '../cells.ts';
import type { SheetSection } from '../sheet.ts';

/** Lines to write on: what was found wrong, what was done, where the old part is kept. */
const LINES = 5;

export function workSection(): SheetSection {
  const columns = ['Date', 'What was wrong', 'What was done', 'Old part kept', 'By'].map(writing);
  return {
    id: 'work',
    heading: 'Work done on it',
    blocks: table(
      undefined,
      columns,
      Array.from({ length: LINES }, () => columns.map(() => empty)),
    ),
  };
}
