import { allChecks, type Check, pageOf } from '@setwright/checks';
import { listed, type Styles, wrapped } from '@setwright/report';
import { nearest } from '@setwright/units';
import { type ExitCode, exitCodes } from './exit.ts';
import { pageForTerminal } from './page.ts';
import type { Streams } from './streams.ts';
import { stylesFor } from './styles.ts';
import { sayWrong } from './troubles.ts';

/** `setwright explain`: the page of a check, or the list of all. */
export function explain(
  id: string | undefined,
  streams: Streams,
  checks: readonly Check[] = allChecks,
): ExitCode {
  const styles = stylesFor(streams.out, streams.env);
  const columns = streams.out.columns ?? 80;
  if (id === undefined) {
    streams.out.write(listOf(checks, columns, styles));
    return exitCodes.clean;
  }
  const check = checks.find((candidate) => candidate.id === id);
  if (check) {
    streams.out.write(pageForTerminal(pageOf(check), columns, styles));
    return exitCodes.clean;
  }
  const likely = nearest(
    id,
    checks.map((candidate) => candidate.id),
  );
  sayWrong(
    streams,
    `No check is called "${id}".`,
    likely.length > 0
      ? `Did you mean ${listed(likely, 'or')}?`
      : 'For the list of all: setwright explain',
  );
  return exitCodes.trouble;
}

function listOf(checks: readonly Check[], columns: number, styles: Styles): string {
  const width = Math.max(40, Math.min(columns, 88));
  const groups = [...new Set(checks.map(({ group }) => group))];
  const out = groups.flatMap((group) => [
    styles.strong(group),
    ...checks
      .filter((check) => check.group === group)
      .flatMap(({ id, summary }) => [`  ${id}`, ...wrapped(summary, width, '      ')]),
    '',
  ]);
  return `${[...out, 'For the page of one: setwright explain ID'].join('\n')}\n`;
}
