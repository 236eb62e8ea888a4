import type { Circuit, Finding, Fix, Part, Range, Value } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { readingExample } from '../examples/reading-example.ts';
import {
  airWinding,
  electrolyticCapacity,
  formSizes,
  ironWinding,
  type Role,
  type Sizes,
  sizesByKind,
  sizesByRole,
  tapVolts,
  tolerance,
  tuning,
  variableCapacity,
  years,
} from '../sizes/likely-sizes.ts';
import { isAdjustable, type Played, partsPlayed } from '../sizes/parts-played.ts';
import { likelySlips, slipFixes } from '../sizes/slips.ts';
import { finding } from '../words/finding.ts';

/** Sizes no one puts there: a lost zero, a unit misread, meters taken for kilocycles. */
export const unlikelyValue: Check = {
  id: 'unlikely-value',
  group: 'Reading the text',
  severity: 'warning',
  summary: 'A size that no such part has: most often a zero lost or a unit misread.',
  why: 'A value ten or a thousand times out makes every number that is computed from it wrong, and a part bought by it useless.',
  silent: [
    'What a part is for decides what sizes it may have: a grid stopper has 50 to 3000 ohms, a grid leak .25 to 10 megohms, a grid condenser 50 to 500 mmfd, a radio bypass 250 mmfd to 1 mfd.',
    'Where the wiring does not show what a part is for, only what is past all sense is told of.',
    'Coupling condensers, grid resistors of audio stages and tone condensers are no grid condensers, leaks or bypasses.',
    'A capacity in centimeters is one in mmfd, or nearly.',
    'Coils of a few turns, one-ohm resistors and B taps of 22.5 volts are common.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: readingExample(['condenser C2 .00025 mfd', 'condenser C2 .0025 mfd']),
  passes: readingExample(),
  find(study) {
    const { circuit } = study;
    const played = partsPlayed(study);
    return [
      ...ofTheSet(circuit),
      ...circuit.parts.flatMap((part) => ofPart(part, played.get(part.name), circuit)),
    ];
  },
};

/** One value to be judged: whose it is, in words, and what sizes it may have. */
interface Judged {
  readonly what: string;
  readonly value: Value;
  readonly sizes: Sizes;
  readonly parts: readonly string[];
  /** What has these sizes, for the sentence: `grid condensers`. */
  readonly such: string;
}

function ofPart(part: Part, played: Played | undefined, circuit: Circuit): Finding[] {
  const found: Finding[] = [];
  for (const [slot, value] of Object.entries(part.values)) {
    const judged = judgedBy(part, slot, value, played, circuit);
    if (judged) found.push(...unlikely(judged));
  }
  for (const [slot, range] of Object.entries(part.ranges))
    found.push(...ofRange(part, slot, range));
  for (const tap of part.supplyTaps) {
    // A tap that states its volts in its name as well has a check of its own for them.
    if (!tap.said || tap.said.value === 0 || /[-+][0-9]/.test(tap.end)) continue;
    const sizes = tap.said.value < 0 ? { low: -tapVolts.high, high: -tapVolts.low } : tapVolts;
    found.push(
      ...unlikely({
        what: `The tap ${tap.end} of ${part.name}`,
        value: tap.said,
        sizes,
        parts: [part.name],
        such: 'taps',
      }),
    );
  }
  return [...found, ...ofWinding(part), ...ofSetting(part)];
}

const roleNouns: Readonly<Record<Role, string>> = {
  'grid stopper': 'grid stoppers',
  'grid leak': 'grid leaks',
  'grid condenser': 'grid condensers',
  'radio bypass': 'radio bypasses',
  'filament rheostat': 'filament rheostats',
  'tuned winding': 'tuned windings',
};

function judgedBy(
  part: Part,
  slot: string,
  value: Value,
  played: Played | undefined,
  circuit: Circuit,
): Judged | undefined {
  const parts = [part.name];
  if (played && slot === mainSlot[played.role]) {
    const of = played.tube ? ` of ${played.tube}` : '';
    return {
      what: `${part.name}, the ${played.role}${of},`,
      value,
      sizes: sizesByRole[played.role],
      parts,
      such: roleNouns[played.role],
    };
  }
  const sizes = sizesOf(part, slot, circuit);
  return sizes && { what: part.name, value, sizes, parts, such: `such parts` };
}

const mainSlot: Readonly<Record<Role, string>> = {
  'grid stopper': 'resistance',
  'grid leak': 'resistance',
  'grid condenser': 'capacitance',
  'radio bypass': 'capacitance',
  'filament rheostat': 'resistance',
  'tuned winding': 'inductance',
};

/** Bounds of physical sense for a slot of a part; undefined where there are none. */
function sizesOf(part: Part, slot: string, circuit: Circuit): Sizes | undefined {
  if (slot === 'tolerance') return tolerance;
  if (slot === 'tuned') return tuning;
  if (slot.startsWith('coupling ')) return { low: -1, high: 1 };
  if (part.kind === 'winding') {
    const owner = part.owner === undefined ? undefined : circuit.partNamed.get(part.owner);
    const isAir = owner?.kind !== 'transformer' || owner.words.has('air');
    return (isAir ? airWinding : ironWinding)[slot];
  }
  if (part.kind === 'condenser' && slot === 'capacitance') {
    if (isAdjustable(part)) return variableCapacity;
    if (part.words.has('electrolytic')) return electrolyticCapacity;
  }
  return sizesByKind[part.kind]?.[slot];
}

function ofRange(part: Part, slot: string, { low, high }: Range): Finding[] {
  const sizes = part.kind === 'condenser' ? variableCapacity : sizesByKind[part.kind]?.[slot];
  if (!sizes) return [];
  const judge = (value: Value, bounds: Sizes, what: string) =>
    unlikely({ what, value, sizes: bounds, parts: [part.name], such: 'such parts' });
  const atMost = judge(high, sizes, part.name);
  if (atMost.length > 0) return atMost;
  return judge(low, { low: 0, high: sizes.high }, `${part.name} at its least`);
}

function ofWinding(part: Part): Finding[] {
  const { winding } = part;
  const found: Finding[] = [];
  const parts = [part.name];
  const judge = (value: Value | undefined, sizes: Sizes, what: string) => {
    if (value) found.push(...unlikely({ what, value, sizes, parts, such: 'such sizes' }));
  };
  if (winding) {
    judge(winding.length, { low: 0.2e-3, high: 3 }, `The length of ${part.name}`);
    judge(winding.spaced, { low: 0, high: 1 }, `The space beside ${part.name}`);
    judge(winding.paper, { low: 0, high: 0.02 }, `The paper under ${part.name}`);
    const ownForm = winding.form && isWithin(part, winding.form) ? winding.form : undefined;
    judge(ownForm, formSizes, `The form of ${part.name}`);
    const gauge = winding.gauge;
    if (gauge && (gauge.number < 0 || gauge.number > 50)) {
      found.push(
        unlikelyFinding(
          `${part.name} is wound of ${gauge.number} ${gauge.table}; gauges run from 0 to 50.`,
          'Write the number of the gauge, as in of 26 DCC.',
          gauge.place,
          parts,
        ),
      );
    }
  }
  const turns = part.values.turns?.value;
  for (const tap of part.taps) {
    if (tap.turns === undefined && (tap.fraction === undefined || inUnit(tap.fraction))) continue;
    if (tap.turns !== undefined && (turns === undefined || (tap.turns >= 0 && tap.turns <= turns)))
      continue;
    found.push(
      unlikelyFinding(
        tap.turns !== undefined
          ? `${part.name} has a tap at ${tap.turns} turns and only ${turns} turns in all.`
          : `A tap of ${part.name} lies outside of it.`,
        'Count taps from the start of the winding.',
        tap.place,
        parts,
      ),
    );
    break; // One slip in a list of taps is told once.
  }
  return found;
}

const isWithin = (part: Part, { place }: Value) =>
  place.file === part.place.file && place.start >= part.place.start && place.end <= part.place.end;

const inUnit = (share: number) => share >= 0 && share <= 1;

function ofSetting(part: Part): Finding[] {
  const { setting } = part;
  if (!setting || setting.kind === 'off') return [];
  if (setting.kind === 'ohms') {
    const total = part.values.resistance?.value;
    if (setting.ohms >= 0 && (total === undefined || setting.ohms <= total * 1.001)) return [];
    const ohms = formatQuantity(setting.ohms, 'resistance');
    return [
      unlikelyFinding(
        total === undefined
          ? `${part.name} is set to ${ohms}.`
          : `${part.name} is set to ${ohms} and has ${formatQuantity(total, 'resistance')} in all.`,
        'Set it to no more than it has.',
        setting.place,
        [part.name],
      ),
    ];
  }
  const turnsOver = part.kind === 'winding' || part.kind === 'variometer';
  const least = turnsOver ? -1 : 0;
  if (setting.fraction >= least && setting.fraction <= 1) return [];
  return [
    unlikelyFinding(
      `${part.name} is set to ${formatQuantity(setting.fraction, 'percent')}.`,
      `Write ${turnsOver ? '-100' : '0'} % to 100 %.`,
      setting.place,
      [part.name],
    ),
  ];
}

function ofTheSet({ year, tunes, dials }: Circuit): Finding[] {
  const found: Finding[] = [];
  if (year) {
    const short = Number.isInteger(year.value) && year.value >= 0 && year.value < 100;
    const full = 1900 + year.value;
    const isFull = year.value >= years.low && year.value <= years.high;
    if (!isFull) {
      found.push(
        unlikelyFinding(
          `The year is ${year.text}.`,
          short ? `Write year ${full}.` : 'Write the year in four figures.',
          year.place,
          [],
          short
            ? [{ title: `Write ${full}`, edits: [{ place: year.place, text: String(full) }] }]
            : [],
        ),
      );
    }
  }
  for (const dial of dials) {
    if (dial.low !== dial.high) continue;
    found.push(
      unlikelyFinding(
        `The scale of ${dial.name} begins and ends at ${dial.low}.`,
        'Write the two ends of the scale, as in 0 to 100.',
        dial.place,
        [],
      ),
    );
  }
  return tunes ? [...found, ...ofBand(tunes)] : found;
}

/** The band of a set: past all sense, or meters and kilocycles taken for each other. */
function ofBand({ low, high }: Range): Finding[] {
  const past = [low, high].find(({ value }) => value < tuning.low || value > tuning.high);
  if (past)
    return unlikely({
      what: 'The band',
      value: past,
      sizes: tuning,
      parts: [],
      such: 'the bands of receivers',
    });
  const slip = likelySlips(low, high);
  if (!slip) return [];
  return [
    unlikelyFinding(
      slip.message,
      `Write ${slip.written}, if that is meant.`,
      slip.place,
      [],
      [
        {
          title: `Write ${slip.written}`,
          edits: [{ place: slip.place, text: slip.written }],
        },
      ],
    ),
  ];
}

/** A size that is a thousandth beyond a bound is on it: bounds are round numbers. */
const EDGE = 1e-3;

function unlikely({ what, value, sizes, parts, such }: Judged): Finding[] {
  const size = value.value;
  if (!Number.isFinite(size)) return [];
  const margin = EDGE * Math.abs(size);
  if (size >= sizes.low - margin && size <= sizes.high + margin) return [];
  const run = runWords(sizes, value.dimension);
  const fixes = slipFixes(value, sizes);
  const meant = fixes.map(({ title }) => title.replace(/^Write /, ''));
  return [
    unlikelyFinding(
      `${what} has ${value.text}; ${such} have ${run}.`.replace(
        /^(The (?:band|length|space|paper|form|tap)[^;]*?) has /,
        '$1 is ',
      ),
      meant.length
        ? `Look at the marking again: perhaps ${meant.join(' or ')} is meant.`
        : 'Look at the marking again, and write the number and unit that stand there.',
      value.place,
      parts,
      fixes,
    ),
  ];
}

/** `50 to 500 mmfd`, or `250 mmfd to 1 mfd`. */
function runWords({ low, high }: Sizes, dimension: Value['dimension']): string {
  const [from = '', to = ''] = [low, high].map((bound) => formatQuantity(bound, dimension));
  const unit = to.replace(/^\S+/, '');
  return unit !== '' && from.endsWith(unit)
    ? `${from.slice(0, -unit.length)} to ${to}`
    : `${from} to ${to}`;
}

function unlikelyFinding(
  message: string,
  cure: string,
  place: Value['place'],
  parts: readonly string[],
  fixes: readonly Fix[] = [],
): Finding {
  return finding({
    check: 'unlikely-value',
    severity: 'warning',
    message,
    why: 'A size this far out is most often a zero lost or a unit misread, and every number computed from it is wrong.',
    cure,
    place,
    parts,
    fixes,
  });
}
