import { displayWidth } from '../text/display-width.ts';
import { visible } from '../text/visible.ts';
import { type Chart, type Curve, namedCurves, type Panel, type Point } from './chart.ts';
import { scaleOf, ticksOf } from './scales.ts';

/** Dots of one braille sign: two across and four down, by their bits. */
const BITS = [
  [0x01, 0x08],
  [0x02, 0x10],
  [0x04, 0x20],
  [0x40, 0x80],
] as const;
const BLANK = 0x2800;

/** Lines of all panels together, axes not counted. */
const LINES = 18;

/**
 * A chart drawn with the dots of braille signs, for a terminal of so many columns. Every curve
 * bears its number here and there, as it stands in the list below.
 */
export function terminalChart(chart: Chart, columns: number): string[] {
  const labels = chart.panels.flatMap(({ y }) => ticksOf(y, 5).map((tick) => y.write(tick)));
  const margin = Math.max(3, ...labels.map(displayWidth)) + 2;
  const width = Math.max(30, Math.min(columns, 100) - margin - 2);
  const total = chart.panels.reduce((sum, { share }) => sum + share, 0);
  const out = [visible(chart.title)];
  for (const panel of chart.panels) {
    const height = Math.max(4, Math.round((LINES * panel.share) / total));
    out.push('', `  ${panel.y.label}`, ...panelLines(chart, panel, { width, height, margin }));
  }
  out.push(...xAxis(chart, width, margin));
  const curves = namedCurves(chart);
  if (curves.length > 1)
    out.push('', ...curves.map(({ name, look }) => `  ${signOf(look)} ${visible(name)}`));
  return out;
}

interface Size {
  readonly width: number;
  readonly height: number;
  readonly margin: number;
}

function panelLines(chart: Chart, panel: Panel, { width, height, margin }: Size): string[] {
  const dots = new Uint8Array(width * height);
  const x = scaleOf(chart.x, 0, 2 * width - 1);
  const y = scaleOf(panel.y, 4 * height - 1, 0);
  const signs = new Map<number, string>();
  for (const curve of panel.curves) draw(curve, [x, y], dots, { width, height });
  const count = panel.curves.length;
  if (namedCurves(chart).length > 1)
    for (const [index, curve] of panel.curves.entries())
      number(curve, index, count, [x, y], signs, { width, height });
  const ticks = new Map(
    ticksOf(panel.y, Math.max(2, Math.floor(height / 2))).map((tick) => [
      Math.round(y(tick) / 4 - 0.25),
      panel.y.write(tick),
    ]),
  );
  return Array.from({ length: height }, (_, row) => {
    const label = ticks.get(row) ?? '';
    const space = ' '.repeat(Math.max(0, margin - 1 - displayWidth(label)));
    const cells = Array.from({ length: width }, (_, column) => {
      const at = row * width + column;
      return signs.get(at) ?? (dots[at] ? String.fromCharCode(BLANK + (dots[at] ?? 0)) : ' ');
    });
    return `${space}${label} ${ticks.has(row) ? '┤' : '│'}${cells.join('')}`.trimEnd();
  });
}

type Scales = readonly [x: (value: number) => number, y: (value: number) => number];
type Extent = Pick<Size, 'width' | 'height'>;

/** Lights the dots of a curve, close enough together that they make a line. */
function draw(
  { points }: Curve,
  [x, y]: Scales,
  dots: Uint8Array,
  { width, height }: Extent,
): void {
  let before: Point | undefined;
  for (const point of points) {
    const here: Point | undefined = point && [x(point[0]), y(point[1])];
    if (here) {
      const [fromX, fromY] = before ?? here;
      const steps = Math.max(1, Math.ceil(Math.max(...distances([fromX, fromY], here))));
      for (let step = 0; step <= Math.min(steps, 4000); step++) {
        const share = step / steps;
        const column = Math.round(fromX + share * (here[0] - fromX));
        const row = Math.round(fromY + share * (here[1] - fromY));
        if (!(column >= 0 && row >= 0 && column < 2 * width && row < 4 * height)) continue;
        const cell = (row >> 2) * width + (column >> 1);
        dots[cell] = (dots[cell] ?? 0) | (BITS[row & 3]?.[column & 1] ?? 0);
      }
    }
    before = here;
  }
}

function distances(a: Point, b: Point): readonly [number, number] {
  return [Math.abs(a[0] - b[0]), Math.abs(a[1] - b[1])];
}

/** Columns between two numbers of one curve. */
const BETWEEN_NUMBERS = 8;

/** Writes a curve's number on it, where the others have not theirs. */
function number(
  { points, look }: Curve,
  index: number,
  count: number,
  [x, y]: Scales,
  signs: Map<number, string>,
  { width, height }: Extent,
): void {
  const placed = points.map((point): Point | undefined => point && [x(point[0]), y(point[1])]);
  const every = BETWEEN_NUMBERS * count;
  for (let column = Math.round(BETWEEN_NUMBERS * (index + 0.5)); column < width; column += every) {
    const dot = heightAt(placed, 2 * column + 0.5);
    const row = dot === undefined ? -1 : Math.floor(Math.round(dot) / 4);
    if (row >= 0 && row < height) signs.set(row * width + column, signOf(look));
  }
}

/** How high a curve stands at a place along the x axis; undefined where it is broken. */
function heightAt(points: readonly (Point | undefined)[], at: number): number | undefined {
  for (const [index, end] of points.entries()) {
    const start = points[index - 1];
    if (!start || !end || at < start[0] || at > end[0]) continue;
    const share = end[0] > start[0] ? (at - start[0]) / (end[0] - start[0]) : 0;
    return start[1] + share * (end[1] - start[1]);
  }
  return undefined;
}

/** What stands for a curve: its number, after nine a letter. */
function signOf(index: number): string {
  return '123456789abcdefghijklmnopqrstuvwxyz'[index % 35] ?? '*';
}

function xAxis({ x: axis }: Chart, width: number, margin: number): string[] {
  const x = scaleOf(axis, 0, 2 * width - 1);
  const rule = Array.from({ length: width }, () => '─');
  const words = Array.from({ length: width + margin + 8 }, () => ' ');
  let free = 0;
  for (const tick of ticksOf(axis, Math.max(3, Math.floor(width / 10)))) {
    const column = Math.round(x(tick) / 2);
    if (column < 0 || column >= width) continue;
    rule[column] = '┬';
    const text = axis.write(tick);
    const start = Math.max(0, margin + 1 + column - Math.floor(text.length / 2));
    if (start < free || start + text.length > words.length) continue;
    for (const [offset, letter] of [...text].entries()) words[start + offset] = letter;
    free = start + text.length + 1;
  }
  return [
    `${' '.repeat(margin)}└${rule.join('')}`,
    words.join('').trimEnd(),
    `${' '.repeat(margin + 1)}${axis.label}`,
  ];
}
