import {
  type Branch,
  type Circuit,
  type Conduction,
  isBias,
  isFilamentSupply,
  isSupply,
  type JoinedBranch,
  type Part,
  stepFrom,
  supposedOhms,
  zeroTap,
} from '@setwright/circuit';
import { leastOhms, type Nearest } from '../wiring/least-ohms.ts';
import { isAirWinding } from './radio-use.ts';
import { fractionAt, type GridCircuit } from './radio-wiring.ts';

/** A resistance of no more than this, in ohms, belongs to a filament lead. Common practice. */
const MOST_LEAD_OHMS = 60;

/** Inductance of a yard or two of battery lead, in henries: 2 microhenries. Common practice. */
const BATTERY_LEAD = 2e-6;

/**
 * Capacity in farads across an iron-core winding, with the cords of phones and horns: 200 mmfd;
 * across the many turns of an audio secondary, 50. Common practice: transformers and cords were
 * found to have 100 to 300.
 */
const WINDING_CAPACITY = 200e-12;
const SECONDARY_CAPACITY = 50e-12;

/** Capacity in farads across a radio choke. Common practice: a few micromicrofarads. */
const CHOKE_CAPACITY = 4e-12;

/** Beyond this many ohms nothing is a way. */
const NO_WAY = 1e9;

/** Junctions at rest to the tubes: filaments, cathodes, and what hangs on them by their leads. */
export function tubesAtRest(conduction: Conduction): ReadonlySet<number> {
  const { circuit } = conduction;
  const rest = new Set<number>();
  for (const part of circuit.parts) {
    if (part.kind !== 'tube') continue;
    for (const { name, junction } of part.ends)
      if (name === 'cathode' || name === 'filament-' || name === 'filament+') rest.add(junction);
  }
  for (const here of rest)
    for (const branch of conduction.at[here] ?? [])
      if (isFilamentLead(circuit, branch)) rest.add(stepFrom(branch, here).junction);
  return rest;
}

function isFilamentLead(circuit: Circuit, branch: JoinedBranch): boolean {
  const part = circuit.partNamed.get(branch.part);
  if (part && isSupply(part)) return isFilamentSupply(part) && !isBias(part);
  if (branch.direct.kind !== 'conducts') return false;
  switch (part?.kind) {
    case 'tube':
    case 'lead':
    case 'switch':
    case 'selector':
    case 'jack':
    case 'ballast':
    case 'lamp':
    case 'fuse':
      return true;
    case 'rheostat':
    case 'resistor':
      return (part.values.resistance?.value ?? 0) <= MOST_LEAD_OHMS && part.taps.length === 0;
    default:
      return false;
  }
}

/**
 * The ways of least impedance for radio current from what is at rest to every junction, at a
 * frequency in hertz, each step by its size alone. Windings on air count as wire: they are what the
 * current works on. What drives a grid is no way: it is tuned. What is of unknown size counts as
 * nothing. n log n.
 *
 * @param grids the windings that drive grids.
 */
export function radioWays(
  conduction: Conduction,
  rest: ReadonlySet<number>,
  grids: readonly GridCircuit[],
  frequency: number,
): Nearest {
  const radians = 2 * Math.PI * frequency;
  const sections = withSections(conduction);
  const driving = new Map(grids.map((each) => [each.winding.name, each]));
  return leastOhms(
    sections,
    [...rest],
    (branch) =>
      drivesGrid(driving.get(branch.part), branch)
        ? undefined
        : impedance(conduction.circuit, branch, radians),
    NO_WAY,
  );
}

/** Whether a section of a winding lies between the grid's end and the end at rest. */
function drivesGrid(grid: GridCircuit | undefined, { from, to }: Branch): boolean {
  if (!grid) return false;
  const bounds = [grid.gridEnd, grid.lowEnd].map((id) => fractionAt(grid.winding, id) ?? 0);
  const middle =
    ((fractionAt(grid.winding, from) ?? 0.5) + (fractionAt(grid.winding, to) ?? 0.5)) / 2;
  return middle >= Math.min(...bounds) && middle <= Math.max(...bounds);
}

