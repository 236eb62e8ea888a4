import { openVolts } from '@setwright/circuit';
import type { Feed } from '../supplies/plate-feed.ts';
import type { TubeAt } from './tubes.ts';

/**
 * About what a tube's plate draws, in amperes: the published current nearest to its plate volts,
 * carried over to them by the three-halves power law (Child, Physical Review 32, 1911, p. 492;
 * Langmuir, Physical Review 2, 1913, p. 450), and never more than its plate resistor lets through.
 * 0 for a plate that nothing feeds; undefined where the type or the volts are not known.
 *
 * @param feed what feeds its plate.
 */
export function plateCurrentOf(tube: TubeAt, feed: Feed | undefined): number | undefined {
  if (!feed) return 0;
  const volts = openVolts(feed.supply, feed.tap);
  if (volts === undefined || !tube.part.tubeType) return undefined;
  if (volts <= 0) return 0;
  let nearest: { readonly plateVolts: number; readonly plateAmperes: number } | undefined;
  for (const { plateVolts, plateAmperes } of tube.part.tubeType.points) {
    if (plateAmperes === undefined || !(plateVolts > 0)) continue;
    const isNearer = nearest && Math.abs(plateVolts - volts) < Math.abs(nearest.plateVolts - volts);
    if (!nearest || isNearer) nearest = { plateVolts, plateAmperes };
  }
  if (!nearest) return undefined;
  const free = nearest.plateAmperes * (volts / nearest.plateVolts) ** 1.5;
  return feed.ohms > 0 ? Math.min(free, volts / feed.ohms) : free;
}
