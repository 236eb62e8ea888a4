import { tourLevels, visible } from '@setwright/report';
import { Command, CommanderError, Option } from 'commander';
import { bench, benchFormats } from './bench.ts';
import { check, checkFormats, type Help } from './check.ts';
import { collection } from './collection.ts';
import { compare, compareFormats } from './compare.ts';
import { describe } from './compare-describe.ts';
import { dials, dialsFormats } from './dials.ts';
import { type Draughtsman, draw, paperNames } from './draw.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { explain } from './explain.ts';
import { faults, faultsFormats } from './faults.ts';
import { format } from './format.ts';
import { newSet } from './new.ts';
import { frequency, readingList, scale, shard, wholeNumber } from './option-words.ts';
import {
  asOption,
  cacheOption,
  groundOption,
  jobsOption,
  pageFormatOption,
  pageOption,
  receiverOption,
  stationsOption,
  symbolsOption,
  themeOption,
  timeLimitOption,
  unitsOption,
} from './options.ts';
import { response, responseFormats } from './response.ts';
import type { Server } from './serve.ts';
import { report } from './sheet-command.ts';
import type { Streams } from './streams.ts';
import { suspects, suspectsFormats } from './suspects.ts';
import { tour } from './tour.ts';
import { trace, traceFormats, traceKinds } from './trace.ts';
import { tubes } from './tubes.ts';
import { values, valuesFormats } from './values.ts';
import { version } from './version.ts';

/** Runs the tool with the words of its call, and gives the exit code. */
export function run(
  args: readonly string[],
  streams: Streams,
  drawing: Drawing | undefined = undefined,
): ExitCode {
  let answer: ExitCode = exitCodes.clean;
  const program = programFor(
    streams,
    (code) => {
      answer = code;
    },
    drawing,
  );
  try {
    program.parse([...args], { from: 'user' });
    return answer;
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    return error.exitCode === 0 ? exitCodes.clean : exitCodes.trouble;
  }
}

/** What `draw` needs, which takes its time and so answers later, and what serves an editor. */
export interface Drawing {
  readonly draughtsman: Draughtsman;
  readonly server: Server;
  readonly later: (answer: Promise<ExitCode>) => void;
  /** For collections: how other processes are started. */
  readonly help: Help;
}

