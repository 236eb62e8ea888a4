import type { TunedCircuit } from '@setwright/analysis';
import { type Circuit, type Part, rolesOf } from '@setwright/circuit';
import { intermediateFrequency, isOscillator } from '../dials/oscillators.ts';
import { type Band, reachOf } from './bands.ts';

/** Where the tuned circuits of a set, and the parts of them, are at work. */
export interface WorkingBands {
  /** Of a tuned circuit; undefined for one whose transformer is tuned elsewhere by the text. */
  of(tuned: TunedCircuit): Band | undefined;
  /** Of a winding or a condenser: that of the circuit it belongs to, else the set's own band. */
  at(part: Part): Band | undefined;
  /** Whether a condenser belongs to a tuned circuit, so that audio is no business of its. */
  isTuning(condenser: string): boolean;
}

/**
 * Where the parts of a set work: in its band as far as their circuits reach; an oscillator's above
 * or below it by the intermediate frequency; an intermediate circuit's where the text tunes it.
 */
export function workingBands(
  circuit: Circuit,
  tuned: readonly TunedCircuit[],
  band: Band | undefined,
): WorkingBands {
  const between = intermediateFrequency(circuit, tuned);
  const bandOf = (each: TunedCircuit): Band | undefined => {
    if (isRival(circuit, each)) return undefined;
    if (!band || between === undefined || !isOscillator(circuit, each)) return reachOf(each, band);
    const [above, below] = [between, -between].map((by) =>
      reachOf(each, { low: band.low + by, high: band.high + by }),
    );
    return spanOf(above) >= spanOf(below) ? above : below;
  };
  const owners = new Map<string, TunedCircuit>();
  const coils = new Map<string, TunedCircuit>();
  for (const each of tuned) {
    if (isRival(circuit, each)) continue;
    for (const { edge } of each.windings) {
      enter(owners, edge.part, each);
      enter(coils, edge.coil?.coil ?? edge.part, each);
    }
    for (const name of [each.tuner, ...each.beside]) if (name) enter(owners, name, each);
  }
  return {
    of: bandOf,
    at(part) {
      const said = circuit.partNamed.get(part.owner ?? '')?.values.tuned?.value;
      if (said !== undefined && said > 0) return { low: said, high: said };
      const own = owners.get(part.name) ?? coils.get(part.owner ?? '');
      if (own) return bandOf(own) ?? band;
      // Behind the mixer there is nothing but the intermediate frequency.
      const isBehind = between !== undefined && isBehindMixer(circuit, part);
      return isBehind ? { low: between, high: between } : band;
    },
    isTuning: (condenser) => owners.has(condenser),
  };
}

/** What the coil or transformer of a circuit is tuned to by the text, where it is another circuit. */
export function statedElsewhere(circuit: Circuit, tuned: TunedCircuit): number | undefined {
  if (tuned.stated) return undefined;
  for (const { edge } of tuned.windings) {
    const said = circuit.partNamed.get(edge.coil?.coil ?? '')?.values.tuned?.value;
    if (said !== undefined && said > 0) return said;
  }
  return undefined;
}

function isRival(circuit: Circuit, tuned: TunedCircuit): boolean {
  return statedElsewhere(circuit, tuned) !== undefined;
}

function isBehindMixer(circuit: Circuit, part: Part): boolean {
  const roles = rolesOf(circuit, part);
  if (roles.includes('mixer')) return false;
  return roles.includes('intermediate') || roles.includes('detector');
}

function spanOf(band: Band | undefined): number {
  return band ? band.high / band.low : 0;
}

function enter<T>(map: Map<string, T>, name: string, value: T): void {
  if (!map.has(name)) map.set(name, value);
}
