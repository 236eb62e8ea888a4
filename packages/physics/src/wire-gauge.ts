import { INCH } from './constants.ts';

/** Wire gauges a restorer meets: Brown & Sharpe (American) and British Imperial Standard. */
export type GaugeSystem = 'B&S' | 'SWG';

/**
 * British Imperial Standard Wire Gauge, No. 0 to 50, thousandths of an inch.
 * Source: Order in Council of 23 August 1883; the same figures in BS 3737 (1964), read in
 * reprints of the table.
 */
const STANDARD_MILS: readonly number[] = [
  324, 300, 276, 252, 232, 212, 192, 176, 160, 144, 128, 116, 104, 92, 80, 72, 64, 56, 48, 40, 36,
  32, 28, 24, 22, 20, 18, 16.4, 14.8, 13.6, 12.4, 11.6, 10.8, 10, 9.2, 8.4, 7.6, 6.8, 6, 5.2, 4.8,
  4.4, 4, 3.6, 3.2, 2.8, 2.4, 2, 1.6, 1.2, 1,
];

/**
 * Diameter in metres of bare wire of a gauge number. B&S: 0.005 · 92^((36 − n)/39) inch, n from
 * −3 (No. 0000) to 56; SWG: whole numbers 0 to 50 from the legal table.
 *
 * Undefined outside that. Exact by definition; drawn wire is held to about 1 %.
 * Source: NBS Circular 31 (1914) for B&S; Order in Council of 23 August 1883 for SWG.
 */
export function wireDiameter(gauge: number, system: GaugeSystem = 'B&S'): number | undefined {
  if (system === 'SWG') {
    const mils = STANDARD_MILS[gauge];
    return mils === undefined ? undefined : (mils / 1000) * INCH;
  }
  return gauge >= -3 && gauge <= 56 ? 0.005 * INCH * 92 ** ((36 - gauge) / 39) : undefined;
}
