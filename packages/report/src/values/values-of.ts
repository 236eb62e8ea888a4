import { coilMatrix, operatingPoint, type TunedCircuit, tunedCircuits } from '@setwright/analysis';
import { asOn, type Circuit, isSupply, type Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import { type AtWork, partRows, supplyRows, tubeRows } from './at-work-rows.ts';
import { bandOf } from './bands.ts';
import { type GainRows, gainRows } from './gain-rows.ts';
import type { UnitStyle } from './quantities.ts';
import { condenserRows } from './reactance-rows.ts';
import type { ValueRow } from './rows.ts';
import { tunedRows } from './tuned-rows.ts';
import { couplingRows, singleInductorRows, windingRows } from './winding-rows.ts';
import { statedElsewhere, type WorkingBands, workingBands } from './working-bands.ts';

/** What is reckoned of one part, or of one tuned circuit. */
export interface PartValues {
  /** The part or tuned circuit that most of the rows are of. */
  readonly part: string;
  readonly heading: string;
  /** The name of the stage that it stands in. */
  readonly stage: string | undefined;
  readonly rows: readonly ValueRow[];
}

/** Everything that is reckoned of a set. */
export interface SetValues {
  readonly circuit: Circuit;
  /** In the order of the text. */
  readonly parts: readonly PartValues[];
  /** Switches and rheostats that are drawn off and were taken as on. */
  readonly switchedOn: readonly string[];
}

/**
 * Every number that can be reckoned of a set with its reason, and what is missing for the others:
 * windings and how they are coupled, condensers, tuned circuits, volts and currents with the set on
 * and no signal, and what each stage makes of a signal. Never throws.
 *
 * @param style for the numbers within the reasons
 * @param withGains false leaves out what stages make of a signal, which takes the longest by far
 */
export function valuesOf(circuit: Circuit, style: UnitStyle, withGains = true): SetValues {
  const { settings, switchedOn } = asOn(circuit);
  const tuned = tunedCircuits(circuit, settings);
  const band = bandOf(circuit, tuned);
  const bands = workingBands(circuit, tuned, band);
  const work: AtWork = { circuit, point: operatingPoint(circuit, settings), style };
  const after = byLastPart(circuit, tuned);
  const gains: GainRows = withGains ? gainRows(circuit, work.point, band, style) : new Map();
  const parts: PartValues[] = [];
  const add = (
    part: Part,
    rows: readonly ValueRow[],
    as = part.name,
    heading = named(part),
  ): void => {
    if (rows.length > 0) parts.push({ part: as, heading, stage: part.stage, rows });
  };
  for (const part of circuit.parts) {
    // A winding is told of with its coil.
    if (part.kind !== 'winding')
      add(part, [...rowsOf(work, part, bands), ...(gains.get(part.name) ?? [])]);
    addCoil(work, part, bands, add);
    for (const each of after.get(part.name) ?? [])
      add(
        part,
        tunedRows(each, bands.of(each), style),
        each.name,
        tunedHeading(circuit, each, style),
      );
  }
  return { circuit, parts, switchedOn };
}

type Add = (part: Part, rows: readonly ValueRow[], as?: string, heading?: string) => void;

function addCoil(work: AtWork, owner: Part, bands: WorkingBands, add: Add): void {
  const { circuit, style } = work;
  const coil = coilMatrix(circuit, owner.name);
  if (!coil) return;
  for (const values of coil.windings) {
    const rows = windingRows(circuit, values, bands.at(values.part), style);
    add(values.part, [...rows, ...partRows(work, values.part)]);
  }
  add(owner, couplingRows(coil), owner.name, `${named(owner)}: how its windings are coupled`);
}

function rowsOf(work: AtWork, part: Part, bands: WorkingBands): readonly ValueRow[] {
  const { circuit, point, style } = work;
  if (isSupply(part)) return supplyRows(work, part);
  if (part.kind === 'tube')
    return point.tubes
      .filter(({ tube }) => tube === part.name)
      .flatMap((tube) => tubeRows(work, tube));
  if (part.kind === 'condenser')
    return condenserRows(circuit, part, bands.at(part), bands.isTuning(part.name), style);
  return [...singleInductorRows(part, bands.at(part), style), ...partRows(work, part)];
}

/** The tuned circuits by the coil after which they are told of: the last of their coils. */
function byLastPart(
  circuit: Circuit,
  tuned: readonly TunedCircuit[],
): ReadonlyMap<string, readonly TunedCircuit[]> {
  const order = new Map(circuit.parts.map(({ name }, index) => [name, index]));
  const after = new Map<string, TunedCircuit[]>();
  for (const each of tuned) {
    const coils = each.windings.map(({ edge }) => edge.coil?.coil ?? edge.part);
    const [last] = coils.sort((a, b) => (order.get(b) ?? 0) - (order.get(a) ?? 0));
    if (last !== undefined) after.set(last, [...(after.get(last) ?? []), each]);
  }
  return after;
}

function named({ name, title }: Part): string {
  return title === undefined ? name : `${name}, ${title}`;
}

function tunedHeading(circuit: Circuit, tuned: TunedCircuit, style: UnitStyle): string {
  const { name, tuner, beside } = tuned;
  const across = [tuner, ...beside].filter((each) => each !== undefined);
  const by = across.length > 0 ? across.join(' with ') : 'its own capacity';
  const elsewhere = statedElsewhere(circuit, tuned);
  if (elsewhere === undefined) return `${name} tuned by ${by}`;
  const coil = tuned.windings[0]?.edge.coil?.coil ?? name;
  return `${name} with ${by}: a resonance beside the ${formatQuantity(elsewhere, 'frequency', style)} that ${coil} is tuned to`;
}
