import { type BenchChart, calledSo, type Reading } from '@setwright/bench';
import { csvOf } from '../text/csv.ts';
import { plain } from '../text/markdown.ts';
import type { Styles } from '../text/styles.ts';
import { tableOf } from '../text/table.ts';
import { printableJson, visible } from '../text/visible.ts';
import { counted } from '../text/words.ts';
import { wrapped } from '../text/wrapped.ts';
import type { UnitStyle } from '../values/quantities.ts';
import {
  amountText,
  bandText,
  benchSections,
  probeWords,
  scaleText,
  verdictText,
} from './bench-sections.ts';

const units = { voltage: 'V', current: 'A', resistance: 'Ω' } as const;

/** A number for other programs: endless ohms are `open`. */
function numberOf(value: number | undefined): number | 'open' | null {
  if (value === undefined) return null;
  return value === Number.POSITIVE_INFINITY ? 'open' : value;
}

/** Where a lead of the meter is, as the text calls it. */
function calledIn({ circuit }: BenchChart, terminal: string | undefined): string | null {
  return terminal === undefined ? null : calledSo(circuit, terminal);
}

/** For other programs: SI numbers; what is endless is `open`, what is not known null. */
export function benchInJson(path: string, charts: readonly BenchChart[]): string {
  const report = {
    version: 1,
    path,
    readings: charts.flatMap((chart) =>
      chart.readings.map((reading) => ({
        receiver: chart.circuit.title,
        bench: chart.bench?.title ?? null,
        at: calledIn(chart, reading.at),
        to: calledIn(chart, reading.to),
        across: reading.across ?? null,
        quantity: reading.quantity,
        state: reading.state,
        lifted: reading.lifted,
        expected: numberOf(reading.expected?.value),
        low: numberOf(reading.expected?.low),
        high: numberOf(reading.expected?.high),
        unit: units[reading.quantity],
        range: numberOf(reading.scale),
        read: numberOf(reading.read),
        inRange: reading.inRange ?? null,
        ...(reading.why === undefined ? {} : { missing: reading.why }),
      })),
    ),
    cautions: [...new Set(charts.flatMap(({ cautions }) => cautions))],
    taken: [...new Set(charts.flatMap(({ taken }) => taken))],
  };
  return `${printableJson(report)}\n`;
}

/** For a spreadsheet: one line for each reading, SI numbers. */
export function benchInCsv(charts: readonly BenchChart[]): string {
  const cell = (value: number | undefined) => {
    const number = numberOf(value);
    return number === null ? undefined : number;
  };
  const lines = charts.flatMap((chart) =>
    chart.readings.map((reading) => [
      chart.circuit.title,
      calledIn(chart, reading.at) ?? undefined,
      calledIn(chart, reading.to) ?? undefined,
      reading.across,
      reading.quantity,
      reading.state,
      reading.lifted ? 'lifted' : undefined,
      cell(reading.expected?.value),
      cell(reading.expected?.low),
      cell(reading.expected?.high),
      units[reading.quantity],
      cell(reading.scale),
      cell(reading.read),
      reading.read === undefined ? undefined : verdictText(reading),
    ]),
  );
  return csvOf(
    [
      'receiver',
      'at',
      'to',
      'across',
      'quantity',
      'state',
      'lifted',
      'expected',
      'low',
      'high',
      'unit',
      'range',
      'read',
      'verdict',
    ],
    lines,
  );
}

/** For a person at the bench: readings as they are taken, what was read beside what is expected. */
export function benchInWords(
  chart: BenchChart,
  style: UnitStyle,
  columns: number,
  styles: Styles,
): string[] {
  const width = Math.max(50, Math.min(columns, 100));
  const say = (words: string) => wrapped(visible(words), width);
  const out = [styles.strong(visible(titleOf(chart))), ''];
  if (chart.cautions.length > 0) out.push(...say(`Caution: ${chart.cautions.join(' ')}`), '');
  for (const { heading, readings } of benchSections(chart)) {
    const columns = columnsOf(readings);
    const lines = tableOf(
      headingsOf(columns),
      readings.map((reading) => cellsOf(chart, reading, columns, style).map(visible)),
    );
    out.push(styles.strong(visible(heading)), ...marked(lines, readings, styles), '');
  }
  out.push(...benchSummary(chart).flatMap(say), ...say(`Taken: ${chart.taken.join('; ')}.`));
  return out;
}

