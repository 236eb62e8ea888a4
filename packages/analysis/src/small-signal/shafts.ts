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
  { circuits, reach }: TunedSet,
  shafts: readonly Shaft[],
  { frequency, circuits: aligned, tuning }: Alignment,
  offsets: readonly number[],
): Tuning {
  const radians = 2 * Math.PI * frequency;
  const moved = new Map(tuning);
  for (const [index, shaft] of shafts.entries()) {
    const offset = offsets[index] ?? 0;
    for (const at of shaft.circuits) {
      const circuit = circuits[at];
      const here = aligned[at];
      if (!circuit?.law || !here || !circuit.inductance.value) continue;
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
  }
  return moved;
}
