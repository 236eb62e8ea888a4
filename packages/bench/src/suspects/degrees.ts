import type { Amount, Edit } from '../edits/edit.ts';
import type { Fault } from '../faults/fault.ts';

/** A fault as far gone as this, and in which share of cases it is. */
export interface Degree {
  readonly edits: readonly Edit[];
  readonly share: number;
}

/** A fault is as the catalogue has it in half of all cases, less or more of it in the others. */
const AS_SAID = 0.5;
const OTHERWISE = 0.25;

/** A leak or a bad joint has a third of its ohms, or three times as many. Common practice. */
const OHMS_TIMES: readonly number[] = [1 / 3, 3];
/** A carbon resistor that has drifted is off by half or twice as much. Common practice. */
const DRIFT_TIMES: readonly number[] = [1 / 2, 2];
/** A tired tube still gives a third of its current, or two thirds. Common practice. */
const EMISSION_TIMES: readonly number[] = [0.6, 1.4];
/** A battery that is down may be down further, or less far. Common practice. */
const VOLT_TIMES: readonly number[] = [0.8, 1.12];

/** Faults of which there is only one degree: what they are changed to is a usual other value. */
const DRIFTS: ReadonlySet<string> = new Set(['grid-leak', 'resistor']);

/** How far a fault may have gone: as the catalogue has it first, then less and more of it. */
export function degreesOf({ edits, kind }: Fault): readonly Degree[] {
  const [edit] = edits;
  const times = edits.length === 1 && edit ? timesOf(edit, kind) : [];
  if (!edit?.amount || times.length === 0) return [{ edits, share: 1 }];
  const { amount } = edit;
  return [
    { edits, share: AS_SAID },
    ...times.map((by) => ({ edits: [{ ...edit, amount: scaled(amount, by) }], share: OTHERWISE })),
  ];
}

function timesOf({ verb, amount }: Edit, kind: string): readonly number[] {
  if (!amount || !(amount.value > 0)) return [];
  if (amount.dimension === 'resistance') {
    if (verb === 'leaky' || verb === 'join') return OHMS_TIMES;
    if (verb === 'change') return DRIFTS.has(kind) ? DRIFT_TIMES : OHMS_TIMES;
    return [];
  }
  if (verb !== 'weak') return [];
  return amount.dimension === 'percent' ? EMISSION_TIMES : VOLT_TIMES;
}

function scaled(amount: Amount, by: number): Amount {
  return { ...amount, value: amount.value * by };
}