function programFor(
  streams: Streams,
  answer: (code: ExitCode) => void,
  drawing: Drawing | undefined,
): Command {
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
  setwright values my-set.receiver          its numbers, each with its because
  setwright draw my-set.receiver -o set.svg its schematic, laid out by itself
  setwright tour my-set.receiver -o tour.html  the guided tour of a set
  setwright report my-set.receiver -o sheet.html  its service sheet, for print
  setwright report --collection sets/ -o site     a page for every set, and an index of them
  setwright dials my-set.receiver           where the dials stand for the stations
  setwright response my-set.receiver        gain, selectivity, squealing over the band
  setwright bench my-set.receiver           what a meter should show, beside what it showed
  setwright faults my-set.receiver          what each fault would do
  setwright suspects my-set.receiver        what is the matter, and what to measure next
  setwright trace my-set.receiver V3.grid   where the grid of V3 gets its bias
  setwright format my-set.receiver          put the text in order
  setwright compare old.receiver new.receiver  what changed, and what that does to the numbers
  setwright explain grid-without-dc-return  what a check finds, and why it matters

Exit code: 0 nothing wrong, 1 findings, 2 a wrong call or something that cannot be read,
130 stopped by Ctrl-C.`,
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
    .addOption(asOption())
    .option('--thorough', 'run the checks that take long too, such as for squealing', false)
    .addOption(jobsOption())
    .addOption(cacheOption())
    .option('--no-cache', 'keep nothing from run to run, which is usual')
    .addOption(
      new Option('--shard <i/n>', 'only the files that fall to run i of n').argParser(shard),
    )
    .addOption(timeLimitOption('60, with --thorough 600'))
    .addHelpText(
      'after',
      `
Errors and warnings count as findings; information and hints do not.

With --as found, what a part was found to be stands in place of what it should be: "found 2.5 meg"
in place of the part's value; a part "found open" passes nothing; one "found short" joins its ends.

Examples:
  setwright check my-set.receiver
  setwright check "sets/**/*.receiver" --max-warnings 3
  setwright check my-set.receiver --thorough
  setwright check sets/ --cache .setwright-cache   the second time only what changed
  setwright check sets/ --shard 2/5   the second of five runners
  cat my-set.receiver | setwright check --format json`,
    )
    .action((files, options) => {
      const answered = check(files, options, streams, drawing?.help);
      if (typeof answered === 'number') answer(answered);
      else drawing?.later(answered);
    });
  program
    .command('values')
    .summary('reckon the numbers of a set, each with its because')
    .description(
      'Reckons every number of a set that the text says enough for: windings and how they are coupled, what the tuned circuits cover, reactances, volts and currents with no signal, how long the batteries last. Each comes with its because; for the others it says what is missing.',
    )
    .argument('<file>', 'the set; - for standard input')
    .addOption(
      new Option('--format <name>', 'how the numbers are written')
        .choices(valuesFormats)
        .default('text'),
    )
    .addOption(asOption())
    .addOption(unitsOption())
    .option('--short', 'in the text the numbers alone, without their becauses', false)
    .addHelpText(
      'after',
      `
JSON and CSV give numbers in SI units, whatever --units says.

Examples:
  setwright values my-set.receiver
  setwright values my-set.receiver --short --units si
  setwright values my-set.receiver --format csv > my-set.csv`,
    )
    .action((file, options) => answer(values(file, options, streams)));
  program
    .command('dials')
    .summary('tell where the dials stand for the stations')
    .description(
      'Tells where every dial stands for stations over the band, how far the dials are apart, and how circuits on one shaft keep together.',
    )
    .argument('<file>', 'the set; - for standard input')
    .addOption(
      new Option('--format <name>', 'how the readings are written')
        .choices(dialsFormats)
        .default('text'),
    )
    .addOption(asOption())
    .addOption(stationsOption())
    .addOption(
      new Option('--every <step>', 'from one station to the next, as in: 100 kc')
        .argParser(frequency)
        .conflicts('stations'),
    )
    .addOption(
      new Option('--readings <list>', 'what the dials are tuned to at these readings, as of a log')
        .argParser(readingList)
        .conflicts(['stations', 'every', 'plot', 'output']),
    )
    .option('--plot', 'draw the chart in the terminal, below the table', false)
    .option('-o, --output <file>', 'draw the chart into this file, which ends in .svg')
    .addOption(themeOption())
    .addOption(unitsOption())
    .addHelpText(
      'after',
      `
Examples:
  setwright dials my-set.receiver
  setwright dials my-set.receiver --stations "610, 780, 1.2 Mc, 360 meters"
  setwright dials my-set.receiver --every 100 --plot
  setwright dials my-set.receiver --readings 27,43.5,61
  setwright dials my-set.receiver -o chart.svg`,
    )
    .action((file, options) => answer(dials(file, options, streams)));
  program
    .command('response')
    .summary('reckon gain, selectivity and stability over the band')
    .description(
      'Reckons what a set makes of a signal over its band: volts at the detector, gain of every stage, how sharply it tunes, whether it squeals, and what of the audio reaches the loudspeaker.',
    )
    .argument('<file>', 'the set; - for standard input')
    .addOption(
      new Option('--format <name>', 'how the figures are written')
        .choices(responseFormats)
        .default('text'),
    )
    .addOption(asOption())
    .addOption(stationsOption())
    .option('--plot', 'draw the curves in the terminal, below the table', false)
    .option('-o, --output <file>', 'draw the curves into this file, which ends in .svg')
    .addOption(themeOption())
    .addOption(unitsOption())
    .addHelpText(
      'after',
      `
Examples:
  setwright response my-set.receiver
  setwright response my-set.receiver --stations 610,780 --plot
  setwright response my-set.receiver -o curves.svg`,
    )
    .action((file, options) => answer(response(file, options, streams)));
  program
    .command('bench')
    .summary('tell what a meter should show all over a set')
    .description(
      'Makes the chart of readings to expect: volts at every tap, tube, transformer and choke, the current in every battery lead, cold ohms of every part and of the ways through the set; each with the band that tolerances, the state of the batteries and the meter allow. Readings that the text says were taken stand beside what is expected.',
    )
    .argument('<file>', 'the set; - for standard input')
    .addOption(
      new Option('--format <name>', 'how the chart is written')
        .choices(benchFormats)
        .default('text'),
    )
    .option(
      '--bench <title>',
      'the bench of the text whose meter and readings count, not its first',
    )
    .addOption(unitsOption())
    .addHelpText(
      'after',
      `
Without a bench in the text the readings are those of a meter of 10 megohms.

Examples:
  setwright bench my-set.receiver
  setwright bench my-set.receiver --bench "first power-up"
  setwright bench my-set.receiver --format markdown > chart.md`,
    )
    .action((file, options) => answer(bench(file, { bench: undefined, ...options }, streams)));
  program
    .command('faults')
    .summary('tell what each fault would do to a set')
    .description(
      'Tells of every single fault that the parts of a set may have how common it is, what is heard, which readings show it and what may be lost; or of one that the text supposes.',
    )
    .argument('<file>', 'the set; - for standard input')
    .addOption(
      new Option('--format <name>', 'how the faults are written')
        .choices(faultsFormats)
        .default('text'),
    )
    .option('--short', 'in the text one line for each fault', false)
    .option('--part <name>', 'only the faults of this part')
    .addOption(
      new Option('--suppose <title>', 'only what the text supposes under this title').conflicts(
        'part',
      ),
    )
    .option('--bench <title>', 'the bench of the text whose meter counts, not its first')
    .addOption(unitsOption())
    .addHelpText(
      'after',
      `
Examples:
  setwright faults my-set.receiver --short
  setwright faults my-set.receiver --part T1
  setwright faults my-set.receiver --suppose "C battery lead off"`,
    )
    .action((file, options) =>
      answer(
        faults(
          file,
          { bench: undefined, suppose: undefined, part: undefined, ...options },
          streams,
        ),
      ),
    );
  program
    .command('suspects')
    .summary('tell what may be the matter, and what to measure next')
    .description(
      'Ranks by a bench of the text what may be the matter with a set: every single fault and the likely pairs, with what speaks for and against each, and the next reading that would best tell them apart. Readings, what is heard, clicks and dials without effect all count.',
    )
    .argument('<file>', 'the set; - for standard input')
    .addOption(
      new Option('--format <name>', 'how the suspects are written')
        .choices(suspectsFormats)
        .default('text'),
    )
    .option('--bench <title>', 'the bench of the text that counts, not its first')
    .addHelpText(
      'after',
      `
Shares rest on how common faults are in sets of this age: common practice, no statistics.

Examples:
  setwright suspects my-set.receiver
  setwright suspects my-set.receiver --bench "dead at the first try"
  setwright suspects my-set.receiver --format json`,
    )
    .action((file, options) => answer(suspects(file, { bench: undefined, ...options }, streams)));
  program
    .command('trace')
    .summary('follow direct current and signals from a terminal')
    .description(
      'Follows direct current, radio and audio from a terminal home, part by part, and says why each passes them. Radio is taken in the middle of the band, audio at 1000 cycles; both take the way of least impedance.',
    )
    .argument('<file>', 'the set; - for standard input')
    .argument('<terminal>', 'where to begin: V3.grid, B+45, L1.finish, T1.P')
    .addOption(
      new Option('--format <name>', 'how the paths are written')
        .choices(traceFormats)
        .default('text'),
    )
    .addOption(new Option('--kind <name>', 'what is followed').choices(traceKinds).default('all'))
    .addHelpText(
      'after',
      `
Examples:
  setwright trace my-set.receiver V3.grid    its bias
  setwright trace my-set.receiver V5.plate   its feed, and the way home
  setwright trace my-set.receiver B+45       everything that the tap feeds
  setwright trace my-set.receiver V2.plate --kind radio   the way home of its radio current`,
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

  program
    .command('draw')
    .summary('draw the schematic of a set')
    .description(
      'Draws the schematic of a set, laid out from its text alone, as SVG or PNG. Colors are baked in and letters are outlines, so that it looks the same everywhere.',
    )
    .argument('<file>', 'the file of a set; - for standard input')
    .option(
      '-o, --output <file>',
      'where to write it, ending in .svg or .png; as SVG to standard output where not given',
    )
    .addOption(
      new Option('--view <name>', 'what is drawn over it; nothing moves for it').default('whole'),
    )
    .option('--values', 'letter reckoned numbers at their parts: volts, bias, bands', false)
    .option('--stages', 'shade and name the stages', false)
    .addOption(groundOption())
    .addOption(symbolsOption())
    .addOption(
      new Option('--page <paper>', 'on a sheet with a title block, as large as it goes').choices(
        paperNames,
      ),
    )
    .addOption(
      new Option(
        '--rows <how>',
        'break a long set into rows for a page, or keep it in one line',
      ).choices(['page', 'one']),
    )
    .addOption(
      new Option('--scale <number>', 'dots of a PNG for each unit of the drawing').argParser(scale),
    )
    .addOption(receiverOption())
    .addOption(unitsOption())
    .addHelpText(
      'after',
      `
Views:
  whole                 nothing but the set
  radio, audio          the way of the signal, to the detector and from it
  bias, bias V3         from each grid home, or from one
  plate, plate V3       plate current, and how radio gets home from the plates
  filaments             round through every filament
  stage NAME            one stage
  suppose N or TITLE    a what-if of the text, with the part that fails

Examples:
  setwright draw my-set.receiver -o my-set.svg
  setwright draw my-set.receiver --view "bias V3" -o bias.png --scale 3
  setwright draw my-set.receiver --values --stages --page a4-landscape -o sheet.svg
  setwright draw my-set.receiver --symbols period --theme transparent -o set.png`,
    )
    .action((file, options) => {
      if (drawing) drawing.later(draw(file, options, streams, drawing.draughtsman));
    });

  program
    .command('tour')
    .summary('make the guided tour of a set')
    .description(
      'Makes the guided tour of a set: an ordered walk from its batteries to what fails, made from the text alone, with the schematic lit step by step. As one page for a browser, which fetches nothing from anywhere, or as Markdown with a picture beside every step.',
    )
    .argument('<file>', 'the file of a set; - for standard input')
    .addOption(pageOption())
    .addOption(pageFormatOption())
    .addOption(
      new Option('--level <who>', 'whom it is for: those who are new to it, or who mend such sets')
        .choices(tourLevels)
        .default('restorer'),
    )
    .addOption(receiverOption())
    .addOption(symbolsOption())
    .addOption(unitsOption())
    .addHelpText(
      'after',
      `
Every step of the page has a link of its own, as in: tour.html#bias-v1

Examples:
  setwright tour my-set.receiver -o tour.html
  setwright tour my-set.receiver --level newcomer --symbols period -o tour.html
  setwright tour my-set.receiver -o tour/tour.md`,
    )
    .action((file, options) => {
      if (drawing) drawing.later(tour(file, options, streams, drawing.draughtsman));
    });

  program
    .command('compare')
    .summary('tell how two states of a set differ, and what that does')
    .description(
      'Tells how two states of a set differ, in the words of the trade: of the circuit, not of the text, in which order and hand mean nothing. And what that does to the numbers, and which findings are new or cured. Of files with several sets each is compared with its like.',
    )
    .argument('<files...>', 'the old file and the new; /dev/null for one that is not there')
    .addOption(
      new Option('--format <name>', 'how it is told').choices(compareFormats).default('text'),
    )
    .option('--no-numbers', 'leave out what it does to the numbers, which takes a moment')
    .option('--as <path>', 'what the file is called in what is told')
    .option(
      '--drawing',
      'one drawing of both states, what differs marked, in place of words',
      false,
    )
    .option('-o, --output <file>', 'where to draw it, ending in .svg or .png, besides the words')
    .addOption(groundOption())
    .addOption(symbolsOption())
    .addOption(unitsOption())
    .addHelpText(
      'after',
      `
Exit code: 0 no difference, 1 differences, 2 a wrong call or something that cannot be read. Called
by git, as its external diff, always 0.

With git:
  git config diff.receiver.command "setwright compare"
  echo "*.receiver diff=receiver" >> .gitattributes
  git diff; git log --ext-diff -p

Examples:
  setwright compare old.receiver new.receiver
  setwright compare old.receiver new.receiver --format markdown
  setwright compare old.receiver new.receiver -o change.svg`,
    )
    .action((words, options) => {
      const told = compare(
        words,
        { as: undefined, output: undefined, ...options },
        streams,
        drawing?.draughtsman,
      );
      if (drawing) drawing.later(told);
    });
  program
    .command('describe')
    .summary('write a set as one line a fact, for comparing line by line')
    .description(
      'Writes every fact of a set on a line of its own, sorted: the same for two texts that say the same of a set. For git, as text conversion, and for other programs that compare lines.',
    )
    .argument('<file>', 'the set; - for standard input')
    .addHelpText(
      'after',
      `
With git:
  git config diff.receiver.textconv "setwright describe"
  echo "*.receiver diff=receiver" >> .gitattributes

Example:
  setwright describe my-set.receiver`,
    )
    .action((file) => answer(describe(file, streams)));
  program
    .command('report')
    .summary('make the service sheet of a set')
    .description(
      'Makes the service sheet of a set, to be pinned above the bench or handed over with it: cautions, schematic, supplies, parts, coil data, dial chart, gain and selectivity, a bench chart to write in, what common faults look like, findings still open, what is meant so, what is not known. As one page that is ready for print and fetches nothing, or as Markdown with pictures beside it.',
    )
    .argument('<file>', 'the file of a set; - for standard input')
    .addOption(pageOption())
    .addOption(pageFormatOption())
    .addOption(receiverOption())
    .option(
      '--bench <title>',
      'the bench of the text whose meter and readings count, not its first',
    )
    .option('--date <text>', 'a date to print; without it there is a line to write one on')
    .addOption(symbolsOption())
    .addOption(unitsOption())
    .addOption(
      new Option(
        '--collection',
        'of a folder: a page for every set, and an index of them, into the folder of -o',
      ).conflicts(['format', 'receiver', 'bench', 'date']),
    )
    .addOption(jobsOption())
    .addOption(cacheOption())
    .addOption(timeLimitOption('300'))
    .addHelpText(
      'after',
      `
The same text gives the same sheet: nothing of the day or the machine is in it.

Examples:
  setwright report my-set.receiver -o sheet.html
  setwright report my-set.receiver --symbols period --date "12 May 1926" -o sheet.html
  setwright report my-set.receiver -o sheet/sheet.md
  setwright report --collection sets/ -o site`,
    )
    .action((file, options) => {
      if (!drawing) return;
      const { draughtsman, help } = drawing;
      drawing.later(
        options.collection
          ? collection(file, options, streams, draughtsman, help)
          : report(file, options, streams, draughtsman),
      );
    });

  program
    .command('new')
    .summary('begin a set from a pattern, or list the patterns')
    .description(
      'Writes a whole set of a family of the time, with words on what to fill in, to change into your own. Without a name it lists the patterns.',
    )
    .argument('[pattern]', 'the name of a pattern, such as three-dial')
    .option('-o, --output <file>', 'where to write it; to standard output where not given')
    .option('--title <title>', 'what your set is called')
    .option('--force', 'write over a file that is there already', false)
    .addHelpText(
      'after',
      `
Examples:
  setwright new
  setwright new one-tube -o my-set.receiver --title "Boat shed one-tube"`,
    )
    .action((name, options) => answer(newSet(name, options, streams)));

  program
    .command('tubes')
    .summary("print the tube library's figures, and how they are fitted")
    .description(
      'Prints the published points of the tube types in the library, what the plate current is reckoned at each, and the sources.',
    )
    .argument('[type]', 'one type, such as 01-A; all where not given')
    .addHelpText(
      'after',
      `
Example:
  setwright tubes 01-A`,
    )
    .action((type) => answer(tubes(type, streams)));

  program
    .command('serve')
    .summary('serve an editor that speaks the Language Server Protocol')
    .description(
      'Serves an editor that speaks the Language Server Protocol, until the editor ends the conversation.',
    )
    .requiredOption('--stdio', 'over standard input and output')
    .addHelpText(
      'after',
      `
An editor starts it by itself: as the command of its language server for files ending in .receiver
enter: setwright serve --stdio`,
    )
    .action(() => drawing?.server().serveStdio());
  return program;
}
