import { allChecks } from '@setwright/checks';
import type { Finding, Place } from '@setwright/circuit';
import { counted, listed, putRight, type Styles, visible } from '@setwright/report';
import type { RunSummary, Telling } from './check-run.ts';
import type { FileExamined, PartsAs, SetExamined } from './examine.ts';
import { excerptOf } from './excerpt.ts';
import { rangeOf } from './place-lines.ts';

/** No one reads more of one file than this at a time. */
const mostShown = 300;

/** With more sets than this, those where all is well with B are counted and not listed. */
const mostListed = 100;

/** One line at the end of the report: whether B can reach a filament of one set. */
interface SupplyLine {
  readonly path: string;
  readonly words: string;
  readonly answer: SetExamined['supply']['answer'];
}

/** For a person to read: every finding with its line, then a count, then whether B is safe. */
export function textTelling(partsAs: PartsAs, styles: Styles): Telling {
  const supplies: SupplyLine[] = [];
  const notRun = new Set<string>();
  let setsLeft = 0;
  return {
    head: '',
    file: (file) => {
      for (const set of file.sets) {
        supplies.push({
          path: file.path,
          // Put together anew, or it would hold the whole text that the title was cut from.
          words: [visible(set.title), ': ', visible(set.supply.sentence)].join(''),
          answer: set.supply.answer,
        });
        for (const id of set.notRun) notRun.add(id);
        if (set.notRun.length > 0) setsLeft += 1;
      }
      return fileLines(file, styles)
        .map((line) => `${line}\n`)
        .join('');
    },
    end: (summary) =>
      summary.files === 0
        ? ''
        : [
            styles.strong(countLine(summary, partsAs)),
            ...supplyLines(supplies, summary.files > 1, styles),
            ...notRunLines(notRun, supplies.length > 1 ? setsLeft : undefined, styles),
          ]
            .map((line) => `${line}\n`)
            .join(''),
  };
}

function fileLines(file: FileExamined, styles: Styles): string[] {
  const shown = file.findings.slice(0, mostShown);
  const out = shown.flatMap((finding) => [...findingLines(file, finding, styles), '']);
  const left = file.findings.length - shown.length;
  if (left > 0) {
    const more = counted(left, 'more finding', 'more findings');
    out.push(`${visible(file.path)}: ${more}; put these right first (--format json has all).`, '');
  }
  return [...out, ...waitingLines(file)];
}

function countLine({ tally, files }: RunSummary, partsAs: PartsAs): string {
  const counts = [
    counted(tally.error, 'error'),
    counted(tally.warning, 'warning'),
    ...(tally.information > 0
      ? [counted(tally.information, 'piece of information', 'pieces of information')]
      : []),
    ...(tally.hint > 0 ? [counted(tally.hint, 'hint')] : []),
  ];
  const taken = partsAs === 'found' ? ', parts as they were found' : '';
  return `${counts.join(', ')} in ${counted(files, 'file')}${taken}`;
}

function findingLines(file: FileExamined, finding: Finding, styles: Styles): string[] {
  const { severity, message, check, why, cure, place, related } = finding;
  const { line, source, mark } = excerptOf(file.lines, place);
  const number = String(line);
  const edge = ' '.repeat(number.length);
  return [
    `${styles.strong(where(file, place))}: ${styles.of(severity, severity)}: ${visible(message)} ${styles.faint(`[${check}]`)}`,
    ` ${styles.faint(`${number} |`)} ${source}`,
    ` ${styles.faint(`${edge} |`)} ${styles.of(severity, mark)}`,
    ...(why === '' ? [] : [`  why: ${visible(why)}`]),
    ...(cure === '' ? [] : [`  cure: ${visible(cure)}`]),
    ...related.map(({ place, message }) => `  see ${where(file, place)}: ${visible(message)}`),
  ];
}

/** `path:line:column`, counted from 1 as editors show them. */
function where(file: FileExamined, place: Place): string {
  const { line, character } = rangeOf(file, place).start;
  return `${visible(place.file)}:${line + 1}:${character + 1}`;
}

function waitingLines({ path, sets }: FileExamined): string[] {
  return sets.flatMap(({ title, waiting, unreadLines }) =>
    waiting.length === 0
      ? []
      : [
          `${visible(path)}: ${visible(title)}: ${counted(waiting.length, 'check waits', 'checks wait')} until ${putRight(unreadLines)}.`,
          '',
        ],
  );
}

function supplyLines(supplies: readonly SupplyLine[], named: boolean, styles: Styles): string[] {
  const isMany = supplies.length > mostListed;
  const listed = isMany
    ? supplies.filter(({ answer }) => answer === 'can-reach' || answer === 'cannot-tell')
    : supplies;
  const lines = listed.map(({ path, words, answer }) => {
    const line = `${named ? `${visible(path)}: ` : ''}${words}`;
    return answer === 'can-reach' ? styles.of('error', line) : line;
  });
  const without = supplies.filter(
    ({ answer }) => answer === 'no-b-supply' || answer === 'no-filament',
  );
  const safe = supplies.length - listed.length - without.length;
  return isMany
    ? [
        ...lines,
        `In ${counted(safe, 'set')} B cannot reach a filament at any position of any switch, jack or control; ${counted(without.length, 'set has', 'sets have')} no B supply or no filament.`,
      ]
    : lines;
}

/** What was not looked into, and how to ask for it. */
function notRunLines(ids: ReadonlySet<string>, sets: number | undefined, styles: Styles): string[] {
  const asks = allChecks.flatMap(({ id, thorough }) => (ids.has(id) && thorough?.asks) || []);
  if (asks.length === 0) return [];
  const of = sets === undefined ? '' : ` in ${counted(sets, 'set')}`;
  const what = listed(asks, sets === undefined ? 'and' : 'or');
  return [styles.faint(`Not looked into${of}: ${what}. --thorough does it, and takes longer.`)];
}
