import type { Circuit, Part } from '@setwright/circuit';
import { couplingCoefficient } from '@setwright/physics';
import { type Block, couplingBlock, type SectionedWinding } from './coil-coupling.ts';
import { coilLayout, windingsOf } from './coil-layout.ts';
import { IRON_COUPLING } from './iron-core.ts';
import { isPositiveSemidefinite } from './positive-semidefinite.ts';
import { missingOf, type Reckoned, unknown, type ValueBecause } from './value-because.ts';
import {
  type CoilSection,
  ownBlock,
  powerForHalves,
  SPREAD_POWER,
  sectionsOf,
} from './winding-sections.ts';
import { singleLayer, type WindingValues, windingValues } from './winding-values.ts';

/** How two windings of a coil work on one another. */
export interface WindingCoupling {
  readonly first: string;
  readonly second: string;
  /** Henries between the whole windings, positive where they aid from start to finish. */
  readonly mutual: Reckoned;
  /** M over √(L₁L₂), −1 to 1. */
  readonly coefficient: Reckoned;
}

/** The windings of one coil or transformer as coupled inductances. */
export interface CoilMatrix {
  readonly coil: string;
  readonly windings: readonly WindingValues[];
  /** Winding by winding, each from its start by its taps to its finish. */
  readonly sections: readonly CoilSection[];
  /** Henries between sections, symmetric; undefined entries are not known. */
  readonly entries: readonly (readonly (number | undefined)[])[];
  /** The same where all are known: symmetric and positive semidefinite. */
  readonly henries: readonly (readonly number[])[] | undefined;
  /** Every pair of windings. */
  readonly couplings: readonly WindingCoupling[];
  /**
   * Share of the mutual inductances between windings that could be kept: 1, or less where those
   * of the text contradict one another and no coil can be so; then 0 where nothing helps.
   */
  readonly kept: number;
  readonly missing: readonly string[];
}

/** Sections beyond which mutual inductances are shared out, and beyond which none are reckoned. */
const MANY_SECTIONS = 40;
const MOST_SECTIONS = 200;

/** Where windings that turn stand: share of full coupling by the winding's name, −1 to 1. */
export type WindingsTurned = ReadonlyMap<string, number>;

/**
 * The inductance matrix of a coil or transformer over its sections. Undefined when there is no such
 * part. Quadratic in its sections. Never throws.
 *
 * All windings run the same way round from start to finish, one that is `reversed` the other way:
 * the signs follow from that. With sections as branches from `from` to `to`, volts are matrix
 * times the rate of change of the currents.
 *
 * @param turned where windings that turn inside others stand, instead of what the text says
 */
export function coilMatrix(
  circuit: Circuit,
  coil: string,
  turned: WindingsTurned = new Map(),
): CoilMatrix | undefined {
  const owner = circuit.partNamed.get(coil);
  if (owner?.kind !== 'coil' && owner?.kind !== 'transformer') return undefined;
  const layout = coilLayout(circuit, coil);
  const missing = new Set<string>();
  const parts: SectionedWinding[] = [];
  let count = 0;
  for (const part of windingsOf(circuit, coil)) {
    const values = windingValues(circuit, part, layout);
    for (const lack of missingOf(values.inductance)) missing.add(lack);
    const sections = sectionsOf(part);
    if (isSections(sections)) count += sections.length;
    if (count > MOST_SECTIONS) {
      missing.add(
        `the coil ${coil} with fewer taps or windings, ${MOST_SECTIONS} sections at most`,
      );
      parts.push({ values, sections: [], own: undefined });
    } else if (isSections(sections)) parts.push(sectioned(owner, values, sections));
    else {
      for (const lack of sections) missing.add(lack);
      parts.push({ values, sections: [], own: undefined });
    }
  }
  const blocks = pairs(parts.length).map(({ first, second }) => {
    const [one, other] = [at(parts, first), at(parts, second)];
    const block = couplingBlock(owner, one, other, turned, count > MANY_SECTIONS);
    if (!block.rows) for (const lack of block.missing) missing.add(lack);
    return { first, second, block };
  });
  const sections = parts.flatMap((part) => part.sections);
  const isComplete = missing.size === 0 && sections.length > 0;
  const full = fill(parts, blocks, 1);
  const kept = isComplete ? keptShare(parts, blocks, full) : 1;
  const entries = kept === 1 ? full : fill(parts, blocks, kept);
  return {
    coil,
    windings: parts.map(({ values }) => values),
    sections,
    entries,
    henries: isComplete && kept > 0 ? (entries as readonly (readonly number[])[]) : undefined,
    couplings: blocks.map(({ first, second, block }) =>
      couplingOf(at(parts, first).values, at(parts, second).values, block, kept),
    ),
    kept,
    missing: [...missing],
  };
}

