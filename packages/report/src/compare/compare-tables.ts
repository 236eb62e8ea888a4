import type { ComparedSet } from './compared.ts';
import { kindWords, underHeading } from './report-compare.ts';

/** A table of plain words; `about` names what each row is about, empty where nothing is. */
export interface CompareTable {
  readonly title: string;
  readonly heading: readonly string[];
  readonly rows: readonly (readonly string[])[];
  readonly about: readonly string[];
}

/** How two states of a set differ, as tables: sentences, numbers, findings. */
export function compareTables({ now, sentences, numbers, findings }: ComparedSet): CompareTable[] {
  const partOf = (name = '') => now.partOfEnd.get(name)?.name ?? name;
  const moved = numbers?.numbers ?? [];
  const squeals = numbers?.stability;
  const told = [
    ...findings.fresh.map((finding) => ({ how: 'new', finding })),
    ...findings.cured.map((finding) => ({ how: 'cured', finding })),
  ];
  const tables: CompareTable[] = [
    {
      title: 'What has changed',
      heading: ['', 'what'],
      rows: sentences.map((each) => [kindWords[each.kind], underHeading(each)]),
      about: sentences.map(({ after }) => partOf(after[0])),
    },
    {
      title: 'What it does to the numbers',
      heading: ['number', 'before', 'after'],
      rows: [
        ...moved.map(({ part, words, beforeText, afterText }) => [
          `${part}, ${words}`,
          beforeText,
          afterText,
        ]),
        ...(squeals ? [['whether it squeals', squeals.before, squeals.after]] : []),
      ],
      about: [],
    },
    {
      title: 'Findings',
      heading: ['', 'finding'],
      rows: told.map(({ how, finding }) => [how, finding.message]),
      about: told.map(({ how, finding }) => (how === 'new' ? (finding.parts[0] ?? '') : '')),
    },
  ];
  return tables.filter(({ rows }) => rows.length > 0);
}
