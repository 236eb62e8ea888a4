import type { Click } from '../effects/effect.ts';
import { BROAD, FAINT, WEAK } from '../effects/symptoms.ts';
import type { Symptom } from '../faults/fault.ts';

/*
 * How what a set does is told by whoever listens to it. All shares are common practice, from
 * memory, and no statistics: one man's weak is another man's faint, and not everything is noticed.
 */

const levels = ['sound', 'weak', 'faint', 'silent'] as const;

/** By what the loudness is, the shares in which it is told as sound, weak, faint, silent. */
const toldAs: readonly (readonly number[])[] = [
  [0.9, 0.08, 0.015, 0.005],
  [0.1, 0.77, 0.11, 0.02],
  [0.01, 0.12, 0.75, 0.12],
  [0.005, 0.015, 0.1, 0.88],
];

/** Of all else: the share in which it is noticed. What has to be looked for is noticed less. */
const NOTICED = 0.8;
const LOOKED_FOR = 0.55;
const lookedFor: ReadonlySet<Symptom> = new Set([
  'broad',
  'one dial dead',
  'no regeneration',
  'microphonic',
  'comes and goes',
]);
/** The share in which something is told that no fault makes, and that of a silent set. */
const IMAGINED = 0.004;
const IMAGINED_SILENT = 0.002;
/** Of what a silent set cannot show only so much is told. */
const SILENCED = 0.1;
const heardInSilence: ReadonlySet<Symptom> = new Set([
  'squeals all over',
  'putters',
  'hums',
  'crackles',
  'comes and goes',
]);

/** What one is taken for the other of, in this share. */
const confused: readonly (readonly [Symptom, Symptom, number])[] = [
  ['squeals at short waves', 'squeals all over', 0.2],
  ['distorts loud', 'distorts all', 0.2],
  ['distorts all', 'chokes on strong', 0.12],
  ['distorts loud', 'chokes on strong', 0.12],
  ['putters', 'chokes on strong', 0.15],
  ['putters', 'hums', 0.05],
  ['crackles', 'comes and goes', 0.2],
  ['broad', 'one dial dead', 0.1],
  ['microphonic', 'squeals all over', 0.1],
];

/** What may be heard besides how loud it is. */
const others: readonly Symptom[] = [
  'broad',
  'squeals at short waves',
  'squeals all over',
  'putters',
  'hums',
  'distorts loud',
  'distorts all',
  'crackles',
  'chokes on strong',
  'one dial dead',
  'no regeneration',
  'microphonic',
  'comes and goes',
];

/** How loud a set is, of sound, weak, faint and silent the number. */
function levelOf(heard: ReadonlySet<Symptom>): number {
  if (heard.has('silent')) return 3;
  if (heard.has('faint')) return 2;
  return heard.has('weak') ? 1 : 0;
}

/** The shares in which the loudness of a set that does this is told as each of the levels. */
export function loudnessTold(does: ReadonlySet<Symptom>): readonly {
  readonly symptom: Symptom | undefined;
  readonly share: number;
}[] {
  const row = toldAs[levelOf(does)] ?? [];
  return levels.map((level, at) => ({
    symptom: level === 'sound' ? undefined : level,
    share: row[at] ?? 0,
  }));
}

/** The shares in which everything else is told of a set that does this. */
export function othersTold(does: ReadonlySet<Symptom>): readonly {
  readonly symptom: Symptom;
  readonly share: number;
}[] {
  const isSilent = does.has('silent');
  return others.map((symptom) => {
    let missed = 1 - (isSilent ? IMAGINED_SILENT : IMAGINED);
    if (does.has(symptom)) missed *= 1 - (lookedFor.has(symptom) ? LOOKED_FOR : NOTICED);
    for (const [one, other, share] of confused) {
      const twin = one === symptom ? other : other === symptom ? one : undefined;
      if (twin !== undefined && does.has(twin) && !does.has(symptom)) missed *= 1 - share;
    }
    const share = 1 - missed;
    return { symptom, share: isSilent && !heardInSilence.has(symptom) ? share * SILENCED : share };
  });
}

