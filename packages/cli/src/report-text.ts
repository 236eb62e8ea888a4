import type { Finding, Place } from '@setwright/circuit';
import { counted, putRight, type Styles, visible } from '@setwright/report';
import type { CheckRun } from './check-run.ts';
import { type FileExamined, tallyOf } from './examine.ts';
import { excerptOf } from './excerpt.ts';
import { rangeOf } from './place-lines.ts';

/** No one reads more of one file than this at a time. */
const mostShown = 300;

/** For a person to read: every finding with its line, then a count, then whether B is safe. */
export function textReport({ files, partsAs }: CheckRun, styles: Styles): string {
  const out: string[] = [];
  for (const file of files) {
    const shown = file.findings.slice(0, mostShown);
    for (const finding of shown) out.push(...findingLines(file, finding, styles), '');
    const left = file.findings.length - shown.length;
    if (left > 0) {
      const more = counted(left, 'more finding', 'more findings');
      out.push(
        `${visible(file.path)}: ${more}; put these right first (--format json has all).`,
        '',
      );
    }
    out.push(...waitingLines(file));
  }
  const tally = tallyOf(files);
  const counts = [
    counted(tally.error, 'error'),
    counted(tally.warning, 'warning'),
    ...(tally.information > 0
      ? [counted(tally.information, 'piece of information', 'pieces of information')]
      : []),
    ...(tally.hint > 0 ? [counted(tally.hint, 'hint')] : []),
  ];
  const taken = partsAs === 'found' ? ', parts as they were found' : '';
  out.push(styles.strong(`${counts.join(', ')} in ${counted(files.length, 'file')}${taken}`));
  for (const file of files) out.push(...supplyLines(file, files.length > 1, styles));
  return `${out.join('\n')}\n`;
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

function supplyLines(file: FileExamined, named: boolean, styles: Styles): string[] {
  return file.sets.map(({ title, supply }) => {
    const line = `${named ? `${visible(file.path)}: ` : ''}${visible(title)}: ${visible(supply.sentence)}`;
    return supply.answer === 'can-reach' ? styles.of('error', line) : line;
  });
}
