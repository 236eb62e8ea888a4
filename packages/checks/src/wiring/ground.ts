import { isSupply, zeroTap } from '@setwright/circuit';
import type { Study } from '../study.ts';

/**
 * What tells the volts of a terminal above what a person stands on, with the set on and no plate
 * current: above a ground post; where nothing ties the two together, above the zero of a supply,
 * which the other hand may touch. Undefined when neither can be told.
 */
export function aboveGround(
  { circuit }: Pick<Study, 'circuit'>,
  solved: Study['solved'],
): (terminal: string) => number | undefined {
  const grounds = circuit.parts.flatMap((part) =>
    part.kind === 'post' && part.words.has('ground') ? (part.ends[0]?.id ?? []) : [],
  );
  const zeros = circuit.parts.flatMap((part) =>
    isSupply(part) ? (part.ends.find(({ name }) => name === zeroTap(part)?.end)?.id ?? []) : [],
  );
  const footings = [...grounds, ...zeros];
  return (terminal) => {
    for (const footing of footings) {
      const volts = solved.voltage(terminal, footing);
      if (volts !== undefined) return volts;
    }
    return undefined;
  };
}
