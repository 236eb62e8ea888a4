import { listed, quietWords, responseCharts, svgOf, verdictWords } from '@setwright/report';
import { formatQuantity } from '@setwright/units';
import type { ExportRequest, PageRequest, PageTable } from '@setwright/webview';
import { type PageBody, type PageSource, wordsOnly } from './page-source.ts';
import { takenNote } from './taken.ts';

/** What the set makes of a signal over its band: curves, a table of stations, whether it squeals. */
export function responsePage({ snapshot, units }: PageSource, { receiver }: PageRequest): PageBody {
  const circuit = snapshot.file.circuits[receiver];
  const set = snapshot.response(receiver);
  if (!circuit || !set)
    return wordsOnly('This set has more tubes than can be reckoned through for a signal.');
  const charts = responseCharts(set, units);
  const tubes = [
    ...new Set(
      set.stations.flatMap(({ heard }) =>
        (heard.stages ?? []).flatMap(({ tube, gain }) => (gain === undefined ? [] : [tube])),
      ),
    ),
  ];
  const figure = (value: number | undefined): string =>
    value === undefined ? '–' : formatQuantity(value, 'ratio', units, 3);
  const width = (hertz: number | undefined): string =>
    hertz === undefined ? '–' : formatQuantity(hertz, 'frequency', units, 3);
  const table: PageTable = {
    title: 'Stations',
    heading: [
      'station',
      'at the detector',
      ...tubes.map((tube) => `gain of ${tube}`),
      '6 decibels down',
      '20 decibels down',
      'squealing',
    ],
    rows: set.stations.map((station) => {
      const { frequency, detectorVolts, stages, selectivity } = station.heard;
      return [
        formatQuantity(frequency, 'frequency', units),
        figure(detectorVolts),
        ...tubes.map((name) => figure(stages?.find(({ tube }) => tube === name)?.gain)),
        width(selectivity?.width6),
        width(selectivity?.width20),
        quietWords(station, units),
      ];
    }),
  };
  return {
    ...wordsOnly(
      ...(set.missing.length > 0
        ? [`Its gain is not known, for want of ${listed(set.missing)}.`]
        : ['At the detector: volts for one volt in the aerial.']),
      verdictWords(set, units),
      ...(set.left.length > 0 ? [`Counted as nothing: ${set.left.join('; ')}.`] : []),
      ...takenNote(circuit, set.taken),
    ),
    svg: charts.length > 0 ? svgOf(charts, 'auto') : undefined,
    tables: set.missing.length > 0 || set.stations.length === 0 ? [] : [table],
  };
}

/** The curves by themselves, for a file. */
export function exportedResponse(
  { snapshot, units }: PageSource,
  { receiver, theme }: ExportRequest,
): string | undefined {
  const set = snapshot.response(receiver);
  const charts = set ? responseCharts(set, units) : [];
  return charts.length > 0 ? svgOf(charts, theme === 'dark' ? 'dark' : 'light') : undefined;
}
