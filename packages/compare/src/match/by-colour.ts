import type { Junctions } from '../junctions.ts';
import { namelessKey, type Unit } from './units.ts';

/** How far around a part its surroundings are looked at. */
const ROUNDS = 3;

/**
 * Parts matched by what they are and what surrounds them, without their names: those that only one
 * of each set is like. Colours grow by a step of the circuit a round; the widest speak first.
 */
export function matchedByColour(
  olds: readonly Unit[],
  nows: readonly Unit[],
  old: Junctions,
  now: Junctions,
): Map<string, string> {
  const ids = new Map<string, number>();
  const numberOf = (text: string) => {
    const known = ids.get(text) ?? ids.size;
    ids.set(text, known);
    return known;
  };
  const first = (unit: Unit) =>
    numberOf(
      [
        unit.family,
        ...[...unit.facts].map(([slot, said]) => `${slot}:${namelessKey(said)}`).sort(),
      ].join('\n'),
    );
  let before = olds.map(first);
  let after = nows.map(first);
  const rounds = [[before, after] as const];
  for (let round = 0; round < ROUNDS; round += 1) {
    before = widened(olds, before, old, numberOf);
    after = widened(nows, after, now, numberOf);
    rounds.push([before, after]);
  }
  const matched = new Map<string, string>();
  const taken = new Set<string>();
  for (const [left, right] of rounds.reverse()) {
    const lone = onlyOnes(nows, right, (unit) => taken.has(unit.id));
    for (const [colour, unit] of onlyOnes(olds, left, ({ id }) => matched.has(id))) {
      const other = lone.get(colour);
      if (!unit || !other) continue;
      matched.set(unit.id, other.id);
      taken.add(other.id);
    }
  }
  return matched;
}

function widened(
  units: readonly Unit[],
  colours: readonly number[],
  { members, of }: Junctions,
  numberOf: (text: string) => number,
): number[] {
  const joints = members.map((): string[] => []);
  for (const [index, { ends }] of units.entries())
    for (const [name, end] of ends) joints[of.get(end) ?? -1]?.push(`${colours[index]}${name}`);
  const around = joints.map((each) => numberOf(each.sort().join('|')));
  return units.map(({ ends }, index) => {
    const told = [...ends].map(([name, end]) => `${name}@${around[of.get(end) ?? -1] ?? ''}`);
    return numberOf([colours[index], ...told.sort()].join(';'));
  });
}

/** By colour the one unit that has it; undefined where several have. */
function onlyOnes(
  units: readonly Unit[],
  colours: readonly number[],
  isTaken: (unit: Unit) => boolean,
): Map<number, Unit | undefined> {
  const found = new Map<number, Unit | undefined>();
  for (const [index, unit] of units.entries()) {
    const colour = colours[index] as number;
    if (!isTaken(unit)) found.set(colour, found.has(colour) ? undefined : unit);
  }
  return found;
}
