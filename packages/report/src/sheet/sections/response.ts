import { formatQuantity } from '@setwright/units';
import { responseRemarks, tubesWithGain } from '../../response/report-response.ts';
import { responseCharts } from '../../response/response-charts.ts';
import { endsAtMixer } from '../../response/signal-words.ts';
import { quietWords } from '../../response/squeal-words.ts';
import { amount, amounts, naming, plain, say, table, telling } from '../cells.ts';
import type { SheetCell, SheetSection, StationFigure } from '../sheet.ts';
import type { SheetGrounds } from '../sheet-grounds.ts';

/** What the set makes of a signal over its band. */
export function responseSection(grounds: SheetGrounds): SheetSection | undefined {
  const { response: set, style, circuit } = grounds;
  const hasEntrance = circuit.parts.some(
    ({ kind, words }) => kind === 'loop' || (kind === 'post' && words.has('aerial')),
  );
  if (!hasEntrance && set.missing.length > 0) return undefined;
  const tubes = tubesWithGain(set.stations);
  const rows = set.stations.map((station): readonly SheetCell[] => {
    const { heard } = station;
    const at = heard.frequency;
    const figure = (what: StationFigure, value: number | undefined): SheetCell =>
      value === undefined
        ? plain('–')
        : amount(value, what === 'detectorVolts' ? 'ratio' : 'frequency', style, {
            from: 'station',
            at,
            what,
          });
    return [
      plain(formatQuantity(at, 'frequency', style, 4)),
      figure('detectorVolts', heard.detectorVolts),
      ...tubes.map((tube) => {
        const gain = heard.stages?.find((each) => each.tube === tube)?.gain;
        return gain === undefined
          ? plain('–')
          : amount(gain, 'ratio', style, { from: 'station', at, what: 'gain', tube });
      }),
      figure('width6', heard.selectivity?.width6),
      figure('width20', heard.selectivity?.width20),
      plain(quietWords(station, style)),
    ];
  });
  const charts = responseCharts(set, style);
  const isKnown = set.missing.length === 0;
  return {
    id: 'response',
    heading: 'Gain and selectivity',
    blocks: [
      ...(isKnown
        ? table(
            undefined,
            [
              naming('Station'),
              amounts(endsAtMixer(set) ? 'at the mixer' : 'at the detector'),
              ...tubes.map((tube) => amounts(`gain of ${tube}`)),
              amounts('6 dB down'),
              amounts('20 dB down'),
              telling('oscillation'),
            ],
            rows,
          )
        : []),
      ...(charts.length > 0 ? [{ kind: 'charts', charts } as const] : []),
      // What was left out counts only where there are figures that it was left out of.
      ...responseRemarks(isKnown ? set : { ...set, left: [] }, style).map(({ words, isMissing }) =>
        say(words, isMissing ? 'missing' : 'note'),
      ),
    ],
  };
}
