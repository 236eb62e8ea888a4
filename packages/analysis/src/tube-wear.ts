import type { Part } from '@setwright/circuit';
import type { TubeLaw } from './tube-law.ts';

/**
 * How one tube differs from its type, as slots of its part's values; no text says them, a fault
 * that is supposed does.
 */
export const wearSlots = {
  /** What its filament still emits at its rated volts, amperes. */
  emission: 'emission',
  /** What its plate draws where emission holds nothing down, as a share of the printed points. */
  draw: 'draw',
  /** Ampere of ions that reach the grid for every ampere of the plate. */
  gas: 'gas',
} as const;

/** The law of a tube in its socket: that of its type, as the tube has worn. */
export function wornLaw(law: TubeLaw, { values }: Part): TubeLaw {
  const emission = values[wearSlots.emission]?.value;
  const draw = values[wearSlots.draw]?.value;
  const gas = values[wearSlots.gas]?.value;
  let worn = law;
  if (emission !== undefined && emission >= 0)
    worn = { ...worn, saturation: Math.min(emission, law.saturation) };
  if (gas !== undefined && gas > 0) worn = { ...worn, gas };
  return draw !== undefined && draw > 0 ? withDraw(worn, draw) : worn;
}

/** The same law with a plate that draws a share of what it does at the same volts. */
export function withDraw(law: TubeLaw, share: number): TubeLaw {
  const { plate } = law;
  if (plate === undefined || share === 1) return law;
  return plate.kind === 'triode'
    ? {
        ...law,
        plate: {
          ...plate,
          triode: { ...plate.triode, perveance: plate.triode.perveance * share },
        },
      }
    : {
        ...law,
        plate: { ...plate, tube: { ...plate.tube, perveance: plate.tube.perveance * share } },
      };
}
