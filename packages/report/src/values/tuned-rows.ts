import { type TunedCircuit, tunedAt } from '@setwright/analysis';
import { type Band, edgesOf } from './bands.ts';
import type { UnitStyle } from './quantities.ts';
import { reasonFrom } from './reason.ts';
import { derivedRow, type RowOf, rowOf, type ValueRow } from './rows.ts';

/**
 * What is reckoned of a tuned circuit: what it covers, and what it is worth in tune.
 *
 * @param reach where in tune it is told of; nowhere where not given
 */
export function tunedRows(
  tuned: TunedCircuit,
  reach: Band | undefined,
  style: UnitStyle,
): readonly ValueRow[] {
  const to = tuned.tuner ?? tuned.beside[0];
  const row = { part: tuned.name, ...(to === undefined ? {} : { to }) };
  const isTapped = tuned.windings.length !== 1 || (tuned.windings[0]?.share ?? 1) < 1;
  const pair = pairOf(tuned);
  return [
    // A whole winding tells its inductance by itself.
    ...(isTapped ? [rowOf({ ...row, quantity: 'inductance' }, tuned.inductance)] : []),
    rowOf({ ...row, ...pair('frequency').first, quantity: 'lowest-frequency' }, tuned.lowest),
    rowOf({ ...row, ...pair('frequency').second, quantity: 'highest-frequency' }, tuned.highest),
    ...waveRows(tuned, row, style),
    rowOf(
      { ...row, ...pair('capacity').first, quantity: 'least-capacitance' },
      tuned.leastCapacity,
    ),
    rowOf({ ...row, ...pair('capacity').second, quantity: 'most-capacitance' }, tuned.mostCapacity),
    ...(reach ? edgesOf(reach).flatMap((at) => inTuneRows(tuned, row, at)) : []),
  ];
}

/** A circuit that nothing turns has one frequency and not two: how its two rows are told. */
function pairOf({ lowest, highest }: TunedCircuit) {
  const isFixed = lowest.value !== undefined && lowest.value === highest.value;
  return (words: string) =>
    isFixed ? { first: { words }, second: { isAgain: true } as const } : { first: {}, second: {} };
}

function waveRows(
  tuned: TunedCircuit,
  row: Omit<RowOf, 'quantity'>,
  style: UnitStyle,
): readonly ValueRow[] {
  const { lowest, highest, longestWave, shortestWave } = tuned;
  if (lowest.value === undefined || highest.value === undefined) return [];
  const over = 'speed of light over frequency';
  const { first, second } = pairOf(tuned)('wave');
  return [
    derivedRow(
      { ...row, ...first, quantity: 'longest-wavelength' },
      longestWave,
      reasonFrom(over, 'lowest-frequency', lowest, style),
    ),
    derivedRow(
      { ...row, ...second, quantity: 'shortest-wavelength' },
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
