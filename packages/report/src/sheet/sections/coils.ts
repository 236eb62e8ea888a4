import type { WindingValues } from '@setwright/analysis';
import { coilMatrix } from '@setwright/analysis';
import type { Part } from '@setwright/circuit';
import { windingWireLength } from '@setwright/physics';
import { listed } from '../../text/words.ts';
import { isOnIron } from '../../tour/wiring.ts';
import {
  amount,
  amounts,
  NOT_KNOWN,
  naming,
  numbered,
  plain,
  reckoned,
  say,
  table,
  telling,
} from '../cells.ts';
import type { SheetBlock, SheetCell, SheetSection } from '../sheet.ts';
import type { SheetGrounds } from '../sheet-grounds.ts';

/** What is needed to wind every air-core coil anew. */
export function coils(grounds: SheetGrounds): SheetSection | undefined {
  const { circuit, rows, style } = grounds;
  const owners = circuit.parts.filter(({ kind }) => kind === 'coil' || kind === 'transformer');
  const wound: SheetCell[][] = [];
  const coupled: SheetCell[][] = [];
  const unsaid: string[] = [];
  for (const owner of owners) {
    const coil = coilMatrix(circuit, owner.name);
    if (!coil) continue;
    const onAir = coil.windings.filter(({ part }) => !isOnIron(circuit, part));
    for (const values of onAir)
      if (isSaid(values.part)) wound.push([...windingCells(grounds, values)]);
      else unsaid.push(values.part.name);
    if (onAir.length < 2) continue;
    for (const { first, second, mutual } of coil.couplings) {
      if (mutual.value === undefined) continue;
      const of = (quantity: 'mutual-inductance' | 'coupling') =>
        reckoned(
          rows.filter(({ to }) => to === second),
          first,
          quantity,
          style,
        );
      coupled.push([plain(first), plain(second), of('mutual-inductance'), of('coupling')]);
    }
  }
  if (wound.length === 0 && unsaid.length === 0) return undefined;
  const blocks: readonly SheetBlock[] = [
    ...table(
      undefined,
      [
        naming('Winding'),
        amounts('turns'),
        amounts('wire'),
        amounts('form'),
        amounts('long'),
        telling('where it lies'),
        telling('taps, at turn'),
        amounts('inductance'),
        amounts('ohms'),
        amounts('wire on it'),
      ],
      wound,
    ),
    ...table(
      'Couplings',
      [naming('Winding'), naming('with'), amounts('mutual inductance'), amounts('coupling')],
      coupled,
    ),
    ...(unsaid.length > 0
      ? [
          say(
            `Not known: how ${listed(unsaid)} ${unsaid.length > 1 ? 'are' : 'is'} made.`,
            'missing',
          ),
        ]
      : []),
    ...(wound.length === 0 ? [] : [TOLD]),
  ];
  return { id: 'coils', heading: 'Coil winding data', blocks };
}

const TOLD = say(
  'Turns, wire, form and places as the text says; lengths that it does not give, inductance, ohms, wire and couplings are reckoned. All windings of a coil run the same way round from start to finish unless it says reversed. Allow for the leads.',
  'note',
);

/** Whether the text says anything of how a winding is made. */
function isSaid({ winding, values }: Part): boolean {
  return (
    winding?.turns !== undefined ||
    winding?.gauge !== undefined ||
    values.inductance !== undefined ||
    values.resistance !== undefined
  );
}

function windingCells(grounds: SheetGrounds, values: WindingValues): readonly SheetCell[] {
  const { rows, style } = grounds;
  const { part, shape } = values;
  const { name, winding } = part;
  const turns = winding?.turns;
  const { gauge, covering } = winding ?? {};
  return [
    plain(part.title === undefined ? name : `${name}, ${part.title}`),
    turns
      ? numbered(`${turns.value}`, turns.value, { from: 'make', part: name, what: 'turns' })
      : plain(NOT_KNOWN),
    plain(
      gauge
        ? `${gauge.number} ${gauge.table === 'SWG' ? 'swg' : 'B&S'} ${covering ?? ''}`.trim()
        : NOT_KNOWN,
    ),
    winding?.form
      ? numbered(winding.form.text, winding.form.value, { from: 'make', part: name, what: 'form' })
      : plain(NOT_KNOWN),
    winding?.length
      ? numbered(winding.length.text, winding.length.value, {
          from: 'make',
          part: name,
          what: 'length',
        })
      : shape
        ? amount(shape.winding.length, 'length', style, {
            from: 'wound',
            part: name,
            what: 'length',
          })
        : plain(NOT_KNOWN),
    plain(lies(part)),
    plain(tapsOf(part)),
    reckoned(rows, name, 'inductance', style),
    reckoned(rows, name, 'resistance', style),
    shape
      ? amount(wireOn(values), 'length', style, { from: 'wound', part: name, what: 'wire' })
      : plain(NOT_KNOWN),
  ];
}

/** Metres of wire on a winding, without its leads. */
function wireOn({ shape }: WindingValues): number | undefined {
  if (!shape) return undefined;
  const { turns, radius } = shape.winding;
  return windingWireLength(turns, radius, shape.wire.pitch);
}

/** Where a winding stands with regard to another one of its coil. */
function lies({ winding }: Part): string {
  if (!winding) return '';
  const { beside, over, inside, at, spaced, paper, reversed } = winding;
  const words = [
    ...(beside === undefined ? [] : [`beside ${beside}${spaced ? `, ${spaced.text} off` : ''}`]),
    ...(over === undefined
      ? []
      : [
          `over ${over}${at === undefined ? '' : ` at its ${at}`}${paper ? `, ${paper.text} of paper between` : ''}`,
        ]),
    ...(inside === undefined ? [] : [`inside ${inside}`]),
    ...(reversed ? ['reversed'] : []),
  ];
  return words.join('; ');
}

function tapsOf({ taps }: Part): string {
  return listed(
    taps.map(({ end, turns, fraction }) =>
      turns !== undefined
        ? String(turns)
        : fraction !== undefined
          ? `${Math.round(100 * fraction)} %`
          : end,
    ),
  );
}
