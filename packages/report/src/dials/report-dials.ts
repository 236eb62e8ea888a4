import { formatQuantity, SPEED_OF_LIGHT } from '@setwright/units';
import { csvOf } from '../text/csv.ts';
import { gathered } from '../text/gathered.ts';
import type { Styles } from '../text/styles.ts';
import { tableOf } from '../text/table.ts';
import { printableJson, visible } from '../text/visible.ts';
import { listed } from '../text/words.ts';
import { wrapped } from '../text/wrapped.ts';
import type { UnitStyle } from '../values/quantities.ts';
import {
  type DialColumn,
  type DialReadings,
  headingOf,
  type StationLine,
} from './dial-readings.ts';

/** For other programs: hertz, metres, readings as on the dial, the spread as a share of it. */
export function dialsInJson(path: string, sets: readonly DialReadings[]): string {
  const report = {
    version: 1,
    path,
    receivers: sets.map(({ circuit, columns, lines, unknown, taken }) => ({
      title: circuit.title,
      dials: columns.map(({ name, of, low, high, above, followers, trimmers }) => ({
        dial: name,
        circuit: of.circuit.name,
        condenser: of.circuit.tuner,
        low,
        high,
        reversed: of.dial?.reversed ?? false,
        above,
        plates: of.plates.law,
        followers: followers.map((each) => each.of.circuit.name),
        trimmers: [...trimmers].map(([part, farads]) => ({ part, capacitance: farads })),
      })),
      stations: lines.map(({ frequency, readings, spread, following }) => ({
        frequency,
        wavelength: SPEED_OF_LIGHT / frequency,
        readings: readings.map((reading) => reading ?? null),
        spread: spread ?? null,
        following: following.flat().map(({ circuit: name, off }) => ({
          circuit: name,
          off: off ?? null,
        })),
      })),
      missing: unknown.map(({ name, missing }) => ({ circuit: name, missing })),
      taken,
    })),
  };
  return `${printableJson(report)}\n`;
}

/** For a spreadsheet: one line for each dial at each station. */
export function dialsInCsv(sets: readonly DialReadings[]): string {
  const lines = sets.flatMap(({ circuit, columns, lines: stations }) =>
    stations.flatMap(({ frequency, readings, spread, following }) =>
      columns.flatMap(({ name, of }, index) => [
        [
          circuit.title,
          frequency,
          SPEED_OF_LIGHT / frequency,
          name,
          of.circuit.name,
          readings[index],
          undefined,
          spread,
        ],
        ...(following[index] ?? []).map(({ circuit: other, off }) => [
          circuit.title,
          frequency,
          SPEED_OF_LIGHT / frequency,
          name,
          other,
          readings[index],
          off,
          spread,
        ]),
      ]),
    ),
  );
  return csvOf(
    ['receiver', 'frequency', 'wavelength', 'dial', 'circuit', 'reading', 'off', 'spread'],
    lines,
  );
}

/** For a person: a table of stations by dials, with what it rests on. */
export function dialsInWords(
  set: DialReadings,
  style: UnitStyle,
  columns: number,
  styles: Styles,
): string[] {
  const width = Math.max(50, Math.min(columns, 100));
  const say = (words: string) => wrapped(visible(words), width);
  const title = set.circuit.title || 'Receiver without a name';
  const out = [styles.strong(visible(`${title}: where the dials stand`)), ''];
  const ofColumns = [
    ...(isApart(set.columns)
      ? ['Apart is the highest reading less the lowest, as a share of the scale.']
      : []),
    ...(set.columns.some(({ followers }) => followers.length > 0)
      ? ['Of the other circuits on one shaft it is told how far each is tuned too high.']
      : []),
  ];
  const remarks = [...ofColumns, ...dialRemarks(set, style).map(({ words }) => words)].flatMap(say);
  return set.columns.length === 0
    ? [...out, ...remarks]
    : [...out, ...dialTable(set, style), '', ...remarks];
}

