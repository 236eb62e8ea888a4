import { escapeXml } from './escape.ts';
import type { Label, PlacedSymbol, Point, RailMark, Scene } from './scene.ts';
import { type SymbolStyle, symbolStrokes } from './symbols.ts';
import { letterSize } from './text-width.ts';

export type Theme = 'light' | 'dark' | 'transparent';

/** How a scene is to be written. */
export interface SvgOptions {
  readonly theme?: Theme;
  readonly symbols?: SymbolStyle;
  /** A view of the drawing: everything else is dimmed, and nothing moves. */
  readonly lit?: {
    readonly parts: ReadonlySet<string>;
    /** Junctions by the names that the scene's wires carry. */
    readonly nets: ReadonlySet<string>;
  };
}

const colours: Readonly<Record<Theme, { ink: string; paper: string; faint: string }>> = {
  light: { ink: '#111', paper: '#fff', faint: '#777' },
  dark: { ink: '#eee', paper: '#1e1e1e', faint: '#999' },
  transparent: { ink: '#111', paper: 'none', faint: '#777' },
};

/**
 * The drawing as SVG: one text, nothing fetched from elsewhere. Every colour is a custom property
 * (`--setwright-ink`, `--setwright-paper`, `--setwright-faint`), so that a page may restyle it.
 */
export function sceneToSvg(scene: Scene, options: SvgOptions = {}): string {
  const { theme = 'light', symbols = 'modern', lit } = options;
  const dim = (name: string, set: ReadonlySet<string> | undefined): string =>
    lit && !set?.has(name) ? ' dimmed' : '';
  const { ink, paper, faint } = colours[theme];
  const style = `
.setwright{--ink:var(--setwright-ink,${ink});--paper:var(--setwright-paper,${paper});--faint:var(--setwright-faint,${faint});font-family:Helvetica,Arial,"Liberation Sans",sans-serif}
.setwright .paper{fill:var(--paper)}
.setwright .stroke,.setwright .wire,.setwright .rail-mark,.setwright .arm{fill:none;stroke:var(--ink);stroke-width:1.4;stroke-linecap:round;stroke-linejoin:round}
.setwright .solid{fill:var(--ink)}
.setwright .dashed{stroke-dasharray:4 3}
.setwright .terminal .stroke{fill:${paper === 'none' ? '#fff' : 'var(--paper)'}}
.setwright .dot{fill:var(--ink)}
.setwright .outline{fill:none;stroke:var(--faint);stroke-width:1}
.setwright .in-the-air .stroke{stroke:var(--faint)}
.setwright text{fill:var(--ink);white-space:pre}
.setwright .dimmed{opacity:.25}
.setwright .name{font-weight:bold}
.setwright .value{font-style:italic}`;
  const out: string[] = [
    `<svg xmlns="http://www.w3.org/2000/svg" class="setwright" role="img" aria-labelledby="setwright-title setwright-desc" viewBox="0 0 ${scene.width} ${scene.height}" width="${scene.width}" height="${scene.height}">`,
    `<title id="setwright-title">${escapeXml(scene.title)}</title>`,
    `<desc id="setwright-desc">${escapeXml(scene.description)}</desc>`,
    `<style>${style}\n</style>`,
    `<rect class="paper" width="100%" height="100%"/>`,
  ];
  for (const { kind, points } of scene.ornaments) out.push(ornament(kind, points));
  for (const { net, points } of scene.wires) {
    out.push(
      `<path class="wire${dim(net, lit?.nets)}" data-net="${escapeXml(net)}" d="${symbols === 'period' ? hopping(points, net, scene) : run(points)}"/>`,
    );
  }
  for (const { net, at } of scene.dots) {
    out.push(
      `<circle class="dot${dim(net, lit?.nets)}" data-net="${escapeXml(net)}" cx="${number(at.x)}" cy="${number(at.y)}" r="2.8"/>`,
    );
  }
  for (const mark of scene.marks) out.push(railMark(mark, dim(mark.net, lit?.nets)));
  for (const symbol of scene.symbols) {
    out.push(symbolGroup(symbol, symbols, dim(symbol.part, lit?.parts)));
  }
  for (const label of scene.labels) {
    const { part } = label;
    out.push(text(label, part === undefined ? '' : dim(part, lit?.parts)));
  }
  out.push('</svg>');
  return `${out.filter((line) => line !== '').join('\n')}\n`;
}

