/**
 * How the capacity across a tuned circuit goes with its tuning condenser's C, all in farads:
 * `strays` + `share` · C / (1 + `series` · C). Share 1 and series 0 for one straight across; with
 * another condenser in series less.
 */
export interface CapacityLaw {
  readonly strays: number;
  readonly share: number;
  readonly series: number;
  /** The condenser's own least and most. */
  readonly least: number;
  readonly most: number;
}

/**
 * The law through three points: with the condenser out altogether, at its least and at its most.
 * Exact for any network of capacities. Undefined where it does not tune.
 */
export function capacityLaw(
  [least, most]: readonly [least: number, most: number],
  [without, atLeast, atMost]: readonly [without: number, atLeast: number, atMost: number],
): CapacityLaw | undefined {
  if (!(least > 0 && most > least && atMost > atLeast && atLeast > without)) return undefined;
  const low = (atLeast - without) / least;
  const high = (atMost - without) / most;
  const bend = high * most - low * least;
  const series = bend > 0 ? Math.max(0, (low - high) / bend) : 0;
  return { strays: without, share: low * (1 + series * least), series, least, most };
}

/** Farads across the circuit with the condenser at so many farads. */
export function acrossAt(law: CapacityLaw, condenser: number): number {
  return law.strays + (law.share * condenser) / (1 + law.series * condenser);
}

/** The condenser's farads for so many across the circuit; undefined outside its range. */
export function condenserAt(law: CapacityLaw, across: number): number | undefined {
  const through = across - law.strays;
  const room = law.share - law.series * through;
  if (!(through > 0 && room > 0)) return undefined;
  const farads = through / room;
  // Its own ends must not be lost to the last digit.
  const slack = 1e-9 * law.most;
  if (farads < law.least - slack || farads > law.most + slack) return undefined;
  return Math.min(law.most, Math.max(law.least, farads));
}
