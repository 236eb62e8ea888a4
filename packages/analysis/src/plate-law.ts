import type { Circuit, Part } from '@setwright/circuit';
import type { PlateLaw } from '@setwright/physics';

/** How a variable condenser's capacity goes with its dial, and why that was taken. */
export interface LawOfPlates {
  readonly law: PlateLaw;
  /** Undefined where the text says the law. */
  readonly assumed: string | undefined;
}

/** The last year in which half-round plates were the rule; shaped plates came with 1925. */
const LAST_HALF_ROUND = 1924;

/**
 * The law of a condenser's plates: as its line says, else by the year of the set. Half-round plates
 * (capacity) up to 1924 and where no year is said; from 1925 plates shaped for even steps of
 * wavelength, which the later midline plates come nearest to as well. Common practice.
 */
export function lawOfPlates(circuit: Circuit, part: Part): LawOfPlates {
  for (const law of ['capacity', 'wavelength', 'frequency'] as const)
    if (part.words.has(`law ${law}`)) return { law, assumed: undefined };
  const year = circuit.year?.value;
  if (year === undefined || year <= LAST_HALF_ROUND) {
    const when = year === undefined ? 'where no year is said' : `in ${year}`;
    return { law: 'capacity', assumed: `half-round plates in ${part.name}, as usual ${when}` };
  }
  return {
    law: 'wavelength',
    assumed: `plates of ${part.name} shaped for even steps of wavelength, as usual in ${year}`,
  };
}
