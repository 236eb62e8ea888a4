import { condenserValues } from '../condenser-values.ts';
import { alignedAt } from './aligned-at.ts';
import { type TubePoints, tubePoints } from './signal-chain.ts';
import type { Tuning } from './signal-system.ts';
import type { SmallSignal } from './small-signal.ts';
import { eliminateAt, solveDriven, tunedSystem } from './tuned-system.ts';

/** A neutralizing condenser set as one does it: for no signal through the tube while it is cold. */
export interface Neutralized {
  readonly condenser: string;
  readonly tube: string;
  /** Where it stands, within its range. */
  readonly farads: number;
  /** Farads that would balance, within its range or not. */
  readonly wanted: number;
  readonly reaches: boolean;
}

/** Siemens of a resistance that still counts as joining a condenser to a grid. */
const JOINING = 1 / 10_000;

/** Secant steps; the balance is all but a straight line in the capacity. */
const STEPS = 4;

/**
 * Sets every neutralizing condenser of which the text does not say how it stands: with the set
 * tuned to a station and no tube amplifying, what a signal at the tube's grid leaves at its plate
 * is made least.
 *
 * @param frequency hertz, of the station at which it is done
 */
export function neutralized(set: SmallSignal, frequency: number): readonly Neutralized[] {
  const { circuit, system } = set;
  const found: Neutralized[] = [];
  for (const part of circuit.parts) {
    const values = condenserValues(circuit, part);
    const isSet = part.setting !== undefined || part.values.set !== undefined;
    if (values?.kind !== 'neutralizing' || isSet || !system.turned.has(part.name)) continue;
    const least = values.least.value;
    const most = values.most.value;
    const tube = tubeAt(set, part.name);
    if (!tube || least === undefined || most === undefined) continue;
    const before = new Map(found.map((each) => [each.condenser, each.farads]));
    const { tuning } = alignedAt(set, frequency, before);
    const wanted = balance(set, tube, part.name, [least, most], frequency, tuning);
    if (wanted === undefined) continue;
    const farads = Math.min(most, Math.max(least, wanted));
    const reaches = wanted >= least && wanted <= most;
    found.push({ condenser: part.name, tube: tube.part.name, farads, wanted, reaches });
  }
  return found;
}

/** The tube whose grid an end of the condenser is joined to, straight or through a losser. */
function tubeAt(set: SmallSignal, condenser: string): TubePoints | undefined {
  const { network } = set;
  const piece = network.capacities.find((each) => each.condenser === condenser);
  if (!piece) return undefined;
  const tubes = tubePoints(set);
  const ends = [piece.from, piece.to];
  const straight = tubes.find(({ grid }) => ends.includes(grid));
  if (straight) return straight;
  for (const { from, to, siemens } of network.conductances) {
    if (siemens < JOINING || from === 0 || to === 0) continue;
    const beyond = ends.includes(from) ? to : ends.includes(to) ? from : 0;
    const tube = tubes.find(({ grid }) => grid === beyond && beyond !== 0);
    if (tube) return tube;
  }
  return undefined;
}

function balance(
  set: SmallSignal,
  tube: TubePoints,
  condenser: string,
  [least, most]: readonly [number, number],
  frequency: number,
  tuning: Tuning,
): number | undefined {
  const left = (farads: number) => {
    const at = { growth: 0, radians: 2 * Math.PI * frequency };
    const room = eliminateAt(tunedSystem(set.cold, new Map([...tuning, [condenser, farads]])), at);
    if (!room) return undefined;
    const currents = new Map([
      [tube.grid, [1, 0] as const],
      [tube.reference, [-1, 0] as const],
    ]);
    const { re, im } = solveDriven(set.cold, room, { currents });
    const across = (point: number): readonly [number, number] => [
      (re[point] as number) - (re[tube.reference] as number),
      (im[point] as number) - (im[tube.reference] as number),
    ];
    const [gridRe, gridIm] = across(tube.grid);
    const [plateRe, plateIm] = across(tube.plate);
    const square = gridRe * gridRe + gridIm * gridIm;
    return {
      re: (plateRe * gridRe + plateIm * gridIm) / square,
      im: (plateIm * gridRe - plateRe * gridIm) / square,
    };
  };
  let one = least;
  let other = most > least ? most : 2 * least + 1e-12;
  for (let step = 0; step < STEPS; step++) {
    const first = left(one);
    const second = left(other);
    if (!first || !second) return undefined;
    const re = (second.re - first.re) / (other - one);
    const im = (second.im - first.im) / (other - one);
    const square = re * re + im * im;
    const next = one - (first.re * re + first.im * im) / square;
    if (!Number.isFinite(next)) return undefined;
    one = next;
    other = next + 0.1e-12;
  }
  return one;
}
