import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Chance, chanceOf } from '../support/random/chance.ts';
import { type RandomMode, randomReceiver } from '../support/random-receiver.ts';

const folder = process.env.SETWRIGHT_EXAMPLES ?? join(import.meta.dirname, '../../examples');
const namesIn = (below: string) =>
  readdirSync(join(folder, below))
    .filter((name) => name.endsWith('.receiver'))
    .map((name) => readFileSync(join(folder, below, name), 'utf8'));

// Made into one file to run by itself, this module stands elsewhere, and is told where.
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
  ...['NaN', 'Infinity', '00', '1.2.3', '1,000', '٣'],
];
const pieces = [
  ...['"', '{', '}', '//', '/*', '*/', '\0', '\u001b[31m', '\ufeff', '\u202e', '💡', '\r', '\t'],
  ...['receiver "X" {', 'tube type 01-A {', 'use "../x.receiver"', 'meant', 'from', 'to', 'across'],
  ...['<script>alert(1)</script>', '`', '](javascript:0)', '\\', '"""', 'constructor'],
];

type Mangling = (text: string, chance: Chance) => string;

const lineAt = (lines: readonly string[], chance: Chance) => chance.below(lines.length);

const manglings: readonly Mangling[] = [
  // Numbers that no part has.
  (text, chance) =>
    text.replace(/(?<=[ (])[.\d][\d./]*(?=[ )\n])/g, (old) =>
      chance.percent(25) ? chance.one(numbers) : old,
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

function bytes(chance: Chance): string {
  const length = chance.below(400);
  const raw = Uint8Array.from({ length }, () => chance.below(256));
  return new TextDecoder().decode(raw);
}
