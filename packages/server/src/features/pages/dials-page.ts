import {
  bandOf,
  type DialReadings,
  dialChart,
  dialReadings,
  headingOf,
  listed,
  stationsOver,
  svgOf,
} from '@setwright/report';
import { formatQuantity, SPEED_OF_LIGHT } from '@setwright/units';
import type { ExportRequest, PageRequest, PageTable } from '@setwright/webview';
import { type PageBody, type PageSource, wordsOnly } from './page-source.ts';
import { takenNote } from './taken.ts';

/** Where the dials stand for the stations: the chart and the table below it. */
export function dialsPage({ snapshot, units }: PageSource, { receiver }: PageRequest): PageBody {
  const circuit = snapshot.file.circuits[receiver];
  const set = readingsOf(snapshot, receiver);
  if (!circuit || !set) return wordsOnly();
  const chart = dialChart(set, units);
  const isApart = set.lines.some(({ spread }) => spread !== undefined);
  const table: PageTable = {
    title: 'Dial readings',
    heading: ['station', 'wave', ...set.columns.map(headingOf), ...(isApart ? ['apart'] : [])],
    rows: set.lines.map(({ frequency, readings, spread }) => [
      formatQuantity(frequency, 'frequency', units),
      formatQuantity(SPEED_OF_LIGHT / frequency, 'wavelength', units),
      ...readings.map((reading) => (reading === undefined ? '–' : reading.toFixed(1))),
      ...(isApart
        ? [spread === undefined ? '–' : formatQuantity(spread, 'percent', units, 2)]
        : []),
    ]),
  };
  return {
    ...wordsOnly(
      ...(set.columns.length === 0 && set.unknown.length === 0
        ? ['No tuned circuit here has a variable condenser.']
        : []),
      ...(set.lines.length > 0
        ? []
        : ['What the set tunes is not known, as in: tunes 550 kc to 1500 kc.']),
      ...set.unknown.map(
        ({ name, missing }) =>
          `The reading of ${name} is not known, for want of ${listed(missing)}.`,
      ),
      ...(isApart
        ? ['Apart is the highest reading less the lowest, as a share of the scale.']
        : []),
      ...takenNote(circuit, set.taken),
    ),
    svg: chart && svgOf([chart], 'auto'),
    tables: set.lines.length > 0 && set.columns.length > 0 ? [table] : [],
  };
}

/** The chart by itself, for a file. */
export function exportedDials(
  { snapshot, units }: PageSource,
  { receiver, theme }: ExportRequest,
): string | undefined {
  const set = readingsOf(snapshot, receiver);
  const chart = set && dialChart(set, units);
  return chart && svgOf([chart], theme === 'dark' ? 'dark' : 'light');
}

function readingsOf(snapshot: PageSource['snapshot'], receiver: number): DialReadings | undefined {
  const circuit = snapshot.file.circuits[receiver];
  const dials = snapshot.dials(receiver);
  if (!circuit || !dials) return undefined;
  const band = bandOf(
    circuit,
    dials.columns.map(({ of }) => of.circuit),
  );
  return dialReadings(dials, band ? stationsOver(band) : []);
}
