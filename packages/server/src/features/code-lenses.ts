import type { Circuit, Stage } from '@setwright/circuit';
import type { SetValues, UnitStyle, ValueRow } from '@setwright/report';
import { formatQuantity } from '@setwright/units';
import { commands, type PageName } from '@setwright/webview';
import type { CodeLens } from 'vscode-languageserver-protocol';
import type { Snapshot } from '../text/snapshot.ts';
import type { BandFigures } from './band-figures.ts';
import { type HoverSource, valuesFor } from './hover/source.ts';

/** What the lenses are made from. */
export interface LensSource extends HoverSource {
  /** Gain and stability of a receiver, as far as they are known by now. */
  readonly figures: (receiver: number) => BandFigures | undefined;
}

/**
 * A line over each stage with its gain, band and stability, over each bench for its suspects, over
 * each suppose for what it changes. They open the page of the preview that tells more.
 */
export function codeLenses(source: LensSource): CodeLens[] {
  const { snapshot, figures, units } = source;
  const { file } = snapshot;
  return file.circuits.flatMap((circuit, receiver) => {
    const known = valuesFor(source, receiver);
    const values = known?.are === 'doubtful' ? undefined : known?.values;
    const lens = (
      place: { readonly start: number; readonly end: number },
      title: string,
      page: PageName,
      view?: string,
    ): CodeLens => ({
      range: snapshot.range(place),
      command: {
        title,
        command: commands.showPage,
        arguments: [snapshot.uri, page, receiver, ...(view === undefined ? [] : [view])],
      },
    });
    return [
      ...circuit.stages.flatMap((stage) => {
        const title = stageWords(circuit, stage, values, figures(receiver), units);
        return title === '' ? [] : [lens(stage.place, title, 'response')];
      }),
      ...circuit.benches.map(({ place }) => lens(headOf(snapshot, place), 'suspects', 'bench')),
      ...circuit.supposes.map(({ place }, index) =>
        lens(headOf(snapshot, place), 'what changes', 'diagram', `suppose ${index + 1}`),
      ),
    ];
  });
}

/** The first line of a block. */
function headOf(
  { text }: Snapshot,
  { start, end }: { readonly start: number; readonly end: number },
): { start: number; end: number } {
  const line = /[\r\n]/.exec(text.slice(start, end));
  return { start, end: line ? start + line.index : end };
}

function stageWords(
  circuit: Circuit,
  stage: Stage,
  values: SetValues | undefined,
  figures: BandFigures | undefined,
  units: UnitStyle,
): string {
  const parts = new Set(stage.parts);
  const own = (values?.parts ?? []).filter(({ stage: name }) => name === stage.name);
  const rows = own.flatMap((each) => each.rows);
  const words = [gainWords(stage, figures), bandWords(rows, units)].filter((each) => each !== '');
  const tunes = rows.some(({ quantity }) => quantity === 'lowest-frequency');
  const amplifies = circuit.parts.some(({ kind, name }) => kind === 'tube' && parts.has(name));
  if (figures && tunes && amplifies) words.push(verdicts[figures.stability.verdict]);
  return words.join(' · ');
}

const verdicts = {
  steady: 'steady',
  mistuned: 'squeals with the dials apart',
  aligned: 'oscillates in tune',
  unknown: 'stability not known',
} as const;

function gainWords({ name }: Stage, figures: BandFigures | undefined): string {
  const gains = (figures?.response.stations ?? []).flatMap(({ stages }) =>
    (stages ?? []).flatMap(({ stage, gain }) => (stage === name && gain ? [gain] : [])),
  );
  return rangeWords('gain', gains, (gain) => formatQuantity(gain, 'ratio', 'period', 2));
}

function bandWords(rows: readonly ValueRow[], units: UnitStyle): string {
  const hertz = rows.flatMap(({ quantity, value }) =>
    (quantity === 'lowest-frequency' || quantity === 'highest-frequency') && value !== undefined
      ? [value]
      : [],
  );
  return rangeWords('', hertz, (value) => formatQuantity(value, 'frequency', units));
}

/** From the least to the most of some numbers, with the unit once where both have it. */
function rangeWords(
  what: string,
  numbers: readonly number[],
  write: (value: number) => string,
): string {
  if (numbers.length === 0) return '';
  const [low, high] = [write(Math.min(...numbers)), write(Math.max(...numbers))];
  const unit = / .*$/.exec(high)?.[0] ?? '';
  const from = unit !== '' && low.endsWith(unit) ? low.slice(0, -unit.length) : low;
  return `${what} ${low === high ? low : `${from} to ${high}`}`.trim();
}
