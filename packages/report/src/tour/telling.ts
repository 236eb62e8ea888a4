import type { Overlay, OverlayPath } from '@setwright/diagram';
import { type Dimension, formatQuantity } from '@setwright/units';
import { type Quantity, quantities, quantityText } from '../values/quantities.ts';
import { reasonInLine } from '../values/reason.ts';
import type { ValueRow } from '../values/rows.ts';
import { frequencyText } from './frequency-text.ts';
import type { Grounds } from './grounds.ts';
import type { NumberSource, TourFact, TourNumber, TourStep } from './tour.ts';

/** A step while it is being told. What is said is kept in order; numbers and facts are proofs. */
export interface Telling {
  readonly grounds: Grounds;
  /** Adds a sentence for everybody; nothing for an empty one. */
  say(sentence: string | undefined): void;
  /**
   * Adds an explanation for those who see such a set for the first time, unless it has been given
   * before in the tour.
   */
  lesson(about: string, sentence: string | undefined): void;
  /** Adds one for those who mend them. */
  restorer(sentence: string | undefined): void;
  /** Adds what another report of the set says in its own words, with its numbers in them. */
  quote(words: string): void;
  /** A reckoned number of the set as it stands in a sentence; undefined where it is not known. */
  value(part: string, quantity: Quantity, of?: RowChoice): string | undefined;
  /** Volts of one terminal above another, with the set on. */
  volts(of: string, above: string): string | undefined;
  /** Any other number. */
  number(number: Omit<TourNumber, 'text'> & { readonly text: string }): string;
  /** Notes a fact that a sentence rests on. */
  fact(fact: TourFact): void;
  path(path: OverlayPath | undefined): void;
  /** Says which fact is missing for more to be told. */
  missing(words: string): void;
  /** The parts that are lit, besides those that the overlay names. */
  parts(...names: readonly string[]): void;
  readonly said: () => number;
  done(overlay: Overlay | undefined, options?: { readonly shadesStages?: boolean }): TourStep;
}

/** Which of several rows of a quantity is meant. */
export interface RowChoice {
  /** Hertz. */
  readonly at?: number;
  readonly to?: string;
  /** A sentence wants the size alone: which way is told in words. */
  readonly sign?: 'none';
}

/** Begins a step. */
export function telling(grounds: Grounds, id: string, heading: string): Telling {
  const { rows, style, point, level, circuit } = grounds;
  const sentences: string[] = [];
  const numbers: TourNumber[] = [];
  const facts: TourFact[] = [];
  const missing: string[] = [];
  const parts = new Set<string>();
  const say = (sentence: string | undefined): void => {
    if (sentence !== undefined && sentence !== '') sentences.push(sentence);
  };
  const number = (made: TourNumber): string => {
    const text = minus(made.text);
    const key = JSON.stringify(made.source);
    if (!numbers.some(({ source }) => JSON.stringify(source) === key))
      numbers.push({ ...made, text });
    return text;
  };
  return {
    grounds,
    say,
    lesson(about, sentence) {
      if (level !== 'newcomer' || sentence === undefined || grounds.explained.has(about)) return;
      grounds.explained.add(about);
      say(sentence);
    },
    restorer: (sentence) => (level === 'restorer' ? say(sentence) : undefined),
    quote(words) {
      if (words === '') return;
      say(words);
      facts.push({ kind: 'words', words });
    },
    number,
    value(part, quantity, of = {}) {
      const row = rowOf(rows, part, quantity, of);
      if (!row) return undefined;
      if (row.value === undefined) {
        missing.push(...row.missing);
        return undefined;
      }
      const { at, to } = row;
      return number({
        words: wordsOf(row, style),
        text: quantityText(
          quantity,
          seen(
            of.sign === 'none' ? Math.abs(row.value) : row.value,
            quantities[quantity].dimension,
          ),
          style,
        ),
        value: row.value,
        because: reasonInLine(row.reason),
        source: {
          from: 'values',
          part,
          quantity,
          ...(at === undefined ? {} : { at }),
          ...(to === undefined ? {} : { to }),
        },
      });
    },
    volts(of, above) {
      const value = point.voltage(of, above);
      if (value === undefined) return undefined;
      return number({
        words: `volts of ${of} above ${above}`,
        text: formatQuantity(seen(value, 'voltage'), 'voltage', style),
        value,
        because: 'the set solved at rest: V = V(one) − V(other)',
        source: { from: 'volts', of, above },
      });
    },
    fact: (fact) => void facts.push(fact),
    path(path) {
      if (!path) return;
      facts.push({ kind: 'path', path });
      for (const { part } of path.steps) parts.add(part);
    },
    missing: (words) => void missing.push(words),
    parts(...names) {
      for (const name of names) if (circuit.partNamed.has(name)) parts.add(name);
    },
    said: () => sentences.length,
    done(overlay, { shadesStages = false } = {}) {
      return {
        id,
        heading,
        sentences,
        overlay: overlay ?? plainOverlay(heading, undefined),
        shadesStages,
        parts: [...parts],
        numbers,
        facts,
        missing: [...new Set(missing)],
      };
    },
  };
}

/** An overlay that lights some parts and draws some ways. */
export function plainOverlay(
  title: string,
  parts: readonly string[] | undefined,
  paths: readonly OverlayPath[] = [],
): Overlay {
  return { id: 'tour', title, parts, paths, failed: [], changed: [], notes: [] };
}

/** A number as the text says it. */
export function saidNumber(
  telling: Telling,
  part: string,
  slot: string,
  words: string,
): string | undefined {
  const said = telling.grounds.circuit.partNamed.get(part)?.values[slot];
  if (!said) return undefined;
  return telling.number({
    words,
    text: said.text,
    value: said.value,
    because: 'as the text says',
    source: { from: 'text', part, slot },
  });
}

/** A quantity in the units of the tour, recorded with where it comes from. */
export function soNumber(
  telling: Telling,
  words: string,
  value: number,
  dimension: Dimension,
  because: string,
  source: NumberSource,
): string {
  const text = formatQuantity(value, dimension, telling.grounds.style);
  return telling.number({ words, text, value, because, source });
}

/** The row of a quantity of a part. */
export function rowOf(
  rows: readonly ValueRow[],
  part: string,
  quantity: Quantity,
  { at, to }: RowChoice = {},
): ValueRow | undefined {
  return rows.find(
    (row) =>
      row.part === part &&
      row.quantity === quantity &&
      (at === undefined || row.at === at) &&
      (to === undefined || row.to === to),
  );
}

function wordsOf({ part, quantity, at, note, words }: ValueRow, style: 'period' | 'si'): string {
  const where = at === undefined ? '' : ` at ${frequencyText(at, style)}`;
  const more = note === undefined ? '' : `, ${note}`;
  return `${words ?? quantities[quantity].words} of ${part}${where}${more}`;
}

/** Volts that no meter tells from none. */
const UNSEEN = 5e-4;

function seen(value: number, dimension: string): number {
  return dimension === 'voltage' && Math.abs(value) < UNSEEN ? 0 : value;
}

/** A minus sign as print has it; names of terminals keep their hyphens. */
function minus(text: string): string {
  return text.replace(/^-(?=[\d.])/, '−');
}
