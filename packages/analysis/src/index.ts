export { type AlignedGang, alignedGang } from './aligned-gang.ts';
export { type Capacity, capacitiesOf } from './capacities.ts';
export { acrossAt, type CapacityLaw, condenserAt } from './capacity-law.ts';
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
  frequencyAtTurn,
  readingAtFrequency,
  type TunedDial,
  tunedDial,
  turnAtFrequency,
} from './dials.ts';
export * from './direct-current.ts';
export * from './operating-point.ts';
export { type LawOfPlates, lawOfPlates } from './plate-law.ts';
export { type RadioGroups, radioGroups } from './radio-groups.ts';
export { type SingleInductor, singleInductor } from './single-inductors.ts';
export { type StrayCapacity, strayCapacities } from './stray-capacities.ts';
export {
  type GangTracking,
  gangTracking,
  type StationReadings,
  stationReadings,
} from './tracking.ts';
export { type TunedAt, tunedAt } from './tuned-at.ts';
export { type TunedCircuit, tunedCircuits } from './tuned-circuits.ts';
export type { Reckoned, ValueBecause, ValueFact } from './value-because.ts';
export type { CoilSection } from './winding-sections.ts';
export {
  type WindingLoss,
  type WindingValues,
  windingLoss,
  windingValues,
} from './winding-values.ts';