/** The same as tables of Markdown. */
export function benchInMarkdown(chart: BenchChart, style: UnitStyle): string[] {
  const line = (cells: readonly string[]) => `| ${cells.map(plain).join(' | ')} |`;
  const out = [`# ${plain(titleOf(chart))}`, ''];
  if (chart.cautions.length > 0) out.push(`> **Caution.** ${plain(chart.cautions.join(' '))}`, '');
  for (const { heading, readings } of benchSections(chart)) {
    const columns = columnsOf(readings);
    const headings = headingsOf(columns);
    out.push(
      `## ${plain(heading)}`,
      '',
      line(headings),
      `| ${headings.map((_, at) => (at === 0 ? '---' : '---:')).join(' | ')} |`,
      ...readings.map((reading) => line(cellsOf(chart, reading, columns, style))),
      '',
    );
  }
  out.push(...benchSummary(chart).map(plain), '', `Taken: ${plain(chart.taken.join('; '))}.`);
  return out;
}

/** The chart as tables of plain cells, for a page. */
export function benchTables(
  chart: BenchChart,
  style: UnitStyle,
): readonly {
  readonly title: string;
  readonly heading: readonly string[];
  readonly rows: readonly (readonly string[])[];
}[] {
  return benchSections(chart).map(({ heading, readings }) => {
    const columns = columnsOf(readings);
    return {
      title: heading,
      heading: headingsOf(columns),
      rows: readings.map((reading) => cellsOf(chart, reading, columns, style)),
    };
  });
}

/** What is to be said of a chart besides its tables: cautions first. */
export function benchRemarks(chart: BenchChart): readonly string[] {
  return [
    ...chart.cautions.map((caution) => `Caution: ${caution}`),
    ...benchSummary(chart),
    `Taken: ${chart.taken.join('; ')}.`,
  ];
}

function titleOf({ circuit, bench }: BenchChart): string {
  const set = circuit.title || 'Receiver without a name';
  return bench?.title ? `${set}: bench chart, "${bench.title}"` : `${set}: bench chart`;
}

/** Columns that a section has besides probe, expected value and band. */
interface Columns {
  readonly read: boolean;
  readonly scale: boolean;
}

function columnsOf(readings: readonly Reading[]): Columns {
  return {
    read: readings.some(({ read }) => read !== undefined),
    scale: readings.some(({ scale }) => scale !== undefined),
  };
}

function headingsOf({ read, scale }: Columns): readonly string[] {
  return [
    'probe on',
    ...(read ? ['read'] : []),
    'expected',
    'within',
    ...(scale ? ['on'] : []),
    ...(read ? [''] : []),
  ];
}

function cellsOf(
  { circuit }: BenchChart,
  reading: Reading,
  columns: Columns,
  style: UnitStyle,
): readonly string[] {
  const { expected, read } = reading;
  return [
    probeWords(circuit, reading),
    ...(columns.read ? [read === undefined ? '' : amountText(read, reading, style)] : []),
    expected ? amountText(expected.value, reading, style) : 'not known',
    bandText(reading, style),
    ...(columns.scale ? [scaleText(reading, style)] : []),
    ...(columns.read ? [verdictText(reading)] : []),
  ];
}

/** Lines of readings that are out set off. */
function marked(
  lines: readonly string[],
  readings: readonly Reading[],
  styles: Styles,
): readonly string[] {
  return lines.map((line, at) => {
    if (at === 0) return styles.faint(line);
    return readings[at - 1]?.inRange === false ? styles.of('warning', line) : line;
  });
}

/** How many readings are out, and how many cannot be told beforehand. */
export function benchSummary({ readings, bench }: BenchChart): string[] {
  const taken = readings.filter(({ inRange }) => inRange !== undefined);
  const out = taken.filter(({ inRange }) => inRange === false);
  const unknown = readings.filter(({ expected }) => expected === undefined);
  const sentences: string[] = [];
  if (bench && taken.length > 0)
    sentences.push(
      out.length === 0
        ? `All ${counted(taken.length, 'reading')} lie where they should.`
        : `${counted(out.length, 'reading')} of ${taken.length} ${out.length === 1 ? 'lies' : 'lie'} outside what is expected.`,
    );
  if (unknown.length > 0)
    sentences.push(`${counted(unknown.length, 'reading')} cannot be told beforehand.`);
  return sentences;
}
