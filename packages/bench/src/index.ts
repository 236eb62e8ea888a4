export type { Expected } from './chart/expected.ts';
export { type BenchChart, type ChartOptions, type Reading, readingsOf } from './chart/readings.ts';
export { calledSo } from './chart/spot.ts';
export { type Edit, editsOf, lineOf } from './edits/edit.ts';
export { edited } from './edits/edited.ts';
export type { FaultEffect, FaultTable } from './effects/effect.ts';
export { faultTable } from './effects/fault-table.ts';
export type { Fault, Symptom } from './faults/fault.ts';
export { faultsOf } from './faults/faults-of.ts';
