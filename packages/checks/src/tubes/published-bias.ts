import type { TubeAtWork } from '@setwright/analysis';
import type { TubePoint, TubeType } from '@setwright/circuit';

/** What a type is published with at some plate volts. */
export interface PublishedBias {
  readonly gridVolts: number;
  readonly plateAmperes: number;
}

/** A published point holds for the plate volts beside it, from so many to so many times its own. */
const LEAST_SHARE = 0.6;
const MOST_SHARE = 1.07;
/** Screen volts of a point that another screen can be judged by are within this of its own. */
const SCREEN_SHARE = 0.15;

interface Mean {
  readonly plateVolts: number;
  readonly gridVolts: number;
  readonly plateAmperes: number;
}

/**
 * The published bias and plate current of a type at given plate volts: between two published
 * points by even steps, beside the outermost ones by the three-halves power law (Child, Physical
 * Review 32, 1911, p. 492; Langmuir, Physical Review 2, 1913, p. 450). Of several prints at the
 * same volts the mean. Undefined far from every published point.
 */
export function publishedAt(
  type: TubeType | undefined,
  plateVolts: number | undefined,
  screenVolts?: number | undefined,
): PublishedBias | undefined {
  if (!type || plateVolts === undefined || !(plateVolts > 0)) return undefined;
  const points = meansOf(type, screenVolts);
  let below: Mean | undefined;
  let above: Mean | undefined;
  for (const point of points) {
    if (point.plateVolts <= plateVolts) below = point;
    else above ??= point;
  }
  if (below && above) {
    const along = (plateVolts - below.plateVolts) / (above.plateVolts - below.plateVolts);
    return {
      gridVolts: below.gridVolts + along * (above.gridVolts - below.gridVolts),
      plateAmperes: below.plateAmperes + along * (above.plateAmperes - below.plateAmperes),
    };
  }
  const only = below ?? above;
  if (!only) return undefined;
  const share = plateVolts / only.plateVolts;
  if (share < LEAST_SHARE || share > MOST_SHARE) return undefined;
  return { gridVolts: only.gridVolts * share, plateAmperes: only.plateAmperes * share ** 1.5 };
}

/** A plate that draws less than this is off, in amperes. */
const LEAST_AMPERES = 1e-6;

/**
 * The published bias and current on the tap that feeds a plate: what the load drops is reckoned
 * with the published current, not with the one that a wrong bias makes.
 *
 * @param tapVolts of the tap above its supply's zero.
 */
export function publishedOn(
  type: TubeType | undefined,
  { plateVolts, plateCurrent, screenVolts }: TubeAtWork,
  tapVolts: number | undefined,
): PublishedBias | undefined {
  const plate = plateVolts?.value;
  const amperes = plateCurrent?.value;
  if (plate === undefined || amperes === undefined) return undefined;
  let published = publishedAt(type, plate, screenVolts?.value);
  const drop = tapVolts === undefined ? 0 : tapVolts - plate;
  if (tapVolts === undefined || !(drop > 0) || !(amperes > LEAST_AMPERES)) return published;
  for (let step = 0; step < 8; step++) {
    const current = published?.plateAmperes ?? 0;
    published = publishedAt(type, tapVolts - (drop * current) / amperes, screenVolts?.value);
  }
  return published;
}

/** One point for every plate voltage, from the lowest up. */
function meansOf(type: TubeType, screenVolts: number | undefined): readonly Mean[] {
  const at = new Map<number, TubePoint[]>();
  for (const point of type.points) {
    const { plateVolts, plateAmperes, gridVolts } = point;
    if (!(plateVolts > 0) || plateAmperes === undefined || !(plateAmperes > 0)) continue;
    if (!Number.isFinite(gridVolts) || !isForScreen(point, screenVolts)) continue;
    const here = at.get(plateVolts);
    if (here) here.push(point);
    else at.set(plateVolts, [point]);
  }
  return [...at]
    .sort(([a], [b]) => a - b)
    .map(([plateVolts, points]) => ({
      plateVolts,
      gridVolts: mean(points.map(({ gridVolts }) => gridVolts)),
      plateAmperes: mean(points.map(({ plateAmperes }) => plateAmperes ?? 0)),
    }));
}

function isForScreen(point: TubePoint, screenVolts: number | undefined): boolean {
  if (point.screenVolts === undefined) return true;
  if (screenVolts === undefined) return false;
  return Math.abs(screenVolts / point.screenVolts - 1) <= SCREEN_SHARE;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
