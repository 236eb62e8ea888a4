import type { Conduction, End } from '@setwright/circuit';
import { type Feed, plateFeeds } from '../supplies/plate-feed.ts';
import { stillPoints } from '../wiring/still-points.ts';
import type { TubeAt } from './tubes.ts';

/** A tube with a screen. */
export type ScreenTube = TubeAt & { readonly screen: End };

export function hasScreen(tube: TubeAt): tube is ScreenTube {
  return tube.screen !== undefined;
}

/** Whether screen and plate are strapped together, so that the tube works as a triode. */
export function isStrappedAsTriode(tube: ScreenTube): boolean {
  return tube.screen.junction === tube.plate?.junction;
}

/**
 * The most that an inner grid used for space charge stands at, in volts: a 22.5 V tap, freshly
 * charged. Common practice.
 */
const MOST_SPACE_CHARGE_VOLTS = 22.5 * 1.07;
/** A grid fed through less than this, in ohms, is on the supply and not only coupled to it. */
const MOST_FEED_OHMS = 100_000;

/** What the screens of a set are used for, at one position of its controls. */
export interface ScreenUse {
  readonly feeds: ReadonlyMap<number, Feed>;
  /** Inner grid on 22 V or less, signal on the other: a space-charge tube, on purpose. */
  isSpaceCharge(tube: ScreenTube): boolean;
  /** The supply is on the control grid and the signal circuit on the screen. */
  isSwapped(tube: ScreenTube): boolean;
}

/** Finds how the screens of a set are used. Linear in the set; asking of one tube is quick. */
export function screenUse(conduction: Conduction, islands: readonly number[]): ScreenUse {
  const feeds = plateFeeds(conduction);
  const still = stillPoints(conduction);
  /** The feed of a grid whose tube's screen has the signal circuit. */
  const crossed = (tube: ScreenTube): Feed | undefined => {
    const { grid, screen, reference } = tube;
    const onGrid = grid && feeds.get(grid.junction);
    if (!onGrid || onGrid.ohms >= MOST_FEED_OHMS) return undefined;
    if (feeds.has(screen.junction) || still.has(screen.junction)) return undefined;
    if (!reference || islands[screen.junction] !== islands[reference.junction]) return undefined;
    return onGrid;
  };
  const isLow = (feed: Feed): boolean => (feed.tap.volts ?? 0) <= MOST_SPACE_CHARGE_VOLTS;
  return {
    feeds,
    isSpaceCharge(tube) {
      const onGrid = tube.grid && feeds.get(tube.grid.junction);
      return (
        onGrid !== undefined &&
        onGrid.tap.volts !== undefined &&
        isLow(onGrid) &&
        !feeds.has(tube.screen.junction)
      );
    },
    isSwapped(tube) {
      const onGrid = crossed(tube);
      return onGrid !== undefined && onGrid.tap.volts !== undefined && !isLow(onGrid);
    },
  };
}
