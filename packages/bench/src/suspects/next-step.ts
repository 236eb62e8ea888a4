import type { Circuit } from '@setwright/circuit';
import { calledSo, type Spot } from '../chart/spot.ts';
import { CLICKS, clickOf, clickWords } from '../effects/symptoms.ts';
import { amountWords, mostProbable } from './because.ts';
import type { CaseBook } from './causes.ts';
import type { NextTest } from './next-test.ts';
import { dialShare, type Weighed } from './posterior.ts';
import type { Test } from './tests.ts';

/** What to do next, in words and for other programs. */
export interface NextStep {
  readonly test: Test;
  /** Where the probe goes, or what is tapped or turned, as the text calls it. */
  readonly at: string;
  /** Where the other lead goes; undefined for a current, a click, a dial. */
  readonly to: string | undefined;
  /** What to do. */
  readonly words: string;
  /** The line of the bench that says what came of it. */
  readonly line: string;
  /** What it tells apart. */
  readonly because: string;
  /** Bits that it is expected to tell. */
  readonly bits: number;
}

/** Suspects named as examples of what a test may show. */
const NAMED = 4;
/** Values nearer than this share are one and the same in words. */
const ALIKE = 0.08;

/** Says a test in words. */
export function nextStep(
  book: CaseBook,
  ranked: readonly Weighed[],
  groupOf: (weighed: Weighed) => number,
  { test, bits }: NextTest,
): NextStep {
  const { circuit } = book;
  const because = becauseOf(test, firstOfEach(ranked, groupOf));
  switch (test.kind) {
    case 'click':
      return {
        test,
        at: test.tube,
        to: undefined,
        words: `Set on, tap the grid of ${test.tube} with an insulated probe and listen.`,
        line: `click ${test.tube} heard, or faint, or silent`,
        because,
        bits,
      };
    case 'dial':
      return {
        test,
        at: test.dial,
        to: undefined,
        words: `Set on, turn ${test.dial} across a station and listen.`,
        line: `dial ${test.dial} no effect, or broad, or where it stands: dial ${test.dial} 42`,
        because,
        bits,
      };
    case 'reading': {
      const { spot } = test;
      const { at, to, across } = spot;
      return {
        test,
        at: across ?? calledSo(circuit, at),
        to: across !== undefined || to === undefined ? undefined : calledSo(circuit, to),
        words: readingWords(circuit, spot),
        line: readingLine(circuit, spot, book.causes[0]?.states[0]?.set.foresee(spot)?.mean ?? 0),
        because,
        bits,
      };
    }
  }
}

function readingWords(circuit: Circuit, spot: Spot): string {
  const { quantity, state, lifted, across, at, to } = spot;
  if (quantity === 'current')
    return `Set on, take the ${calledSo(circuit, at)} lead off its post and read the current in it.`;
  if (state === 'on') {
    const where =
      across === undefined
        ? `volts at ${calledSo(circuit, at)} to ${calledSo(circuit, to ?? '')}`
        : `volts across ${across}`;
    return `Set on, read the ${where}.`;
  }
  if (across === undefined)
    return `Batteries off and tubes out, read the ohms from ${calledSo(circuit, at)} to ${calledSo(circuit, to ?? '')}.`;
  if (circuit.partNamed.get(across)?.kind === 'tube')
    return `Take ${across} out and read the ohms of its filament, on a range of little current.`;
  return lifted
    ? `Batteries off, lift one end of ${across} and read its ohms.`
    : `Batteries off and tubes out, read the ohms across ${across} in its place.`;
}

function readingLine(circuit: Circuit, spot: Spot, amperes: number): string {
  const { quantity, lifted, across, at, to, state } = spot;
  const unit = { voltage: 'V', current: amperes > 0.1 ? 'A' : 'mA', resistance: 'ohms' }[quantity];
  const end = lifted ? ' lifted' : '';
  if (across !== undefined) return `reading ${across} … ${unit}${end}`;
  const isOwn = to !== undefined && circuit.partOfEnd.get(at) === circuit.partOfEnd.get(to);
  const isPlain = to === undefined || (isOwn && state === 'on');
  const other = isPlain ? '' : ` to ${calledSo(circuit, to)}`;
  return `reading ${calledSo(circuit, at)}${other} … ${unit}`;
}

/** The most probable cause of every group, the sound set's too. */
function firstOfEach(
  ranked: readonly Weighed[],
  groupOf: (weighed: Weighed) => number,
): readonly Weighed[] {
  const firsts = new Map<number, Weighed>();
  for (const each of ranked) {
    const group = groupOf(each);
    if (!firsts.has(group)) firsts.set(group, each);
  }
  return [...firsts.values()];
}

function becauseOf(test: Test, firsts: readonly Weighed[]): string {
  const isOhms = test.kind === 'reading' && test.spot.quantity === 'resistance';
  const outcomes = new Map<string, { readonly mean: number; readonly who: string[] }>();
  for (const weighed of firsts.slice(0, 3 * NAMED)) {
    const shown = shownWith(test, weighed);
    if (!shown) continue;
    const known =
      outcomes.get(shown.words) ??
      [...outcomes.values()].find(({ mean }) => isNear(mean, shown.mean, isOhms));
    const entry = known ?? { mean: shown.mean, who: [] };
    if (!known) outcomes.set(shown.words, entry);
    entry.who.push(nameOf(weighed));
  }
  const told = [...outcomes].slice(0, NAMED).map(([words, { who }]) => {
    const [first = '', second] = who;
    if (second === undefined) return `${words} if ${first}`;
    return `${words} if ${first}, ${who.length > 2 ? 'and with others' : `or ${second}`}`;
  });
  return told.length === 0 ? 'It tells most of what is left.' : `${capital(told.join('; '))}.`;
}

const shownDial = [
  { told: 'stands', words: 'a sharp peak', mean: 1 },
  { told: 'broad', words: 'a broad one', mean: 0.5 },
  { told: 'no effect', words: 'no effect', mean: 0 },
] as const;

function shownWith(
  test: Test,
  weighed: Weighed,
): { readonly words: string; readonly mean: number } | undefined {
  const { sounding } = weighed.cause;
  if (test.kind === 'click') {
    const click = clickOf(sounding.clicks.get(test.tube) ?? 0);
    return { words: clickWords[click], mean: 0 - CLICKS.indexOf(click) };
  }
  if (test.kind === 'dial')
    return shownDial.find(({ told }) => dialShare(sounding, test.dial, told) > 0.5) ?? shownDial[0];
  const mean = mostProbable(weighed)?.state.set.foresee(test.spot)?.mean;
  return mean === undefined ? undefined : { words: amountWords(mean, test.spot), mean };
}

/** Whether two values are told as one; ohms are counted by their logarithm. */
function isNear(one: number, other: number, isOhms: boolean): boolean {
  if (one === other) return true;
  const apart = Math.abs(one - other);
  if (!Number.isFinite(apart)) return false;
  return apart <= (isOhms ? ALIKE : ALIKE * Math.max(Math.abs(one), Math.abs(other)));
}

function nameOf({ cause }: Weighed): string {
  return cause.faults.length === 0
    ? 'nothing is the matter'
    : cause.faults.length > 1
      ? `it is ${cause.faults.map(({ part }) => part).join(' and ')} together`
      : (cause.faults[0]?.words ?? '');
}

function capital(words: string): string {
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}
