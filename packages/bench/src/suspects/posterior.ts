import type { Spot } from '../chart/spot.ts';
import type { CaseBook, Cause, CauseState, Sounding } from './causes.ts';
import { type Evidence, wasOn } from './evidence.ts';
import { CLICK_TOLD, DEAD_DIAL_TOLD, hearingLog, NUMBER_OF_DEAD } from './hearing.ts';
import { type Counted, type JointFit, jointFit, OHMS_FIELD } from './joint-fit.ts';

/** A cause against what a bench says. */
export interface Weighed {
  readonly cause: Cause;
  /** The logarithm of how probable the evidence is with it; the readings alone. */
  readonly log: number;
  readonly readingsLog: number;
  /** All weighed together make one. */
  readonly probability: number;
  /** By how far the fault has gone, with the share that each has by now. */
  readonly states: readonly WeighedState[];
}

export interface WeighedState {
  readonly state: CauseState;
  readonly fit: JointFit;
  readonly share: number;
}

/** The readings of a bench as they count, each with the field that a slip may fall in. */
export function countedOf(book: CaseBook, evidence: Evidence): readonly Counted[] {
  return evidence.readings.map(({ spot, value }) => ({
    value,
    field: fieldOf(book, spot, value),
  }));
}

/** How wide the field is that a slip at a spot may fall in: twice what any cause leads to. */
export function fieldOf({ causes, most }: CaseBook, spot: Spot, value = 0): number {
  if (spot.quantity === 'resistance') return OHMS_FIELD;
  let known = most.get(spot.id);
  if (known === undefined) {
    known = 1e-6;
    for (const { states } of causes) {
      const mean = states[0]?.set.foresee(spot)?.mean;
      if (mean !== undefined && Number.isFinite(mean)) known = Math.max(known, Math.abs(mean));
    }
    most.set(spot.id, known);
  }
  return 2 * Math.max(known, Number.isFinite(value) ? Math.abs(value) : 0);
}

/** One cause against the evidence, not yet against the others. */
export function weighedAlone(
  cause: Cause,
  evidence: Evidence,
  counted: readonly Counted[],
): Omit<Weighed, 'probability'> {
  const fits = cause.states.map((state) => ({
    state,
    fit: jointFit(
      counted,
      evidence.readings.map(({ spot }) => state.set.foresee(spot)),
    ),
  }));
  const logs = fits.map(({ state, fit }) => Math.log(state.share) + fit.log);
  const readingsLog = logSum(logs);
  return {
    cause,
    readingsLog,
    log: readingsLog + earLog(cause.sounding, evidence),
    states: fits.map(({ state, fit }, at) => ({
      state,
      fit,
      share: Math.exp((logs[at] as number) - readingsLog),
    })),
  };
}

/** Causes by how probable they are, the most probable first. */
export function ranked(weighed: readonly Omit<Weighed, 'probability'>[]): readonly Weighed[] {
  const logs = weighed.map(({ cause, log }) => Math.log(Math.max(cause.prior, 1e-300)) + log);
  const whole = logSum(logs);
  return weighed
    .map((each, at) => ({ ...each, probability: Math.exp((logs[at] as number) - whole) }))
    .sort((a, b) => b.probability - a.probability);
}

/** What the ear tells. */
export function earLog(sounding: Sounding, evidence: Evidence): number {
  const { heard, clicks, dials } = evidence;
  let log = hearingLog(sounding.heard, sounding.isHeardKnown, heard, wasOn(evidence));
  for (const [tube, isHeard] of clicks) {
    const share = clickShare(sounding, tube);
    log += Math.log(isHeard ? share : 1 - share);
  }
  for (const [dial, works] of dials) {
    const dead = deadShare(sounding, dial);
    log += Math.log(works ? 1 - dead + dead * NUMBER_OF_DEAD : dead);
  }
  return log;
}

/** The share in which a tap on a tube's grid is told as heard. */
export function clickShare({ clicks }: Sounding, tube: string): number {
  const does = clicks.get(tube);
  return does === undefined ? 0.5 : does ? CLICK_TOLD.heard : CLICK_TOLD.silent;
}

/** The share in which a dial is told to do nothing; in a silent set none does anything. */
export function deadShare({ deadDials, heard }: Sounding, dial: string): number {
  const isDead = deadDials.has(dial) || heard.has('silent');
  return isDead ? DEAD_DIAL_TOLD.dead : DEAD_DIAL_TOLD.alive;
}

function logSum(logs: readonly number[]): number {
  const most = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  if (!Number.isFinite(most)) return most;
  return most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
}
