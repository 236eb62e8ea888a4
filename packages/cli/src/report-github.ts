import type { Severity } from '@setwright/circuit';
import { visible } from '@setwright/report';
import type { CheckRun } from './check-run.ts';
import { rangeOf } from './place-lines.ts';

const commands: Readonly<Record<Severity, string>> = {
  error: 'error',
  warning: 'warning',
  information: 'notice',
  hint: 'notice',
};

/** Workflow commands, which GitHub shows as annotations beside the lines. */
export function githubReport({ files, troubles }: CheckRun): string {
  const out: string[] = [];
  for (const file of files) {
    for (const finding of file.findings) {
      const { start, end } = rangeOf(file, finding.place);
      out.push(
        command(
          commands[finding.severity],
          {
            file: file.path,
            line: start.line + 1,
            // GitHub marks columns only within one line.
            ...(start.line === end.line
              ? { col: start.character + 1, endColumn: end.character + 1 }
              : {}),
            endLine: end.line + 1,
            title: finding.check,
          },
          [finding.message, finding.why, finding.cure],
        ),
      );
    }
    for (const { title, supply } of file.sets) {
      const kind = supply.answer === 'can-reach' ? 'error' : 'notice';
      const properties = { file: file.path, title: 'Can B reach a filament?' };
      out.push(command(kind, properties, [`${title}: ${supply.sentence}`]));
    }
  }
  for (const { path, cause, cure } of troubles)
    out.push(
      command('error', { file: path, title: 'not checked' }, [`${path}: ${cause}. ${cure}`]),
    );
  return out.length > 0 ? `${out.join('\n')}\n` : '';
}

function command(
  name: string,
  properties: Readonly<Record<string, string | number>>,
  paragraphs: readonly string[],
): string {
  const said = Object.entries(properties).map(
    ([key, value]) => `${key}=${data(String(value)).replace(/:/g, '%3A').replace(/,/g, '%2C')}`,
  );
  const message = paragraphs.filter((words) => words !== '').map(data);
  // A line end within a command is written as its code.
  return `::${name} ${said.join(',')}::${message.join('%0A')}`;
}

function data(text: string): string {
  return visible(text).replace(/%/g, '%25');
}