/** A sentence that stands with a table, and whether it tells what is not known. */
export interface Remark {
  readonly words: string;
  readonly isMissing: boolean;
}

/** What is to be said of the readings besides their table. */
export function dialRemarks(set: DialReadings, style: UnitStyle): readonly Remark[] {
  const { columns, lines, circuit, taken } = set;
  const remarks: string[] = [];
  const unknown = set.unknown.map(
    ({ name, missing }): Remark => ({
      words: `The reading of ${name} is not known, for want of ${listed(missing)}.`,
      isMissing: true,
    }),
  );
  if (columns.length === 0)
    return unknown.length > 0
      ? unknown
      : [
          {
            words: `No tuned circuit here has a variable condenser${turnedWords()}.`,
            isMissing: true,
          },
        ];
  if (lines.some(({ readings }) => readings.includes(undefined)))
    remarks.push('A dash stands where a dial does not reach the station.');
  const [oscillator] = columns.filter(({ above }) => above !== 0);
  if (oscillator)
    remarks.push(
      `An oscillator stands ${formatQuantity(Math.abs(oscillator.above), 'frequency', style)} above the station or below it.`,
    );
  for (const { trimmers } of columns)
    if (trimmers.size > 0) remarks.push(`Aligned at the short-wave end: ${trimmed(trimmers)}.`);
  const { partNamed, endNamed } = circuit;
  const isName = (word: string): boolean => partNamed.has(word) || endNamed.has(word);
  if (taken.length > 0) remarks.push(`Taken: ${gathered(taken, isName).join('; ')}.`);
  return [...remarks.map((words): Remark => ({ words, isMissing: false })), ...unknown];

  function turnedWords(): string {
    const names = circuit.parts.flatMap(({ kind, name }) => (kind === 'variometer' ? name : []));
    return names.length === 0 ? '' : `, and of ${listed(names)} no readings are reckoned`;
  }

  function trimmed(all: DialColumn['trimmers']): string {
    return listed(
      [...all].map(([part, farads]) => `${part} ${formatQuantity(farads, 'capacitance', style)}`),
    );
  }
}

/** Whether two dials or more ought to stand alike. */
function isApart(columns: readonly DialColumn[]): boolean {
  return columns.filter(({ above }) => above === 0).length > 1;
}

function dialTable({ columns, lines }: DialReadings, style: UnitStyle): string[] {
  const hasSpread = isApart(columns);
  const heading = [
    'station',
    'wave',
    ...columns.flatMap((column) => [
      headingOf(column),
      ...column.followers.map((each) => each.of.circuit.name),
    ]),
    ...(hasSpread ? ['apart'] : []),
  ];
  return tableOf(
    heading.map(visible),
    lines.map((line) => [
      formatQuantity(line.frequency, 'frequency', style, 4),
      formatQuantity(SPEED_OF_LIGHT / line.frequency, 'wavelength', style),
      ...columns.flatMap((column, index) => cellsOf(column, line, index, style)),
      ...(hasSpread ? [line.spread === undefined ? '–' : formatPercent(line.spread)] : []),
    ]),
  );
}

function cellsOf(
  column: DialColumn,
  { readings, following }: StationLine,
  index: number,
  style: UnitStyle,
): string[] {
  const reading = readings[index];
  return [
    reading === undefined ? '–' : readingText(column, reading),
    ...(following[index] ?? []).map(({ off }) => (off === undefined ? '–' : offText(off, style))),
  ];
}

/** A reading as finely as it can be read: to a tenth of a division of a scale of a hundred. */
export function readingText({ low, high }: DialColumn, reading: number): string {
  return reading.toFixed(Math.abs(high - low) < 50 ? 2 : 1);
}

function offText(off: number, style: UnitStyle): string {
  if (Math.abs(off) < 0.5) return '0';
  const size = formatQuantity(Math.abs(off), 'frequency', style, 2);
  return off > 0 ? `+${size}` : `−${size}`;
}

function formatPercent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
