import { type CondenserValues, condenserValues, type Reckoned } from '@setwright/analysis';
import type { Circuit, Part } from '@setwright/circuit';
import { audioBand, type Band, edgesOf } from './bands.ts';
import type { Quantity, UnitStyle } from './quantities.ts';
import { reasonFrom } from './reason.ts';
import { derivedRow, rowOf, type ValueRow } from './rows.ts';

/** What the text would have to say for the edges of the band to be known. */
const NO_BAND = ['what the set tunes, as in: tunes 550 kc to 1500 kc'];

/** The reactance of an inductance or a capacity at the edges of a band. */
export function reactanceRows(
  part: string,
  of: ReactanceOf,
  reckoned: Reckoned,
  band: Band | undefined,
  style: UnitStyle,
): readonly ValueRow[] {
  if (reckoned.value === undefined) return [];
  if (!band) return [{ part, quantity: 'reactance', value: undefined, missing: NO_BAND }];
  return edgesOf(band).map((at) => reactanceRow({ part, at }, of, reckoned, style));
}

/** What a reactance is reckoned from. */
type ReactanceOf = 'inductance' | 'capacitance' | 'least-capacitance' | 'most-capacitance';

function reactanceRow(
  row: { readonly part: string; readonly at: number; readonly note?: string },
  of: ReactanceOf,
  reckoned: Reckoned,
  style: UnitStyle,
): ValueRow {
  const size = 2 * Math.PI * row.at * (reckoned.value ?? 0);
  const isCoil = of === 'inductance';
  const formula = isCoil
    ? '2π times frequency times inductance'
    : '1 over 2π times frequency times capacity';
  return derivedRow(
    { ...row, quantity: 'reactance' },
    isCoil ? size : 1 / size,
    reasonFrom(formula, of, reckoned, style),
  );
}

/** Farads from which a fixed condenser matters at audio frequencies too. Common practice. */
const LEAST_AUDIO_CAPACITY = 1e-9;

/**
 * What is reckoned of a condenser: its capacity where that is not plainly said, its reactance.
 *
 * @param isTuning whether it belongs to a tuned circuit: then audio is no business of its
 */
export function condenserRows(
  circuit: Circuit,
  part: Part,
  band: Band | undefined,
  isTuning: boolean,
  style: UnitStyle,
): readonly ValueRow[] {
  const values = condenserValues(circuit, part);
  if (!values) return [];
  const { name } = part;
  if (values.kind !== 'fixed')
    return [...capacityRows(values), ...variableRows(values, band, style)];
  const isLarge = (values.now.value ?? 0) >= LEAST_AUDIO_CAPACITY;
  const audio = isLarge && !isTuning ? audioBand : undefined;
  return [
    ...(values.now.value === undefined
      ? [rowOf({ part: name, quantity: 'reactance' }, values.now)]
      : []),
    ...(audio ? reactanceRows(name, 'capacitance', values.now, audio, style) : []),
    ...(audio && !band ? [] : reactanceRows(name, 'capacitance', values.now, band, style)),
  ];
}

/** The capacities that the text does not state outright. */
function capacityRows({ part, least, most }: CondenserValues): readonly ValueRow[] {
  const isStated = (of: Reckoned): boolean =>
    of.value !== undefined && of.because.formula === 'as stated';
  const row = (quantity: Quantity, of: Reckoned): readonly ValueRow[] =>
    isStated(of) ? [] : [rowOf({ part: part.name, quantity }, of)];
  return [...row('least-capacitance', least), ...row('most-capacitance', most)];
}

/** A variable condenser is in at the low end of the band and out at the high end. */
function variableRows(
  { part, kind, least, most, now }: CondenserValues,
  band: Band | undefined,
  style: UnitStyle,
): readonly ValueRow[] {
  if (kind !== 'variable') return reactanceRows(part.name, 'capacitance', now, band, style);
  if (!band || least.value === undefined || most.value === undefined) return [];
  const at = (frequency: number) => ({ part: part.name, at: frequency });
  return [
    reactanceRow({ ...at(band.low), note: 'plates in' }, 'most-capacitance', most, style),
    reactanceRow({ ...at(band.high), note: 'plates out' }, 'least-capacitance', least, style),
  ];
}