/** Ohms of a branch at radio frequency; undefined where no current passes. */
function impedance(circuit: Circuit, branch: Branch, radians: number): number | undefined {
  const part = circuit.partNamed.get(branch.part);
  if (!part) return undefined;
  const blocks = branch.direct.kind === 'blocks';
  const ohms = branch.direct.kind === 'blocks' ? undefined : branch.direct.ohms;
  switch (part.kind) {
    case 'condenser': {
      if (part.words.has('neutralizing')) return undefined;
      const farads = part.ranges.capacitance?.high.value ?? part.values.capacitance?.value;
      return farads === undefined ? 0 : 1 / (radians * Math.max(farads, 1e-15));
    }
    case 'tube':
      return blocks ? undefined : 0;
    case 'winding':
    case 'transformer':
      return isAirWinding(circuit, part) ? 0 : 1 / (radians * ironCapacity(part));
    case 'phones':
    case 'horn':
    case 'speaker':
      return 1 / (radians * WINDING_CAPACITY);
    case 'choke': {
      const henries = part.values.inductance?.value;
      if (henries === undefined) return 0;
      const farads = henries < 1 ? CHOKE_CAPACITY : WINDING_CAPACITY;
      return Math.min(radians * henries, 1 / (radians * farads));
    }
    case 'battery':
    case 'eliminator': {
      // The lead of its zero carries the current of every tap.
      const zero = part.ends.find(({ name }) => name === zeroTap(part)?.end)?.id;
      const henries = branch.from === zero || branch.to === zero ? BATTERY_LEAD : 0;
      return Math.hypot(ohms ?? 0, radians * henries);
    }
    default:
      if (blocks) return undefined;
      return Math.max(0, ohms ?? 0);
  }
}

function ironCapacity(part: Part): number {
  return part.name.endsWith('.secondary') ? SECONDARY_CAPACITY : WINDING_CAPACITY;
}

/** The same conduction with every supply as its sections, its cells in a row. */
function withSections(conduction: Conduction): Conduction {
  const { circuit } = conduction;
  const at = conduction.at.map((here) =>
    here.some(({ direct }) => direct.kind === 'source')
      ? here.filter(({ direct }) => direct.kind !== 'source')
      : here,
  );
  const branches = conduction.branches.filter(({ direct }) => direct.kind !== 'source');
  for (const part of circuit.parts) {
    if (!isSupply(part)) continue;
    for (const { from, to, ohms } of supplySteps(circuit, part)) {
      const [a, b] = [from, to].map((id) => circuit.endNamed.get(id)?.junction);
      if (a === undefined || b === undefined) continue;
      const joined: JoinedBranch = {
        part: part.name,
        from,
        to,
        direct: { kind: 'source', volts: undefined, ohms, because: 'the cells carry the current' },
        index: branches.length,
        fromJunction: a,
        toJunction: b,
      };
      branches.push(joined);
      at[a] = [...(at[a] ?? []), joined];
      if (a !== b) at[b] = [...(at[b] ?? []), joined];
    }
  }
  return { ...conduction, branches, at };
}

interface SupplyStep {
  readonly from: string;
  readonly to: string;
  readonly ohms: number;
}

/** Between a battery's taps their share of its resistance; an eliminator's taps each to its zero. */
function supplySteps(circuit: Circuit, part: Part): readonly SupplyStep[] {
  const zero = zeroTap(part);
  const idOf = (end: string) => part.ends.find(({ name }) => name === end)?.id ?? '';
  if (!zero) return [];
  const whole = supplyOhms(circuit, part);
  // Its filter condensers pass radio current, whatever its taps have for direct current.
  if (part.kind === 'eliminator')
    return part.supplyTaps
      .filter((tap) => tap !== zero)
      .map((tap) => ({ from: idOf(zero.end), to: idOf(tap.end), ohms: 0 }));
  const known = part.supplyTaps.filter((tap) => tap.volts !== undefined);
  if (known.length < part.supplyTaps.length || part.supplyTaps.length < 2)
    return part.supplyTaps
      .filter((tap) => tap !== zero)
      .map((tap) => ({ from: idOf(zero.end), to: idOf(tap.end), ohms: whole }));
  const row = [...known].sort((a, b) => (a.volts ?? 0) - (b.volts ?? 0));
  const span = (row.at(-1)?.volts ?? 0) - (row[0]?.volts ?? 0);
  return row.slice(1).map((tap, index) => {
    const below = row[index] ?? tap;
    const share = span > 0 ? ((tap.volts ?? 0) - (below.volts ?? 0)) / span : 1;
    return { from: idOf(below.end), to: idOf(tap.end), ohms: whole * share };
  });
}

/** Ohms of a whole supply: as stated, else of a usual one of its kind. */
function supplyOhms(circuit: Circuit, part: Part): number {
  const stated = part.values.resistance?.value;
  if (stated !== undefined) return stated;
  const [from, to] = part.ends;
  if (!from || !to) return 0;
  const direct = { kind: 'source', volts: undefined, ohms: undefined, because: '' } as const;
  return supposedOhms(circuit, { part: part.name, from: from.id, to: to.id, direct }).ohms;
}
