import {
  type BenchChart,
  broadDialsOf,
  calledSo,
  clickOf,
  type FaultEffect,
  type FaultTable,
  type Reading,
  shownAs,
  spotWords,
  tubesClicking,
} from '@setwright/bench';
import { csvOf } from '../text/csv.ts';
import type { Styles } from '../text/styles.ts';
import { printableJson, visible } from '../text/visible.ts';
import { counted, listed } from '../text/words.ts';
import { wrapped } from '../text/wrapped.ts';
import type { UnitStyle } from '../values/quantities.ts';

const units = { voltage: 'V', current: 'A', resistance: 'Ω' } as const;

function numberOf(value: number | undefined): number | 'open' | null {
  if (value === undefined) return null;
  return value === Number.POSITIVE_INFINITY ? 'open' : value;
}

/** To hundredths of a decibel; `nothing` where nothing comes through, null where not known. */
function decibels(share: number | undefined): number | 'nothing' | null {
  if (share === undefined) return null;
  return share > 0 ? Math.round(2000 * Math.log10(share)) / 100 : 'nothing';
}

/** For other programs: every fault with what is heard of it and the readings that show it. */
export function faultsInJson(path: string, tables: readonly FaultTable[]): string {
  const report = {
    version: 1,
    path,
    faults: tables.flatMap(({ chart, effects }) =>
      effects.map((effect) => ({
        receiver: chart.circuit.title,
        part: effect.fault.part,
        fault: effect.fault.id,
        kind: effect.fault.kind,
        words: effect.fault.words,
        prior: effect.fault.prior ?? null,
        heard: effect.heard,
        squeals: effect.squeals,
        radio: decibels(effect.radio),
        detection: decibels(effect.detection),
        audio: decibels(effect.audio),
        clicks: Object.fromEntries([...effect.clicks].map(([tube, by]) => [tube, clickOf(by)])),
        deadDials: effect.deadDials,
        broadDials: broadDialsOf(effect),
        dangers: effect.dangers,
        notes: effect.notes,
        seen: effect.seenBy.length > 0,
        changes: effect.seenBy.flatMap((index) => {
          const reading = chart.readings[index];
          return reading ? [changeOf(chart, reading, effect, index)] : [];
        }),
        because: effect.words,
        ...(effect.refused.length > 0 ? { refused: effect.refused } : {}),
      })),
    ),
    cautions: [...new Set(tables.flatMap(({ chart }) => chart.cautions))],
  };
  return `${printableJson(report)}\n`;
}

function changeOf({ circuit }: BenchChart, reading: Reading, effect: FaultEffect, index: number) {
  const { at, to, across, quantity, state, lifted } = reading;
  const now = effect.readings[index];
  return {
    at: calledSo(circuit, at),
    to: to === undefined ? null : calledSo(circuit, to),
    across: across ?? null,
    quantity,
    state,
    lifted,
    sound: numberOf(reading.expected?.value),
    expected: numberOf(now?.value),
    low: numberOf(now?.low),
    high: numberOf(now?.high),
    unit: units[quantity],
  };
}

/** For a spreadsheet: one line for each fault. */
export function faultsInCsv(tables: readonly FaultTable[]): string {
  const lines = tables.flatMap(({ chart, effects }) =>
    effects.map((effect) => [
      chart.circuit.title,
      effect.fault.part,
      effect.fault.id,
      effect.fault.words,
      effect.fault.prior,
      effect.heard.join('; '),
      decibels(effect.radio) ?? undefined,
      decibels(effect.audio) ?? undefined,
      effect.seenBy.length,
      shownBy(chart, effect, 'si', MOST_SHOWN).join('; '),
      effect.dangers.join('; '),
    ]),
  );
  return csvOf(
    [
      'receiver',
      'part',
      'fault',
      'words',
      'prior',
      'heard',
      'radio',
      'audio',
      'readings',
      'shown by',
      'dangers',
    ],
    lines,
  );
}

/** Readings that are told of for each fault. */
const MOST_SHOWN = 4;

/** Readings that show a fault, the plainest first: `V3.plate 0 V for 41.8 V`. */
function shownBy(
  chart: BenchChart,
  { seenBy, readings }: FaultEffect,
  style: UnitStyle,
  most: number,
): readonly string[] {
  return seenBy.slice(0, most).flatMap((index) => {
    const reading = chart.readings[index];
    const now = readings[index];
    if (!reading?.expected || !now) return [];
    return [
      `${spotWords(chart, reading)} ${shownAs(now.value, reading, style)} for ${shownAs(reading.expected.value, reading, style)}`,
    ];
  });
}

