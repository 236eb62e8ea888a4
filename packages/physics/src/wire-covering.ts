import { INCH } from './constants.ts';
import { wireDiameter } from './wire-gauge.ts';

/** Coverings by the trade's letters: single and double silk, single and double cotton. */
export type WireCovering = 'bare' | 'enamel' | 'SSC' | 'DSC' | 'SCC' | 'DCC';

type Row = readonly [
  gauge: number,
  enamel: number,
  singleSilk: number | undefined,
  doubleSilkOrSingleCotton: number,
  doubleCotton: number,
];

/**
 * Turns to the inch, close wound, of B&S No. 8 to 40. Single silk was not listed above No. 16.
 * Source: the copper wire table of the amateur handbooks, editions of the 1920s to 1950s (from
 * memory; the enamel column of No. 8 to 24 read in a published chart). No. 14 double cotton is
 * out of line with its neighbours by 1 mil and doubtful.
 */
const TURNS_PER_INCH: readonly Row[] = [
  [8, 7.6, undefined, 7.4, 7.1],
  [9, 8.6, undefined, 8.2, 7.8],
  [10, 9.6, undefined, 9.3, 8.9],
  [11, 10.7, undefined, 10.3, 9.8],
  [12, 12.0, undefined, 11.5, 10.9],
  [13, 13.5, undefined, 12.8, 12.0],
  [14, 15.0, undefined, 14.2, 13.3],
  [15, 16.8, undefined, 15.8, 14.7],
  [16, 18.9, 18.9, 17.9, 16.4],
  [17, 21.2, 21.2, 19.9, 18.1],
  [18, 23.6, 23.6, 22.0, 19.8],
  [19, 26.4, 26.4, 24.4, 21.8],
  [20, 29.4, 29.4, 27.0, 23.8],
  [21, 33.1, 32.7, 29.8, 26.0],
  [22, 37.0, 36.5, 34.1, 30.0],
  [23, 41.3, 40.6, 37.6, 31.6],
  [24, 46.3, 45.3, 41.5, 35.6],
  [25, 51.7, 50.4, 45.6, 38.6],
  [26, 58.0, 55.6, 50.2, 41.8],
  [27, 64.9, 61.5, 55.0, 45.0],
  [28, 72.7, 68.6, 60.2, 48.5],
  [29, 81.6, 74.8, 65.4, 51.8],
  [30, 90.5, 83.3, 71.5, 55.5],
  [31, 101, 92.0, 77.5, 59.2],
  [32, 113, 101, 83.6, 62.6],
  [33, 127, 110, 90.3, 66.3],
  [34, 143, 120, 97.0, 70.0],
  [35, 158, 132, 104, 73.5],
  [36, 175, 143, 111, 77.0],
  [37, 198, 154, 118, 80.3],
  [38, 224, 166, 126, 83.6],
  [39, 248, 181, 133, 86.6],
  [40, 282, 194, 140, 89.7],
];

/** Position of a covering in the rows; double silk and single cotton share one. */
const COLUMNS = { enamel: 1, SSC: 2, DSC: 3, SCC: 3, DCC: 4 } as const;

/**
 * Turns to the inch of B&S wire wound close, as printed in the wire table.
 *
 * @param gauge whole B&S number 8 to 40
 *
 * Undefined where the table has no figure, and for bare wire. Rounded in print: up to 1 %, and
 * makers differed by as much again.
 */
export function tabledTurnsPerInch(gauge: number, covering: WireCovering): number | undefined {
  if (covering === 'bare') {
    return undefined;
  }
  return TURNS_PER_INCH.find(([number]) => number === gauge)?.[COLUMNS[covering]];
}

/**
 * Outside diameter in metres of covered wire of any bare diameter, by what the wire table's
 * covering adds at the two nearest B&S sizes; tabled sizes come out as tabled.
 *
 * @param bareDiameter metres, No. 40 to No. 8 B&S (80 µm to 3.26 mm); single silk up to No. 16
 *
 * Undefined outside that; bare wire of any size above 0 is itself. Error as the table's, about
 * 2 % of the diameter; British coverings differed more.
 */
export function coveredDiameter(bareDiameter: number, covering: WireCovering): number | undefined {
  if (covering === 'bare') {
    return bareDiameter > 0 && Number.isFinite(bareDiameter) ? bareDiameter : undefined;
  }
  let thicker: Step | undefined;
  for (const row of TURNS_PER_INCH) {
    const step = stepOf(row, covering);
    if (step === undefined) {
      continue;
    }
    if (Math.abs(step.bare - bareDiameter) < 1e-9 * step.bare) {
      return step.bare + step.added;
    }
    if (thicker !== undefined && bareDiameter < thicker.bare && bareDiameter > step.bare) {
      const share = (bareDiameter - step.bare) / (thicker.bare - step.bare);
      return bareDiameter + step.added + share * (thicker.added - step.added);
    }
    thicker = step;
  }
  return undefined;
}

interface Step {
  readonly bare: number;
  readonly added: number;
}

function stepOf(row: Row, covering: keyof typeof COLUMNS): Step | undefined {
  const turns = row[COLUMNS[covering]];
  const bare = wireDiameter(row[0]);
  return turns === undefined || bare === undefined
    ? undefined
    : { bare, added: INCH / turns - bare };
}
