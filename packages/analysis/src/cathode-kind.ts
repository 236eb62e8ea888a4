import type { TubeType } from '@setwright/circuit';
import type { CathodeKind } from '@setwright/physics';

/**
 * Types whose filament is not what their volts would make one think, by trade type number: the
 * power tubes with a coated filament on five volts. From memory of the tube manuals.
 */
const COATED: ReadonlySet<string> = new Set(['12-A', '71-A', '112', '112-A', '171', '171-A']);

/** Filaments of fewer volts than this are coated, whatever they are called. */
const COATED_BELOW = 2.9;
/** Amperes of a five-volt filament that is plain tungsten: the bright emitters. */
const BRIGHT_AMPERES = 0.8;
const BRIGHT_VOLTS = 6;

/**
 * What a tube type's electrons come from. Heaters, and filaments below 2.9 V, are oxide coated;
 * five volts at most of an ampere is a bright emitter; the others are thoriated. From memory.
 */
export function cathodeKindOf(type: TubeType | undefined): CathodeKind {
  const volts = type?.filamentVolts ?? BRIGHT_VOLTS;
  if (type?.heated || volts < COATED_BELOW || COATED.has(type?.name ?? '')) return 'oxide';
  if (volts < BRIGHT_VOLTS && (type?.filamentAmperes ?? 0) > BRIGHT_AMPERES) return 'tungsten';
  return 'thoriated';
}