export interface FaultsTextOptions {
  readonly style: UnitStyle;
  readonly columns: number;
  readonly styles: Styles;
  /** One line for each fault. */
  readonly short: boolean;
}

/** For a person: part by part what each fault does, to the ear and to the meter. */
export function faultsInWords(table: FaultTable, options: FaultsTextOptions): string[] {
  const { chart, effects } = table;
  const { columns, styles } = options;
  const width = Math.max(50, Math.min(columns, 100));
  const say = (words: string, indent = '') => wrapped(visible(words), width, indent);
  const title = chart.circuit.title || 'Receiver without a name';
  const out = [
    styles.strong(
      visible(`${title}: what ${isSupposed(table) ? 'it would do' : 'each fault does'}`),
    ),
    '',
  ];
  if (chart.cautions.length > 0) out.push(...say(`Caution: ${chart.cautions.join(' ')}`), '');
  if (effects.length === 0) return [...out, 'Nothing in it can go wrong, as far as is known.'];
  let before: string | undefined;
  for (const effect of effects) {
    const { part } = effect.fault;
    if (part !== before && part !== '') {
      if (before !== undefined && !options.short) out.push('');
      const name = chart.circuit.partNamed.get(part)?.title;
      out.push(styles.strong(visible(name ? `${part}, ${name}` : part)));
      before = part;
    }
    out.push(...(options.short ? shortly(effect, say) : atLength(chart, effect, options, say)));
  }
  return isSupposed(table) ? out : [...out, '', ...say(closing(table))];
}

/** Whether it tells of what a text supposes and not of the catalogue. */
function isSupposed({ effects }: FaultTable): boolean {
  return effects.every(({ fault }) => fault.prior === undefined);
}

type Say = (words: string, indent?: string) => readonly string[];

function heardOf({ heard }: FaultEffect): string {
  return heard.length > 0 ? heard.join(', ') : 'nothing to be noticed';
}

function shortly({ fault, ...effect }: FaultEffect, say: Say): readonly string[] {
  const seen = effect.seenBy.length === 0 ? 'no reading' : counted(effect.seenBy.length, 'reading');
  return say(`${fault.id} — ${heardOf({ fault, ...effect })}; ${seen}`, '  ');
}

function atLength(
  chart: BenchChart,
  effect: FaultEffect,
  { style, styles }: FaultsTextOptions,
  say: Say,
): readonly string[] {
  const { fault, dangers, notes, clicks, deadDials, refused } = effect;
  const how = fault.prior === undefined ? '' : `, ${fault.prior}`;
  const shown = shownBy(chart, effect, style, MOST_SHOWN);
  const more = effect.seenBy.length - shown.length;
  const lines = [...say(`- ${fault.words}${how}`, '  ')];
  for (const line of say(`heard: ${heardOf(effect)}`, '      ')) lines.push(line);
  lines.push(
    ...say(
      shown.length === 0
        ? 'meter: no reading shows it'
        : `meter: ${shown.join('; ')}${more > 0 ? `; and ${more} more` : ''}`,
      '      ',
    ),
  );
  const [quiet, faint] = [tubesClicking(clicks, 'silent'), tubesClicking(clicks, 'faint')];
  if (quiet.length > 0 && quiet.length < clicks.size)
    lines.push(...say(`no click on tapping ${listed(quiet)}`, '      '));
  if (faint.length > 0) lines.push(...say(`a faint click on tapping ${listed(faint)}`, '      '));
  if (deadDials.length > 0 && effect.heard.includes('one dial dead'))
    lines.push(...say(`without effect: ${listed(deadDials)}`, '      '));
  const broad = broadDialsOf(effect);
  if (broad.length > 0) lines.push(...say(`broad on: ${listed(broad)}`, '      '));
  for (const danger of dangers)
    for (const line of say(`danger: ${danger}`, '      ')) lines.push(styles.of('error', line));
  for (const note of [...notes, ...refused.map((why) => `not done: ${why}`)])
    lines.push(...say(note, '      '));
  return lines;
}

function closing({ effects }: FaultTable): string {
  const blind = effects.filter(({ seenBy }) => seenBy.length === 0).length;
  const unheard = effects.filter(({ heard }) => heard.length === 0).length;
  return `${counted(effects.length, 'fault')}: ${blind} show on no reading, ${unheard} cannot be heard. How common each is goes by common practice.`;
}
