export { type AlignedGang, alignedGang } from './aligned-gang.ts';
export type { Because, Fact, Figure } from './because.ts';
export type { CapacityLaw } from './capacity-law.ts';
export type {
  ChangedRest,
  Parameter,
  Push,
  Reckoning,
  TubeInChange,
} from './changes/changed-rest.ts';
export { type RestModel, type RestModelOptions, restModel } from './changes/rest-model.ts';
export {
  type CoilMatrix,
  coilMatrix,
  type WindingCoupling,
  type WindingsTurned,
} from './coil-matrix.ts';
export { type CondenserValues, condenserValues } from './condenser-values.ts';
export {
  type DialEntry,
  dialTable,
  frequencyAtReading,
  readingAtFrequency,
  type TunedDial,
  tunedDial,
} from './dials.ts';
export * from './direct-current.ts';
export { heardOf } from './listening/heard-of.ts';
export type { Heard, Listening } from './listening/listening.ts';
export { listeningTo } from './listening/listening-to.ts';
export { type Element, networkOf } from './network.ts';
export * from './operating-point.ts';
export type { PartAtWork } from './part-at-work.ts';
export { type LawOfPlates, lawOfPlates } from './plate-law.ts';
export { type RadioGroups, radioGroups } from './radio-groups.ts';
export { type Regeneration, regeneration, regenerationControls } from './regeneration.ts';
export type { ContactFlow } from './rest-flows.ts';
export { type SelfOscillation, selfOscillation } from './self-oscillation.ts';
export { type SignalGain, type SignalGains, signalGains } from './signal-gains.ts';
export { type SingleInductor, singleInductor } from './single-inductors.ts';
export { type AlignedCircuit, type Alignment, alignedAt } from './small-signal/aligned-at.ts';
export type { AudioPoint, AudioResponse } from './small-signal/audio-response.ts';
export type { FedModes } from './small-signal/fed-modes.ts';
export type { GrowingMode, GrowingModes } from './small-signal/growing-modes.ts';
export type { IntermediateResponse } from './small-signal/intermediate-response.ts';
export { type Margin, margin } from './small-signal/margin.ts';
export type { Neutralized } from './small-signal/neutralizing.ts';
export { pathAt, type SignalPath, type SignalStep } from './small-signal/path-at.ts';
export {
  type Response,
  type ResponseOptions,
  response,
  type StageGain,
  type StationResponse,
} from './small-signal/response.ts';
export type { Selectivity, SelectivityPoint } from './small-signal/selectivity.ts';
export type { Tuning } from './small-signal/signal-system.ts';
export {
  type Phasor,
  type SignalAt,
  type SignalSource,
  type SmallSignal,
  type SmallSignalOptions,
  smallSignal,
} from './small-signal/small-signal.ts';
export {
  type Stability,
  type StabilityOptions,
  type StationStability,
  stability,
} from './small-signal/stability.ts';
export { sweep } from './small-signal/sweep.ts';
export type { CoilsKnown } from './small-signal/winding-pieces.ts';
export { type StrayCapacity, strayCapacities } from './stray-capacities.ts';
export type { SupplyAtWork, TapAtWork } from './supply-at-work.ts';
export {
  type GangTracking,
  gangTracking,
  type StationReadings,
  stationReadings,
} from './tracking.ts';
export type { TubeAtWork, TubeConductances } from './tube-at-work.ts';
export { type TubeLaw, type TubeLaws, tubeLawOf } from './tube-law.ts';
export { wearSlots } from './tube-wear.ts';
export { type TunedAt, tunedAt } from './tuned-at.ts';
export { type TunedCircuit, tunedCircuits } from './tuned-circuits.ts';
export type { Reckoned, ValueBecause, ValueFact } from './value-because.ts';
export type { CoilSection } from './winding-sections.ts';
export {
  type WindingLoss,
  type WindingValues,
  windingLoss,
} from './winding-values.ts';
export type { WiresKnown } from './wire-ohms.ts';
