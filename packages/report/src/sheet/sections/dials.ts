import { formatQuantity, SPEED_OF_LIGHT } from '@setwright/units';
import { dialChart } from '../../dials/dial-chart.ts';
import { headingOf } from '../../dials/dial-readings.ts';
import { dialRemarks, readingText } from '../../dials/report-dials.ts';
import { amounts, naming, numbered, plain, say, table, writing } from '../cells.ts';
import type { SheetSection } from '../sheet.ts';
import type { SheetGrounds } from '../sheet-grounds.ts';

/** Where the dials stand for the stations, with room for what they were found to read. */
export function dials(grounds: SheetGrounds): SheetSection | undefined {
  const { dials: set, style } = grounds;
  if (set.columns.length === 0 && set.unknown.length === 0) return undefined;
  const chart = dialChart(set, style);
  const isTold = set.columns.length > 0 && set.lines.length > 0;
  const rows = set.lines.map(({ frequency, readings }) => [
    plain(formatQuantity(frequency, 'frequency', style, 4)),
    plain(formatQuantity(SPEED_OF_LIGHT / frequency, 'wavelength', style)),
    ...set.columns.flatMap((column, at) => {
      const reading = readings[at];
      const { tuner, name } = column.of.circuit;
      return [
        reading === undefined
          ? plain('–')
          : numbered(readingText(column, reading), reading, {
              from: 'dial-side',
              condenser: tuner ?? name,
              at: frequency,
              above: column.above,
            }),
        plain(''),
      ];
    }),
  ]);
  return {
    id: 'dials',
    heading: 'Where the dials stand',
    blocks: [
      ...(isTold
        ? table(
            undefined,
            [
              naming('Station'),
              amounts('wave'),
              ...set.columns.flatMap((column) => [amounts(headingOf(column)), writing('found')]),
            ],
            rows,
          )
        : []),
      ...(chart ? [{ kind: 'charts', charts: [chart] } as const] : []),
      ...(set.columns.length > 0 && set.lines.length === 0
        ? [say('What the set tunes is not said, as in: tunes 550 kc to 1500 kc.', 'missing')]
        : []),
      ...dialRemarks(set, style).map(({ words, isMissing }) =>
        say(words, isMissing ? 'missing' : 'note'),
      ),
    ],
  };
}