const number = (value: number): string => `${Math.round(value * 100) / 100}`;
const run = (points: readonly Point[]): string =>
  points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${number(x)} ${number(y)}`).join('');

/** A level wire with a hop over every upright one of another junction that it crosses. */
function hopping(points: readonly Point[], net: string, scene: Scene): string {
  const [from, to] = points;
  if (points.length !== 2 || !from || !to || from.y !== to.y) return run(points);
  const hops = scene.wires
    .filter((other) => {
      const [a, b] = other.points;
      return (
        other.net !== net &&
        a !== undefined &&
        b !== undefined &&
        a.x === b.x &&
        a.x > from.x + 5 &&
        a.x < to.x - 5 &&
        Math.min(a.y, b.y) < from.y &&
        Math.max(a.y, b.y) > from.y
      );
    })
    .map((other) => other.points[0]?.x ?? 0)
    .sort((a, b) => a - b)
    .filter((x, index, all) => index === 0 || x - (all[index - 1] ?? 0) > 10);
  const arcs = hops.map((x) => `H${number(x - 5)}a5 5 0 0 1 10 0`).join('');
  return `M${number(from.x)} ${number(from.y)}${arcs}H${number(to.x)}`;
}

function symbolGroup(placed: PlacedSymbol, style: SymbolStyle, dimmed: string): string {
  const { at, turns, flipped, symbol } = placed;
  const strokes = symbolStrokes(symbol, style)
    .map(({ d, solid, dashed }) => {
      const classes = ['stroke', ...(solid ? ['solid'] : []), ...(dashed ? ['dashed'] : [])];
      return `<path class="${classes.join(' ')}" d="${d}"/>`;
    })
    .join('');
  const moves = [
    `translate(${number(at.x)} ${number(at.y)})`,
    ...(turns ? [`rotate(${turns * 90})`] : []),
    ...(flipped ? ['scale(1 -1)'] : []),
  ].join(' ');
  const kind = `part ${symbol}${placed.inTheAir ? ' in-the-air' : ''}${dimmed}`;
  const name = escapeXml(placed.part);
  return `<g class="${kind}" data-part="${name}" transform="${moves}"><title>${name}</title>${strokes}</g>`;
}

function railMark({ shape, at, net }: RailMark, dimmed: string): string {
  const { x, y } = at;
  const paths: Record<RailMark['shape'], string> = {
    ground: `M${x} ${y}V${y + 6}M${x - 12} ${y + 6}H${x + 12}M${x - 8} ${y + 11}H${x + 8}M${x - 4} ${y + 16}H${x + 4}`,
    'bar-down': `M${x} ${y}V${y + 5}M${x - 7} ${y + 5}H${x + 7}`,
    'bar-up': `M${x} ${y}V${y - 5}M${x - 7} ${y - 5}H${x + 7}`,
    'bar-right': `M${x} ${y}H${x + 5}M${x + 5} ${y - 5}V${y + 5}`,
    'bar-left': `M${x} ${y}H${x - 5}M${x - 5} ${y - 5}V${y + 5}`,
    none: '',
  };
  const d = paths[shape];
  return d === '' ? '' : `<path class="rail-mark${dimmed}" data-net="${escapeXml(net)}" d="${d}"/>`;
}

function ornament(kind: string, points: readonly Point[]): string {
  const [from, to] = [points[0], points.at(-1)];
  if (kind !== 'arrow' || !from || !to) return `<path class="${kind}" d="${run(points)}"/>`;
  const length = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  const [ux, uy] = [(to.x - from.x) / length, (to.y - from.y) / length];
  const barb = (side: number): Point => ({
    x: to.x - 8 * ux - side * 3.5 * uy,
    y: to.y - 8 * uy + side * 3.5 * ux,
  });
  return `<path class="arm" d="${run(points)}"/><path class="arm solid" d="${run([to, barb(1), barb(-1)])}Z"/>`;
}

function text({ text: words, style, at, part }: Label, dimmed: string): string {
  const who = part === undefined ? '' : ` data-part="${escapeXml(part)}"`;
  return `<text class="${style}${dimmed}"${who} x="${number(at.x)}" y="${number(at.y)}" font-size="${letterSize[style]}">${escapeXml(words)}</text>`;
}
