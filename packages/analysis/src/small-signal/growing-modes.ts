import { courseOf } from './log-derivative.ts';
import { phaseWinding, type Winding } from './phase-winding.ts';
import { findRoot, logSlopeOf } from './root-search.ts';
import type { ComplexFrequency, TunedSystem } from './tuned-system.ts';

/** A way in which a network oscillates by itself. */
export interface GrowingMode {
  /** Hertz; 0 for one that grows without turning. */
  readonly frequency: number;
  /** Nepers per second: it grows by e in one over this many seconds. */
  readonly growth: number;
  /** The tubes that feed it, the strongest first; left out where nobody asked. */
  readonly tubes?: readonly string[];
}

/** The growing modes of a network between two frequencies. */
export interface GrowingModes {
  /**
   * Growing roots by the winding of the phase, two for an oscillation and one for plain growth;
   * undefined where that could not be had.
   */
  readonly count: number | undefined;
  /** Those of which frequency and growth were found, the fastest first. */
  readonly modes: readonly GrowingMode[];
  readonly low: number;
  readonly high: number;
}

/**
 * Growing modes between two frequencies in hertz: their number from the phase of the determinant,
 * frequency and growth from its roots, sought from where the phase falls.
 *
 * @param winding how the phase winds between them, where it is known already
 */
export function growingModes(
  tuned: TunedSystem,
  low: number,
  high: number,
  winding = phaseWinding(courseOf(tuned), low, high),
): GrowingModes {
  if (!winding) return { count: undefined, modes: [], low, high };
  const roots = winding.growing > 0 ? rootsOf(tuned, winding, low, high) : [];
  const modes = roots
    .map(({ growth, radians }) => ({ growth, frequency: radians / (2 * Math.PI) }))
    .sort((a, b) => b.growth - a.growth);
  return { count: winding.growing, modes, low, high };
}

/** Places besides the suspects from which roots are sought, on the axis and off it. */
const GRID = 12;

function rootsOf(
  tuned: TunedSystem,
  { growing, suspects }: Winding,
  low: number,
  high: number,
): readonly ComplexFrequency[] {
  const found: ComplexFrequency[] = [];
  const passed: ComplexFrequency[] = [];
  const slope = logSlopeOf(tuned);
  let left = growing;
  const seek = (start: ComplexFrequency): void => {
    if (left <= 0) return;
    const root = findRoot(slope, start, [...found, ...passed]);
    if (!root) return;
    const size = Math.hypot(root.growth, root.radians) / (2 * Math.PI);
    const isInside = root.growth > 0 && size > 0.99 * low && size < 1.01 * high;
    (isInside ? found : passed).push(root);
    if (isInside) left -= root.radians > 0 ? 2 : 1;
  };
  for (const { growth, radians } of suspects) seek({ growth, radians });
  const ratio = Math.log(high / low);
  for (const lean of [0.01, 0.1, 0.5]) {
    for (let step = 0; step <= GRID; step++) {
      const radians = 2 * Math.PI * low * Math.exp((ratio * step) / GRID);
      seek({ growth: lean * radians, radians });
    }
  }
  return found;
}
