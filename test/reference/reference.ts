import { allChecks } from '@setwright/checks';
import { type PartKind, type PartKindName, partKinds } from '@setwright/circuit';
import { builtInTubeTypes, setPatterns, symptoms } from '@setwright/language';
import { detailHelp } from '../../packages/server/src/words/details.ts';
import {
  type BlockKind,
  type StatementWord,
  statementHelp,
} from '../../packages/server/src/words/statements.ts';
import { UNITS } from '../../packages/units/src/unit-table.ts';

/**
 * The reference of the receiver language as Markdown, from the tables that the tool itself goes by:
 * the words of statements and details, the kinds of parts, the units, the tube library, the checks.
 */
export function languageReference(): string {
  return [
    '# The receiver language',
    '',
    'Every statement, word and unit of a `.receiver` file, and every check. Written by `npm run reference` from the tables that the tool goes by; changes belong there.',
    '',
    ...howItIsWritten,
    '## Outside any receiver',
    '',
    ...statements('file'),
    ...patterns,
    '## The set as a whole',
    '',
    ...statements('receiver', (word) => !isPart(word) && !isStage(word) && !isLater(word)),
    '## Stages',
    '',
    'A stage holds parts that do one thing together. Which stage a part stands in matters to the drawing and to words, never to the circuit. A reflex stage has several of these words: `radio audio stage RF1 { }`.',
    '',
    ...table(
      ['word', 'what it is'],
      statementHelp
        .filter((each) => isStage(each.word) && isOfSet(each))
        .map(({ word, meaning }) => [code(`${word} stage`), meaning]),
    ),
    '## Parts',
    '',
    'Any part may also have a title in quotation marks, a tolerance (`20 %`), a rating (`200 V`, `1/2 W`), the word `insulated` (its shaft or frame), and what it measured on the bench beside what it should be (`found 2.5 meg`, `found open`).',
    '',
    ...statementHelp.filter((each) => isPart(each.word) && isOfSet(each)).flatMap(partSection),
    '## Inside the block of a part',
    '',
    ...blockSection('A battery or eliminator', ['battery', 'eliminator']),
    ...blockSection('A coil or transformer', ['coil', 'transformer']),
    '#### A winding',
    '',
    ...factsOf(partKinds.winding),
    '',
    ...blockSection('A tube', ['tube']),
    '## Words on a line',
    '',
    'Each leads a detail of a statement, or stands there by itself. Such a word may also carry the line on to the next, which is then set in deeper.',
    '',
    ...table(
      ['word', 'meaning', 'example'],
      detailHelp.map(({ word, meaning, example }) => [code(word), meaning, code(example)]),
    ),
    '## A tube type',
    '',
    'What stands in the block of `tube type`.',
    '',
    ...wordTable('type'),
    '## A bench',
    '',
    'Readings really taken: what stands in the block of `bench "…"`.',
    '',
    ...wordTable('bench'),
    `What is \`heard\` is one of: ${symptoms.map((symptom) => `“${symptom}”`).join(', ')}.`,
    '',
    '## A supposition',
    '',
    'Faults and changes to try: what stands in the block of `suppose "…"`.',
    '',
    ...wordTable('suppose'),
    ...units(),
    ...library(),
    ...checks(),
  ].join('\n');
}

const howItIsWritten: readonly string[] = [
  '## How a text is written',
  '',
  '- One fact a line. A line begins with a word of this list; a deeper line that begins with a word such as `from` carries it on. Nothing ends a line but its end.',
  '- Nothing depends on the order of lines. A part may be named above the line that declares it.',
  '- What belongs to a part stands in its block, `{` to `}`; a short block may stand on one line: `battery A dry { tap A- tap A+ 1.5 V }`.',
  '- `//` begins a comment up to the end of the line; `/*` and `*/` enclose a longer one.',
  '- Names have letters, digits and `_`; taps have signs as well: `B+67`, `C-4.5`. Titles stand in quotation marks.',
  '- Ends of parts go by `PART.end`: `C1.rotor`, `V1.plate`, `L1.grid.finish`. A part’s name alone means its free end. Taps, posts and buses are ends by their own name. Audio transformers answer to the letters stamped on them: `T1.P`, `T1.B`, `T1.F`, `T1.G`.',
  '- Values are written as printed: `.00025 mfd`, `2 meg`, `2 3/4 in`. What is not said is unknown, never zero.',
  '- A line that cannot be read is told of, and disturbs no other.',
  '',
];

const patterns: readonly string[] = [
  '### Patterns of parts',
  '',
  'A part outside any receiver is a pattern. It says how a part is made and not where its ends go; a part of a set is made `like` it, says its own ends, and may say anything else anew. A part of the set itself comes before a pattern of its name.',
  '',
  ...fenced(
    [
      'use "parts/coils.receiver"',
      '',
      'condenser BYPASS .5 mfd 200 V',
      '',
      'receiver "Lantern Cove Punt" {',
      '  condenser C5 like BYPASS from B+67 to GND',
      '}',
    ].join('\n'),
  ),
  'Paths are seen from the file that says `use`, end in `.receiver` and never leave by an address or a drive. A used file may use others; what they bring is handed on. Receivers in a used file are left alone.',
  '',
  `A whole set to begin from is a pattern too: \`setwright new\` lists them (${setPatterns.map(({ name }) => name).join(', ')}).`,
  '',
];

const code = (words: string): string =>
  words.includes('`') ? `\`\` ${words} \`\`` : `\`${words}\``;

/** Words in a cell of a table: a bar would begin the next. */
const cell = (words: string): string => words.replaceAll('|', '\\|').replaceAll('\n', ' ');

