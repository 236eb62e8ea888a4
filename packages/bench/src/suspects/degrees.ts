import type { Spot } from '../chart/spot.ts';
import type { Amount, Edit } from '../edits/edit.ts';
import type { Fault } from '../faults/fault.ts';
import type { Foreseeing, Foreseen } from './foreseen.ts';

/** A fault as far gone as this, and in which share of cases it is. */
export interface Degree {
  readonly edits: readonly Edit[];
  readonly share: number;
  /** The amount of it; undefined where a fault has only one degree. */
  readonly amount: number | undefined;
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
  if (!edit?.amount || times.length === 0) return [{ edits, share: 1, amount: undefined }];
  const { amount } = edit;
  return [
    { edits, share: AS_SAID, amount: amount.value },
    ...times.map((by) => ({
      edits: [{ ...edit, amount: scaled(amount, by) }],
      share: OTHERWISE,
      amount: by * amount.value,
    })),
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

interface DegreeState {
  readonly share: number;
  readonly amount: number | undefined;
  readonly set: Foreseeing;
}

/** What lies evenly within half a step to either side deviates by this part of the step. */
const EVEN = 1 / Math.sqrt(12);

/**
 * A fault may have gone anywhere between its degrees: each of them stands for half the way to the
 * next. All readings of a set go with it together, as with anything else that may deviate.
 */
export function spreadOut(
  states: readonly DegreeState[],
): readonly { readonly share: number; readonly set: Foreseeing }[] {
  const order = [...states].sort((a, b) => (a.amount ?? 0) - (b.amount ?? 0));
  return states.map((state) => {
    const at = order.indexOf(state);
    const below = order[at - 1] ?? state;
    const above = order[at + 1] ?? state;
    if (below === above) return state;
    const steps = above === state || below === state ? 1 : 2;
    const seen = new Map<string, Foreseen | undefined>();
    const foresee = (spot: Spot): Foreseen | undefined => {
      if (seen.has(spot.id)) return seen.get(spot.id);
      const own = state.set.foresee(spot);
      const step = stepBetween(below.set.foresee(spot), above.set.foresee(spot)) / steps;
      const found = own && Number.isFinite(own.mean) ? withSlope(own, EVEN * step) : own;
      seen.set(spot.id, found);
      return found;
    };
    return { share: state.share, set: { standing: state.set.standing, foresee } };
  });
}

function stepBetween(below: Foreseen | undefined, above: Foreseen | undefined): number {
  const step = (above?.mean ?? Number.NaN) - (below?.mean ?? Number.NaN);
  return Number.isFinite(step) ? step : 0;
}

function withSlope(foreseen: Foreseen, slope: number): Foreseen {
  const slopes = new Float64Array(foreseen.slopes.length + 1);
  slopes.set(foreseen.slopes);
  slopes[foreseen.slopes.length] = slope;
  return { ...foreseen, slopes };
}
