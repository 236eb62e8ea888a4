import { line, symbol, symbolsFill } from 'd3-shape';
import { escaped } from '../text/escaped.ts';
import { type Chart, type Curve, namedCurves, type Panel, type Point } from './chart.ts';
import { curveLook, dark, type Looks, light, paper } from './looks.ts';
import { scaleOf, ticksOf } from './scales.ts';

/** `paper` is for print: black on white. */
export type Theme = 'auto' | 'light' | 'dark' | 'paper';

const looksOf = (theme: Theme): Looks =>
  theme === 'dark' ? dark : theme === 'paper' ? paper : light;

const WIDTH = 760;
const LEFT = 66;
const RIGHT = 24;
const ROW = 22;
const PANEL_GAP = 26;
const PLOT_HEIGHT = 430;
const ENDS = { left: LEFT, right: WIDTH - RIGHT };

/**
 * Charts as one SVG picture, below one another. `auto` is light, and dark where that is wanted.
 *
 * @param ids what its ids begin with, where several pictures share a page
 */
export function svgOf(charts: readonly Chart[], theme: Theme, ids = ''): string {
  const drawn = charts.map((chart, index) => drawnChart(chart, `${ids}plot${index}`, theme));
  const height = drawn.reduce((sum, each) => sum + each.height, 0);
  let top = 0;
  const pieces = drawn.map(({ svg, height: own }) => {
    const piece = `<g transform="translate(0 ${place(top)})">${svg}</g>`;
    top += own;
    return piece;
  });
  const titles = charts.map(({ title }) => title).join('; ');
  const descriptions = charts.map(({ description }) => description).join(' ');
  const looks = looksOf(theme);
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${place(height)}" width="${WIDTH}" height="${place(height)}" role="img" aria-labelledby="${ids}title ${ids}desc" font-family="system-ui, 'Segoe UI', 'DejaVu Sans', sans-serif" font-size="13">`,
    `<title id="${ids}title">${escaped(titles)}</title>`,
    `<desc id="${ids}desc">${escaped(descriptions)}</desc>`,
    ...(theme === 'auto' ? [darkStyle()] : []),
    `<rect class="ground" width="${WIDTH}" height="${place(height)}" fill="${looks.ground}"/>`,
    ...pieces,
    '</svg>',
  ].join('\n')}\n`;
}

/** Colors for those who look at it in the dark; what does not know of that keeps the light ones. */
function darkStyle(): string {
  const rules = [
    `.ground{fill:${dark.ground}}`,
    `.ink{fill:${dark.ink}}`,
    `.faint{fill:${dark.faint}}`,
    `.grid{stroke:${dark.grid}}`,
    `.frame{stroke:${dark.faint}}`,
    ...dark.curves.flatMap((color, index) => [
      `.c${index}{stroke:${color}}`,
      `.m${index}{fill:${color};stroke:${dark.ground}}`,
    ]),
  ];
  return `<style>@media (prefers-color-scheme:dark){${rules.join('')}}</style>`;
}

interface Drawn {
  readonly svg: string;
  readonly height: number;
}

function drawnChart(chart: Chart, clip: string, theme: Theme): Drawn {
  const looks = looksOf(theme);
  const out: string[] = [];
  let y = 34;
  out.push(
    text(LEFT, y, cut(chart.title, 74), { class: 'ink', fill: looks.ink, size: 17, weight: 600 }),
  );
  y += 12;
  const names = namedCurves(chart);
  const legend = names.length > 1 ? legendOf(names, y, looks) : { svg: '', rows: 0 };
  out.push(legend.svg);
  y += legend.rows * ROW + (chart.top ? 48 : 22);
  const total = chart.panels.reduce((sum, { share }) => sum + share, 0);
  for (const [at, panel] of chart.panels.entries()) {
    const height = (PLOT_HEIGHT * panel.share) / total;
    if (at === 0 && chart.top) out.push(topScale(chart, y, looks));
    out.push(drawnPanel(chart, panel, { top: y, height, clip: `${clip}-${at}` }, looks));
    y += height + PANEL_GAP;
  }
  y += -PANEL_GAP + 20;
  const x = scaleOf(chart.x, ENDS.left, ENDS.right);
  for (const tick of ticksOf(chart.x, 10))
    out.push(
      text(x(tick), y, chart.x.write(tick), {
        class: 'faint',
        fill: looks.faint,
        anchor: 'middle',
      }),
    );
  y += 24;
  const middle = (ENDS.left + ENDS.right) / 2;
  out.push(text(middle, y, chart.x.label, { class: 'ink', fill: looks.ink, anchor: 'middle' }));
  return { svg: out.filter((each) => each !== '').join('\n'), height: y + 18 };
}

/** The names of the curves with their colors, dashes and marks, in as many rows as they need. */
function legendOf(
  curves: readonly Curve[],
  top: number,
  looks: Looks,
): { readonly svg: string; readonly rows: number } {
  let left = LEFT;
  let rows = 1;
  const out = curves.map(({ name: whole, look: index }) => {
    const name = cut(whole, 80);
    // Seven and a half pixels a letter are more than most take.
    const width = 44 + name.length * 7.5 + 18;
    if (left > LEFT && left + width > ENDS.right) {
      left = LEFT;
      rows += 1;
    }
    const y = top + rows * ROW - 6;
    const { color, dash } = curveLook(looks, index);
    const sample = `<path class="c${index % looks.curves.length}" d="M${place(left)},${place(y - 4)}h34" fill="none" stroke="${color}" stroke-width="2"${dashed(dash)}/>${markAt([left + 17, y - 4], index, looks)}`;
    const label = text(left + 42, y, name, { class: 'ink', fill: looks.ink });
    left += width;
    return `${sample}${label}`;
  });
  return { svg: out.join('\n'), rows };
}

function topScale(chart: Chart, y: number, looks: Looks): string {
  const x = scaleOf(chart.x, ENDS.left, ENDS.right);
  const marks = (chart.top?.marks ?? []).map(
    ({ at, text: words }) =>
      `<path class="frame" d="M${place(x(at))},${place(y)}v-5" stroke="${looks.faint}"/>${text(x(at), y - 9, words, { class: 'faint', fill: looks.faint, anchor: 'middle' })}`,
  );
  const middle = (ENDS.left + ENDS.right) / 2;
  const label = text(middle, y - 27, chart.top?.label ?? '', {
    class: 'ink',
    fill: looks.ink,
    anchor: 'middle',
  });
  return [...marks, label].join('\n');
}

interface Frame {
  readonly top: number;
  readonly height: number;
  readonly clip: string;
}

function drawnPanel(
  chart: Chart,
  panel: Panel,
  { top, height, clip }: Frame,
  looks: Looks,
): string {
  const x = scaleOf(chart.x, ENDS.left, ENDS.right);
  const y = scaleOf(panel.y, top + height, top);
  const width = ENDS.right - ENDS.left;
  const out: string[] = [];
  for (const tick of ticksOf(chart.x, 10))
    out.push(
      `<path class="grid" d="M${place(x(tick))},${place(top)}v${place(height)}" stroke="${looks.grid}"/>`,
    );
  for (const tick of ticksOf(panel.y, Math.max(2, Math.round(height / 40)))) {
    out.push(
      `<path class="grid" d="M${ENDS.left},${place(y(tick))}h${width}" stroke="${looks.grid}"/>`,
      text(ENDS.left - 8, y(tick) + 4, panel.y.write(tick), {
        class: 'faint',
        fill: looks.faint,
        anchor: 'end',
      }),
    );
  }
  out.push(
    `<rect class="frame" x="${ENDS.left}" y="${place(top)}" width="${width}" height="${place(height)}" fill="none" stroke="${looks.faint}"/>`,
    `<text class="ink" fill="${looks.ink}" text-anchor="middle" transform="translate(18 ${place(top + height / 2)}) rotate(-90)">${escaped(panel.y.label)}</text>`,
    `<clipPath id="${clip}"><rect x="${ENDS.left - 6}" y="${place(top - 6)}" width="${width + 12}" height="${place(height + 12)}"/></clipPath>`,
    `<g clip-path="url(#${clip})">`,
  );
  const path = line<Point | undefined>()
    .defined((point) => point !== undefined)
    .x((point) => x(point?.[0] ?? 0))
    .y((point) => y(point?.[1] ?? 0))
    .digits(1);
  for (const curve of panel.curves) {
    const index = curve.look;
    const { color, dash } = curveLook(looks, index);
    const data = path(curve.points);
    if (data)
      out.push(
        `<path class="c${index % looks.curves.length}" d="${data}" fill="none" stroke="${color}" stroke-width="2" stroke-linejoin="round"${dashed(dash)}><title>${escaped(curve.name)}</title></path>`,
      );
  }
  // Curves that lie on one another show by their marks, which take turns.
  const count = panel.curves.length;
  for (const [index, curve] of panel.curves.entries())
    for (const [order, point] of curve.marked.entries())
      if (order % count === index % count)
        out.push(markAt([x(point[0]), y(point[1])], curve.look, looks));
  out.push('</g>');
  return out.join('\n');
}

function markAt([x, y]: Point, index: number, looks: Looks): string {
  const shape = symbolsFill[index % symbolsFill.length];
  const data = shape ? symbol().type(shape).size(52).digits(1)() : null;
  const { color } = curveLook(looks, index);
  return data === null
    ? ''
    : `<path class="m${index % looks.curves.length}" d="${data}" transform="translate(${place(x)} ${place(y)})" fill="${color}" stroke="${looks.ground}" stroke-width="1.2"/>`;
}

/** No more letters than fit; the whole stands in the title and the description. */
function cut(words: string, most: number): string {
  const letters = [...words];
  return letters.length > most ? `${letters.slice(0, most - 1).join('')}…` : words;
}

function dashed(dash: string): string {
  return dash === '' ? '' : ` stroke-dasharray="${dash}"`;
}

interface TextLook {
  readonly class: string;
  readonly fill: string;
  readonly anchor?: 'middle' | 'end';
  readonly size?: number;
  readonly weight?: number;
}

function text(x: number, y: number, words: string, look: TextLook): string {
  const anchor = look.anchor ? ` text-anchor="${look.anchor}"` : '';
  const size = look.size ? ` font-size="${look.size}"` : '';
  const weight = look.weight ? ` font-weight="${look.weight}"` : '';
  return `<text class="${look.class}" x="${place(x)}" y="${place(y)}" fill="${look.fill}"${anchor}${size}${weight}>${escaped(words)}</text>`;
}

/** A number as SVG has it, no finer than can be seen. */
function place(value: number): string {
  return String(Math.round(value * 10) / 10);
}