function table(heading: readonly string[], rows: readonly (readonly string[])[]): string[] {
  const line = (cells: readonly string[]): string => `| ${cells.map(cell).join(' | ')} |`;
  return [line(heading), line(heading.map(() => '---')), ...rows.map(line), ''];
}

function fenced(text: string): string[] {
  return ['```setwright', text, '```', ''];
}

const isPart = (word: string): boolean => word in partKinds || word === 'gang' || word === 'dial';
/** Whether a statement stands in a receiver or stage, and not in a bench or tube type. */
const isOfSet = ({ within }: StatementWord): boolean =>
  within.includes('receiver') || within.includes('stage');
const isStage = (word: string): boolean =>
  statementHelp.some((each) => each.word === word && each.example.startsWith(`${word} stage`));
/** Blocks that have a chapter of their own. */
const isLater = (word: string): boolean => word === 'winding' || word === 'tap';

function statements(block: BlockKind, suits: (word: string) => boolean = () => true): string[] {
  return statementHelp
    .filter(({ word, within }) => within.includes(block) && suits(word))
    .flatMap(({ word, meaning, example }) => [
      `### ${word === 'tube' && block === 'file' ? 'tube type' : word}`,
      '',
      meaning,
      '',
      ...fenced(example),
    ]);
}

function wordTable(block: BlockKind): string[] {
  return table(
    ['line', 'meaning', 'example'],
    statementHelp
      .filter(({ within }) => within.includes(block))
      .map(({ word, meaning, example }) => [code(word), meaning, code(example)]),
  );
}

function blockSection(title: string, blocks: readonly BlockKind[]): string[] {
  const lines = statementHelp.filter(({ within }) =>
    blocks.some((block) => within.includes(block)),
  );
  return [
    `### ${title}`,
    '',
    ...table(
      ['line', 'meaning', 'example'],
      lines.map(({ word, meaning, example }) => [code(word), meaning, code(example)]),
    ),
  ];
}

function partSection({ word, meaning, example }: StatementWord): string[] {
  const kind = word in partKinds ? partKinds[word as PartKindName] : undefined;
  return [
    `### ${word}`,
    '',
    meaning,
    '',
    ...fenced(example),
    ...(kind ? [...factsOf(kind), ''] : []),
  ];
}

function factsOf(kind: PartKind): string[] {
  const { ends, namedEnds, amounts, ranges, words, details } = kind;
  const named = namedEnds.filter((end) => !ends.includes(end));
  const sizes = Object.entries(amounts).map(([slot, dimension]) => {
    const unit = UNITS.find((each) => each.dimension === dimension)?.unit;
    const range = ranges.includes(slot) ? ', or from … to …' : '';
    return `${spoken(slot)}${unit === undefined ? '' : ` (${unit} …${range})`}`;
  });
  const leads = details.filter((detail) => !['winding', 'contacts'].includes(detail));
  return [
    ...(ends.length > 0 ? [`- Ends: ${ends.map(code).join(', ')}.`] : []),
    ...(named.length > 0
      ? [`- Ends that may be named as well: ${named.map(code).join(', ')}.`]
      : []),
    ...(sizes.length > 0 ? [`- Amounts: ${sizes.join(', ')}.`] : []),
    ...(words.length > 0 ? [`- Words: ${words.map(code).join(', ')}.`] : []),
    ...(leads.length > 0 ? [`- Takes ${leads.map(code).join(', ')}.`] : []),
    `- At direct current: ${kind.atDirectCurrent}.`,
    `- At radio frequency: ${kind.atRadioFrequency}.`,
  ];
}

/** `ratedCurrent` as a person says it. */
const spoken = (slot: string): string =>
  slot
    .replace('capacitance', 'capacity')
    .replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`);

function units(): string[] {
  const dimensions = [...new Set(UNITS.map(({ dimension }) => dimension))];
  return [
    '## Units',
    '',
    'Capitals and small letters are alike, dots and hyphens do not matter. A lone `M` of resistance is refused: it meant a thousand to some and a million to others. `cm` is also a capacity, of 1.11 mmfd. A frequency may be given by its wavelength in meters.',
    '',
    ...table(
      ['of', 'unit', 'also written'],
      dimensions.flatMap((dimension) =>
        UNITS.filter((unit) => unit.dimension === dimension).map(({ unit, spellings }, at) => [
          at === 0 ? (dimensionWords[dimension] ?? dimension) : '',
          code(unit),
          spellings
            .filter((spelling) => spelling.toLowerCase() !== unit.toLowerCase())
            .map(code)
            .join(', '),
        ]),
      ),
    ),
  ];
}

const dimensionWords: Readonly<Record<string, string>> = {
  capacitance: 'capacity',
  charge: 'what a battery holds',
};

function library(): string[] {
  return [
    '## Tube types of the library',
    '',
    'Their data, with sources, are in the language too: `setwright tubes`, or go to the definition in the editor.',
    '',
    ...table(
      ['type', 'what it is'],
      [...builtInTubeTypes().values()].map(({ name, title }) => [code(name), title ?? '']),
    ),
  ];
}

function checks(): string[] {
  const groups = [...new Set(allChecks.map(({ group }) => group))];
  return [
    '## Checks',
    '',
    'Each has a page with its reason, when it keeps silent, a set that fails and the same set put right: `setwright explain ID`. Where a set departs from the textbook on purpose, `meant ID "why"` says so.',
    '',
    ...groups.flatMap((group) => [
      `### ${group}`,
      '',
      ...table(
        ['check', 'as a rule', 'finds'],
        allChecks
          .filter((check) => check.group === group)
          .map(({ id, severity, summary, thorough }) => [
            code(id),
            severity,
            thorough ? `${summary} (with \`--thorough\`)` : summary,
          ]),
      ),
    ]),
  ];
}
