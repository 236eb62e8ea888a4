import type { Chance } from './chance.ts';

/** One change that somebody makes to the text of a set. */
type Edit = (lines: readonly string[], chance: Chance) => readonly string[];

const partLine =
  /^\s*(?:condenser|resistor|leak|choke|rheostat|potentiometer|lamp|fuse|horn|phones|switch|crystal|jack|post|bus|shield|selector|lead|ballast|speaker|variometer|loop) (\S+)/;
const anyPart = /^\s*(?:[a-z ]*stage|tube|coil|transformer|gang|dial|[a-z]+) ([A-Z][A-Za-z0-9]*)\b/;

const at = (lines: readonly string[], test: RegExp): number[] =>
  lines.flatMap((line, index) => (test.test(line) ? index : []));

/** The lines with one of those that match changed. */
function oneChanged(
  lines: readonly string[],
  chance: Chance,
  test: RegExp,
  change: (line: string) => string | readonly string[],
): readonly string[] {
  const found = at(lines, test);
  if (found.length === 0) return lines;
  const chosen = chance.one(found);
  return lines.flatMap((line, index) => (index === chosen ? change(line) : line));
}

const names = (lines: readonly string[]): string[] => [
  ...new Set(lines.flatMap((line) => anyPart.exec(line)?.[1] ?? [])),
];

/** Points of the set, as its own lines name them. */
const points = (lines: readonly string[]): string[] => [
  ...new Set(
    lines.flatMap((line) =>
      [...line.matchAll(/\b(?:from|to) ([A-Za-z0-9_.+-]+)/g)].map(([, name = '']) => name),
    ),
  ),
];

const withNames = (lines: readonly string[], names: ReadonlyMap<string, string>) =>
  lines.map((line) =>
    line.replace(
      /"[^"]*"|[A-Za-z][A-Za-z0-9]*(?![A-Za-z0-9+-])/g,
      (word) => names.get(word) ?? word,
    ),
  );

const changeValue: Edit = (lines, chance) =>
  oneChanged(lines, chance, /\d(?:\.\d+)? (?:mfd|mmfd|ohms|meg|mH|uH|H|turns|V|A|Ah)\b/, (line) =>
    line.replace(
      /(\d*\.?\d+) (mfd|mmfd|ohms|meg|mH|uH|H|turns|V|A|Ah)\b/,
      (_, number: string, unit: string) =>
        `${Math.max(1, Math.round(Number(number) * 100 * (1 + chance.below(9) / 4)) / 100)} ${unit}`,
    ),
  );

const remove: Edit = (lines, chance) => oneChanged(lines, chance, partLine, () => []);

const add: Edit = (lines, chance) => {
  const places = points(lines);
  if (places.length < 2) return lines;
  const kind = chance.one(['condenser', 'resistor', 'leak', 'choke']);
  const value = { condenser: '.002 mfd', resistor: '900 ohms', leak: '3 meg', choke: '80 mH' }[
    kind
  ];
  const line = `  ${kind} ZZ${chance.below(90)} ${value} from ${chance.one(places)} to ${chance.one(places)}`;
  const where = chance.below(lines.length - 2) + 1;
  // Between two lines of one block, so that a part does not come to stand within a tube's.
  const outer = at(lines, /^ {2}\S/);
  const before = outer.find((index) => index >= where) ?? lines.length - 1;
  return [...lines.slice(0, before), line, ...lines.slice(before)];
};

const rename: Edit = (lines, chance) => {
  const known = names(lines);
  if (known.length === 0) return lines;
  return withNames(lines, new Map([[chance.one(known), `Y${chance.below(900)}`]]));
};

/** Two parts of a kind with their names exchanged. */
const exchange: Edit = (lines, chance) => {
  const known = names(lines);
  const one = known.length > 0 ? chance.one(known) : '';
  const alike = known.filter((name) => name !== one && name[0] === one[0]);
  if (alike.length === 0) return lines;
  const other = chance.one(alike);
  return withNames(
    lines,
    new Map([
      [one, other],
      [other, one],
    ]),
  );
};

/** All parts of a letter numbered anew: C1 is C2, C2 is C3 … */
const renumber: Edit = (lines, chance) => {
  const letter = chance.one(['C', 'R', 'V', 'L']);
  const numbered = names(lines).filter((name) => new RegExp(`^${letter}\\d+$`).test(name));
  return withNames(
    lines,
    new Map(numbered.map((name) => [name, `${letter}${Number(name.slice(1)) + 1}`])),
  );
};

