import type { TubeAtWork } from '@setwright/analysis';
import type { TubePoint, TubeType } from '@setwright/circuit';

/** Fresh cells give so much more than their name; common practice. */
export const FRESH = 1.07;
/** What reckoned plate currents may be out by, of their amount. */
const CURRENT_ERROR = 0.1;
/** A plate current this many times the highest published one wears the tube out. */
const MOST_TIMES = 1.5;

/** Whether a plate stands higher above its filament than its type may, fresh cells counted. */
export function isOverPlateLimit(type: TubeType | undefined, work: TubeAtWork): boolean {
  const limit = type?.plateLimit;
  const volts = work.plateVolts?.value;
  return limit !== undefined && limit > 0 && volts !== undefined && volts > limit * FRESH;
}

/** A tube that draws more than its type is published with. */
export interface OverCurrent {
  readonly amperes: number;
  /** The point of the highest published plate volts, of several the one that draws most. */
  readonly point: TubePoint & { readonly plateAmperes: number };
  /** Amperes over the published ones. */
  readonly times: number;
  /** False where the error of the reckoning could put it right. */
  readonly isCertain: boolean;
}

/**
 * Whether a plate draws more by half than its type's published current at the highest published
 * plate volts. Undefined when it does not, or when the type has no published current.
 */
export function overCurrentOf(
  type: TubeType | undefined,
  work: TubeAtWork,
): OverCurrent | undefined {
  const amperes = work.plateCurrent?.value;
  let point: OverCurrent['point'] | undefined;
  for (const { plateAmperes, ...each } of type?.points ?? []) {
    if (plateAmperes === undefined || !(plateAmperes > 0)) continue;
    const isHigher = !point || each.plateVolts > point.plateVolts;
    const isMore = each.plateVolts === point?.plateVolts && plateAmperes > point.plateAmperes;
    if (isHigher || isMore) point = { ...each, plateAmperes };
  }
  if (amperes === undefined || !point) return undefined;
  const times = amperes / point.plateAmperes;
  if (!(times > MOST_TIMES)) return undefined;
  return { amperes, point, times, isCertain: times > MOST_TIMES * (1 + CURRENT_ERROR) };
}
