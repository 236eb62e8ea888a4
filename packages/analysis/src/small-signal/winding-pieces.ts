import { type JoinedBranch, type Part, supposedOhms } from '@setwright/circuit';
import { type CoilMatrix, coilMatrix, type WindingsTurned } from '../coil-matrix.ts';
import { IRON_LEAKAGE } from '../usual-values.ts';
import type { WindingValues } from '../winding-values.ts';
import type { NetworkDraft } from './network-draft.ts';
import type { SeriesPiece } from './signal-network.ts';
import {
  IRON_LEAKAGE_Q,
  IRON_LOSS,
  IRON_PRIMARY_CAPACITY,
  IRON_SECONDARY_CAPACITY,
  USUAL_PRIMARY,
  USUAL_RATIO,
} from './usual-signal-values.ts';
import { airWindingOhms, type WindingOhms } from './winding-ohms.ts';

/** Matrices of coils that are made as they were when these were reckoned, by the coil's name. */
export type CoilsKnown = ReadonlyMap<string, KnownCoil>;

/** A coil's matrix, with what its windings lose. */
export interface KnownCoil {
  readonly matrix: CoilMatrix;
  /** By winding. Kept by the caller; new ones are entered. */
  readonly losses: Map<string, WindingOhms>;
}

/** Takes up the windings of coils and transformers, with their mutual inductances and losses. */
export function addWindings(
  draft: NetworkDraft,
  quality: number | undefined,
  turned: WindingsTurned = new Map(),
  coils: CoilsKnown = new Map(),
): void {
  const { circuit } = draft;
  const direct = directOhms(draft);
  for (const owner of circuit.parts) {
    if (owner.kind !== 'coil' && owner.kind !== 'transformer') continue;
    const coil = coils.get(owner.name);
    const matrix = coil?.matrix ?? coilMatrix(circuit, owner.name, turned);
    if (!matrix) continue;
    const isIron = owner.kind === 'transformer' && !owner.words.has('air');
    const known = isIron ? ironHenries(draft, owner, matrix) : airHenries(draft, owner, matrix);
    const ohmsOf = new Map<string, WindingOhms>();
    for (const [index, values] of matrix.windings.entries()) {
      const name = values.part.name;
      const supposed = direct.get(name) ?? 1;
      const whole = known.whole[index] ?? 0;
      const still = values.resistance.value ?? supposed;
      const stray = (2 * Math.PI * IRON_LEAKAGE * whole) / IRON_LEAKAGE_Q;
      ohmsOf.set(
        name,
        isIron
          ? { ohms: (frequency) => still + stray * frequency, bends: [] }
          : lossOf(coil, name, () =>
              airWindingOhms(values, whole, supposed, quality, draft.assumed),
            ),
      );
      addOwnCapacity(draft, values, isIron);
    }
    const pieces: SeriesPiece[] = [];
    const rows: number[] = [];
    for (const [index, section] of matrix.sections.entries()) {
      const from = draft.pointOfEnd(section.from);
      const to = draft.pointOfEnd(section.to);
      if (from === undefined || to === undefined) continue;
      const share = section.high - section.low;
      const { ohms, bends } = ohmsOf.get(section.winding) ?? { ohms: () => 1, bends: [] };
      rows.push(index);
      pieces.push({
        from,
        to,
        name: `${section.from} ${section.to}`,
        origin: { part: section.winding, from: section.from, to: section.to },
        ohms: (frequency) => share * ohms(frequency),
        bends,
      });
    }
    const henries = rows.map((row) => rows.map((column) => known.entries[row]?.[column] ?? 0));
    if (pieces.length > 0) draft.series.push({ pieces, henries });
    if (isIron) addIronLoss(draft, matrix, known.whole);
    addUnsectioned(draft, matrix, direct);
  }
}

function lossOf(coil: KnownCoil | undefined, winding: string, reckon: () => WindingOhms) {
  const known = coil?.losses.get(winding);
  if (known) return known;
  const losses = reckon();
  coil?.losses.set(winding, losses);
  return losses;
}

/** Ohms at direct current by the winding's name: as told, else usual. */
function directOhms({ circuit, conduction }: NetworkDraft): ReadonlyMap<string, number> {
  const ohms = new Map<string, number>();
  for (const branch of conduction.branches) {
    if (circuit.partNamed.get(branch.part)?.kind !== 'winding') continue;
    const { direct } = branch;
    const each = direct.kind === 'conducts' ? direct.ohms : undefined;
    const usual = each ?? supposedOhms(circuit, branch).ohms;
    ohms.set(branch.part, (ohms.get(branch.part) ?? 0) + usual);
  }
  return ohms;
}

interface Henries {
  readonly entries: readonly (readonly number[])[];
  /** Of whole windings, in the order of the matrix. */
  readonly whole: readonly number[];
}

function airHenries(draft: NetworkDraft, owner: Part, matrix: CoilMatrix): Henries {
  for (const missing of matrix.missing)
    draft.lacks.push({ part: owner.name, why: `${missing} is not known: counted as nothing` });
  return {
    entries: matrix.entries.map((row) => row.map((entry) => entry ?? 0)),
    whole: matrix.windings.map(({ inductance }) => inductance.value ?? 0),
  };
}

