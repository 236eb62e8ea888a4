import {
  type Conduction,
  conductionOf,
  type Part,
  type Settings,
  stepFrom,
} from '@setwright/circuit';
import type { Study } from '../study.ts';
import { otherJunction, partsAt } from '../tubes/tubes.ts';
import { stillPoints } from '../wiring/still-points.ts';

/** A set as it is put away. */
export interface SetOff {
  readonly settings: Settings;
  /** The switches that turn batteries on and off, all of them open. */
  readonly switches: readonly Part[];
  /** Rheostats drawn at their off stop, which stand there. */
  readonly rheostats: readonly Part[];
}

/** Kinds that, lying across a switch, make it choose between more and less, not on and off. */
const choosing: ReadonlySet<string> = new Set(['rheostat', 'ballast', 'resistor', 'lamp']);

/**
 * The set with every battery switch open and everything else as drawn. A battery switch has both
 * contacts in the wiring of supplies and filaments, or one there and the other leading to plates;
 * a switch of the aerial, or one that shorts a rheostat, is none. Linear in the set.
 */
export function setOff(study: Study): SetOff {
  const { circuit } = study;
  const drawn: Settings = { ...study.on.settings, travels: new Map() };
  const all = circuit.parts.filter((part) => part.kind === 'switch');
  const off = conductionOf(circuit, opened(drawn, all));
  const still = stillPoints(off);
  const switches = all.filter((part) => isBatterySwitch(off, still, part));
  const rheostats = circuit.parts.filter(
    (part) => part.kind === 'rheostat' && part.setting?.kind === 'off',
  );
  return { settings: opened(drawn, switches), switches, rheostats };
}

function opened(settings: Settings, switches: readonly Part[]): Settings {
  const positions = new Map(settings.positions);
  for (const part of switches) positions.set(part.name, openPosition(part));
  return { ...settings, positions };
}

function openPosition(part: Part): number {
  const named = part.positions.indexOf('open');
  if (named >= 0) return named;
  const closed = part.contacts[0]?.closedAt ?? [];
  return Math.max(
    0,
    [...part.positions.keys()].findIndex((position) => !closed.includes(position)),
  );
}

function isBatterySwitch(off: Conduction, still: ReadonlySet<number>, part: Part): boolean {
  const { circuit } = off;
  const [contact] = part.contacts;
  const [a, b] = [contact?.from, contact?.to].map((id) => circuit.endNamed.get(id ?? '')?.junction);
  if (a === undefined || b === undefined) return false;
  const chooses = partsAt(circuit, a).some(
    (other) => a !== b && choosing.has(other.kind) && otherJunction(other, a) === b,
  );
  if (chooses) return false;
  if (still.has(a) && still.has(b)) return true;
  return (
    (still.has(a) && feedsPlates(off, still, b)) || (still.has(b) && feedsPlates(off, still, a))
  );
}

function feedsPlates(off: Conduction, still: ReadonlySet<number>, from: number): boolean {
  const reached = new Set([from]);
  for (const here of reached) {
    for (const id of off.circuit.junctions[here]?.terminals ?? []) {
      const isTube = off.circuit.partOfEnd.get(id)?.kind === 'tube';
      if (isTube && (id.endsWith('.plate') || id.endsWith('.screen'))) return true;
    }
    for (const branch of off.at[here] ?? []) {
      const there = stepFrom(branch, here).junction;
      if (branch.direct.kind === 'conducts' && !still.has(there)) reached.add(there);
    }
  }
  return false;
}
