/** One drawing for all steps, with what each of them draws over it in layers of their own. */
export interface LayeredDrawing {
  /** The bare drawing with the layers in their places, none of them shown. */
  readonly svg: string;
  /** By step: the numbers of the shapes that are dimmed in it. */
  readonly dimmed: readonly (readonly number[])[];
  /** By step: what the drawing shows then, for those who hear it. */
  readonly descriptions: readonly string[];
}

/** A stretch of lines that a step adds before one line of the bare drawing. */
interface Added {
  readonly before: number;
  readonly lines: readonly string[];
}

/** What a step's drawing has besides the bare one. */
interface Overlaid {
  readonly added: readonly Added[];
  /** By line of the bare drawing: which of its classes are dimmed, counted from the left. */
  readonly dims: ReadonlyMap<number, readonly number[]>;
  readonly description: string;
}

/**
 * Lays drawings of one scene over one another. A drawing writes every shape on a line of its own,
 * what is drawn over it does not move it, and a shape that is dimmed says so with a class. So the
 * drawing of a step is the bare one with some lines more and some classes more.
 *
 * @param bare the drawing with nothing over it
 * @param drawn the drawing of each step
 */
export function layered(bare: string, drawn: readonly string[]): LayeredDrawing {
  const lines = bare.split('\n');
  const overlaid = drawn.map((svg) => overlaidOn(lines, svg.split('\n')));
  const numbers = new Map<string, number>();
  const numberOf = (line: number, at: number): number => {
    const key = `${line} ${at}`;
    const known = numbers.get(key) ?? numbers.size;
    numbers.set(key, known);
    return known;
  };
  const dimmed = overlaid.map(({ dims }) =>
    [...dims].flatMap(([line, places]) => places.map((at) => numberOf(line, at))),
  );
  const before = new Map<number, string[]>();
  for (const [step, { added }] of overlaid.entries())
    for (const each of added) {
      const here = before.get(each.before) ?? [];
      here.push(`<g class="layer" data-layer="${step}">`, ...each.lines, '</g>');
      before.set(each.before, here);
    }
  const whole = lines.flatMap((line, index) => [
    ...(before.get(index) ?? []),
    numbered(line, (at) => numbers.get(`${index} ${at}`)),
  ]);
  return {
    svg: whole.join('\n'),
    dimmed,
    descriptions: overlaid.map(({ description }) => description),
  };
}

/** What the drawing of a step has besides the bare one; nothing where the two do not agree. */
function overlaidOn(bare: readonly string[], drawn: readonly string[]): Overlaid {
  const added: { before: number; lines: string[] }[] = [];
  const dims = new Map<number, readonly number[]>();
  let description = '';
  let at = 0;
  for (let index = 0; index < drawn.length; index++) {
    const line = drawn[index] ?? '';
    const same = bare[at];
    if (same !== undefined && (undimmed(line) === same || isDescription(line, same))) {
      if (isDescription(line, same)) description = />([^<]*)</.exec(line)?.[1] ?? '';
      const own = dimmedClasses(line);
      if (own.length > 0) dims.set(at, own);
      at += 1;
      continue;
    }
    const lines = [line];
    // What opens here closes here too.
    for (let open = opened(line); open > 0 && index + 1 < drawn.length; ) {
      index += 1;
      const next = drawn[index] ?? '';
      lines.push(next);
      open += opened(next);
    }
    const last = added.at(-1);
    if (last?.before === at) last.lines.push(...lines);
    else added.push({ before: at, lines });
  }
  return at === bare.length
    ? { added, dims, description }
    : { added: [], dims: new Map(), description: '' };
}

const isDescription = (line: string, bare: string): boolean =>
  line.startsWith('<desc ') && bare.startsWith('<desc ');

/** Groups that a line opens, less those that it closes. */
function opened(line: string): number {
  return (line.match(/<g[ >]/g)?.length ?? 0) - (line.match(/<\/g>/g)?.length ?? 0);
}

const classes = /class="([^"]*)"/g;

const undimmed = (line: string): string =>
  line.replace(classes, (_, names: string) => `class="${names.replace(/ dimmed(?= |$)/, '')}"`);

/** Which of the classes of a line are dimmed, counted from the left. */
function dimmedClasses(line: string): readonly number[] {
  return [...line.matchAll(classes)].flatMap(([, names], at) =>
    / dimmed(?: |$)/.test(names ?? '') ? [at] : [],
  );
}

/** A line whose shapes say their numbers, for a page to find those that it dims. */
function numbered(line: string, numberOf: (at: number) => number | undefined): string {
  let at = -1;
  return line.replace(classes, (whole) => {
    at += 1;
    const number = numberOf(at);
    return number === undefined ? whole : `${whole} data-n="${number}"`;
  });
}
