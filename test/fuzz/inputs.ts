import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Chance, chanceOf } from '../support/random/chance.ts';
import { type RandomMode, randomReceiver } from '../support/random-receiver.ts';

/** Made into one file to run by itself, this module stands elsewhere, and is told where they lie. */
export const examplesFolder =
  process.env.SETWRIGHT_EXAMPLES ?? join(import.meta.dirname, '../../examples');
const namesIn = (below: string) =>
  readdirSync(join(examplesFolder, below))
    .filter((name) => name.endsWith('.receiver'))
    .map((name) => readFileSync(join(examplesFolder, below, name), 'utf8'));

const examples: readonly string[] = [...namesIn('.'), ...namesIn('faulty')];

const numbers = [
  ...[
    '0',
    '-0',
    '-5',
    '.0000001',
    '1e12',
    '999999999999',
    '1/0',
    '0/0',
    '1e999',
    '1e-300',
    '2 3/4',
  ],
  ...['00', '1.2.3', '1,000', '٣', '1e308', '4e-320'],
];
/** What is no number, seldom: where a text says so itself, it cannot be told who says it. */
const none = ['NaN', 'Infinity', '-Infinity'];
/** Titles that are out for no good. */
const hostile = [
  ...['<script>alert(1)</script>', '<img src=x onerror=alert(1)>', '&lt;b&gt;', '"><svg onload=x>'],
  ...['](javascript:alert(1))', '![x](https://e.test/x)', '`a` ``b`` ```', '| a | b |', '--> ]]>'],
  ...['\u001b[31mred', '\u202egnorw', '\u009b2J', '::error::no', '%0A::error::no', "';--", '$(id)'],
  ...[
    '=1+2',
    '-2+3',
    '@sum',
    '+1',
    '# a',
    '> b',
    '1. c',
    '- d',
    '* e *',
    '_f_',
    '~~g~~',
    '\\',
    '&',
  ],
  ...['\u2028', '\ud83d', '𝄞', '__proto__', 'constructor', 'toString', '../../etc', 'CON', ''],
  ...['a'.repeat(300), 'é\u0301'.repeat(40), '%s %d %o', '{{x}}', '</title>', '</style>', ' '],
];
const pieces = [
  ...['"', '{', '}', '//', '/*', '*/', '\0', '\u001b[31m', '\ufeff', '\u202e', '💡', '\r', '\t'],
  ...['receiver "X" {', 'tube type 01-A {', 'use "../x.receiver"', 'meant', 'from', 'to', 'across'],
  ...['<script>alert(1)</script>', '`', '](javascript:0)', '\\', '"""', 'constructor'],
];

type Mangling = (text: string, chance: Chance) => string;

const lineAt = (lines: readonly string[], chance: Chance) => chance.below(lines.length);

/** A text with titles, and what is heard and noted, out for no good. */
export function hostileTitles(text: string, chance: Chance): string {
  return text.replace(/"[^"\n]*"/g, (old) =>
    chance.percent(60) ? `"${chance.one(hostile)} ${chance.one(hostile)}"` : old,
  );
}

const manglings: readonly Mangling[] = [
  // Numbers that no part has.
  (text, chance) =>
    text.replace(/(?<=[ (])[.\d][\d./]*(?=[ )\n])/g, (old) =>
      chance.percent(25) ? chance.one(chance.percent(1) ? none : numbers) : old,
    ),
  // Names put in the place of others: loops of batteries, tubes of nothing, everything shorted.
  (text, chance) => {
    const names = [...text.matchAll(/\b[A-Z]+\d*(?:\.\w+)*[-+]?\b/g)].map(([name]) => name);
    if (names.length === 0) return text;
    return text.replace(/\b[A-Z]+\d*(?:\.\w+)*[-+]?\b/g, (old) =>
      chance.percent(10) ? chance.one(names) : old,
    );
  },
  // Lines lost, doubled and moved.
  (text, chance) => {
    const lines = text.split('\n');
    for (let times = chance.below(12); times > 0; times--) {
      const at = lineAt(lines, chance);
      const [line = ''] = lines.splice(at, chance.percent(50) ? 1 : 0);
      if (chance.percent(60)) lines.splice(lineAt(lines, chance), 0, line || (lines[at] ?? ''));
    }
    return lines.join('\n');
  },
  // Bits of text where they do not belong.
  (text, chance) => {
    let mangled = text;
    for (let times = 1 + chance.below(6); times > 0; times--) {
      const at = chance.below(mangled.length + 1);
      mangled = mangled.slice(0, at) + chance.one(pieces) + mangled.slice(at);
    }
    return mangled;
  },
  // A text half written, or a hole in it.
  (text, chance) => {
    const at = chance.below(text.length + 1);
    return chance.percent(50)
      ? text.slice(0, at)
      : text.slice(0, at) + text.slice(at + chance.below(200));
  },
  // Characters of any kind.
  (text, chance) =>
    [...text]
      .map((letter) => (chance.percent(1) ? String.fromCharCode(chance.below(0x3000)) : letter))
      .join(''),
  hostileTitles,
  // Every tube gone, or every supply, or everything but these.
  (text, chance) => {
    const word = chance.one(['tube', 'battery', 'condenser', 'winding', 'wire', 'coil', 'tap']);
    return text.replace(new RegExp(`^\\s*${word} .*$`, 'gm'), '');
  },
];

