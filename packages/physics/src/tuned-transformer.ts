import { arePositive, finiteOrUndefined } from './domain.ts';

/** A tube feeding a tuned secondary through an untuned primary. */
export interface TunedTransformer {
  /** Amplification factor of the tube, no unit. */
  readonly mu: number;
  /** Plate resistance, ohms. */
  readonly plateResistance: number;
  /** Frequency the secondary is tuned to, hertz. */
  readonly frequency: number;
  /** Secondary inductance, henries. */
  readonly secondary: number;
  /** Q of the secondary by itself. */
  readonly q: number;
}

/**
 * Gain from grid to the tuned secondary, μ ωM Q/(rₚ + (ωM)²/Rₛ), no unit.
 *
 * @param mutual inductance M, henries, above 0
 *
 * Undefined unless all are above 0. Leaves out the primary's own reactance, which retuning all
 * but takes up: 0.003 % on the worked mesh example, more with a large primary.
 * Source: F. E. Terman, Radio Engineering (1932); Friis and Jensen, Bell System Technical
 * Journal (1924) (both from memory).
 */
export function tunedTransformerGain(stage: TunedTransformer, mutual: number): number | undefined {
  if (!isPossible(stage) || !arePositive(mutual)) {
    return undefined;
  }
  const coupled = 2 * Math.PI * stage.frequency * mutual;
  const reflected = coupled ** 2 / secondaryResistance(stage);
  return finiteOrUndefined((stage.mu * coupled * stage.q) / (stage.plateResistance + reflected));
}

/** Mutual inductance in henries of the most gain, √(rₚRₛ)/ω; undefined as the gain is. */
export function bestMutualInductance(stage: TunedTransformer): number | undefined {
  return isPossible(stage)
    ? finiteOrUndefined(
        Math.sqrt(stage.plateResistance * secondaryResistance(stage)) /
          (2 * Math.PI * stage.frequency),
      )
    : undefined;
}

/** The most gain, μ ωLₛ/(2√(rₚRₛ)), no unit; undefined as the gain is. */
export function bestTunedTransformerGain(stage: TunedTransformer): number | undefined {
  const mutual = bestMutualInductance(stage);
  return mutual === undefined ? undefined : tunedTransformerGain(stage, mutual);
}

/**
 * Q of the secondary with the plate resistance reflected into it, no unit.
 *
 * @param mutual inductance M, henries, above 0
 *
 * Undefined as the gain is. Exact but for the primary's reactance.
 */
export function loadedSecondaryQ(stage: TunedTransformer, mutual: number): number | undefined {
  if (!isPossible(stage) || !arePositive(mutual)) {
    return undefined;
  }
  const own = secondaryResistance(stage);
  const reflected = (2 * Math.PI * stage.frequency * mutual) ** 2 / stage.plateResistance;
  return finiteOrUndefined((stage.q * own) / (own + reflected));
}

function isPossible({ mu, plateResistance, frequency, secondary, q }: TunedTransformer): boolean {
  return arePositive(mu, plateResistance, frequency, secondary, q);
}

function secondaryResistance({ frequency, secondary, q }: TunedTransformer): number {
  return (2 * Math.PI * frequency * secondary) / q;
}
