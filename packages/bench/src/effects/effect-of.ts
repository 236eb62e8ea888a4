import { type Heard, heardOf, smallSignal, type TubeInChange } from '@setwright/analysis';
import { type Expected, isWithin } from '../chart/expected.ts';
import { edited } from '../edits/edited.ts';
import type { SetStanding } from '../edits/workbench.ts';
import type { Fault, Symptom } from '../faults/fault.ts';
import { bypassNote } from './bypass-note.ts';
import { dangersOf } from './dangers.ts';
import type { FaultEffect } from './effect.ts';
import { effectWords } from './effect-words.ts';
import { faultyReadings } from './faulty-readings.ts';
import { faultyRest, plainPoint, type SoundSet, sameCoils } from './sound-set.ts';
import { clicksOf, deadDialsOf, dialsLeftOf, shareOf, squealsOf, symptomsOf } from './symptoms.ts';

/**
 * What a fault does to a sound set.
 *
 * @param quick whether it may be had by what the fault changes alone; else all is worked out anew
 */
export function effectOfFault(sound: SoundSet, fault: Fault, quick = true): FaultEffect {
  const { chart, listening } = sound;
  const work = () => {
    const faulty = edited(sound.standing, fault.edits);
    return { faulty, rest: faultyRest(sound, faulty, quick).rest };
  };
  const { faulty, rest } = work();
  const readings = faultyReadings(sound, { faulty, rest }, work);
  const seenBy = seenOf(sound, readings);
  const now = listening && hearOf(sound, faulty, rest);
  const sounding = listening?.sound;
  const radio = now && shareOf(now.detectorVolts, sounding?.detectorVolts);
  const audio = now && shareOf(now.audio, sounding?.audio);
  const whole = now && shareOf(now.rectified, sounding?.rectified);
  const detection =
    whole === undefined ? undefined : audio !== undefined && audio > 0 ? whole / audio : 0;
  const tubes: readonly TubeInChange[] = rest?.tubes ?? [];
  const reckoned =
    now && listening
      ? symptomsOf(faulty.circuit, now, listening, tubes, sound.tubes, radio, detection, audio)
      : [];
  const heard = inOrder(withLeakage(reckoned, fault), fault.heard);
  const before = sound.model?.asItIs;
  const dangers = rest && before ? dangersOf(faulty, rest, before) : [];
  const bypass =
    seenBy.length === 0 ? bypassNote(sound.standing.circuit, fault.edits, radio) : undefined;
  const isHeardOut =
    !now || sounding?.detectorVolts === undefined || now.detectorVolts !== undefined;
  const isLoud = now !== undefined && Object.values(now.growth).some((each) => (each ?? -1) > 0);
  const unheard = isHeardOut || isLoud ? undefined : 'What is heard could not be worked out.';
  const notes = [bypass, fault.note, unheard].filter((note) => note !== undefined);
  return {
    fault,
    readings,
    seenBy,
    radio,
    detection,
    audio,
    squeals: now && listening ? squealsOf(now, listening) : 'unknown',
    clicks: now && listening ? clicksOf(now, listening, detection, audio) : new Map(),
    deadDials: now && listening ? deadDialsOf(faulty.circuit, now, listening) : [],
    dialsLeft: now && listening ? dialsLeftOf(faulty.circuit, now, listening) : new Map(),
    heard,
    dangers,
    notes,
    words: effectWords({ fault, readings, seenBy, heard, dangers, notes }, chart),
    refused: faulty.refused,
  };
}

/** What is heard of a faulty set. */
function hearOf(
  sound: SoundSet,
  faulty: SetStanding,
  rest: ReturnType<typeof faultyRest>['rest'],
): Heard | undefined {
  const { listening, standing } = sound;
  if (!listening) return undefined;
  const { circuit: before, settings, held } = standing;
  // What only crackles, or comes and goes, is heard as the sound set meanwhile.
  const isUntouched =
    faulty.circuit === before && faulty.settings === settings && faulty.held === held;
  if (isUntouched) return listening.sound;
  const point = rest?.signalPoint ?? plainPoint(faulty, sound);
  if (!point.converged) return undefined;
  const { circuit } = faulty;
  const coils = sameCoils(sound, faulty);
  const like = listening.system;
  const { turned } = listening;
  const isTurned = turned.size > 0;
  const known = rest && { conduction: rest.base.conduction };
  const made = { ...known, like, ...(isTurned ? { turned } : { coils }) };
  const set = smallSignal(circuit, point, made);
  return heardOf(set, listening, (other) => smallSignal(circuit, point, { turned: other }));
}

/** The readings that leave the sound set's band, those first that leave it by most of its widths. */
function seenOf(
  { chart }: SoundSet,
  readings: readonly (Expected | undefined)[],
): readonly number[] {
  const out: { index: number; by: number }[] = [];
  for (const [index, now] of readings.entries()) {
    const expected = chart.readings[index]?.expected;
    if (!expected || !now || isWithin(now.value, expected)) continue;
    const { low, high, value } = expected;
    const width = now.value > value ? high - value : value - low;
    const by =
      Number.isFinite(now.value) && Number.isFinite(value)
        ? Math.abs(now.value - value) / Math.max(width, 1e-12)
        : Number.POSITIVE_INFINITY;
    out.push({ index, by });
  }
  return out.sort((a, b) => rank(b.by) - rank(a.by) || a.index - b.index).map(({ index }) => index);
}

/** Of two endless ones the first in the chart comes first. */
function rank(by: number): number {
  return Math.min(by, 1e9);
}

const order: readonly Symptom[] = [
  'silent',
  'faint',
  'weak',
  'squeals all over',
  'squeals at short waves',
  'putters',
  'hums',
  'distorts all',
  'distorts loud',
  'chokes on strong',
  'no regeneration',
  'one dial dead',
  'broad',
  'crackles',
  'microphonic',
  'comes and goes',
];

/** Where the catalogue knows what still comes through a set is not as silent as reckoned. */
function withLeakage(reckoned: readonly Symptom[], { heard }: Fault): readonly Symptom[] {
  const less = heard.includes('weak')
    ? ['silent', 'faint']
    : heard.includes('faint')
      ? ['silent']
      : [];
  return reckoned.filter((symptom) => !less.includes(symptom));
}

/** Each once, the gravest first; a silent set tells of nothing else but what it does by itself. */
function inOrder(reckoned: readonly Symptom[], known: readonly Symptom[]): readonly Symptom[] {
  const all = new Set([...reckoned, ...known]);
  if (all.has('silent')) for (const each of ['faint', 'weak', 'broad'] as const) all.delete(each);
  if (all.has('faint')) all.delete('weak');
  if (all.has('distorts all')) all.delete('distorts loud');
  return order.filter((symptom) => all.has(symptom));
}
