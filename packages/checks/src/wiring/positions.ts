import {
  type Circuit,
  type Conduction,
  closedCircuits,
  positionOf,
  type Settings,
} from '@setwright/circuit';
import type { Study } from '../study.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { listed } from '../words/finding.ts';

/** How a wiring fault stands over the positions of switches, jacks and selectors. */
export interface Judged {
  /** The settings that cure it; undefined when it is there in every position. */
  readonly curedBy: Settings | undefined;
}

/**
 * Judges wiring faults over every position: those there as drawn, each with the first position
 * that cures it, if one does. The other positions are looked at only where there is a fault. A
 * position that puts the filaments out, such as the battery switch's, cures nothing.
 *
 * @param faultsAt the faults of the set at one position, by any key.
 * @param counts whether a position counts for a fault, by the tubes that are lit at it and by
 *   those that are as drawn. Where not given: while any tube is lit, if any is as drawn.
 */
export function judgedOverPositions<K>(
  study: Study,
  faultsAt: (conduction: Conduction) => ReadonlySet<K>,
  counts: (key: K, lit: ReadonlySet<string>, drawn: ReadonlySet<string>) => boolean = anyLit,
): ReadonlyMap<K, Judged> {
  const open = new Set(faultsAt(study.conduction));
  const judged = new Map<K, Judged>([...open].map((key) => [key, { curedBy: undefined }]));
  if (open.size === 0) return judged;
  const drawn = closedCircuits(study.conduction).filaments;
  for (const { settings, conduction } of study.everyPosition.slice(1)) {
    if (open.size === 0) break;
    const still = faultsAt(conduction);
    const cured = [...open].filter((key) => !still.has(key));
    if (cured.length === 0) continue;
    const { filaments } = closedCircuits(conduction);
    for (const key of cured) {
      if (!counts(key, filaments, drawn)) continue;
      judged.set(key, { curedBy: settings });
      open.delete(key);
    }
  }
  return judged;
}

function anyLit(_: unknown, lit: ReadonlySet<string>, drawn: ReadonlySet<string>): boolean {
  return drawn.size === 0 || lit.size > 0;
}

/** For faults kept by their tube: a position counts while that tube itself is lit. */
export function whileLit(
  { part }: TubeAt,
  lit: ReadonlySet<string>,
  drawn: ReadonlySet<string>,
): boolean {
  return lit.has(part.name) || (!drawn.has(part.name) && anyLit(part, lit, drawn));
}

/** Names of the controls that stand otherwise in the one settings than in the other. */
export function controlsMoved(circuit: Circuit, from: Settings, to: Settings): readonly string[] {
  const names = new Set([...from.positions.keys(), ...to.positions.keys()]);
  return [...names].filter((name) => {
    const part = circuit.partNamed.get(name);
    return part !== undefined && positionOf(part, from) !== positionOf(part, to);
  });
}

/** How the moved controls stand, in words: `J1 empty`, `S2 at tap4 and J1 with PH1 in it`. */
export function standingWords(circuit: Circuit, from: Settings, to: Settings): string {
  return listed(
    controlsMoved(circuit, from, to).map((name) => {
      const part = circuit.partNamed.get(name);
      const position = part?.positions[part ? positionOf(part, to) : 0] ?? '';
      if (part?.kind === 'selector') return `${name} at ${position}`;
      if (part?.kind !== 'jack' || position === 'empty') return `${name} ${position}`;
      return `${position === 'plugged' ? 'a plug' : position} in ${name}`;
    }),
  );
}
