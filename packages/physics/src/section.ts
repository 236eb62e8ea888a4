import { type SingleLayerCoil, singleLayerInductance } from './solenoid.ts';

/** A stretch of one winding between two taps, in turns from its start. */
export interface Section {
  readonly from: number;
  readonly to: number;
}

/**
 * Self-inductance in henries of a stretch of so many turns of a winding: the single-layer coil
 * of that many turns. Less than one turn counts as its square's share of one turn, a rough
 * measure for an arc. 0 for no turns; undefined outside `singleLayerInductance`'s range.
 */
export function stretchInductance(coil: SingleLayerCoil, turns: number): number | undefined {
  if (turns === 0) {
    return 0;
  }
  if (turns > 0 && turns < 1) {
    const one = singleLayerInductance({ ...coil, turns: 1 });
    return one === undefined ? undefined : one * turns * turns;
  }
  return singleLayerInductance({ ...coil, turns });
}

/**
 * Mutual inductance in henries between two stretches of one single-layer winding, such as those
 * that taps cut off; of a stretch with itself, its self-inductance. The stretches may overlap.
 *
 * For stretches a…b and c…d it is half of F(d − a) − F(c − a) − F(d − b) + F(c − b), with F the
 * self-inductance of so many turns: exact because the winding is alike throughout. Hence the
 * sections of a winding always add up to the whole.
 *
 * Undefined unless both run forwards within the winding. Error that of the single-layer
 * formula, up to 0.1 % of the whole winding's inductance.
 * Source: sum and difference method, Rosa & Grover, Bureau of Standards Scientific Paper 169.
 */
export function sectionMutualInductance(
  coil: SingleLayerCoil,
  first: Section,
  second: Section,
): number | undefined {
  const within = ({ from, to }: Section) => from >= 0 && to > from && to <= coil.turns;
  if (!within(first) || !within(second)) {
    return undefined;
  }
  const span = (one: number, other: number) => stretchInductance(coil, Math.abs(one - other));
  const farEnds = span(second.to, first.from);
  const starts = span(second.from, first.from);
  const finishes = span(second.to, first.to);
  const nearEnds = span(second.from, first.to);
  if (
    farEnds === undefined ||
    starts === undefined ||
    finishes === undefined ||
    nearEnds === undefined
  ) {
    return undefined;
  }
  return (farEnds - starts - finishes + nearEnds) / 2;
}
