import { asOn, type Circuit, type Part, type Settings } from '@setwright/circuit';
import { resonantFrequency, wavelength } from '@setwright/physics';
import type { Capacity } from './capacities.ts';
import { type CapacityLaw, capacityLaw } from './capacity-law.ts';
import { type InductiveEdge, pathInductance } from './inductive-paths.ts';
import { type TankLoad, tankCapacity } from './tank-capacity.ts';
import { findTanks, type Tank, type Tanks } from './tanks.ts';
import { LOWER_EDGE_ERROR, UPPER_EDGE_ERROR } from './usual-values.ts';
import {
  factOf,
  missingOf,
  type Reckoned,
  unknown,
  type ValueBecause,
  type ValueFact,
} from './value-because.ts';

/** A winding of a tuned circuit and how much of its turns takes part. */
export interface TunedWinding {
  readonly edge: InductiveEdge;
  readonly share: number;
}

/** A tuned circuit as it was found. Hertz, metres, henries, farads. */
export interface TunedCircuit {
  /** Its windings' names in the order of the text, joined by a plus. */
  readonly name: string;
  readonly windings: readonly TunedWinding[];
  /** The condenser that tunes it; undefined for one that only fixed ones and strays tune. */
  readonly tuner: string | undefined;
  /** Other condensers straight across it: trimmers, fixed ones. */
  readonly beside: readonly string[];
  readonly dial: string | undefined;
  readonly gang: string | undefined;
  readonly inductance: Reckoned;
  /** Across the whole with the tuner's plates out and in, strays counted. */
  readonly leastCapacity: Reckoned;
  readonly mostCapacity: Reckoned;
  /** Across the whole with the tuner taken out. */
  readonly strays: Reckoned;
  readonly lowest: Reckoned;
  readonly highest: Reckoned;
  readonly longestWave: number | undefined;
  readonly shortestWave: number | undefined;
  /** How the capacity across goes with the tuner's. */
  readonly law: CapacityLaw | undefined;
  /** What the text says it is tuned to, and how far above that it comes out, as a share. */
  readonly stated:
    | { readonly frequency: ValueFact; readonly excess: number | undefined }
    | undefined;
  readonly loads: readonly TankLoad[];
  /** Resistances in series inside the circuit. */
  readonly inside: readonly Part[];
}

/**
 * Every tuned circuit of a set: windings on air, loops and variometers whose ends are bridged at
 * radio frequency by a condenser, through bypasses, batteries, small condensers in series. In the
 * order of the condensers in the text. Never throws.
 *
 * Tubes count with their capacities cold: a stage at work adds to its grid's. What the aerial and
 * the next plate reflect through their windings is left out, and so is a shield's lowering of the
 * inductance.
 */
export function tunedCircuits(
  circuit: Circuit,
  settings: Settings = asOn(circuit).settings,
): readonly TunedCircuit[] {
  const all = findTanks(circuit, settings);
  return nearestStated(all.tanks.map((tank) => tunedCircuit(circuit, all, tank)));
}

/** Of several circuits of one transformer only the one that comes nearest is the stated one. */
function nearestStated(tuned: readonly TunedCircuit[]): readonly TunedCircuit[] {
  const off = ({ stated }: TunedCircuit) => Math.abs(stated?.excess ?? Number.POSITIVE_INFINITY);
  const coilOf = ({ windings }: TunedCircuit) => windings[0]?.edge.coil?.coil;
  return tuned.map((each) => {
    if (!each.stated) return each;
    const rivals = tuned.filter((other) => other.stated && coilOf(other) === coilOf(each));
    const isNearest = rivals.every((other) => other === each || off(each) < off(other));
    return isNearest || rivals.length === 1 ? each : { ...each, stated: undefined };
  });
}

function tunedCircuit(circuit: Circuit, all: Tanks, tank: Tank): TunedCircuit {
  const tuner = tank.across.find(({ range }) => range !== undefined);
  const windings = windingsOf(tank);
  const parts = new Set(windings.map((each) => each.edge.part));
  const names = circuit.parts.flatMap(({ name }) => (parts.has(name) ? [name] : []));
  const inductance = inShield(circuit, windings, pathInductance(tank.path));
  const capacity = tankCapacity(circuit, all, tank, tuner);
  const own = ownCapacity(windings);
  const added = own?.farads ?? 0;
  const lacks = tank.across.flatMap(({ missing }) => missing);
  const farads = (value: number, of: ValueBecause | undefined): Reckoned => {
    if (lacks.length > 0) return unknown(...lacks);
    const name = of && tuner?.part.name;
    return { value: value + added, because: capacityBecause(name, of, capacity.others, own) };
  };
  const plates = tuner?.rangeBecause;
  const least = farads(capacity.least, plates?.[0] ?? tuner?.because);
  const most = farads(capacity.most, plates?.[1] ?? tuner?.because);
  const lowest = edge(inductance, most, LOWER_EDGE_ERROR);
  const highest = edge(inductance, least, UPPER_EDGE_ERROR);
  const turned = turnedBy(circuit, tuner?.part.name);
  return {
    name: names.join('+'),
    windings,
    tuner: tuner?.part.name,
    beside: tank.across.flatMap((each) => (each === tuner ? [] : [each.part.name])),
    ...turned,
    inductance,
    leastCapacity: least,
    mostCapacity: most,
    strays: farads(capacity.without, undefined),
    lowest,
    highest,
    longestWave: lowest.value === undefined ? undefined : wavelength(lowest.value),
    shortestWave: highest.value === undefined ? undefined : wavelength(highest.value),
    law:
      tuner?.range && lacks.length === 0
        ? capacityLaw(tuner.range, [
            capacity.without + added,
            capacity.least + added,
            capacity.most + added,
          ])
        : undefined,
    stated: statedTuning(circuit, windings, lowest, highest),
    loads: capacity.loads,
    inside: tank.inside,
  };
}

