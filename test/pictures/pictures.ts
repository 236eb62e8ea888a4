/** A picture of the documents, and the call of the tool that makes it. */
export interface Picture {
  /** Its file, seen from the root of the project. */
  readonly file: string;
  /** The folder in which the tool is called, seen from there. */
  readonly folder: string;
  readonly args: readonly string[];
  /** What the tool prints, as a terminal shows it; a picture that the tool draws by itself else. */
  readonly isPrinted?: boolean;
}

const atWork = { folder: 'examples/at-work' } as const;

/** Every picture that the documents show of what the tool makes, but for those of the editor. */
export const pictures: readonly Picture[] = [
  {
    file: 'examples/pictures/check.svg',
    folder: 'examples/faulty',
    args: ['check', 'grid-return-side.receiver', 'plate-voltage-on-filament.receiver'],
    isPrinted: true,
  },
  {
    file: 'examples/pictures/five-tube-trf.png',
    folder: 'examples',
    args: ['draw', 'five-tube-trf.receiver', '--scale', '1.5'],
  },
  {
    file: 'examples/pictures/reflex-period.png',
    folder: 'examples',
    args: ['draw', 'reflex.receiver', '--symbols', 'period', '--scale', '1.5'],
  },
  {
    file: 'examples/at-work/storm-glass.png',
    ...atWork,
    args: ['draw', 'storm-glass.receiver', '--values'],
  },
  {
    file: 'examples/at-work/tide-table-dial.svg',
    ...atWork,
    args: [
      'dials',
      'tide-table-rewound.receiver',
      '--stations',
      '550,600,700,800,900,1000,1200,1400,1500',
    ],
  },
  {
    file: 'examples/at-work/whisper-radio.png',
    ...atWork,
    args: ['draw', 'whisper.receiver', '--view', 'radio', '--page', 'a4-landscape'],
  },
  {
    file: 'examples/at-work/whisper-suppose.png',
    ...atWork,
    args: ['draw', 'whisper.receiver', '--view', 'suppose 1', '--page', 'a4-landscape'],
  },
];

/** Letters in a line of the picture of a terminal. */
const COLUMNS = 96;

/** Lines that are too long go on below, set in. */
function folded(line: string): readonly string[] {
  if (line.length <= COLUMNS) return [line];
  const at = line.lastIndexOf(' ', COLUMNS);
  const indent = /^ */.exec(line)?.[0].length ?? 0;
  return [
    line.slice(0, at),
    ...folded(`${' '.repeat(indent + 4)}${line.slice(at + 1).trimStart()}`),
  ];
}

const escaped = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

/** Inks on the ground of the picture, each with a contrast of more than 4.5 to it. */
const inks: Readonly<Record<string, string>> = {
  error: '#a0182a',
  warning: '#855b00',
  information: '#14588f',
  '^': '#a0182a',
  why: '#3f5a1c',
  cure: '#3f5a1c',
};

const lettered = (ink: string | undefined, words: string) =>
  `<tspan font-weight="bold" fill="${ink}">${escaped(words)}</tspan>`;

/** A line with what is coloured in a terminal. */
function inked(line: string): string {
  const [, before = '', word, after = ''] =
    /^(.*?)(\^+$|\b(?:error|warning|information):|^ {2}(?:why|cure):)(.*)$/.exec(line) ?? [];
  if (word === undefined) return escaped(line);
  return `${escaped(before)}${lettered(inks[word.startsWith('^') ? '^' : word.trim().slice(0, -1)], word)}${escaped(after)}`;
}

/** What the tool prints for a call, as an SVG picture of letters on a card. */
export function terminalPicture(args: readonly string[], printed: string): string {
  const call = `$ setwright ${args.join(' ')}`;
  const lines = [...folded(call), '', ...printed.trimEnd().split('\n').flatMap(folded)];
  const [letter, height, margin] = [7.8, 19, 20];
  const width = Math.ceil(COLUMNS * letter + 2 * margin);
  const tall = lines.length * height + 2 * margin;
  const text = lines.map((line, at) => {
    const words = at === 0 ? lettered('#2b2b2b', line) : inked(line);
    return `<text x="${margin}" y="${margin + 14 + at * height}" xml:space="preserve">${words}</text>`;
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${tall}" viewBox="0 0 ${width} ${tall}">`,
    `<title>${escaped(call)}</title>`,
    `<rect x=".5" y=".5" width="${width - 1}" height="${tall - 1}" fill="#fbf8f1" stroke="#d8d2c2"/>`,
    `<g font-family="ui-monospace, 'DejaVu Sans Mono', 'Liberation Mono', monospace" font-size="13" fill="#2b2b2b">`,
    ...text,
    '</g>',
    '</svg>',
    '',
  ].join('\n');
}