/** Windings on iron; where their inductances are not told, those of a usual transformer. */
function ironHenries(draft: NetworkDraft, owner: Part, matrix: CoilMatrix): Henries {
  if (matrix.henries) return airHenries(draft, owner, matrix);
  const whole = matrix.windings.map(({ inductance, part }) => {
    if (inductance.value !== undefined) return inductance.value;
    const primary = matrix.windings.find((each) => each.part !== part)?.inductance.value;
    const ratio = owner.values.ratio?.value ?? USUAL_RATIO;
    const isSecondary = part.name.endsWith('.secondary');
    if (owner.values.ratio === undefined)
      draft.assumed.add(`a usual audio transformer’s 1 to ${USUAL_RATIO} in ${owner.name}`);
    if (primary === undefined && !isSecondary)
      draft.assumed.add(`a usual audio transformer’s ${USUAL_PRIMARY} H in ${part.name}`);
    if (isSecondary) return (primary ?? USUAL_PRIMARY) * ratio * ratio;
    return primary === undefined ? USUAL_PRIMARY : primary / (ratio * ratio);
  });
  const indexOf = new Map(matrix.windings.map(({ part }, index) => [part.name, index]));
  const entries = matrix.sections.map((row) =>
    matrix.sections.map((column) => {
      const first = indexOf.get(row.winding) ?? 0;
      const second = indexOf.get(column.winding) ?? 0;
      const shares = (row.high - row.low) * (column.high - column.low);
      const between = Math.sqrt((whole[first] ?? 0) * (whole[second] ?? 0));
      return shares * between * (first === second && row === column ? 1 : COUPLING);
    }),
  );
  return { entries, whole };
}

/** Coupling of windings on iron whose inductances are only usual ones. */
const COUPLING = 0.99;

/** What a winding holds in itself, across the whole of it. */
function addOwnCapacity(draft: NetworkDraft, values: WindingValues, isIron: boolean): void {
  const { part } = values;
  const from = draft.pointOfEnd(`${part.name}.start`);
  const to = draft.pointOfEnd(`${part.name}.finish`);
  if (from === undefined || to === undefined || from === to) return;
  const origin = { part: part.name, from: `${part.name}.start`, to: `${part.name}.finish` };
  let farads = values.selfCapacitance.value ?? 0;
  if (isIron) {
    const isSecondary = part.name.endsWith('.secondary');
    farads = isSecondary ? IRON_SECONDARY_CAPACITY : IRON_PRIMARY_CAPACITY;
    draft.assumed.add(`${Math.round(farads * 1e12)} mmfd across ${part.name}`);
  }
  if (farads > 0) draft.capacities.push({ from, to, farads, origin, isStray: true });
}

/** What the iron loses, across the whole of the primary, or of another where that is broken. */
function addIronLoss(draft: NetworkDraft, matrix: CoilMatrix, whole: readonly number[]): void {
  const unbroken = new Set(matrix.sections.map(({ winding }) => winding));
  const first = (suits: (name: string) => boolean): number =>
    matrix.windings.findIndex(({ part: { name } }) => unbroken.has(name) && suits(name));
  const primary = first((name) => name.endsWith('.primary'));
  const at = Math.max(0, primary >= 0 ? primary : first(() => true));
  const part = matrix.windings[at]?.part;
  const henries = whole[at] ?? 0;
  const from = draft.pointOfEnd(`${part?.name}.start`);
  const to = draft.pointOfEnd(`${part?.name}.finish`);
  if (!part || from === undefined || to === undefined || from === to || !(henries > 0)) return;
  draft.assumed.add('iron that loses as a resistance of twice the reactance at 1000 cycles');
  draft.conductances.push({ from, to, siemens: 1 / (IRON_LOSS * henries) });
}

/** A winding whose taps cannot be placed: its resistance alone, from end to end. */
function addUnsectioned(
  draft: NetworkDraft,
  matrix: CoilMatrix,
  direct: ReadonlyMap<string, number>,
): void {
  const placed = new Set(matrix.sections.map(({ winding }) => winding));
  const lost = new Set(
    matrix.windings.flatMap(({ part }) => (placed.has(part.name) ? [] : [part.name])),
  );
  if (lost.size === 0) return;
  for (const branch of draft.conduction.branches) {
    if (!lost.has(branch.part) || branch.direct.kind !== 'conducts') continue;
    addOhms(draft, branch, direct.get(branch.part) ?? 1);
  }
}

function addOhms(draft: NetworkDraft, branch: JoinedBranch, whole: number): void {
  const from = draft.pointOf(branch.fromJunction);
  const to = draft.pointOf(branch.toJunction);
  const ohms = branch.direct.kind === 'conducts' ? (branch.direct.ohms ?? whole) : whole;
  if (from === to || !(ohms > 0)) return;
  const origin = { part: branch.part, from: branch.from, to: branch.to };
  draft.conductances.push({ from, to, siemens: 1 / ohms, origin });
}