/** The windings of a tank, each once, with the share of its turns that takes part. */
function windingsOf(tank: Tank): readonly TunedWinding[] {
  const found = new Map<string, { edge: InductiveEdge; share: number }>();
  for (const { edge: step } of tank.path) {
    const share = step.section ? step.section.high - step.section.low : 1;
    const known = found.get(step.part);
    if (known) known.share += share;
    else found.set(step.part, { edge: step, share });
  }
  return [...found.values()];
}

/** How much a usual can close round a coil takes off its inductance at most. Common practice. */
const SHIELD_ERROR = 0.15;

/** A can round a coil lowers its inductance, nobody has told by how much. */
function inShield(
  circuit: Circuit,
  windings: readonly TunedWinding[],
  inductance: Reckoned,
): Reckoned {
  const names = new Set(windings.flatMap(({ edge: each }) => [each.part, each.coil?.coil ?? '']));
  const shield = circuit.parts.find(
    (part) => part.kind === 'shield' && part.companions.some((name) => names.has(name)),
  );
  if (!shield || inductance.value === undefined) return inductance;
  const { because } = inductance;
  const assumed = [...because.assumed, `${shield.name} far enough off to leave it alone`];
  const relativeError = Math.max(SHIELD_ERROR, because.relativeError ?? 0);
  return { ...inductance, because: { ...because, assumed, relativeError } };
}

interface OwnCapacity {
  readonly farads: number;
  readonly because: ValueBecause;
}

/** The capacity of a single whole winding in itself; in series each keeps its own. */
function ownCapacity(windings: readonly TunedWinding[]): OwnCapacity | undefined {
  const [only, ...more] = windings;
  const own = only?.edge.values?.selfCapacitance;
  if (more.length > 0 || own?.value === undefined) return undefined;
  return { farads: own.value, because: own.because };
}

/** @param tuner name of the condenser that is turned, and where its farads as turned come from */
function capacityBecause(
  tuner: string | undefined,
  turned: ValueBecause | undefined,
  others: readonly Capacity[],
  own: OwnCapacity | undefined,
): ValueBecause {
  const parts = [turned, ...others.map(({ because }) => because)].flatMap((each) => each ?? []);
  const all = own ? [...parts, own.because] : parts;
  const names = [
    ...new Set(others.map(({ part, what }) => (what === 'wiring' ? 'wiring' : part.name))),
  ];
  return {
    formula: [tuner ?? '', ...names, own ? 'the winding itself' : '']
      .filter((word) => word !== '')
      .join(', '),
    facts: [...new Set(all.flatMap(({ facts }) => facts))],
    assumed: [...new Set(all.flatMap(({ assumed }) => assumed))],
    source: [...new Set(all.map(({ source }) => source))].join('; '),
  };
}

function edge(inductance: Reckoned, capacity: Reckoned, usualError: number): Reckoned {
  const missing = [...missingOf(inductance), ...missingOf(capacity)];
  if (inductance.value === undefined || capacity.value === undefined) return unknown(...missing);
  const value = resonantFrequency(inductance.value, capacity.value);
  if (value === undefined) return unknown('an inductance and a capacity above nothing');
  const { because } = inductance;
  return {
    value,
    because: {
      formula: 'resonance, 1/(2\u03c0\u221a(LC))',
      facts: [...new Set([...because.facts, ...capacity.because.facts])],
      assumed: [...new Set([...because.assumed, ...capacity.because.assumed])],
      source: 'Lord Kelvin (1853)',
      relativeError: Math.max(usualError, usualError / 2 + (because.relativeError ?? 0) / 2),
    },
  };
}

/** The dial and gang that turn a condenser. */
function turnedBy(
  circuit: Circuit,
  condenser: string | undefined,
): { readonly dial: string | undefined; readonly gang: string | undefined } {
  if (condenser === undefined) return { dial: undefined, gang: undefined };
  const gang = circuit.gangs.find(({ members }) => members.includes(condenser))?.name;
  const dial = circuit.dials.find(
    ({ drives }) => drives.includes(condenser) || (gang !== undefined && drives.includes(gang)),
  );
  return { dial: dial?.name, gang };
}

function statedTuning(
  circuit: Circuit,
  windings: readonly TunedWinding[],
  lowest: Reckoned,
  highest: Reckoned,
): TunedCircuit['stated'] {
  for (const { edge: each } of windings) {
    const owner = circuit.partNamed.get(each.coil?.coil ?? '');
    const said = owner?.values.tuned;
    if (!owner || !said) continue;
    const { value: low } = lowest;
    const { value: high } = highest;
    const known = low !== undefined && high !== undefined && said.value > 0;
    // Anywhere within the reach of its tuner is as stated.
    const nearest = known ? Math.min(Math.max(said.value, low), high) : 0;
    return {
      frequency: factOf(said, `tuning of ${owner.name}`),
      excess: known ? nearest / said.value - 1 : undefined,
    };
  }
  return undefined;
}
