import type { Severity } from '@setwright/circuit';
import { visible } from '@setwright/report';
import type { Telling } from './check-run.ts';
import type { FileExamined } from './examine.ts';
import { rangeOf } from './place-lines.ts';

const commands: Readonly<Record<Severity, string>> = {
  error: 'error',
  warning: 'warning',
  information: 'notice',
  hint: 'notice',
};

/** Workflow commands, which GitHub shows as annotations beside the lines. */
export const githubTelling: Telling = {
  head: '',
  file: (file) => lines([...findingCommands(file), ...supplyCommands(file)]),
  end: ({ troubles }) =>
    lines(
      troubles.map(({ path, cause, cure }) =>
        command('error', { file: path, title: 'not checked' }, [`${path}: ${cause}. ${cure}`]),
      ),
    ),
};

const lines = (commands: readonly string[]) => commands.map((line) => `${line}\n`).join('');

function findingCommands(file: FileExamined): string[] {
  return file.findings.map((finding) => {
    const { start, end } = rangeOf(file, finding.place);
    return command(
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
    );
  });
}

function supplyCommands({ path, sets }: FileExamined): string[] {
  return sets.map(({ title, supply }) =>
    command(
      supply.answer === 'can-reach' ? 'error' : 'notice',
      { file: path, title: 'Can B reach a filament?' },
      [`${title}: ${supply.sentence}`],
    ),
  );
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
