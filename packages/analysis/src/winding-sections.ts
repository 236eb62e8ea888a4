import type { Part } from '@setwright/circuit';
import { type SingleLayerCoil, stretchInductance } from '@setwright/physics';

/** A stretch of a winding between two of its terminals that follow one another. */
export interface CoilSection {
  readonly winding: string;
  /** Full names of the terminals at both ends, in the sense start to finish. */
  readonly from: string;
  readonly to: string;
  /** How far along the winding its ends lie, 0 at the start and 1 at the finish. */
  readonly low: number;
  readonly high: number;
}

/**
 * The sections of a winding from its start by its taps to its finish, or what is missing: a tap of
 * which it is not known how far along it is, or one past the end.
 */
export function sectionsOf(part: Part): readonly CoilSection[] | readonly string[] {
  const idOf = (name: string) => part.ends.find((end) => end.name === name)?.id;
  const start = idOf('start');
  const finish = idOf('finish');
  if (start === undefined || finish === undefined) return [`both ends of ${part.name}`];
  const lost = part.taps.find(
    ({ fraction }) => fraction === undefined || !(fraction >= 0 && fraction <= 1),
  );
  if (lost) return [`how far along ${part.name} its ${lost.end} lies`];
  const marks = part.taps
    .flatMap((tap) => {
      const id = idOf(tap.end);
      return id === undefined ? [] : [{ id, at: tap.fraction ?? 0 }];
    })
    .sort((a, b) => a.at - b.at);
  const chain = [{ id: start, at: 0 }, ...marks, { id: finish, at: 1 }];
  return chain.slice(1).map((stop, index) => {
    const before = chain[index] ?? stop;
    return { winding: part.name, from: before.id, to: stop.id, low: before.at, high: stop.at };
  });
}

/**
 * How the inductance of a stretch goes with its share of the turns where the make is not known: as
 * this power. Two halves of a usual single layer couple by about 0.4, which is the power 1.5; of
 * layers by about 0.75; on iron by the leakage. Common practice.
 */
export const SPREAD_POWER = { single: 1.5, layers: 1.8 } as const;

/** The power for two halves that couple so closely: of a winding of L each half has L/(2 + 2k). */
export function powerForHalves(coupling: number): number {
  return 1 + Math.log2(1 + coupling);
}

/**
 * Inductance matrix in henries of the sections of one winding, whose sum is the whole winding's.
 *
 * By the sum and difference method from the inductance of every stretch, by the make of a single
 * layer where given (scaled to the whole's inductance), else by a power of its length: with a
 * power of 1 to 2 no choice of sections can store less than nothing.
 */
export function ownBlock(
  sections: readonly CoilSection[],
  inductance: number,
  coil: SingleLayerCoil | undefined,
  power: number,
): readonly (readonly number[])[] {
  if (sections.length === 1) return [[inductance]];
  const byMake = coil && blockByMake(sections, coil);
  if (byMake) {
    let sum = 0;
    for (const row of byMake) for (const entry of row) sum += entry;
    if (sum > 0) return byMake.map((row) => row.map((entry) => (entry * inductance) / sum));
  }
  return differences(sections, (one, other) => inductance * Math.abs(one - other) ** power);
}

/** Undefined where a section is less than a turn: the formula is not for arcs. */
function blockByMake(
  sections: readonly CoilSection[],
  coil: SingleLayerCoil,
): readonly (readonly number[])[] | undefined {
  const turns = (share: number) => Math.min(coil.turns, share * coil.turns);
  if (sections.some(({ low, high }) => turns(high) - turns(low) < 1 - 1e-9)) return undefined;
  // Stretches of the same number of turns come again and again: each is reckoned once.
  const known = new Map<number, number>();
  const span = (one: number, other: number): number => {
    const stretch = Math.round(1e9 * Math.abs(turns(one) - turns(other))) / 1e9;
    const henries = known.get(stretch) ?? stretchInductance(coil, stretch) ?? Number.NaN;
    known.set(stretch, henries);
    return henries;
  };
  const rows = differences(sections, span);
  return rows.every((row) => row.every(Number.isFinite)) ? rows : undefined;
}

/**
 * Half of F(d − a) − F(c − a) − F(d − b) + F(c − b) for every pair of stretches a…b and c…d.
 * Source: sum and difference method, Rosa & Grover, Bureau of Standards Scientific Paper 169.
 */
function differences(
  sections: readonly CoilSection[],
  span: (one: number, other: number) => number,
): readonly (readonly number[])[] {
  return sections.map(({ low: a, high: b }) =>
    sections.map(({ low: c, high: d }) => (span(d, a) - span(c, a) - span(d, b) + span(c, b)) / 2),
  );
}
