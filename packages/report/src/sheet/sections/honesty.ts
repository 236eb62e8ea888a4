import type { Part } from '@setwright/circuit';
import { type Quantity, quantities } from '../../values/quantities.ts';
import type { Reason } from '../../values/reason.ts';
import { naming, plain, say, table, telling } from '../cells.ts';
import type { SheetSection } from '../sheet.ts';
import type { SheetGrounds } from '../sheet-grounds.ts';

/** Quantities that stand on the sheet. */
const shown: readonly Quantity[] = [
  'voltage',
  'current',
  'drain',
  'hours',
  'filament-voltage',
  'bias',
  'plate-voltage',
  'plate-current',
  'dissipation',
  'inductance',
  'resistance',
  'mutual-inductance',
  'coupling',
  'lowest-frequency',
  'highest-frequency',
];

/** Rules that are none. */
const STATED = 'as stated';

/** By which rule each kind of figure was had, how good it is, and who says so. */
export function honesty({ rows, circuit }: SheetGrounds): SheetSection | undefined {
  const lines = shown.flatMap((quantity) => {
    const reasons = new Map<string, Reason[]>();
    for (const row of rows) {
      if (row.quantity !== quantity || row.value === undefined) continue;
      const rule = ofNone(row.reason.formula, circuit.parts);
      if (rule !== STATED) reasons.set(rule, [...(reasons.get(rule) ?? []), row.reason]);
    }
    return [...reasons].map(([rule, all]) => {
      const error = Math.max(...all.map((reason) => reason.error ?? 0));
      const sources = new Set(all.flatMap(({ source }) => source?.split('; ') ?? []));
      return [
        plain(quantities[quantity].words),
        plain(rule),
        plain(error > 0 ? `${(100 * error).toPrecision(2)} %` : ''),
        plain([...sources].join('; ')),
      ];
    });
  });
  if (lines.length === 0) return undefined;
  const types = new Map<string, string>();
  for (const { tubeType } of circuit.parts)
    if (tubeType?.source !== undefined) types.set(tubeType.name, tubeType.source);
  return {
    id: 'figures',
    heading: 'How the figures were had',
    blocks: [
      ...table(
        undefined,
        [naming('Figure'), telling('by'), telling('good to'), telling('source')],
        lines,
      ),
      ...[...types].map(([name, source]) => say(`Data of the ${name}: ${source}.`, 'note')),
    ],
  };
}

/** A rule without the names of parts, so that it is told once for all of them. */
function ofNone(formula: string, parts: readonly Part[]): string {
  let rule = formula;
  for (const { name, kind } of parts) if (kind === 'tube') rule = rule.replaceAll(`${name}.`, '');
  return rule;
}
