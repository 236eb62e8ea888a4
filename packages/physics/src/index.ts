export type { ApproximateInductance } from './approximation.ts';
export { coaxialCircles, singleTurnInductance } from './coaxial.ts';
export { coilQ, coilResistance, qualityFactor, woundResistance } from './coil-resistance.ts';
export {
  coupledPeaks,
  coupledResponse,
  criticalCoupling,
  splitFrequencies,
} from './coupled-circuits.ts';
export {
  couplingCoefficient,
  seriesInductance,
  turnedMutualInductance,
  turnOfSetting,
} from './coupling.ts';
export {
  exponentialDetectionShift,
  gridDetectionAudio,
  gridDetectionShift,
  gridLeakCorner,
  plateDetectionRise,
} from './detection.ts';
export {
  capacitanceAtDial,
  dialAtCapacitance,
  dialFraction,
  dialReading,
  type PlateLaw,
  type VariableCondenser,
} from './dial.ts';
export { completeEllipticFirst, completeEllipticSecond } from './elliptic.ts';
export {
  type CathodeKind,
  emissionInto,
  emissionRatio,
  emissionState,
  type LimitedCurrent,
  limitedByEmission,
  limitedInto,
  typicalSaturation,
} from './emission.ts';
export {
  fitScreenGrid,
  type ScreenGridFit,
  type ScreenGridPoint,
  type ScreenGridResidual,
} from './fit-screen-grid.ts';
export { fitTriode, type TriodeFit, type TriodePoint, type TriodeResidual } from './fit-triode.ts';
export { flatCoilInductance } from './flat-coil.ts';
export {
  millerCapacitance,
  millerConductance,
  neutralizingCapacitance,
  stageGain,
} from './gain.ts';
export {
  type Grid,
  type GridRest,
  type GridState,
  gridInto,
  gridLeakRest,
  gridState,
  thermalVoltage,
} from './grid-current.ts';
export { meterReading, meterResistance, unloadedVoltage } from './meter.ts';
export { multilayerInductance } from './multilayer.ts';
export { mutualInductance } from './mutual.ts';
export { nagaokaCoefficient } from './nagaoka.ts';
export { feedbackFigure, oscillationLimit, steadyConductance } from './oscillation.ts';
export { proximityRatio } from './proximity.ts';
export {
  capacitiveReactance,
  halfPowerBandwidth,
  inductiveReactance,
  parallelResonantImpedance,
  resonanceProduct,
  resonanceResponse,
  resonantFrequency,
  universalResonanceCurve,
  wavelength,
} from './resonance.ts';
export {
  type ElectrodeCurrent,
  type ScreenGridState,
  type ScreenGridTube,
  type ScreenGridVoltages,
  screenGridState,
} from './screen-grid.ts';
export { type Section, sectionMutualInductance, stretchInductance } from './section.ts';
export { coilSelfCapacitance } from './self-capacitance.ts';
export {
  skinArgument,
  skinDepth,
  skinInductanceRatio,
  skinResistanceRatio,
  transverseLossRatio,
} from './skin.ts';
export {
  currentSheetInductance,
  lundinInductance,
  rosaNumberCorrection,
  rosaShapeCorrection,
  type SingleLayerCoil,
  singleLayerInductance,
  wheeler1928Inductance,
} from './solenoid.ts';
export { thickCoilInductance } from './thick-coil.ts';
export {
  plateResistance,
  type Triode,
  type TriodeState,
  type TriodeVoltages,
  triodeInto,
  triodeState,
} from './triode.ts';
export {
  bestMutualInductance,
  bestTunedTransformerGain,
  loadedSecondaryQ,
  type TunedTransformer,
  tunedTransformerGain,
} from './tuned-transformer.ts';
export { fieldProximityRatio, turnField } from './turn-fields.ts';
export {
  mutualOfTurns,
  selfOfTurns,
  type Turn,
  turnByTurnInductance,
  turnsOf,
} from './turn-sum.ts';
export { sectionOf, type Winding } from './winding.ts';
export { coveredDiameter, tabledTurnsPerInch, type WireCovering } from './wire-covering.ts';
export { type GaugeSystem, wireDiameter } from './wire-gauge.ts';
export { windingWireLength, wireResistancePerMetre } from './wire-resistance.ts';
