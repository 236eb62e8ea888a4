import { extname } from 'node:path';
import type * as Diagram from '@setwright/diagram';
import { listed, visible } from '@setwright/report';
import { nearest } from '@setwright/units';
import type {
  pngOf,
  Schematic,
  SchematicOptions,
  schematicOf,
  setMade,
  sheetMade,
  tourMade,
} from './drawing.ts';
import { mayBeDrawnTo, writeDrawing } from './drawing-file.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { readOneFile, theReceiver } from './one-file.ts';
import type { Streams } from './streams.ts';
import { sayWrong } from './troubles.ts';

export const paperNames = [
  'a4',
  'a4-landscape',
  'letter',
  'letter-landscape',
] as const satisfies readonly Diagram.PaperName[];

export interface DrawCommandOptions extends SchematicOptions {
  readonly output: string | undefined;
  /** Dots of a PNG for each unit of the drawing; undefined where not said. */
  readonly scale: number | undefined;
  /** Which set of the file: its number from 1, or its title. */
  readonly receiver: string | undefined;
}

/** What draws a schematic; loaded only when one is wanted. */
export type Draughtsman = () => {
  readonly schematicOf: typeof schematicOf;
  readonly pngOf: typeof pngOf;
  readonly tourMade: typeof tourMade;
  readonly sheetMade: typeof sheetMade;
  readonly setMade: typeof setMade;
};

/** Dots for each unit where nothing is said: sharp on the screens of today. */
const USUAL_SCALE = 2;

/** Letters below this many points are hard to read in print. Common practice. */
const READABLE = 6;

/** `setwright draw`: the schematic of a set, laid out from its text. */
export async function draw(
  file: string,
  options: DrawCommandOptions,
  streams: Streams,
  draughtsman: Draughtsman,
): Promise<ExitCode> {
  const read = readOneFile(file, 'something may be missing in the drawing', streams);
  const circuit = read && theReceiver(read, options.receiver, streams);
  if (!read || !circuit) return exitCodes.trouble;
  const { output, scale } = options;
  if (output !== undefined && !mayBeDrawnTo(output, read.file, streams, ['.svg', '.png']))
    return exitCodes.trouble;
  const isPicture = output !== undefined && extname(output).toLowerCase() === '.png';
  if (scale !== undefined && !isPicture) {
    sayWrong(
      streams,
      '--scale is for pictures made of dots.',
      'Name a PNG, as in: -o set.png; an SVG is sharp at every size.',
    );
    return exitCodes.trouble;
  }
  const { schematicOf, pngOf } = draughtsman();
  const made = await schematicOf(circuit, options);
  if ('views' in made) {
    sayNoView(options.view, made.views, streams);
    return exitCodes.trouble;
  }
  sayNotes(made, streams);
  if (output === undefined) {
    streams.out.write(made.svg);
    return exitCodes.clean;
  }
  if (!isPicture)
    return writeDrawing(output, made.svg, streams) ? exitCodes.clean : exitCodes.trouble;
  const picture = await pngOf(made.svg, scale ?? USUAL_SCALE, made.strangeLetters);
  if ('png' in picture)
    return writeDrawing(output, picture.png, streams) ? exitCodes.clean : exitCodes.trouble;
  if ('tooLarge' in picture) {
    const { width, height } = picture.tooLarge;
    sayWrong(
      streams,
      `${output} would be ${width} by ${height} dots, more than can be painted.`,
      'Name a smaller --scale, or write an SVG.',
    );
  } else
    sayWrong(
      streams,
      `${output} cannot be painted: the painter @resvg/resvg-js cannot be loaded here (${picture.painterMissing}).`,
      'Write an SVG, as in: -o set.svg, or install the tool anew with its optional parts.',
    );
  return exitCodes.trouble;
}

function sayNoView(view: string, views: readonly Diagram.View[], streams: Streams): void {
  const ids = views.map(({ id }) => id);
  const titles = views.flatMap(({ title }) =>
    title.startsWith('Suppose: ') ? [title.replace('Suppose: ', 'suppose ')] : [],
  );
  const likely = nearest(view, [...ids, ...titles], 2).map((id) => `"${id}"`);
  const all = `This set has: ${ids.join(', ')}.`;
  sayWrong(
    streams,
    `There is no view "${view}".`,
    likely.length > 0 ? `Did you mean ${listed(likely, 'or')}? ${all}` : all,
  );
}

function sayNotes({ notes, strangeLetters, smallestLetters }: Schematic, streams: Streams): void {
  const say = (note: string): unknown => streams.err.write(`setwright: ${visible(note)}\n`);
  for (const note of notes) say(note);
  if (strangeLetters !== '')
    say(
      `No outlines are at hand of: ${strangeLetters}. They stay text and look as each machine has them.`,
    );
  if (smallestLetters !== undefined && smallestLetters < READABLE)
    say(
      `The smallest letters are ${smallestLetters.toFixed(1)} points on this paper. Turn the paper (--page a4 or a4-landscape), or print on a larger sheet.`,
    );
}