function at(parts: readonly SectionedWinding[], index: number): SectionedWinding {
  return parts[index] as SectionedWinding;
}

function isSections(
  answer: readonly CoilSection[] | readonly string[],
): answer is readonly CoilSection[] {
  return typeof answer[0] === 'object';
}

function sectioned(
  owner: Part,
  values: WindingValues,
  sections: readonly CoilSection[],
): SectionedWinding {
  const inductance = values.inductance.value;
  if (inductance === undefined) return { values, sections, own: undefined };
  const isIron = owner.kind === 'transformer' && !owner.words.has('air');
  const coil = values.shape && !isIron ? singleLayer(values.shape) : undefined;
  const power = isIron
    ? powerForHalves(IRON_COUPLING)
    : values.shape && !coil
      ? SPREAD_POWER.layers
      : SPREAD_POWER.single;
  return { values, sections, own: ownBlock(sections, inductance, coil, power) };
}

interface PlacedBlock {
  readonly first: number;
  readonly second: number;
  readonly block: Block;
}

function pairs(count: number): readonly { first: number; second: number }[] {
  const all: { first: number; second: number }[] = [];
  for (let first = 0; first < count; first++)
    for (let second = first + 1; second < count; second++) all.push({ first, second });
  return all;
}

/** The whole matrix with the mutual inductances between windings at a share of theirs. */
function fill(
  parts: readonly SectionedWinding[],
  blocks: readonly PlacedBlock[],
  share: number,
): readonly (readonly (number | undefined)[])[] {
  const offsets: number[] = [];
  let size = 0;
  for (const { sections } of parts) {
    offsets.push(size);
    size += sections.length;
  }
  const rows: (number | undefined)[][] = Array.from({ length: size }, () =>
    new Array<number | undefined>(size).fill(undefined),
  );
  const put = (row: number, column: number, value: number | undefined): void => {
    const line = rows[row];
    if (line) line[column] = value;
  };
  for (const [index, { own }] of parts.entries()) {
    const offset = offsets[index] ?? 0;
    for (const [r, row] of (own ?? []).entries())
      for (const [c, value] of row.entries()) put(offset + r, offset + c, value);
  }
  for (const { first, second, block } of blocks) {
    const row = offsets[first] ?? 0;
    const column = offsets[second] ?? 0;
    for (const [r, line] of (block.rows ?? []).entries()) {
      for (const [c, value] of line.entries()) {
        put(row + r, column + c, share * value);
        put(column + c, row + r, share * value);
      }
    }
  }
  return rows;
}

/** Halvings in the search for how much of the mutual inductances can be kept. */
const HALVINGS = 20;

function keptShare(
  parts: readonly SectionedWinding[],
  blocks: readonly PlacedBlock[],
  full: readonly (readonly (number | undefined)[])[],
): number {
  if (isPositiveSemidefinite(full as readonly (readonly number[])[])) return 1;
  let low = 0;
  let high = 1;
  for (let step = 0; step < HALVINGS; step++) {
    const middle = (low + high) / 2;
    const trial = fill(parts, blocks, middle) as readonly (readonly number[])[];
    if (isPositiveSemidefinite(trial)) low = middle;
    else high = middle;
  }
  return low;
}

function couplingOf(
  one: WindingValues,
  other: WindingValues,
  block: Block,
  kept: number,
): WindingCoupling {
  const names = { first: one.part.name, second: other.part.name };
  if (!block.rows) {
    const lost = unknown(...block.missing);
    return { ...names, mutual: lost, coefficient: lost };
  }
  let mutual = 0;
  for (const row of block.rows) for (const entry of row) mutual += kept * entry;
  const because: ValueBecause =
    kept === 1
      ? block.because
      : {
          ...block.because,
          assumed: [
            ...block.because.assumed,
            `only ${Math.round(100 * kept)} % of it: the couplings here contradict one another`,
          ],
        };
  const coefficient = couplingCoefficient(
    mutual,
    one.inductance.value ?? 0,
    other.inductance.value ?? 0,
  );
  return {
    ...names,
    mutual: { value: mutual, because },
    coefficient:
      coefficient === undefined
        ? unknown(`the inductance of ${one.part.name} and ${other.part.name}`)
        : { value: coefficient, because },
  };
}
