import type { ControlGroup } from './filament-controls.ts';
import type { Element } from './network.ts';

/** Where a group of controls came to stand. */
export interface Settled {
  readonly group: ControlGroup;
  /** The part of its wire that is in use, 0 to 1; for a ballast its ohms. */
  readonly stand: number;
  /**
   * What it is set for over what that gets, 1 when it is right; undefined when no current flows
   * that it could set.
   */
  readonly ratio: number | undefined;
  readonly outcome: 'rated' | 'below' | 'above' | 'full-on' | 'no-current' | 'unsettled';
}

/** A control at its stop still has this much, in ohms. */
const LEAST_CONTROL_OHMS = 1e-6;
/** A ballast is looked for within this much. */
const MOST_BALLAST_OHMS = 1e4;
/** Where the search for a ballast's resistance begins, in ohms. */
const FIRST_BALLAST_OHMS = 4;
/** How near to the rating is right. */
const NEAR_ENOUGH = 1e-7;
const MOST_ROUNDS = 60;
/** After so many rounds controls that disturb each other take half steps. */
const PATIENT_ROUNDS = 12;
/** Nearer to a stop than this a control is at it. */
const AT_STOP = 1e-6;

interface State {
  readonly group: ControlGroup;
  /** Ohms at a stand of 1, of all members side by side. */
  readonly whole: number;
  readonly most: number;
  stand: number;
  ratio: number | undefined;
  before: { readonly stand: number; readonly inverse: number } | undefined;
  done: boolean;
}

/**
 * Sets every rheostat so that the first of its tubes to reach its rated volts has just reached
 * them, and every ballast to the current it is made for; all at once, since they share their
 * batteries. With the rest of the set unchanged the inverse of a filament's volts is linear in
 * the resistance before it, so the secant method on the inverse finds it in a round or two, and
 * what the controls do to each other through the battery is settled in a few more.
 *
 * @param solve volts across every element, with the ohms given for it.
 * @returns the ohms of every element with the controls settled, and how each group came to stand.
 */
export function settleControls(
  elements: readonly Element[],
  groups: readonly ControlGroup[],
  solve: (ohms: Float64Array) => (element: number) => number,
): {
  readonly ohms: Float64Array;
  readonly settled: readonly Settled[];
  /** Volts across every element as settled: `from` above `to`. */
  readonly across: (element: number) => number;
} {
  const ohms = Float64Array.from(elements, (element) => element.ohms);
  const states = groups.map((group) => begin(elements, group));
  for (const state of states) apply(elements, state, ohms);
  let across = solve(ohms);
  for (let round = 0; round < MOST_ROUNDS && states.some(({ done }) => !done); round++) {
    let moved = false;
    const pace = round < PATIENT_ROUNDS ? 1 : 0.5;
    for (const state of states) moved = step(elements, state, ohms, across, pace) || moved;
    if (!moved) break;
    for (const state of states) apply(elements, state, ohms);
    across = solve(ohms);
  }
  for (const state of states) state.ratio = ratioOf(elements, state, ohms, across);
  return { ohms, across, settled: states.map(outcomeOf) };
}

function begin(elements: readonly Element[], group: ControlGroup): State {
  const isBallast = group.kind === 'ballast';
  let siemens = 0;
  for (const member of group.members)
    siemens += 1 / Math.max(elements[member]?.ohms ?? 0, LEAST_CONTROL_OHMS);
  const fullOn = !isBallast && group.filaments.length === 0;
  return {
    group,
    whole: isBallast ? 1 : 1 / siemens,
    most: isBallast ? MOST_BALLAST_OHMS : 1,
    stand: fullOn ? 0 : isBallast ? FIRST_BALLAST_OHMS : 0.5,
    ratio: undefined,
    before: undefined,
    done: fullOn,
  };
}

function apply(elements: readonly Element[], { group, stand }: State, ohms: Float64Array): void {
  for (const member of group.members) {
    const whole = group.kind === 'ballast' ? 1 : (elements[member]?.ohms ?? 0);
    ohms[member] = Math.max(LEAST_CONTROL_OHMS, stand * whole);
  }
}

/** What the group's tubes get over what they are rated for; undefined with no current. */
function ratioOf(
  elements: readonly Element[],
  { group }: State,
  ohms: Float64Array,
  across: (element: number) => number,
): number | undefined {
  let ratio = 0;
  if (group.kind === 'ballast') {
    const member = group.members[0] as number;
    const rated = elements[member]?.part.values.ratedCurrent?.value ?? 0;
    ratio = rated > 0 ? Math.abs(across(member)) / (ohms[member] as number) / rated : 0;
  }
  for (const filament of group.filaments) {
    const rated = elements[filament]?.part.tubeType?.filamentVolts;
    if (rated) ratio = Math.max(ratio, Math.abs(across(filament)) / rated);
  }
  return Number.isFinite(ratio) && ratio > 1e-9 ? ratio : undefined;
}

/** Moves one group's controls a step nearer; false when it stays where it is. */
function step(
  elements: readonly Element[],
  state: State,
  ohms: Float64Array,
  across: (element: number) => number,
  pace: number,
): boolean {
  if (state.group.kind === 'rheostat' && state.group.filaments.length === 0) return false;
  const ratio = ratioOf(elements, state, ohms, across);
  state.ratio = ratio;
  if (ratio === undefined) {
    state.done = true;
    return false;
  }
  const atStop = (state.stand === 0 && ratio <= 1) || (state.stand === state.most && ratio >= 1);
  state.done = atStop || Math.abs(ratio - 1) < NEAR_ENOUGH;
  if (state.done) return false;
  const inverse = 1 / ratio;
  const { before, stand } = state;
  const slope = before && (inverse - before.inverse) / (stand - before.stand);
  const wanted =
    slope !== undefined && Number.isFinite(slope) && slope > 0
      ? stand + (1 - inverse) / slope
      : firstGuess(elements, state, ohms, across, ratio);
  state.before = { stand, inverse };
  const next = stand + pace * ((Number.isFinite(wanted) ? wanted : 0) - stand);
  state.stand = next < AT_STOP ? 0 : Math.min(state.most, next);
  return state.stand !== stand;
}

/** The stand that would be right were there nothing in the circuit but control and filaments. */
function firstGuess(
  elements: readonly Element[],
  state: State,
  ohms: Float64Array,
  across: (element: number) => number,
  ratio: number,
): number {
  const { group, stand, whole } = state;
  if (group.kind === 'ballast') return Math.max(1, stand) * ratio;
  let amperes = 0;
  for (const member of group.members)
    amperes += Math.abs(across(member)) / (ohms[member] as number);
  const drop = Math.abs(across(group.members[0] as number));
  let rated = 0;
  for (const filament of group.filaments)
    rated = Math.max(rated, elements[filament]?.part.tubeType?.filamentVolts ?? 0);
  return (ratio * (drop + rated * (ratio - 1))) / amperes / whole;
}

function outcomeOf({ group, stand, ratio, most }: State): Settled {
  const base = { group, stand, ratio };
  if (group.kind === 'rheostat' && group.filaments.length === 0)
    return { ...base, outcome: 'full-on' };
  if (ratio === undefined) return { ...base, outcome: 'no-current' };
  if (Math.abs(ratio - 1) < NEAR_ENOUGH * 100) return { ...base, outcome: 'rated' };
  if (ratio < 1 && stand === 0) return { ...base, outcome: 'below' };
  if (ratio > 1 && stand === most) return { ...base, outcome: 'above' };
  return { ...base, outcome: 'unsettled' };
}
