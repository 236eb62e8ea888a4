import { type Circuit, isSupply, type Part } from '@setwright/circuit';
import { type Quantity, quantityText, type SetValues, type ValueRow } from '@setwright/report';
import { formatQuantity } from '@setwright/units';
import type { HintKind } from '@setwright/webview';
import {
  type InlayHint,
  InlayHintKind,
  MarkupKind,
  type Range,
} from 'vscode-languageserver-protocol';
import type { Settings } from '../settings.ts';
import { blockFrom } from '../text/blocks.ts';
import type { Snapshot } from '../text/snapshot.ts';
import { type HoverSource, valuesFor } from './hover/source.ts';
import { valueList } from './hover/value-list.ts';

/** The text that hints are shown in, and the last one of which every line could be read. */
export type HintSource = Pick<HoverSource, 'snapshot' | 'lastWhole'>;

/** A number beside a line: what is shown, and the rows that it was made from. */
interface Hint {
  readonly kind: HintKind;
  readonly at: number;
  readonly label: string;
  readonly rows: readonly ValueRow[];
  readonly of: string;
}

/**
 * The one number that a restorer wants at a line, where the line does not say it: inductance of a
 * winding, band of a condenser, bias of a tube, plate and filament volts, drain of a battery,
 * step-up of a transformer by its windings.
 */
export function inlayHints(
  { snapshot, lastWhole }: HintSource,
  range: Range,
  settings: Settings,
): InlayHint[] {
  const start = snapshot.offset(range.start);
  const end = snapshot.offset(range.end);
  const { file } = snapshot;
  return file.circuits.flatMap((circuit, receiver) => {
    const known = valuesFor({ snapshot, lastWhole, units: settings.units }, receiver);
    // A number that may be far out is worse beside a line than none.
    if (!known || known.are === 'doubtful') return [];
    const { values } = known;
    const lines = new Set<number>();
    return hintsOf(snapshot, circuit, values, settings).flatMap(
      ({ kind, at, label, rows, of }): InlayHint[] => {
        if (!settings.hints.has(kind) || at < start || at > end) return [];
        const position = snapshot.position(at);
        if (lines.has(position.line)) return [];
        lines.add(position.line);
        return [
          {
            position,
            label,
            kind: InlayHintKind.Type,
            paddingLeft: true,
            tooltip: { kind: MarkupKind.Markdown, value: valueList(rows, of, settings.units) },
          },
        ];
      },
    );
  });
}

function hintsOf(
  snapshot: Snapshot,
  circuit: Circuit,
  values: SetValues,
  { units }: Settings,
): readonly Hint[] {
  const byPart = new Map<string, ValueRow[]>();
  const byTuner = new Map<string, ValueRow[]>();
  for (const { rows } of values.parts)
    for (const row of rows) {
      add(byPart, row.part, row);
      if (row.to !== undefined) add(byTuner, row.to, row);
    }
  const of = (name: string): readonly ValueRow[] => byPart.get(name) ?? [];
  return circuit.parts.flatMap((part): readonly Hint[] => {
    const at = part.place.end;
    const rows = of(part.name);
    if (part.kind === 'winding') return windingHint(part, rows, units);
    if (part.kind === 'condenser') return bandHint(part, byTuner.get(part.name) ?? [], units);
    if (part.kind === 'transformer') return part.values.ratio ? [] : ratioHint(circuit, part, of);
    if (isSupply(part)) return drainHint(part, rows, units);
    if (part.kind !== 'tube') return [];
    const block = blockFrom(snapshot.blocks, part.place.start);
    const lineOf = (word: string): number | undefined =>
      block?.blocks.find((inner) => inner.word === word)?.headEnd;
    return [
      ...hint('bias', at, rows, part.name, ['bias'], ([bias]) =>
        bias ? `${signed(bias, units)} bias` : undefined,
      ),
      ...hint(
        'plate',
        lineOf('plate') ?? at,
        rows,
        part.name,
        ['plate-voltage', 'plate-current'],
        ([volts, current]) =>
          [volts, current].flatMap((each) => (each ? [amount(each, units)] : [])).join(', '),
      ),
      ...hint(
        'filament',
        lineOf('filament') ?? lineOf('heater') ?? at,
        rows,
        part.name,
        ['filament-voltage'],
        ([volts]) => volts && amount(volts, units),
      ),
    ];
  });
}

