import { type Chance, chanceOf } from './chance.ts';

/** What a line joins its part to: `from NEG`, `drives C1, C2`. */
export interface Join {
  readonly led: string;
  targets: string[];
}

/** One statement of a receiver before it is written out. */
export interface Line {
  /** The part it declares, with its coil where it is a winding: `C1`, `L1.grid`. */
  readonly part: string | undefined;
  words: string;
  joins: Join[];
  readonly after: string;
  block: Line[] | undefined;
}

/** A receiver in the making. */
export interface Draft {
  readonly chance: Chance;
  readonly lines: Line[];
  /** Where the next part goes: the receiver itself or the stage that is being written. */
  here: Line[];
  readonly counts: Map<string, number>;
  readonly tubes: { readonly name: string; readonly type: string; readonly line: Line }[];
}

export type Led = readonly [led: string, ...targets: readonly string[]];

export function newDraft(seed: number): Draft {
  const lines: Line[] = [];
  return { chance: chanceOf(seed), lines, here: lines, counts: new Map(), tubes: [] };
}

/** A statement; `joins` as `['from', 'NEG']`. */
export function lineOf(
  words: string,
  joins: readonly Led[] = [],
  after = '',
  part?: string,
  block?: Line[],
): Line {
  return {
    part,
    words,
    joins: joins.map(([led, ...targets]) => ({ led, targets: [...targets] })),
    after,
    block,
  };
}

/** The next name with a letter: `C1`, `C2` … */
export function nextName(draft: Draft, letter: string): string {
  const count = (draft.counts.get(letter) ?? 0) + 1;
  draft.counts.set(letter, count);
  return `${letter}${count}`;
}

const titles = [
  'spare',
  'first of two',
  'from the junk box',
  'on the sub-panel',
  'rewound',
  'mica',
];

/** Adds a part to the stage that is being written and gives its name. */
export function put(
  draft: Draft,
  kind: string,
  letter: string,
  words: string,
  joins: readonly Led[] = [],
  after = '',
): string {
  const name = nextName(draft, letter);
  const title = draft.chance.percent(15) ? ` "${draft.chance.one(titles)}"` : '';
  const said = `${kind} ${name}${title}${words === '' ? '' : ` ${words}`}`;
  draft.here.push(lineOf(said, joins, after, name));
  return name;
}

/** Joins terminals by a wire. */
export function wire(draft: Draft, first: string, ...others: readonly string[]): void {
  draft.here.push(lineOf('wire', [['', first], ...others.map((name): Led => ['to', name])]));
}

/** A named junction of its own. */
export function bus(draft: Draft, letter: string): string {
  const name = nextName(draft, letter);
  draft.here.push(lineOf(`bus ${name}`, [], '', name));
  return name;
}

/** A winding with the way round that its lines say. */
export interface WindingDraft {
  readonly name: string;
  readonly words: string;
  readonly joins?: readonly Led[];
  readonly after?: string;
}

/** A coil or transformer; gives its name and its statement, so that windings may be added. */
export function putWindings(
  draft: Draft,
  kind: 'coil' | 'transformer',
  words: string,
  form: readonly string[],
  windings: readonly WindingDraft[],
): { name: string; line: Line } {
  const name = nextName(draft, kind === 'coil' ? 'L' : 'T');
  const block = [
    ...form.map((said) => lineOf(said)),
    ...windings.map((winding) => windingLine(name, winding)),
  ];
  const line = lineOf(`${kind} ${name}${words === '' ? '' : ` ${words}`}`, [], '', name, block);
  draft.here.push(line);
  return { name, line };
}

export function windingLine(owner: string, winding: WindingDraft): Line {
  const { name, words, joins = [], after = '' } = winding;
  // Taps stand before the joins: behind `from GND` they would be read as taps of GND.
  const said = ['winding', name, words, after].filter((word) => word !== '').join(' ');
  return lineOf(said, joins, '', `${owner}.${name}`);
}

/** Writes what `inside` adds into a stage. */
export function inStage<T>(draft: Draft, roles: string, letter: string, inside: () => T): T {
  const [outer, own] = [draft.here, [] as Line[]];
  const name = nextName(draft, letter);
  draft.here = own;
  const made = inside();
  draft.here = outer;
  // A set may also be written without stages.
  if (draft.chance.percent(85))
    outer.push(lineOf(`${roles} stage ${name}`, [], '', undefined, own));
  else outer.push(...own);
  return made;
}

const named =
  /^(rotor|stator|arm|mineral|whisker|tip|sleeve|plate|grid|screen|cathode|centre|tap .*)$/;

function written({ led, targets }: Join): string {
  const list = targets.join(', ');
  if (led === '') return list;
  return named.test(led) ? `${led} to ${list}` : `${led} ${list}`;
}

/** The statements as text. */
export function textOf(lines: readonly Line[], indent = '  '): string {
  return lines
    .map(({ words, joins, after, block }) => {
      const said = [words, ...joins.map(written), after].filter((word) => word !== '').join(' ');
      if (!block) return `${indent}${said}\n`;
      return `${indent}${said} {\n${textOf(block, `${indent}  `)}${indent}}\n`;
    })
    .join('');
}
