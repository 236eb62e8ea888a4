import { acrossAt } from '../capacity-law.ts';
import type { Alignment, TunedSet } from './aligned-at.ts';
import type { Tuning } from './signal-system.ts';

/** Circuits that are turned by one hand. */
export interface Shaft {
  /** The dial, gang or condenser. */
  readonly name: string;
  /** Indices into the circuits of the tuned set. */
  readonly circuits: readonly number[];
}

/** The shafts of a set's tuned circuits, in the order of its circuits. */
export function shaftsOf({ circuits }: TunedSet): readonly Shaft[] {
  const found = new Map<string, number[]>();
  for (const [index, { dial, gang, tuner }] of circuits.entries()) {
    const name = dial ?? gang ?? tuner ?? '';
    const members = found.get(name) ?? [];
    members.push(index);
    found.set(name, members);
  }
  return [...found].map(([name, members]) => ({ name, circuits: members }));
}

/**
 * The tuning with every shaft turned so that its circuits lie off the station by a share of its
 * frequency; no condenser leaves its range.
 *
 * @param offsets by the shafts' order, positive for higher
 */
export function mistuned(
  tuned: TunedSet,
  shafts: readonly Shaft[],
  alignment: Alignment,
  offsets: readonly number[],
): Tuning {
  const moved = new Map(alignment.tuning);
  for (const [index, shaft] of shafts.entries())
    for (const [condenser, farads] of turnedOff(tuned, shaft, alignment, offsets[index] ?? 0))
      moved.set(condenser, farads);
  return moved;
}

/** The condensers of one shaft, turned so that its circuits lie off the station by a share. */
export function turnedOff(
  { circuits, reach }: TunedSet,
  shaft: Shaft,
  { frequency, circuits: aligned }: Alignment,
  offset: number,
): Tuning {
  const radians = 2 * Math.PI * frequency;
  const moved = new Map<string, number>();
  for (const at of shaft.circuits) {
    const circuit = circuits[at];
    const here = aligned[at];
    if (!here) continue;
    moved.set(here.condenser, here.farads);
    if (!circuit?.law || !circuit.inductance.value) continue;
    const whole = 1 / (radians * radians * circuit.inductance.value);
    const change = whole * ((1 + offset) ** -2 - 1);
    const slope =
      (acrossAt(circuit.law, here.farads * 1.001) - acrossAt(circuit.law, here.farads)) /
      (here.farads * 0.001);
    const farads = here.farads + change / (slope > 0 ? slope : 1);
    moved.set(
      here.condenser,
      Math.min(reach.most[at] as number, Math.max(reach.least[at] as number, farads)),
    );
  }
  return moved;
}
