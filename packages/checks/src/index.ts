export { allChecks } from './all.ts';
export type { Check, CheckGroup } from './check.ts';
export { pageOf } from './explain.ts';
export { quickChecks } from './quick.ts';
export { type Checked, type CheckStep, checkCircuit, checkedAndLeft, checkSteps } from './run.ts';
