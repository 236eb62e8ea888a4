export type { Dimension } from './dimension.ts';
export { formatQuantity } from './format-quantity.ts';
export { nearest } from './nearest.ts';
export { parseNumber } from './parse-number.ts';
export { type QuantityReading, readQuantity, type UnitFault } from './read-quantity.ts';
export { readUnit, type UnitReading } from './read-unit.ts';
export type { UnitFix } from './unit-fixes.ts';
export { SPEED_OF_LIGHT } from './unit-table.ts';
export { type Covering, type Gauge, readCovering, readGauge } from './wire-words.ts';
