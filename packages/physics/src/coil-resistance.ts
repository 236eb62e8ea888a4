import { arePositive, finiteOrUndefined } from './domain.ts';
import { proximityRatio } from './proximity.ts';
import { skinArgument, skinResistanceRatio, transverseLossRatio } from './skin.ts';
import { type SingleLayerCoil, singleLayerInductance } from './solenoid.ts';
import { windingWireLength, wireResistancePerMetre } from './wire-resistance.ts';

/**
 * Resistance in ohms of a single-layer coil of solid copper wire at a frequency, at 20 °C.
 *
 * Its direct-current resistance times the skin effect of the wire's own current, and the
 * neighbouring turns' field by Medhurst's ratio, which counts less where the skin is not thin:
 * R₀ (F(x) + (φ − 1) T(x)). At high frequency this is φ times the straight wire, at low
 * frequency the wire alone.
 *
 * @param frequency hertz, 0 or more
 *
 * Undefined when the coil could not exist. About 5 % for the wire of a coil of many turns; losses
 * in the form, covering, moisture and shields come on top, so a real coil has more: take it as
 * the least. Self-capacitance raises the apparent resistance further near self-resonance.
 * Source: R. G. Medhurst, Wireless Engineer 24 (1947) 35 (from memory); skin effect after Lord
 * Kelvin; low-frequency part after S. Butterworth (1925).
 */
export function coilResistance(coil: SingleLayerCoil, frequency: number): number | undefined {
  const { turns, radius, pitch, wireDiameter } = coil;
  const length = windingWireLength(turns, radius, pitch);
  const perMetre = wireResistancePerMetre(wireDiameter);
  if (length === undefined || perMetre === undefined || !(frequency >= 0)) {
    return undefined;
  }
  if (frequency === 0) {
    return finiteOrUndefined(perMetre * length);
  }
  const proximity = proximityRatio((turns * pitch) / (2 * radius), wireDiameter / pitch);
  return proximity === undefined
    ? undefined
    : woundResistance(perMetre * length, wireDiameter, proximity, frequency);
}

/**
 * Resistance in ohms at a frequency of wire that is wound in any way: R₀ (F(x) + (φ − 1) T(x)), F
 * the skin effect of the wire's own current and T that of a field across it.
 *
 * @param direct ohms at direct current, above 0 @param wireDiameter bare, metres, above 0
 * @param proximity the ratio φ of wound to straight wire where the skin is thin, 1 or more
 * @param frequency hertz, 0 or more
 *
 * Undefined outside that. As good as φ is.
 * Source: S. Butterworth, Proc. Royal Society A107 (1925) 693; Lord Kelvin.
 */
export function woundResistance(
  direct: number,
  wireDiameter: number,
  proximity: number,
  frequency: number,
): number | undefined {
  if (!arePositive(direct) || !(proximity >= 1) || !(frequency >= 0)) {
    return undefined;
  }
  if (frequency === 0) {
    return finiteOrUndefined(direct);
  }
  const x = skinArgument(wireDiameter, frequency);
  const own = x === undefined ? undefined : skinResistanceRatio(x);
  const neighbours = x === undefined ? undefined : transverseLossRatio(x);
  return own === undefined || neighbours === undefined
    ? undefined
    : finiteOrUndefined(direct * (own + (proximity - 1) * neighbours));
}

/**
 * Q of a reactance with series resistance: ωL/R, no unit.
 *
 * @param inductance henries @param resistance ohms @param frequency hertz, all above 0
 *
 * Undefined outside that. Exact.
 */
export function qualityFactor(
  inductance: number,
  resistance: number,
  frequency: number,
): number | undefined {
  return arePositive(inductance, resistance, frequency)
    ? finiteOrUndefined((2 * Math.PI * frequency * inductance) / resistance)
    : undefined;
}

/**
 * Q of a single-layer coil of solid wire at a frequency in hertz, above 0: the most it can have,
 * from the resistance of its wire alone. Undefined as the resistance and inductance are.
 */
export function coilQ(coil: SingleLayerCoil, frequency: number): number | undefined {
  const inductance = singleLayerInductance(coil);
  const resistance = coilResistance(coil, frequency);
  return inductance === undefined || resistance === undefined
    ? undefined
    : qualityFactor(inductance, resistance, frequency);
}