/** Where it is not known what a set does, this is the share in which it is told to do something. */
const MAY_BE = 0.3;
/** Of sets that do something amiss this share has nothing of it written down. */
const UNSAID = 0.15;

/**
 * The logarithm of how probable it is that a set that does this is told so. Where nothing is told
 * of a set that was on, it is rather one of which nothing is to be told.
 */
export function hearingLog(
  does: ReadonlySet<Symptom>,
  isAll: boolean,
  told: ReadonlySet<Symptom>,
  wasOn: boolean,
): number {
  if (told.size === 0) return wasOn && isAll && does.size > 0 ? Math.log(UNSAID) : 0;
  if (!isAll) {
    let log = 0;
    for (const symptom of told) log += Math.log(does.has(symptom) ? NOTICED : MAY_BE);
    return log;
  }
  const level = levels[levelOf(told)];
  const named = level === 'sound' ? undefined : level;
  let log = 0;
  for (const { symptom, share } of loudnessTold(does))
    if (symptom === named) log += Math.log(share);
  for (const { symptom, share } of othersTold(does))
    log += Math.log(told.has(symptom) ? share : 1 - share);
  return log;
}

/** How a tap on a grid is told, by how it is heard. */
const CLICK_TOLD: Readonly<Record<Click, Readonly<Record<Click, number>>>> = {
  heard: { heard: 0.92, faint: 0.05, silent: 0.03 },
  faint: { heard: 0.07, faint: 0.85, silent: 0.08 },
  silent: { heard: 0.02, faint: 0.03, silent: 0.95 },
};
/** About so many decibels from the border between two words either may be said. */
const HEARD_WIDTH = 2;
const SILENT_WIDTH = 4;

/** The shares in which a tap is told so that is by so many decibels louder than it should be. */
export function clickTold(louder: number): Readonly<Record<Click, number>> {
  const heard = rising((louder + WEAK) / HEARD_WIDTH);
  const silent = rising((0 - FAINT - louder) / SILENT_WIDTH);
  return mixed([
    [CLICK_TOLD.heard, heard],
    [CLICK_TOLD.silent, silent],
    [CLICK_TOLD.faint, Math.max(0, 1 - heard - silent)],
  ]);
}

/** What may be told of a dial: that it is broad, or without effect, or else where it stands. */
export type DialTold = 'broad' | 'no effect' | 'stands';

/** How a dial is told, by what it does. */
const DIAL_TOLD: Readonly<Record<'sharp' | 'broad' | 'dead', Readonly<Record<DialTold, number>>>> =
  {
    sharp: { stands: 0.92, broad: 0.05, 'no effect': 0.03 },
    broad: { stands: 0.08, broad: 0.85, 'no effect': 0.07 },
    dead: { stands: 0.03, broad: 0.07, 'no effect': 0.9 },
  };
/** Near the border between sharp and broad either may be said, within so much of the sharpness. */
const BROAD_WIDTH = 0.08;

/** The shares in which a dial is told so of whose sharpness so much is left. */
export function dialTold(left: number, isDead: boolean): Readonly<Record<DialTold, number>> {
  if (isDead) return DIAL_TOLD.dead;
  const broad = rising((BROAD - left) / BROAD_WIDTH);
  return mixed([
    [DIAL_TOLD.sharp, 1 - broad],
    [DIAL_TOLD.broad, broad],
  ]);
}

/** From 0 far below nothing to 1 far above it. */
function rising(by: number): number {
  return 1 / (1 + Math.exp(0 - by));
}

function mixed<Word extends string>(
  rows: readonly (readonly [row: Readonly<Record<Word, number>>, weight: number])[],
): Readonly<Record<Word, number>> {
  const all: Partial<Record<Word, number>> = {};
  const whole = rows.reduce((sum, [, weight]) => sum + weight, 0);
  for (const [row, weight] of rows)
    for (const word of Object.keys(row) as Word[])
      all[word] = (all[word] ?? 0) + (row[word] * weight) / whole;
  return all as Record<Word, number>;
}
