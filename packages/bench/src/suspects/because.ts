import type { Circuit } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import { calledSo, type Spot } from '../chart/spot.ts';
import { clickWords } from '../effects/symptoms.ts';
import type { Symptom } from '../faults/fault.ts';
import type { CaseBook } from './causes.ts';
import type { Evidence } from './evidence.ts';
import { type Foreseen, ohmsCounted } from './foreseen.ts';
import { othersTold } from './hearing.ts';
import { varianceOf } from './joint-fit.ts';
import { clickShare, dialShare, type Weighed } from './posterior.ts';

/** What speaks for a cause, and what against it. */
export interface Grounds {
  readonly speaksFor: readonly string[];
  readonly against: readonly string[];
}

/** A reading agrees within so many standard deviations, and speaks against from so many on. */
const AGREES = 2;
const DISAGREES = 2.6;
/** What is told speaks for a cause that does it in this share or more, against one below that. */
const TOLD_FOR = 0.5;
const TOLD_AGAINST = 0.06;

/** The readings, sounds, clicks and dials that speak for and against a cause. */
export function groundsFor(book: CaseBook, evidence: Evidence, weighed: Weighed): Grounds {
  const { circuit, causes } = book;
  const sound = causes[0]?.states[0]?.set;
  const { cause } = weighed;
  const state = mostProbable(weighed);
  const speaksFor: string[] = [];
  const against: string[] = [];
  for (const { spot, value } of evidence.readings) {
    const here = state?.state.set.foresee(spot);
    const whole = sound?.foresee(spot);
    const agrees = offBy(value, here) <= AGREES;
    const isOut = offBy(value, whole) > AGREES;
    const read = `${spotName(circuit, spot)} ${amountWords(value, spot)}`;
    if (cause.faults.length > 0 && agrees && isOut)
      speaksFor.push(`${read}${insteadOf(here, whole, spot)}`);
    else if (offBy(value, here) > DISAGREES)
      against.push(`${read}${here ? `, where ${amountWords(here.mean, spot)} would be read` : ''}`);
  }
  hear(weighed, evidence, speaksFor, against);
  return { speaksFor, against };
}

/** The degree of a fault that agrees best. */
export function mostProbable({ states }: Weighed): Weighed['states'][number] | undefined {
  return states.reduce<Weighed['states'][number] | undefined>(
    (best, each) => (best && best.share >= each.share ? best : each),
    undefined,
  );
}

function insteadOf(here: Foreseen | undefined, whole: Foreseen | undefined, spot: Spot): string {
  return whole && here ? ` in place of ${amountWords(whole.mean, spot)}` : '';
}

/** How many standard deviations a reading is off; endless between open and not open. */
function offBy(value: number, foreseen: Foreseen | undefined): number {
  if (!foreseen) return 0;
  if (value === foreseen.mean) return 0;
  if (!Number.isFinite(value) || !Number.isFinite(foreseen.mean)) return Number.POSITIVE_INFINITY;
  return Math.abs(value - foreseen.mean) / Math.sqrt(varianceOf(foreseen.slopes, foreseen.own));
}

const loudness: readonly Symptom[] = ['silent', 'faint', 'weak'];

function hear(
  { cause }: Weighed,
  { heard, clicks, dials }: Evidence,
  speaksFor: string[],
  against: string[],
): void {
  const { sounding } = cause;
  const shares = new Map(
    othersTold(sounding.heard).map(({ symptom, share }) => [symptom, share] as const),
  );
  for (const symptom of heard) {
    if (sounding.heard.has(symptom)) speaksFor.push(`heard: ${symptom}`);
    else if (!sounding.isHeardKnown) continue;
    else if (loudness.includes(symptom)) {
      const does = loudness.find((each) => sounding.heard.has(each));
      against.push(`heard: ${symptom}, where it should be ${does ?? 'as loud as ever'}`);
    } else if ((shares.get(symptom) ?? 0) < TOLD_AGAINST)
      against.push(`heard: ${symptom}, which it does not do`);
  }
  for (const [tube, told] of clicks) {
    const words = `${clickWords[told]} at ${tube}`;
    const share = clickShare(sounding, tube, told);
    if (share >= TOLD_FOR && told !== 'heard') speaksFor.push(words);
    else if (share <= 2 * TOLD_AGAINST) against.push(words);
  }
  for (const [dial, told] of dials) {
    if (told === 'stands') continue;
    const words = told === 'broad' ? `${dial} broad` : `${dial} without effect`;
    const share = dialShare(sounding, dial, told);
    if (share >= TOLD_FOR) speaksFor.push(words);
    else if (share <= 2 * TOLD_AGAINST) against.push(words);
  }
}

/** Where a reading is taken, as short as the text has it. */
export function spotName(
  circuit: Circuit,
  { at, to, across, quantity, lifted, state }: Spot,
): string {
  if (across !== undefined) {
    const isTube = circuit.partNamed.get(across)?.kind === 'tube';
    const name = isTube ? `the filament of ${across}` : across;
    return state === 'cold' && lifted && !isTube ? `${name} lifted` : `${name}`;
  }
  const probe = calledSo(circuit, at);
  if (quantity === 'current') return `the ${probe} lead`;
  const isOwn =
    state === 'on' && to !== undefined && circuit.partOfEnd.get(at) === circuit.partOfEnd.get(to);
  return to === undefined || isOwn ? probe : `${probe} to ${calledSo(circuit, to)}`;
}

/** Less than this no meter shows, in volts, amperes and ohms. */
const NOTHING = { voltage: 5e-3, current: 2e-6, resistance: 0.05 } as const;

/** What was counted, as a meter shows it. */
export function amountWords(counted: number, { quantity }: Spot): string {
  const value = quantity === 'resistance' ? ohmsCounted(counted) : counted;
  if (value === Number.POSITIVE_INFINITY) return 'open';
  return formatQuantity(Math.abs(value) < NOTHING[quantity] ? 0 : value, quantity);
}
