import type { PartKindName } from '@setwright/circuit';
import { passesReturn } from '../grids/return-path.ts';
import type { Study } from '../study.ts';
import { stillPoints } from '../wiring/still-points.ts';

/** Parts of which a usual value does not do: they come in every size. */
const ofEverySize: ReadonlySet<PartKindName> = new Set([
  'resistor',
  'leak',
  'potentiometer',
  'lamp',
  'eliminator',
]);

/**
 * Whether the volts and currents of a junction hang on a resistance that the text does not give
 * and that no usual value can stand for. Windings, phones and batteries have usual values that
 * change little.
 */
export function guessesOf(study: Study): (junction: number | undefined) => boolean {
  const { circuit, conduction } = study;
  const guessed = new Set(
    study.operating.taken
      .filter(({ part }) => ofEverySize.has(circuit.partNamed.get(part)?.kind ?? 'lead'))
      .map(({ part }) => part),
  );
  if (guessed.size === 0) return () => false;
  const still = stillPoints(conduction);
  const passes = passesReturn(conduction);
  return (junction) => {
    if (junction === undefined) return false;
    const seen = new Set([junction]);
    for (const here of seen) {
      for (const branch of conduction.at[here] ?? []) {
        if (guessed.has(branch.part)) return true;
        if (still.has(here) || !passes(branch)) continue;
        seen.add(branch.fromJunction === here ? branch.toJunction : branch.fromJunction);
      }
    }
    return false;
  };
}
