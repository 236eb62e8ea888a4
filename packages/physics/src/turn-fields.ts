import { arePositive, finiteOrUndefined } from './domain.ts';
import { completeElliptic } from './elliptic.ts';
import type { Turn } from './turn-sum.ts';

/** Fields of turns that are summed up in all; of many turns some stand for all then. */
const MOST_SUMMED = 25_000;

/** No fewer turns than these stand for all. */
const LEAST_SUMMED = 24;

/** The golden section, by which those are spread: no layer of any number of turns keeps its step. */
const SPREAD = (Math.sqrt(5) - 1) / 2;

/** Most turns that are taken on. */
const MOST_TURNS = 5000;

/** Field of a turn at a place off its axis, amperes to the metre for one ampere: along, outward. */
interface TurnField {
  readonly along: number;
  readonly outward: number;
}

/**
 * The magnetic field of a circular turn carrying one ampere, off its wire, in amperes to the metre.
 *
 * @param turn the circle, radius above 0
 * @param radius of the place from the axis, metres, above 0
 * @param position of the place along the axis, metres
 *
 * Undefined outside that and on the wire itself. Relative error below 1e-12 of the whole field.
 * Source: J. C. Maxwell, Treatise, article 701; W. R. Smythe, Static and Dynamic Electricity,
 * 7.10 (from memory), checked against the slope of the mutual inductance of two circles.
 */
export function turnField(turn: Turn, radius: number, position: number): TurnField | undefined {
  const away = position - turn.position;
  if (!arePositive(turn.radius, radius) || !Number.isFinite(away)) return undefined;
  const farthest = (turn.radius + radius) ** 2 + away ** 2;
  const nearest = (turn.radius - radius) ** 2 + away ** 2;
  if (!(nearest > 0)) return undefined;
  const m = (4 * turn.radius * radius) / farthest;
  const integrals = completeElliptic(m, nearest / farthest);
  if (!integrals) return undefined;
  const { first, second } = integrals;
  const unit = 1 / (2 * Math.PI * Math.sqrt(farthest));
  const squares = turn.radius ** 2 + radius ** 2 + away ** 2;
  const along = unit * (first + ((2 * turn.radius ** 2 - squares) / nearest) * second);
  const outward = ((unit * away) / radius) * ((squares / nearest) * second - first);
  return Number.isFinite(along) && Number.isFinite(outward) ? { along, outward } : undefined;
}

/**
 * Mean field of a turn in its own wire, along the axis, for one ampere at its surface: half of the
 * growth of μ₀ a (ln(8a/r) − 2), its inductance, with its radius, over its length.
 */
function ownField(radius: number, wireRadius: number): number {
  return Math.max(0, (Math.log((8 * radius) / wireRadius) - 1) / (4 * Math.PI * radius));
}

/**
 * Resistance of the wire of any winding over that of the same wire drawn out straight, at
 * frequencies where the skin is thin: 1 + 2π² d² times the mean square of the field that all turns
 * make at each for one ampere. No unit, 1 or more.
 *
 * @param turns of the winding, one by one, no two in one place
 * @param wireDiameter bare, metres, above 0
 *
 * Undefined outside that and for more than 5000 turns. First order: each wire is taken to lie in
 * the field of currents along the middle of the others. Good to 4 % of the ratio up to half of the
 * pitch; of wires that nearly touch it may be out by a third. Of more than 158 turns some stand for
 * all, which is within 6 % of the excess over 1.
 * Source: S. Butterworth, Proc. Royal Society A107 (1925) 693, for the wire in a field.
 */
export function fieldProximityRatio(
  turns: readonly Turn[],
  wireDiameter: number,
): number | undefined {
  if (turns.length === 0 || turns.length > MOST_TURNS || !arePositive(wireDiameter))
    return undefined;
  const all = turns.length;
  const summed = Math.min(all, Math.max(LEAST_SUMMED, Math.floor(MOST_SUMMED / all)));
  let squares = 0;
  let wire = 0;
  for (let count = 0; count < summed; count++) {
    const index = summed === all ? count : Math.floor(all * (((count + 0.5) * SPREAD) % 1));
    const here = turns[index] as Turn;
    let along = ownField(here.radius, wireDiameter / 2);
    let outward = 0;
    for (const other of turns) {
      if (other === here) continue;
      const field = turnField(other, here.radius, here.position);
      if (!field) return undefined;
      along += field.along;
      outward += field.outward;
    }
    squares += here.radius * (along * along + outward * outward);
    wire += here.radius;
  }
  return finiteOrUndefined(1 + (2 * (Math.PI * wireDiameter) ** 2 * squares) / wire);
}