const move: Edit = (lines, chance) => {
  const places = points(lines);
  return oneChanged(lines, chance, /\b(?:from|to) \S/, (line) => {
    const joins = [...line.matchAll(/\b(?:from|to) ([A-Za-z0-9_.+-]+)/g)];
    const join = chance.one(joins);
    if (!join) return line;
    const start = join.index + join[0].length - (join[1]?.length ?? 0);
    return line.slice(0, start) + chance.one(places) + line.slice(join.index + join[0].length);
  });
};

const tapVolts: Edit = (lines, chance) =>
  oneChanged(lines, chance, /^\s*tap [BC][+-]\d+/, (line) =>
    chance.percent(50)
      ? line.replace(/tap ([BC][+-])(\d+).*/, (_, pole: string, volts: string) =>
          chance.percent(50)
            ? `tap ${pole}${Number(volts) + 1 + chance.below(6)}`
            : `tap B+${100 + chance.below(80)}`,
        )
      : [line, `    tap B+${200 + chance.below(80)}`],
  );

const windingTaps: Edit = (lines, chance) =>
  oneChanged(lines, chance, /^\s*winding \S+ \d+ turns/, (line) =>
    / taps? /.test(line)
      ? line.replace(/ taps? \d+/, ` taps ${1 + chance.below(5)}`)
      : line.replace(/ turns( of \d+ [A-Z]+)?/, (all) => `${all} taps ${1 + chance.below(5)}`),
  );

const gang: Edit = (lines, chance) => {
  if (chance.percent(40) && at(lines, /^\s*(?:gang|dial) /).length > 0)
    return oneChanged(lines, chance, /^\s*(?:gang|dial) /, () => []);
  const condensers = lines.flatMap((line) => /condenser (C\d+) variable/.exec(line)?.[1] ?? []);
  if (condensers.length === 0) return lines;
  const members = `${chance.one(condensers)}, ${chance.one(condensers)}`;
  return [...lines.slice(0, -1), `  gang G${chance.below(9) + 5} ${members}`, ...lines.slice(-1)];
};

const say: Edit = (lines, chance) => {
  const places = points(lines);
  const known = names(lines);
  const said = [
    '  note "out of its case"',
    `  bench "night ${chance.below(9)}" {\n    reading ${chance.one(places)} ${chance.below(90)} V\n  }`,
    `  suppose "it goes" {\n    open ${chance.one(known)}\n  }`,
    `  dial D${5 + chance.below(9)} 0 to 180 drives ${chance.one(known)}`,
    '  meant battery-unused "as it came"',
    `  wire ${chance.one(places)} to ${chance.one(places)} .3 ohms`,
    `  wire ${chance.one(places)} to ${chance.one(places)}`,
  ];
  return [...lines.slice(0, -1), ...chance.one(said).split('\n'), ...lines.slice(-1)];
};

const title: Edit = (lines, chance) =>
  oneChanged(lines, chance, partLine, (line) =>
    line.includes('"') ? line.replace(/ "[^"]*"/, '') : line.replace(/^(\s*\S+ \S+)/, '$1 "anew"'),
  );

const removeTube: Edit = (lines, chance) => {
  const tubes = at(lines, /^\s*tube \S+ \S+ \{$/);
  if (tubes.length === 0) return lines;
  const start = chance.one(tubes);
  const indent = /^\s*/.exec(lines[start] ?? '')?.[0] ?? '';
  const end = lines.findIndex((line, index) => index > start && line === `${indent}}`);
  return [...lines.slice(0, start), ...lines.slice(end + 1)];
};

const edits: readonly (readonly [string, Edit])[] = [
  ['a value', changeValue],
  ['a part gone', remove],
  ['a part more', add],
  ['a name', rename],
  ['two names exchanged', exchange],
  ['numbers anew', renumber],
  ['an end elsewhere', move],
  ['a tap of a battery', tapVolts],
  ['a tap of a winding', windingTaps],
  ['a gang', gang],
  ['something said', say],
  ['a title', title],
  ['a tube gone', removeTube],
];

/** A text with one to six changes made to it by chance, and what they were. */
export function editedText(
  text: string,
  chance: Chance,
): { readonly text: string; readonly made: readonly string[] } {
  let lines: readonly string[] = text.trimEnd().split('\n');
  const made: string[] = [];
  for (let count = 1 + chance.below(6); count > 0; count -= 1) {
    const [name, edit] = chance.one(edits);
    made.push(name);
    lines = edit(lines, chance);
  }
  return { text: `${lines.join('\n')}\n`, made };
}
