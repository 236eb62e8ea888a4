import { escapeXml } from './escape.ts';
import type { PlacedSymbol, Point, Scene } from './scene.ts';
import { areaShape, badgeShape, pathShapes } from './svg-dressing.ts';
import { labelLetters } from './svg-letters.ts';
import { scopeOf, styleSheet, type Theme } from './svg-look.ts';
import { markShape } from './svg-marks.ts';
import { pathData } from './svg-numbers.ts';
import { crossings, ornamentShape, railShape, symbolShapes, wireData } from './svg-shapes.ts';
import type { SymbolStyle } from './symbols.ts';
import { type Dressing, type DressingOptions, dress } from './views/dressing.ts';
import { straightened } from './views/roads.ts';

/** How a scene is to be written, and what is drawn over it. */
export interface SvgOptions extends DressingOptions {
  readonly theme?: Theme;
  readonly symbols?: SymbolStyle;
  /**
   * `screen` (where not given) is for a page: letters are text, colours are custom properties.
   * `file` stands by itself: colours are baked in and letters are outlines, the same everywhere.
   */
  readonly use?: 'screen' | 'file';
  /** What the ids of title and description begin with, where several drawings share a page. */
  readonly id?: string;
}

/**
 * The drawing as SVG: one text, nothing fetched from elsewhere. Every symbol group says its part in
 * `data-part`, every wire its junction in `data-net`. Nothing moves for what is drawn over it.
 */
export function sceneToSvg(scene: Scene, options: SvgOptions = {}): string {
  const { theme = 'light', use = 'screen', id = 'setwright', overlay } = options;
  const { width, height } = scene;
  const view = overlay && overlay.id !== 'whole' ? ` ${overlay.title}.` : '';
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" class="setwright ${scopeOf(theme, use === 'file')}" role="graphics-document document" aria-roledescription="schematic" aria-labelledby="${escapeXml(id)}-title ${escapeXml(id)}-desc" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}">`,
    `<title id="${escapeXml(id)}-title">${escapeXml(scene.title)}</title>`,
    `<desc id="${escapeXml(id)}-desc">${escapeXml(`${scene.description}${view}`)}</desc>`,
    `<style>\n${styleSheet(theme, use === 'file')}\n</style>`,
    '<rect class="paper" width="100%" height="100%"/>',
    ...drawingShapes(scene, dress(scene, options), options),
    '</svg>',
  ].join('\n')}\n`;
}

/** Everything on the paper, in the order in which it is drawn: shading, wires, paths, symbols. */
export function drawingShapes(
  scene: Scene,
  dressing: Dressing,
  { symbols: style = 'modern', use = 'screen' }: SvgOptions,
): string[] {
  const asOutlines = use === 'file';
  const { isLit, dims } = dressing;
  const dim = (lit: boolean): string => (dims && !lit ? ' dimmed' : '');
  const across = style === 'period' ? crossings(scene.wires) : undefined;
  const wireOf = (points: readonly Point[]): string =>
    across ? wireData(points, across) : pathData(points);
  const { lines, heads } = pathShapes(dressing.paths, wireOf);
  const hidden = (shapes: readonly string[]): string[] =>
    shapes.length === 0 ? [] : ['<g aria-hidden="true">', ...shapes, '</g>'];
  return [
    ...hidden([
      ...dressing.areas.map(areaShape),
      ...scene.ornaments.map((each) => ornamentShape(each, dim(isLit.ornament(each)))),
      ...scene.wires.map(
        ({ net, points }) =>
          `<path class="wire${dim(false)}" data-net="${escapeXml(net)}" d="${wireOf(points)}"/>`,
      ),
      ...dressing.litRuns.map(
        (points) => `<path class="wire lit" d="${wireOf(straightened(points))}"/>`,
      ),
      ...dressing.marks.runs.map(
        ({ kind, points }) =>
          `<path class="mark-run ${kind}" d="${wireOf(straightened(points))}"/>`,
      ),
    ]),
    ...lines,
    ...hidden([
      ...scene.dots.map((dot) => dotShape(dot.net, dot.at, dim(isLit.dot(dot)))),
      ...scene.marks.map((mark) => railShape(mark, dim(isLit.mark(mark)))),
    ]),
    ...scene.symbols.map((each) =>
      symbolShapes(
        each,
        style,
        wordsOf(scene, each),
        dim(isLit.symbol(each)) + (dressing.marks.gone.has(each) ? ' gone' : ''),
      ),
    ),
    ...hidden([
      ...heads,
      ...scene.labels.map((each) => labelLetters(each, dim(isLit.label(each)), asOutlines)),
      ...dressing.leaders.map(
        ({ from, to, isChange }) =>
          `<path class="leader${isChange ? ' change-leader' : ''}" d="${pathData([from, to])}"/>`,
      ),
      ...dressing.labels.map((each) => labelLetters(each, '', asOutlines)),
    ]),
    ...dressing.badges.map((badge) => badgeShape(badge, asOutlines)),
    ...dressing.marks.marks.map((mark) => markShape(mark, asOutlines)),
  ].filter((line) => line !== '');
}

function dotShape(net: string, { x, y }: Point, dimmed: string): string {
  return `<circle class="dot${dimmed}" data-net="${escapeXml(net)}" cx="${x}" cy="${y}" r="2.8"/>`;
}

/** A symbol in plain words: its part's, or what of its part it is. */
function wordsOf({ spoken }: Scene, { part, symbol, pins }: PlacedSymbol): string {
  const words = spoken[part] ?? part;
  if (symbol === 'filament') return `filament of ${words}`;
  const end = pins[0]?.end;
  const own = end?.startsWith(`${part}.`) ? end.slice(part.length + 1) : undefined;
  return symbol === 'terminal' && own ? `terminal ${own} of ${words}` : words;
}