function add(map: Map<string, ValueRow[]>, key: string, row: ValueRow): void {
  const list = map.get(key);
  if (list) list.push(row);
  else map.set(key, [row]);
}

type Known = ValueRow & { readonly value: number };

/** A hint from the first rows of these quantities; none where the first is not known. */
function hint(
  kind: HintKind,
  at: number,
  rows: readonly ValueRow[],
  of: string,
  quantities: readonly Quantity[],
  words: (rows: readonly (Known | undefined)[]) => string | undefined,
): readonly Hint[] {
  const found = quantities.map((quantity) => {
    const row = rows.find((each) => each.quantity === quantity && each.value !== undefined);
    return row as Known | undefined;
  });
  if (!found[0]) return [];
  const label = words(found);
  const shown = found.flatMap((row) => row ?? []);
  return label === undefined || label === '' ? [] : [{ kind, at, label, rows: shown, of }];
}

type Units = Settings['units'];

const amount = ({ quantity, value }: Known, units: Units): string =>
  quantityText(quantity, value, units);

const signed = (row: Known, units: Units): string => amount(row, units).replace(/^-/, '−');

/** A winding by its turns does not say its inductance. */
function windingHint(part: Part, rows: readonly ValueRow[], units: Units): readonly Hint[] {
  if (part.values.inductance) return [];
  return hint('inductance', part.place.end, rows, part.name, ['inductance'], ([found]) =>
    found ? `≈ ${amount(found, units)}` : undefined,
  );
}

function bandHint(part: Part, tuned: readonly ValueRow[], units: Units): readonly Hint[] {
  const quantities = ['lowest-frequency', 'highest-frequency'] as const;
  const circuit = tuned.find(({ quantity }) => quantity === 'lowest-frequency')?.part ?? '';
  const rows = tuned.filter((row) => row.part === circuit);
  return hint('band', part.place.end, rows, circuit, quantities, ([low, high]) => {
    if (!low || !high) return undefined;
    const [from, to] = [amount(low, units), amount(high, units)];
    if (from === to) return from;
    const unit = to.slice(to.lastIndexOf(' '));
    return from.endsWith(unit) ? `${from.slice(0, -unit.length)} to ${to}` : `${from} to ${to}`;
  });
}

function drainHint(part: Part, rows: readonly ValueRow[], units: Units): readonly Hint[] {
  return hint('drain', part.place.end, rows, part.name, ['drain', 'hours'], ([drain, hours]) =>
    drain && drain.value > 0
      ? [drain, hours].flatMap((each) => (each ? [amount(each, units)] : [])).join(', ')
      : undefined,
  );
}

/** The ratio of a transformer that gives its windings and not their ratio. */
function ratioHint(
  circuit: Circuit,
  part: Part,
  of: (name: string) => readonly ValueRow[],
): readonly Hint[] {
  const [first, second] = circuit.parts.filter(({ owner }) => owner === part.name);
  const inductance = (winding: Part | undefined): Known | undefined =>
    of(winding?.name ?? '').find(
      (row): row is Known => row.quantity === 'inductance' && row.value !== undefined,
    );
  const [low, high] = [inductance(first), inductance(second)];
  if (!low || !high || !(low.value > 0)) return [];
  const ratio = formatQuantity(Math.sqrt(high.value / low.value), 'ratio');
  return [
    {
      kind: 'ratio',
      at: part.place.end,
      label: `≈ 1 to ${ratio}`,
      rows: [low, high],
      of: part.name,
    },
  ];
}
