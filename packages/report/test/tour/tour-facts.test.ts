import { describe, expect, it } from 'vitest';
import { type RandomMode, randomReceiver } from '../../../../test/support/random-receiver.ts';
import { type Tour, tourLevels } from '../../src/tour/tour.ts';
import { asked, untrue, type Witness, witnessOf } from './proofs.ts';
import { examples, setOf, textOf, tourIn } from './sets.ts';

/** What of a tour is not so. */
function wrongIn(witness: Witness, { steps }: Tour): string[] {
  return steps.flatMap(({ id, facts, numbers }) => [
    ...facts.flatMap((fact) => {
      const wrong = untrue(witness, fact);
      return wrong === undefined ? [] : [`${id}: ${wrong}`];
    }),
    ...numbers.flatMap((number) => {
      const value = asked(witness, number);
      const isSame =
        value === number.value ||
        (value !== undefined && Math.abs(value - number.value) <= 1e-9 * Math.abs(value));
      return isSame ? [] : [`${id}: ${number.words} is ${value}, not ${number.value}`];
    }),
  ]);
}

/** Numerals that a sentence names and that no number, no name and no words of the text account for. */
function unaccounted(witness: Witness, text: string, { steps, level }: Tour): string[] {
  const { circuit } = witness;
  const names = [...circuit.endNamed.keys(), ...circuit.partNamed.keys()];
  const said = [
    ...names,
    ...circuit.dials.map(({ name }) => name),
    ...circuit.gangs.map(({ name }) => name),
    ...circuit.parts.flatMap(({ typeName, positions }) => [typeName ?? '', ...positions]),
    ...[...text.matchAll(/"[^"]*"/g)].map(([quoted]) => quoted.slice(1, -1)),
    circuit.year?.text ?? '',
    ...circuit.supposes.flatMap(({ edits }) => edits.map(({ value }) => value?.text ?? '')),
    witness.supposed.chart.meter.words,
  ];
  const known = new Set(said.flatMap(numeralsIn));
  return steps.flatMap(({ id, sentences, numbers, facts }) => {
    const own = new Set([
      ...known,
      ...numbers.flatMap(({ text: shown, words }) => [...numeralsIn(shown), ...numeralsIn(words)]),
      ...facts.flatMap((fact) => (fact.kind === 'words' ? numeralsIn(fact.words) : [])),
    ]);
    return sentences.flatMap((sentence) =>
      numeralsIn(sentence)
        .filter((numeral) => !own.has(numeral) && !allowed.has(numeral))
        .map((numeral) => `${level} ${id}: ${numeral} in "${sentence}"`),
    );
  });
}

/** Volts from which on a shock can hurt. */
const allowed = new Set(['60']);

const numeralsIn = (text: string): string[] => text.match(/\d+(?:\.\d+)?|\.\d+/g) ?? [];

describe.each(examples)('the tour of %s', (example) => {
  const text = textOf(example);
  const witness = witnessOf(setOf(text));
  const tours = tourLevels.map((level) => tourIn(text, { level }));

  it('says nothing that is not so', () => {
    for (const tour of tours) expect(wrongIn(witness, tour)).toEqual([]);
  });

  it('names no figure that it does not account for', () => {
    for (const tour of tours)
      expect(unaccounted(witness, `${text}${wordsOfMissing(tour)}`, tour)).toEqual([]);
  });

  it('has two to five sentences in every step, which name the parts of this set', () => {
    for (const { steps, circuit } of tours)
      for (const { id, sentences } of steps) {
        expect(sentences.length, id).toBeGreaterThanOrEqual(2);
        expect(sentences.length, id).toBeLessThanOrEqual(5);
        const names = [circuit.title, ...circuit.partNamed.keys(), ...circuit.endNamed.keys()];
        const all = sentences.join(' ');
        expect(
          names.some((name) => all.includes(name)) || id === 'unknown' || /reading/.test(all),
          `${id}: ${all}`,
        ).toBe(true);
      }
  });

  it('has a step for every suppose, and no id twice', () => {
    for (const { steps, circuit } of tours) {
      const ids = steps.map(({ id }) => id);
      expect(new Set(ids).size).toBe(ids.length);
      expect(ids.filter((id) => id.startsWith('suppose-'))).toHaveLength(circuit.supposes.length);
    }
  });

  it('lights only what the set has', () => {
    for (const { steps, circuit } of tours)
      for (const { parts } of steps)
        for (const part of parts) expect(circuit.partNamed.has(part), part).toBe(true);
  });
});

/** What is missing is told in the words of the analysis, whose examples have figures in them. */
const wordsOfMissing = ({ steps }: Tour): string =>
  steps.flatMap(({ missing }) => missing.map((words) => `"${words}"`)).join(' ');

const chances: readonly (readonly [RandomMode, number])[] = [
  ...Array.from({ length: 14 }, (_, index) => ['sane', 100 + index] as const),
  ...Array.from({ length: 8 }, (_, index) => ['unfinished', 200 + index] as const),
  ...Array.from({ length: 8 }, (_, index) => ['wild', 300 + index] as const),
];

describe('the tour of a receiver by chance', () => {
  it.each(chances)('%s, seed %i: says nothing that is not so', (mode, seed) => {
    const text = randomReceiver(seed, { mode });
    const tour = tourIn(text, { level: seed % 2 === 0 ? 'newcomer' : 'restorer' });
    expect(tour.steps.length).toBeGreaterThan(1);
    expect(wrongIn(witnessOf(setOf(text)), tour)).toEqual([]);
    for (const { id, sentences } of tour.steps) {
      expect(sentences.length, id).toBeGreaterThanOrEqual(1);
      for (const sentence of sentences) {
        expect(sentence, id).not.toMatch(/undefined|NaN|Infinity|\[object| {2}/);
        expect(sentence, id).toMatch(/[.!?”]$/);
      }
    }
  });
});

describe('the tour of half a set', () => {
  it('leaves out what it does not know, and says which fact is missing', () => {
    const tour = tourIn(`receiver "Half" {
  battery B dry { tap B- tap B+45 }
  tube V1 01-A
  condenser C1 variable
  coil L1 { winding grid }
  wire L1.grid.start to C1.rotor to B-
  wire L1.grid.finish to C1.stator to V1.grid
  wire V1.plate to B+45
}`);
    const all = tour.steps.flatMap(({ sentences }) => sentences).join(' ');
    expect(all).toContain('What it covers is not known, for want of the turns of L1.grid');
    expect(all).not.toMatch(/undefined|NaN/);
  });

  it('is a tour all the same of a set of nothing', () => {
    const { steps } = tourIn('receiver "Nothing" {\n}\n');
    expect(steps.map(({ id }) => id)).toContain('glance');
  });
});
