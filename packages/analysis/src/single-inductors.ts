import type { Part } from '@setwright/circuit';
import { factOf, type Reckoned, stated, unknown } from './value-because.ts';

/** A part that is one winding by itself. */
export interface SingleInductor {
  readonly inductance: Reckoned;
  readonly resistance: Reckoned;
}

/**
 * Impedance at 1000 cycles over direct-current ohms of what turns current into sound, for parts
 * that state no inductance. Phones 4 to 6 times; horn drivers of 750 to 2000 ohms have 5 to 20
 * kilohms; a cone's balanced or moving iron as a horn. Common practice (from memory).
 */
const IMPEDANCE_OVER_OHMS: Readonly<Record<string, number>> = { phones: 5, horn: 8, speaker: 8 };

/** Cycles at which those hold. */
const AT_FREQUENCY = 1000;

/**
 * Inductance in henries and direct-current ohms of a choke, loop, variometer, phones, horn or
 * speaker; undefined for any other kind of part. A variometer stands as it is set, half way where
 * nothing is said, in even steps from its least inductance to its most.
 *
 * @param travel where a variometer stands, 0 least to 1 most, instead of what the text says
 */
export function singleInductor(part: Part, travel?: number): SingleInductor | undefined {
  const { resistance, inductance } = part.values;
  const ohms = resistance
    ? stated(resistance, `resistance of ${part.name}`, part.values.tolerance)
    : unknown(`the ohms of ${part.name}`);
  const said = inductance ? stated(inductance, `inductance of ${part.name}`) : undefined;
  switch (part.kind) {
    case 'choke':
    case 'loop':
      return {
        inductance: said ?? unknown(`the inductance of ${part.name}`),
        resistance: ohms,
      };
    case 'variometer':
      return {
        inductance: variometer(part, travel) ?? said ?? unknown(`the inductance of ${part.name}`),
        resistance: ohms,
      };
    case 'phones':
    case 'horn':
    case 'speaker':
      return { inductance: said ?? soundInductance(part), resistance: ohms };
    default:
      return undefined;
  }
}

function variometer(part: Part, travel: number | undefined): Reckoned | undefined {
  const range = part.ranges.inductance;
  if (!range) return undefined;
  const set = part.setting?.kind === 'fraction' ? part.setting : undefined;
  const share = Math.min(1, Math.max(0, travel ?? set?.fraction ?? 0.5));
  const { low, high } = range;
  return {
    value: low.value + share * (high.value - low.value),
    because: {
      formula: 'in even steps from its least inductance to its most',
      facts: [
        factOf(low, `least inductance of ${part.name}`),
        factOf(high, `most inductance of ${part.name}`),
      ],
      assumed: set || travel !== undefined ? [] : [`${part.name} is set half way`],
      source: 'NBS Circular 74, on the variometer (from memory)',
      relativeError: 0.05,
    },
  };
}

function soundInductance(part: Part): Reckoned {
  const ohms = part.values.resistance;
  const times = IMPEDANCE_OVER_OHMS[part.kind];
  if (!ohms || times === undefined) return unknown(`the inductance or the ohms of ${part.name}`);
  const reactance = ohms.value * Math.sqrt(times * times - 1);
  return {
    value: reactance / (2 * Math.PI * AT_FREQUENCY),
    because: {
      formula: 'what its impedance at 1000 cycles leaves beside its ohms',
      facts: [factOf(ohms, `resistance of ${part.name}`)],
      assumed: [`an impedance of ${times} times its ohms at ${AT_FREQUENCY} cycles`],
      source: 'common practice',
      relativeError: 0.5,
    },
  };
}
