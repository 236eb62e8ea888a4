import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { check, checkFormats } from './check.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { explain } from './explain.ts';
import { format } from './format.ts';
import type { Streams } from './streams.ts';
import { trace, traceFormats } from './trace.ts';
import { version } from './version.ts';
import { visible } from './visible.ts';

/** Runs the tool with the words of its call, and gives the exit code. */
export function run(args: readonly string[], streams: Streams): ExitCode {
  let answer: ExitCode = exitCodes.clean;
  const program = programFor(streams, (code) => {
    answer = code;
  });
  try {
    program.parse([...args], { from: 'user' });
    return answer;
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    return error.exitCode === 0 ? exitCodes.clean : exitCodes.trouble;
  }
}

function programFor(streams: Streams, answer: (code: ExitCode) => void): Command {
  const program = new Command('setwright')
    .description(
      'Reads battery radios written down as text (.receiver files) and says what is wrong with them before the power goes on.',
    )
    .version(version, '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand('help [command]', 'print the help of a command')
    .configureOutput({
      writeOut: (text) => streams.out.write(text),
      writeErr: (text) => streams.err.write(text),
      outputError: (text, write) =>
        write(
          `setwright: ${visible(
            text
              .replace(/^error: /, '')
              .trimEnd()
              .replaceAll('\n', ' '),
          )}\n`,
        ),
      getOutHasColors: () => false,
      getErrHasColors: () => false,
    })
    .showHelpAfterError('For help: setwright --help')
    .exitOverride()
    .addHelpText(
      'after',
      `
Examples:
  setwright check my-set.receiver           what is wrong with a set
  setwright check sets/                     … with every set in a folder
  setwright check . --format sarif          … for a code host
  setwright trace my-set.receiver V3.grid   where the grid of V3 gets its bias
  setwright format my-set.receiver          put the text in order
  setwright explain grid-without-dc-return  what a check finds, and why it matters

Exit code: 0 nothing wrong, 1 findings, 2 a wrong call or something that cannot be read.`,
    );
  program
    .command('check')
    .summary('say what is wrong with sets')
    .description(
      'Says what is wrong with sets, why it matters and what to do, and whether B can reach a filament. Reads files, folders with all sets below them, patterns, and standard input (-).',
    )
    .argument('[files...]', 'files, folders or patterns; - for standard input')
    .addOption(
      new Option('--format <name>', 'how the findings are written')
        .choices(checkFormats)
        .default('text'),
    )
    .addOption(
      new Option('--max-warnings <number>', 'warnings that may be left without exit code 1')
        .argParser(wholeNumber)
        .default(0),
    )
    .addOption(
      new Option(
        '--as <state>',
        'take the parts as they are written, or as they were found on the bench',
      )
        .choices(['written', 'found'])
        .default('written'),
    )
    .addHelpText(
      'after',
      `
Errors and warnings count as findings; information and hints do not.

With --as found, what a part was found to be stands in place of what it should be: "found 2.5 meg"
in place of the part's value; a part "found open" passes nothing; one "found short" joins its ends.

Examples:
  setwright check my-set.receiver
  setwright check "sets/**/*.receiver" --max-warnings 3
  cat my-set.receiver | setwright check --format json`,
    )
    .action((files, options) => answer(check(files, options, streams)));
  program
    .command('trace')
    .summary('follow direct current from a terminal')
    .description(
      'Follows direct current from a terminal, part by part, and says why each passes it.',
    )
    .argument('<file>', 'the set; - for standard input')
    .argument('<terminal>', 'where to begin: V3.grid, B+45, L1.finish, T1.P')
    .addOption(
      new Option('--format <name>', 'how the paths are written')
        .choices(traceFormats)
        .default('text'),
    )
    .addHelpText(
      'after',
      `
Examples:
  setwright trace my-set.receiver V3.grid    its bias
  setwright trace my-set.receiver V5.plate   its feed, and the way home
  setwright trace my-set.receiver B+45       everything that the tap feeds`,
    )
    .action((file, terminal, options) => answer(trace(file, terminal, options, streams)));
  program
    .command('format')
    .summary('put texts in order')
    .description(
      'Puts texts in order in their files: indentation, spaces, empty lines. Words, units and comments stay as they are. Standard input is written to standard output.',
    )
    .argument('[files...]', 'files, folders or patterns; - for standard input')
    .option(
      '--check',
      'only list the files that are not in order; exit code 1 if there are any',
      false,
    )
    .option('--stdout', 'write to standard output and leave the file alone', false)
    .addHelpText(
      'after',
      `
Examples:
  setwright format my-set.receiver
  setwright format --check sets/`,
    )
    .action((files, options) => answer(format(files, options, streams)));
  program
    .command('explain')
    .summary('print the page of a check, or list all checks')
    .description('Prints the page of a check. Without a name it lists all checks.')
    .argument('[id]', 'the name of a check, as it stands in brackets behind a finding')
    .addHelpText(
      'after',
      `
Example:
  setwright explain battery-reversed`,
    )
    .action((id) => answer(explain(id, streams)));
  return program;
}

function wholeNumber(text: string): number {
  if (!/^\d{1,9}$/.test(text)) throw new InvalidArgumentError('Give a whole number, 0 or more.');
  return Number(text);
}
