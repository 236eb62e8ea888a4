import type { Part, Value } from '@setwright/circuit';
import { mutualInductance, sectionOf, type Winding } from '@setwright/physics';
import type { WindingShape } from './coil-layout.ts';
import { IRON_COUPLING, ironCouplingBecause } from './iron-core.ts';
import { factOf, missingOf, type ValueBecause, type ValueFact } from './value-because.ts';
import type { CoilSection } from './winding-sections.ts';
import { singleLayer, type WindingValues } from './winding-values.ts';

/** A winding with its sections and their inductances among themselves. */
export interface SectionedWinding {
  readonly values: WindingValues;
  readonly sections: readonly CoilSection[];
  /** Henries; undefined where the winding's inductance is not known. */
  readonly own: readonly (readonly number[])[] | undefined;
}

/** Mutual inductances in henries of the sections of two windings, or what is missing. */
export type Block =
  | { readonly rows: readonly (readonly number[])[]; readonly because: ValueBecause }
  | { readonly rows: undefined; readonly missing: readonly string[] };

/**
 * Mutual inductances between the sections of two windings of one coil: as stated, by the iron, or
 * by where they lie; positive where both run the same way round from start to finish.
 *
 * @param isShared whether mutual inductances are reckoned for whole windings and shared out over
 * their sections, for coils of very many taps
 * @param turned share of full coupling at which windings that turn stand, by name, −1 to 1
 */
export function couplingBlock(
  owner: Part,
  first: SectionedWinding,
  second: SectionedWinding,
  turned: ReadonlyMap<string, number>,
  isShared: boolean,
): Block {
  const one = first.values;
  const other = second.values;
  const missing = [...missingOf(one.inductance), ...missingOf(other.inductance)];
  if (missing.length > 0 || !first.own || !second.own) return { rows: undefined, missing };
  const setting = settingOf(one.part, turned) * settingOf(other.part, turned);
  const facts = [...settingFacts(one.part), ...settingFacts(other.part)];
  const flip = isReversed(one.part) === isReversed(other.part) ? 1 : -1;
  const said = statedCoupling(owner, one.part, other.part);
  const isIron = owner.kind === 'transformer' && !owner.words.has('air');
  if (said || isIron) {
    const k = said?.value ?? IRON_COUPLING;
    const base = said ? statedBecause(said, one.part, other.part) : ironCouplingBecause;
    const whole = k * Math.sqrt((one.inductance.value ?? 0) * (other.inductance.value ?? 0));
    return {
      rows: sharedOut(first.own, second.own, flip * setting * whole),
      because: { ...base, facts: [...base.facts, ...facts] },
    };
  }
  if (!one.shape?.placed || !other.shape?.placed)
    return { rows: undefined, missing: [placeMissing(one, other)] };
  const rows = byPlace(first, second, one.shape, other.shape, isShared);
  if (!rows) return { rows: undefined, missing: [placeMissing(one, other)] };
  return {
    rows: rows.map((row) => row.map((entry) => entry * setting)),
    because: placeBecause(one.shape, other.shape, facts),
  };
}

function placeMissing(one: WindingValues, other: WindingValues): string {
  return `where ${one.part.name} and ${other.part.name} lie, or how closely they couple`;
}

function isReversed(part: Part): boolean {
  return part.winding?.reversed ?? part.words.has('reversed');
}

/** `coupling A with B k`: of two windings of this coil, whichever is named first. */
function statedCoupling(owner: Part, one: Part, other: Part): Value | undefined {
  const [a, b] = [one, other].map(({ name }) => name.slice(owner.name.length + 1));
  const said = owner.values[`coupling ${a} ${b}`] ?? owner.values[`coupling ${b} ${a}`];
  return said && Math.abs(said.value) <= 1 ? said : undefined;
}

function statedBecause(said: Value, one: Part, other: Part): ValueBecause {
  return {
    formula: 'stated coupling times the geometric mean of the inductances',
    facts: [factOf(said, `coupling of ${one.name} with ${other.name}`)],
    assumed: [],
    source: 'definition of the coefficient of coupling',
  };
}