/** A text to read, and what kind of text it is. The same for the same seed. */
export function inputOf(seed: number): { readonly kind: string; readonly text: string } {
  const chance = chanceOf(seed);
  const kind = chance.one(['sane', 'unfinished', 'wild', 'example', 'example', 'bytes'] as const);
  if (kind === 'bytes') return { kind, text: bytes(chance) };
  let text =
    kind === 'example' ? chance.one(examples) : randomReceiver(seed, { mode: kind as RandomMode });
  const times = chance.percent(15) ? 0 : 1 + chance.below(3);
  for (let time = 0; time < times; time++) text = chance.one(manglings)(text, chance);
  return { kind, text };
}

/** The same text, or another made of it: what a set became. */
export function changedInput(text: string, seed: number): string {
  const chance = chanceOf(seed ^ 0xc4a6e);
  return chance.percent(20) ? text : chance.one(manglings)(text, chance);
}

/** A word where one is asked for: a name of the text, or anything. */
export function wordOf(text: string, chance: Chance): string {
  const names = [...text.matchAll(/\b[A-Z]+\d*(?:\.\w+)*[-+]?/g)].map(([name]) => name);
  const any = chance.one([hostile, pieces, numbers, names.length > 0 ? names : ['V1']]);
  const word = chance.one(names.length > 0 && chance.percent(60) ? names : any);
  // Standard input is not for tests, and neither is the rest of the disk.
  return /^-*$/.test(word) ? 'V1.grid' : word.replaceAll('/', '|');
}

/** A text whose sets have a bench with readings and what is heard by chance, and a what-if. */
export function onTheBench(text: string, chance: Chance): string {
  const at = text.lastIndexOf('}');
  if (at < 0 || chance.percent(20)) return text;
  const name = (): string => wordOf(text, chance).replace(/[\r\n]/g, ' ');
  const number = (): string =>
    chance.percent(85) ? String(chance.below(10 ** chance.below(5))) : chance.one(numbers);
  const readings = Array.from({ length: chance.below(9) }, () => {
    const unit = chance.one(['V', 'V', 'V', 'mA', 'ohms', 'A', 'meg']);
    const said = chance.percent(10) ? chance.one(['open', 'short']) : `${number()} ${unit}`;
    const to = chance.percent(20) ? ` to ${name()}` : '';
    const on = chance.percent(40) ? ` on ${number()} V` : '';
    return `reading ${name()}${to} ${said}${on}${chance.percent(10) ? ' lifted' : ''}`;
  });
  const more = [
    `heard "${chance.one(['silent', 'weak', 'hum', 'squeals', 'distorted', 'crackles', 'nothing'])}"`,
    `click ${name()} ${chance.one(['heard', 'silent'])}`,
    ...[`dial ${name()} no effect`, 'tubes out', `actual ${name()} ${number()} V`],
  ].filter(() => chance.percent(30));
  const meter = chance.one(['1000 ohms per volt 2 %', '10 megohms 1 %', '125 ohms per volt']);
  const what = [
    ...[`open ${name()}`, `short ${name()}`, `leaky ${name()} ${number()} ohms`, `weak ${name()}`],
    ...[`gas ${name()}`, `reverse ${name()}`, `remove ${name()}`, `swap ${name()} with ${name()}`],
    ...[`change ${name()} to ${number()} mfd`, `join ${name()} to ${name()}`],
    ...[`turns ${number()} shorted in ${name()}`, `set ${name()} ${number()}`],
  ];
  const bench = [`meter ${meter}`, ...readings, ...more].map((line) => `    ${line}\n`).join('');
  const suppose = [chance.one(what), ...(chance.percent(30) ? [chance.one(what)] : [])];
  return `${text.slice(0, at)}
  bench "by chance" {
${bench}  }
  suppose "by chance" {
${suppose.map((line) => `    ${line}\n`).join('')}  }
${text.slice(at)}`;
}

/** Some place of a text, and what somebody types there. */
export function editOf(text: string, chance: Chance) {
  const start = chance.below(text.length + 1);
  const end = chance.percent(60) ? start : Math.min(text.length, start + chance.below(30));
  const typed = chance.one([pieces, numbers, ['\n', ' ', '}', '.', '"', 'tube', 'wire V1.']]);
  return { start, end, text: chance.percent(80) ? chance.one(typed) : '' };
}

function bytes(chance: Chance): string {
  const length = chance.below(400);
  const raw = Uint8Array.from({ length }, () => chance.below(256));
  return new TextDecoder().decode(raw);
}
