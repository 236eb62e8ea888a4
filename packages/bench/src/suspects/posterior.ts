import type { Spot } from '../chart/spot.ts';
import type { Click } from '../effects/effect.ts';
import type { CaseBook, Cause, CauseState, Sounding } from './causes.ts';
import { type Evidence, wasOn } from './evidence.ts';
import { clickTold, type DialTold, dialTold, hearingLog } from './hearing.ts';
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
  for (const [tube, told] of clicks) log += Math.log(clickShare(sounding, tube, told));
  for (const [dial, told] of dials) log += Math.log(dialShare(sounding, dial, told));
  return log;
}

/** The share in which a tap on a tube's grid is told so. */
export function clickShare({ clicks }: Sounding, tube: string, told: Click): number {
  const louder = clicks.get(tube);
  return louder === undefined ? 1 / 3 : clickTold(louder)[told];
}

/** The share in which a dial is told so; in a silent set none does anything. */
export function dialShare(
  { deadDials, dialsLeft, heard }: Sounding,
  dial: string,
  told: DialTold,
): number {
  const isDead = deadDials.has(dial) || heard.has('silent');
  return dialTold(dialsLeft.get(dial) ?? 1, isDead)[told];
}

function logSum(logs: readonly number[]): number {
  const most = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  if (!Number.isFinite(most)) return most;
  return most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
}
