import { type Circuit, isOnAir, isSupply, type Part } from '@setwright/circuit';
import type { Study } from '../study.ts';
import { gridLeakOf, otherJunction, partsAt, type TubeAt } from '../tubes/tubes.ts';
import type { Role } from './likely-sizes.ts';

/** The part that a component plays, by how it is wired, and for which tube. */
export interface Played {
  readonly role: Role;
  readonly tube: string;
}

/**
 * Finds the components whose part is plain from the wiring: stoppers, leaks and condensers of
 * grids, radio bypasses, filament rheostats, tuned windings. What is not plain is left out.
 * Linear in the set.
 */
export function partsPlayed({ circuit, tubes }: Study): ReadonlyMap<string, Played> {
  const played = new Map<string, Played>();
  const add = (part: Part | undefined, role: Role, tube: TubeAt | undefined) => {
    if (part && !played.has(part.name))
      played.set(part.name, { role, tube: tube?.part.name ?? '' });
  };
  const rails = railJunctions(circuit);
  for (const tube of tubes) {
    const junction = tube.grid?.junction;
    if (junction === undefined) continue;
    const isRadio = !tube.roles.includes('audio') && !tube.roles.includes('output');
    const detects = tube.roles.includes('detector') || (tube.roles.length === 0 && isRadio);
    const leaky = gridLeakOf(circuit, tube);
    const beyond = leaky && otherJunction(leaky.condenser, junction);
    if (leaky && detects && beyond !== undefined && hasAirWinding(circuit, beyond)) {
      add(leaky.condenser, 'grid condenser', tube);
      add(leaky.leak, 'grid leak', tube);
    }
    for (const part of partsAt(circuit, junction)) {
      if (part.kind !== 'resistor' || !isRadio || part.taps.length > 0) continue;
      const other = otherJunction(part, junction);
      const isAcross = leaky !== undefined && other === beyond;
      if (other === undefined || isAcross || rails.has(other)) continue;
      if (hasAirWinding(circuit, other)) add(part, 'grid stopper', tube);
    }
    if (isRadio && beyond === undefined) addReturnBypass(circuit, junction, tube, rails, add);
    if (detects && tube.plate) addPlateBypass(circuit, tube.plate.junction, tube, rails, add);
  }
  for (const part of circuit.parts) {
    if (part.kind === 'rheostat' && lightsFilament(circuit, part))
      add(part, 'filament rheostat', undefined);
    if (part.kind === 'winding' && isTuned(circuit, part)) add(part, 'tuned winding', undefined);
  }
  return played;
}

/** Junctions that are at rest for the signal: taps, ground posts and filaments. */
function railJunctions(circuit: Circuit): ReadonlySet<number> {
  const rails = new Set<number>();
  for (const part of circuit.parts) {
    const isRail = isSupply(part) || (part.kind === 'post' && part.words.has('ground'));
    for (const end of part.ends)
      if (isRail || (part.kind === 'tube' && end.name.startsWith('filament')))
        rails.add(end.junction);
  }
  return rails;
}

const hasAirWinding = (circuit: Circuit, junction: number): boolean =>
  partsAt(circuit, junction).some((part) => isOnAir(circuit, part));

type Add = (part: Part | undefined, role: Role, tube: TubeAt | undefined) => void;

/** The condenser that takes a grid coil's far end home, where the coil itself is returned elsewhere. */
function addReturnBypass(
  circuit: Circuit,
  grid: number,
  tube: TubeAt,
  rails: ReadonlySet<number>,
  add: Add,
) {
  for (const winding of partsAt(circuit, grid)) {
    if (winding.kind !== 'winding' || !isOnAir(circuit, winding)) continue;
    const far = otherJunction(winding, grid);
    if (far === undefined || far === grid || rails.has(far)) continue;
    for (const part of bypassesAt(circuit, far, rails)) add(part, 'radio bypass', tube);
  }
}

/** The condenser that takes a detector's radio current home from its plate or behind its tickler. */
function addPlateBypass(
  circuit: Circuit,
  plate: number,
  tube: TubeAt,
  rails: ReadonlySet<number>,
  add: Add,
) {
  // Into a resistance a plate wants less: a bypass of usual size would take the treble.
  const load = partsAt(circuit, plate);
  if (load.some((part) => part.kind === 'resistor' || part.kind === 'leak')) return;
  const junctions = [plate];
  for (const winding of load) {
    if (winding.kind !== 'winding' || !isOnAir(circuit, winding)) continue;
    const far = otherJunction(winding, plate);
    if (far !== undefined && !rails.has(far)) junctions.push(far);
  }
  for (const junction of junctions)
    for (const part of bypassesAt(circuit, junction, rails)) add(part, 'radio bypass', tube);
}

function bypassesAt(circuit: Circuit, junction: number, rails: ReadonlySet<number>): Part[] {
  return partsAt(circuit, junction).filter((part) => {
    if (part.kind !== 'condenser' || isAdjustable(part)) return false;
    const other = otherJunction(part, junction);
    return other !== undefined && other !== junction && rails.has(other);
  });
}

/** Whether a condenser is turned or screwed to what is wanted of it. */
export const isAdjustable = (part: Part): boolean =>
  part.ranges.capacitance !== undefined ||
  ['variable', 'trimmer', 'neutralizing'].some((word) => part.words.has(word));

function lightsFilament(circuit: Circuit, part: Part): boolean {
  return part.ends.some((end) =>
    (circuit.junctions[end.junction]?.terminals ?? []).some((id) => /\.filament[-+]$/.test(id)),
  );
}

/** Whether a variable condenser lies across the whole of a winding. */
function isTuned(circuit: Circuit, winding: Part): boolean {
  if (!isOnAir(circuit, winding)) return false;
  const [start, finish] = ['start', 'finish'].map(
    (name) => winding.ends.find((end) => end.name === name)?.junction,
  );
  if (start === undefined || finish === undefined || start === finish) return false;
  // One of the two is often the ground, with half the set on it: look from the other.
  const count = (junction: number) => circuit.junctions[junction]?.terminals.length ?? 0;
  const [here, there] = count(finish) <= count(start) ? [finish, start] : [start, finish];
  return partsAt(circuit, here).some(
    (part) =>
      part.kind === 'condenser' &&
      part.words.has('variable') &&
      otherJunction(part, here) === there,
  );
}
