import { frequencyAtReading, readingAtFrequency } from '@setwright/analysis';
import { SPEED_OF_LIGHT } from '@setwright/units';
import type { Axis, Chart, Curve, Panel, Point } from '../chart/chart.ts';
import type { UnitStyle } from '../values/quantities.ts';
import { type DialColumn, type DialReadings, headingOf } from './dial-readings.ts';

/** Points that a curve is drawn through. */
const FINENESS = 240;

/** The waves that are marked along the top, those that leave room for their words. */
const waves = [
  10, 15, 20, 25, 30, 40, 50, 60, 80, 100, 120, 150, 180, 200, 220, 250, 300, 350, 400, 450, 500,
  550, 600, 700, 800, 1000, 1200, 1500, 2000, 3000, 5000, 10_000,
];

/** The chart of a set's dials over its stations; undefined where there is nothing to draw. */
export function dialChart(set: DialReadings, style: UnitStyle): Chart | undefined {
  const { columns, lines, circuit } = set;
  const low = Math.min(...lines.map(({ frequency }) => frequency));
  const high = Math.max(...lines.map(({ frequency }) => frequency));
  if (columns.length === 0 || !(high > low)) return undefined;
  const isOneScale = columns.every(
    (each) => each.low === columns[0]?.low && each.high === columns[0]?.high,
  );
  const scaled = (column: DialColumn, reading: number): number =>
    isOneScale ? reading : (100 * (reading - column.low)) / (column.high - column.low);
  const [first] = columns;
  const ends = isOneScale && first ? [first.low, first.high] : [0, 100];
  const sampled = Array.from(
    { length: FINENESS + 1 },
    (_, step) => low + (step / FINENESS) * (high - low),
  );
  const curves = columns.map(
    (column, index): Curve => ({
      name: nameOf(column),
      look: index,
      points: sampled.map((frequency) => pointOf(column, frequency)),
      marked: lines.flatMap(({ frequency, readings }): Point[] => {
        const reading = readings[index];
        return reading === undefined ? [] : [[frequency, scaled(column, reading)]];
      }),
    }),
  );
  const title = `${circuit.title || 'Receiver'}: dial chart`;
  const kilo = style === 'si' ? 'kHz' : 'kc';
  return {
    title,
    description: `Dial readings of ${columns.map(nameOf).join(', ')} from ${whole(low)} to ${whole(high)} ${kilo}. ${courseOf(set)}`,
    x: {
      label: style === 'si' ? 'frequency, kHz' : 'kilocycles',
      low,
      high,
      scale: 'linear',
      write: whole,
    },
    top: {
      label: style === 'si' ? 'wavelength, m' : 'meters',
      marks: wavesOver(low, high),
    },
    panels: [
      {
        y: {
          label: isOneScale ? 'dial reading, divisions' : 'dial reading, percent of the scale',
          low: Math.min(...ends),
          high: Math.max(...ends),
          scale: 'linear',
          write: (value) => String(value),
        },
        curves,
        share: 3,
      },
      ...differences(curves, columns, isOneScale),
      ...tracking(set, sampled, style),
    ],
  };

  function pointOf(column: DialColumn, frequency: number): Point | undefined {
    const reading = readingAtFrequency(column.of, frequency + column.above);
    return reading === undefined ? undefined : [frequency, scaled(column, reading)];
  }
}

function nameOf(column: DialColumn): string {
  return `${headingOf(column)}, ${column.of.circuit.name}`;
}

function whole(hertz: number): string {
  return String(Math.round(hertz / 100) / 10);
}

function courseOf({ columns, lines }: DialReadings): string {
  const ends = [lines[0], lines.at(-1)].flatMap((line) => (line ? [line] : []));
  return columns
    .map((column, index) => {
      const told = ends.map(({ readings, frequency }) => {
        const reading = readings[index];
        return `${reading === undefined ? 'nowhere' : reading.toFixed(1)} at ${whole(frequency)}`;
      });
      return `${headingOf(column)} stands at ${told.join(' and ')}.`;
    })
    .join(' ');
}

/** Waves that lie within the band and far enough apart for their words. */
function wavesOver(low: number, high: number) {
  const room = (high - low) / 16;
  let last = Number.NEGATIVE_INFINITY;
  return [...waves].reverse().flatMap((metres) => {
    const at = SPEED_OF_LIGHT / metres;
    if (at < low || at > high || at - last < room) return [];
    last = at;
    return { at, text: String(metres) };
  });
}

/** How far the other dials stand from the first one. */
function differences(
  curves: readonly Curve[],
  columns: readonly DialColumn[],
  isOneScale: boolean,
): readonly Panel[] {
  const [first, ...others] = curves;
  // Oscillators are meant to stand elsewhere.
  if (!first || others.length === 0 || columns.some(({ above }) => above !== 0)) return [];
  const apart = curves.map(
    (curve): Curve => ({
      name: curve.name,
      look: curve.look,
      points: curve.points.map((point, index) => lessPoint(point, first.points[index])),
      marked: curve.marked.flatMap((point) => {
        const same = first.marked.find(([at]) => at === point[0]);
        const less = lessPoint(point, same);
        return less ? [less] : [];
      }),
    }),
  );
  const unit = isOneScale ? 'divisions' : 'percent';
  return [
    { y: around(`apart from ${headingIn(first)}, ${unit}`, apart, 1), curves: apart, share: 1 },
  ];
}

function headingIn({ name }: Curve): string {
  return name.split(/[ ,]/)[0] ?? name;
}

function lessPoint(point: Point | undefined, other: Point | undefined): Point | undefined {
  return point && other ? [point[0], point[1] - other[1]] : undefined;
}

/** An axis round nothing that holds all curves, and no less than `least` to either side. */
function around(label: string, curves: readonly Curve[], least: number): Axis {
  const all = curves.flatMap(({ points }) => points.flatMap((point) => (point ? [point[1]] : [])));
  const low = Math.min(-least, ...all);
  const high = Math.max(least, ...all);
  const room = (high - low) / 12;
  return {
    label,
    low: low - room,
    high: high + room,
    scale: 'linear',
    write: (value) => String(Math.round(value * 100) / 100).replace('-', '−'),
  };
}

/** How far the circuits on the shaft of the only dial are tuned too high. */
function tracking(
  { columns, lines }: DialReadings,
  sampled: readonly number[],
  style: UnitStyle,
): readonly Panel[] {
  const [column, ...others] = columns;
  if (!column || others.length > 0 || column.followers.length === 0) return [];
  const curves = [{ of: column.of, above: column.above }, ...column.followers].map(
    (each, index): Curve => {
      const pointAt = (frequency: number): Point[] => {
        const reading = readingAtFrequency(column.of, frequency + column.above);
        const tuned = reading === undefined ? undefined : frequencyAtReading(each.of, reading);
        return tuned === undefined ? [] : [[frequency, (tuned - frequency - each.above) / 1000]];
      };
      return {
        name: each.of.circuit.name,
        look: index,
        points: sampled.map((frequency) => pointAt(frequency)[0]),
        marked: lines.flatMap(({ frequency }) => pointAt(frequency)),
      };
    },
  );
  const label = `tuned too high, ${style === 'si' ? 'kHz' : 'kc'}`;
  return [{ y: around(label, curves, 1), curves, share: 1.5 }];
}
