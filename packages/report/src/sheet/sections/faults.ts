import { type FaultEffect, type Reading, shownAs } from '@setwright/bench';
import { probeWords } from '../../bench/bench-sections.ts';
import { listed } from '../../text/words.ts';
import {
  groupedTable,
  joined,
  minus,
  NOT_KNOWN,
  naming,
  plain,
  type RowGroup,
  say,
  telling,
  within,
} from '../cells.ts';
import type { SheetCell, SheetSection } from '../sheet.ts';
import type { SheetGrounds } from '../sheet-grounds.ts';

/** Readings that are told of for each fault. */
const MOST_SHOWN = 2;

/** What the very common faults look like, stage by stage: to the ear and to the meter. */
export function faultsSection(grounds: SheetGrounds): SheetSection | undefined {
  const { circuit, faults } = grounds;
  const { effects } = faults;
  if (effects.length === 0) return undefined;
  const stageOf = ({ fault }: FaultEffect): string | undefined =>
    circuit.partNamed.get(fault.part)?.stage;
  const stages = [undefined, ...circuit.stages.map(({ name }) => name)];
  const groups = stages.map((stage): RowGroup => {
    const title = circuit.stages.find(({ name }) => name === stage)?.title;
    const isOnly = stages.length === 1;
    const words = title === undefined ? stage : `${stage}, ${title}`;
    return {
      words: words ?? (isOnly ? undefined : 'supplies and what is in no stage'),
      rows: effects
        .filter((effect) => stageOf(effect) === stage)
        .map((effect) => row(grounds, effect)),
    };
  });
  return {
    id: 'faults',
    heading: 'What the common faults look like',
    blocks: [
      ...groupedTable(
        undefined,
        [naming('What is wrong'), telling('what is heard'), telling('what a meter shows')],
        groups,
      ),
      say(
        'Single faults that are very common in sets of this age, which is common practice and no statistics. Readings are those of the bench chart, and “not” what a sound set gives.',
        'note',
      ),
    ],
  };
}

function row({ faults, style }: SheetGrounds, effect: FaultEffect): readonly SheetCell[] {
  const { fault, heard, dangers, radio } = effect;
  // Where no signal can be followed nobody knows what is not heard.
  const isDeaf = heard.length === 0 && radio === undefined;
  const ear = heard.length > 0 ? heard.join(', ') : isDeaf ? NOT_KNOWN : 'nothing to be noticed';
  const danger = dangers.length > 0 ? `. Danger: ${dangers.join('; ')}` : '';
  const meter = shownBy(faults, effect, style);
  return [
    plain(fault.words),
    plain(`${ear}${danger}`),
    meter.length === 0 ? plain('no reading shows it') : joined(meter, '; '),
  ];
}

/** Readings that change alike, told together. */
interface Shown {
  readonly spots: string[];
  readonly cell: SheetCell;
}

/** The plainest readings that show a fault: `V3.plate 0 V, not 41.8 V`. */
function shownBy(
  { chart }: SheetGrounds['faults'],
  { fault, seenBy, readings }: FaultEffect,
  style: SheetGrounds['style'],
): readonly SheetCell[] {
  const told = new Map<string, Shown>();
  const seen = new Set<string>();
  for (const index of seenBy) {
    const reading = chart.readings[index];
    const now = readings[index];
    if (!reading?.expected || !now) continue;
    const { id: spot, at, to, across, quantity } = reading;
    const net = (id: string | undefined) => chart.circuit.endNamed.get(id ?? '')?.junction ?? id;
    // Two probes on one junction, or a part and its own ends, show the same thing twice.
    const key = `${quantity} ${across ?? `${net(at)} ${net(to)}`}`;
    if (seen.has(key)) continue;
    seen.add(key);
    const [is, was] = [now.value, reading.expected.value].map((value) =>
      minus(shownAs(value, reading, style)),
    ) as [string, string];
    const change = `${is}, not ${was}`;
    const same = told.get(change);
    if (same) same.spots.push(whereWords(chart, reading));
    else if (told.size < MOST_SHOWN)
      told.set(change, {
        spots: [whereWords(chart, reading)],
        cell: {
          text: change,
          numbers: [
            { text: is, value: now.value, source: { from: 'fault', fault: fault.id, spot } },
            {
              text: was,
              value: reading.expected.value,
              source: { from: 'reading', spot, which: 'value' },
            },
          ],
        },
      });
  }
  return [...told.values()].map(({ spots, cell }) =>
    within(`${listed(spots.slice(0, MOST_SPOTS))}: `, cell),
  );
}

/** Places that change alike are named so many at most. */
const MOST_SPOTS = 3;

function whereWords(chart: SheetGrounds['faults']['chart'], reading: Reading): string {
  const { quantity, state, lifted, across } = reading;
  const probe = probeWords(chart.circuit, reading);
  if (quantity !== 'resistance') return across === undefined ? probe : `volts across ${across}`;
  return `${probe}${lifted ? ' lifted' : ''}${state === 'cold' ? ' cold' : ''}`;
}
