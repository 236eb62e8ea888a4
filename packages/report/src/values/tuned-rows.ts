import { type TunedCircuit, tunedAt } from '@setwright/analysis';
import { type Band, edgesOf, reachOf } from './bands.ts';
import type { UnitStyle } from './quantities.ts';
import { reasonFrom } from './reason.ts';
import { derivedRow, type RowOf, rowOf, type ValueRow } from './rows.ts';

/** What is reckoned of a tuned circuit: what it covers, and what it is worth in tune. */
export function tunedRows(
  tuned: TunedCircuit,
  band: Band | undefined,
  style: UnitStyle,
): readonly ValueRow[] {
  const to = tuned.tuner ?? tuned.beside[0];
  const row = { part: tuned.name, ...(to === undefined ? {} : { to }) };
  const isTapped = tuned.windings.length !== 1 || (tuned.windings[0]?.share ?? 1) < 1;
  const reach = reachOf(tuned, band);
  return [
    // A whole winding tells its inductance by itself.
    ...(isTapped ? [rowOf({ ...row, quantity: 'inductance' }, tuned.inductance)] : []),
    rowOf({ ...row, quantity: 'lowest-frequency' }, tuned.lowest),
    rowOf({ ...row, quantity: 'highest-frequency' }, tuned.highest),
    ...waveRows(tuned, row, style),
    rowOf({ ...row, quantity: 'least-capacitance' }, tuned.leastCapacity),
    rowOf({ ...row, quantity: 'most-capacitance' }, tuned.mostCapacity),
    ...(reach ? edgesOf(reach).flatMap((at) => inTuneRows(tuned, row, at)) : []),
  ];
}

function waveRows(
  { lowest, highest, longestWave, shortestWave }: TunedCircuit,
  row: Omit<RowOf, 'quantity'>,
  style: UnitStyle,
): readonly ValueRow[] {
  if (lowest.value === undefined || highest.value === undefined) return [];
  const over = 'speed of light over frequency';
  return [
    derivedRow(
      { ...row, quantity: 'longest-wavelength' },
      longestWave,
      reasonFrom(over, 'lowest-frequency', lowest, style),
    ),
    derivedRow(
      { ...row, quantity: 'shortest-wavelength' },
      shortestWave,
      reasonFrom(over, 'highest-frequency', highest, style),
    ),
  ];
}

function inTuneRows(
  tuned: TunedCircuit,
  row: Omit<RowOf, 'quantity'>,
  at: number,
): readonly ValueRow[] {
  const { loadedQ, bandwidth, impedance } = tunedAt(tuned, at);
  return [
    rowOf({ ...row, at, quantity: 'loaded-q' }, loadedQ),
    rowOf({ ...row, at, quantity: 'bandwidth' }, bandwidth),
    rowOf({ ...row, at, quantity: 'impedance' }, impedance),
  ];
}