/** Share of full coupling; 1 for a winding that does not turn. */
function settingOf(part: Part, turned: ReadonlyMap<string, number>): number {
  const said = part.setting?.kind === 'fraction' ? part.setting.fraction : 1;
  return Math.min(1, Math.max(-1, turned.get(part.name) ?? said));
}

function settingFacts(part: Part): readonly ValueFact[] {
  if (part.setting?.kind !== 'fraction') return [];
  const { place, fraction } = part.setting;
  return [{ place, text: `set ${Math.round(1000 * fraction) / 10} %`, meaning: part.name }];
}

function placeBecause(
  one: WindingShape,
  other: WindingShape,
  more: readonly ValueFact[],
): ValueBecause {
  const assumed = [...one.assumed, ...one.placeAssumed, ...other.assumed, ...other.placeAssumed];
  const facts = [...one.facts, ...one.placeFacts, ...other.facts, ...other.placeFacts, ...more];
  const isPlaceAssumed = one.placeAssumed.length + other.placeAssumed.length > 0;
  return {
    formula: 'sum over coaxial circles',
    facts: [...new Set(facts)],
    assumed: [...new Set(assumed)],
    source: 'J. C. Maxwell, Treatise, article 701; Rosa & Grover, BS Scientific Paper 169 (1912)',
    relativeError: isPlaceAssumed ? 0.2 : 0.05,
  };
}

/** Sum over circles for every pair of sections, in the measure of stated inductances. */
function byPlace(
  first: SectionedWinding,
  second: SectionedWinding,
  one: WindingShape,
  other: WindingShape,
  isShared: boolean,
): readonly (readonly number[])[] | undefined {
  const scale = measure(first, one) * measure(second, other);
  const isWhole = one.winding.depth !== undefined || other.winding.depth !== undefined || isShared;
  if (isWhole && first.own && second.own) {
    const whole = mutualInductance(one.winding, other.winding);
    return whole === undefined ? undefined : sharedOut(first.own, second.own, whole * scale);
  }
  const pieces = second.sections.map((section) => pieceOf(other.winding, section));
  const rows: number[][] = [];
  for (const section of first.sections) {
    const piece = pieceOf(one.winding, section);
    const row: number[] = [];
    for (const against of pieces) {
      const each = piece && against ? mutualInductance(piece, against) : 0;
      if (each === undefined) return undefined;
      row.push(each * scale);
    }
    rows.push(row);
  }
  return rows;
}

/** Undefined for a section of no length. */
function pieceOf(winding: Winding, { low, high }: CoilSection): Winding | undefined {
  const turns = (share: number) => Math.min(winding.turns, share * winding.turns);
  return sectionOf(winding, turns(low), turns(high));
}

/** Turns that the stated inductance stands for, over those told; 1 where none is stated. */
function measure({ values }: SectionedWinding, shape: WindingShape): number {
  const said = values.part.values.inductance?.value;
  if (said === undefined || !(said > 0)) return 1;
  const { wound } = values;
  return wound !== undefined && wound > 0 && singleLayer(shape) ? Math.sqrt(said / wound) : 1;
}

/**
 * Shares out the mutual inductance of two whole windings over their sections as each takes part in
 * its own winding's field: this never couples sections more closely than their windings.
 */
function sharedOut(
  first: readonly (readonly number[])[],
  second: readonly (readonly number[])[],
  whole: number,
): readonly (readonly number[])[] {
  const one = shares(first);
  const other = shares(second);
  return one.map((a) => other.map((b) => whole * a * b));
}

function shares(block: readonly (readonly number[])[]): readonly number[] {
  const sums = block.map((row) => row.reduce((sum, entry) => sum + entry, 0));
  const whole = sums.reduce((sum, entry) => sum + entry, 0);
  return sums.map((sum) => (whole > 0 ? sum / whole : 0));
}
