import type { Reading } from '@setwright/bench';
import { formatQuantity } from '@setwright/units';
import {
  amountText,
  benchSections,
  probeWords,
  scaleText,
  verdictText,
} from '../../bench/bench-sections.ts';
import { benchSummary } from '../../bench/report-bench.ts';
import {
  amounts,
  empty,
  groupedTable,
  minus,
  naming,
  numbered,
  plain,
  type RowGroup,
  say,
  table,
  writing,
} from '../cells.ts';
import type { SheetBlock, SheetCell, SheetNumber, SheetSection } from '../sheet.ts';
import type { SheetGrounds } from '../sheet-grounds.ts';

/** What a meter should show all over the set, beside what was read or room to write it in. */
export function benchSection(grounds: SheetGrounds): SheetSection | undefined {
  const { faults, style, bench } = grounds;
  const { chart } = faults;
  const known = chart.readings.filter(({ expected, read }) => expected || read !== undefined);
  if (known.length === 0)
    return chart.readings.length === 0
      ? undefined
      : {
          id: 'bench',
          heading: 'Bench chart',
          blocks: [say('No reading can be told beforehand: too few values are said.', 'missing')],
        };
  const title = bench?.title ? `, with what was read (“${bench.title}”)` : '';
  const cells = (reading: Reading): readonly SheetCell[] => [
    plain(probeWords(chart.circuit, reading)),
    expectedCell(reading, style),
    bandCell(reading, style),
    scaleCell(reading, style),
    readCell(reading, style),
    plain(verdictText(reading)),
  ];
  const shared = [naming('Probe on'), amounts('expected'), amounts('within'), amounts('on')];
  const sections = benchSections(chart);
  const read = chart.readings.filter((reading) => reading.read !== undefined);
  const cold =
    sections
      .map(({ heading }) => /^(?:Batteries off, tubes out|Ohms): /.exec(heading)?.[0])
      .find((begins) => begins !== undefined) ?? 'Ohms: ';
  const groupsOf = (begins: string): readonly RowGroup[] =>
    sections.flatMap(({ heading, readings }) =>
      heading.startsWith(begins)
        ? [{ words: heading.slice(begins.length), rows: readings.map(cells) }]
        : [],
    );
  return {
    id: 'bench',
    heading: `Bench chart${title}`,
    blocks: [
      say(`With ${chart.meter.words}.`),
      ...chart.cautions.map((caution) => say(caution, 'caution')),
      ...table('What was read', [...shared, amounts('read'), amounts('verdict')], read.map(cells)),
      ...groupedTable('Set on', [...shared, writing('read')], groupsOf('Set on: ')),
      ...groupedTable(cold.slice(0, -2), [...shared, writing('read')], groupsOf(cold)),
      ...(known.some(isOfFilament) ? [say(OHMS_OF_FILAMENTS, 'caution')] : []),
      ...benchSummary(chart).map((words) => say(words, 'note')),
      ...takenAsUsual(grounds),
      say(
        `A tube’s electrodes are read to its own F−, a tap to its battery’s zero, anything else to A−. Taken: ${chart.taken.join('; ')}. Write down with the readings how the controls stand, what the batteries give under load, and how long the set has been on.`,
        'note',
      ),
    ],
  };
}

/** Common practice. */
const OHMS_OF_FILAMENTS =
  'A meter for ohms sends a current of its own: on its lowest range often more than a thin filament bears. Read filaments only on a range that passes less than their current.';

const isOfFilament = ({ quantity, at }: Reading): boolean =>
  quantity === 'resistance' && /filament|heater/.test(at);

/** Parts whose ohms the text does not say: what the chart was reckoned with instead. */
function takenAsUsual({ point, style }: SheetGrounds): readonly SheetBlock[] {
  const taken = point.taken.flatMap(({ part, ohms, because }) =>
    ohms === undefined
      ? []
      : [`${formatQuantity(ohms, 'resistance', style)} for ${part} (${because})`],
  );
  return taken.length === 0
    ? []
    : [say(`Not said by the text, and taken as usual: ${taken.join('; ')}.`, 'missing')];
}

type Style = SheetGrounds['style'];

function expectedCell(reading: Reading, style: Style): SheetCell {
  const { expected, id } = reading;
  if (!expected) return plain('not known');
  return numbered(amountText(expected.value, reading, style), expected.value, {
    from: 'reading',
    spot: id,
    which: 'value',
  });
}

function bandCell(reading: Reading, style: Style): SheetCell {
  const { expected, id } = reading;
  if (!expected) return empty;
  const number = (which: 'low' | 'high'): SheetNumber => ({
    text: minus(amountText(expected[which], reading, style)),
    value: expected[which],
    source: { from: 'reading', spot: id, which },
  });
  const low = number('low');
  if (!Number.isFinite(expected.high)) return { text: `above ${low.text}`, numbers: [low] };
  const high = number('high');
  return { text: `${low.text} to ${high.text}`, numbers: [low, high] };
}

function scaleCell(reading: Reading, style: Style): SheetCell {
  return reading.scale === undefined
    ? empty
    : numbered(scaleText(reading, style), reading.scale, { from: 'scale', spot: reading.id });
}

function readCell(reading: Reading, style: Style): SheetCell {
  return reading.read === undefined
    ? empty
    : numbered(amountText(reading.read, reading, style), reading.read, {
        from: 'read',
        spot: reading.id,
      });
}
