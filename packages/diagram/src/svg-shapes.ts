import { escapeXml } from './escape.ts';
import type { Ornament, PlacedSymbol, Point, RailMark, Wire } from './scene.ts';
import { decimal, pathData } from './svg-numbers.ts';
import { type SymbolStyle, symbolStrokes } from './symbols.ts';

/** Half the width of a hop over a crossing wire. */
const HOP = 5;

/**
 * A run of wire as path data; in the period style its level pieces hop over every upright wire of
 * another junction that they cross.
 */
export function wireData(
  points: readonly Point[],
  crossing: (from: Point, to: Point) => readonly number[],
): string {
  let d = '';
  for (const [index, to] of points.entries()) {
    const from = points[index - 1];
    if (!from) {
      d += `M${decimal(to.x)} ${decimal(to.y)}`;
      continue;
    }
    const forward = to.x >= from.x;
    const hops = from.y === to.y ? [...crossing(from, to)].sort((a, b) => a - b) : [];
    if (!forward) hops.reverse();
    const side = forward ? 1 : -1;
    for (const x of hops)
      d += `H${decimal(x - side * HOP)}a${HOP} ${HOP} 0 0 ${forward ? 1 : 0} ${side * 2 * HOP} 0`;
    d += `L${decimal(to.x)} ${decimal(to.y)}`;
  }
  return d;
}

/** Where wires stand upright across a level piece, no two so near that their hops would meet. */
export function crossings(wires: readonly Wire[]): (from: Point, to: Point) => readonly number[] {
  const uprights = wires.flatMap(({ points }) =>
    points.slice(1).flatMap((b, index) => {
      const a = points[index];
      return a && a.x === b.x && a.y !== b.y
        ? [{ x: a.x, top: Math.min(a.y, b.y), bottom: Math.max(a.y, b.y) }]
        : [];
    }),
  );
  return (from, to) => {
    const [left, right] = [Math.min(from.x, to.x), Math.max(from.x, to.x)];
    return uprights
      .filter(
        ({ x, top, bottom }) =>
          x > left + HOP && x < right - HOP && top < from.y && bottom > from.y,
      )
      .map(({ x }) => x)
      .sort((a, b) => a - b)
      .filter((x, index, all) => index === 0 || x - (all[index - 1] ?? 0) > 2 * HOP);
  };
}

/** A part's symbol; `words` say it to those who hear the drawing. */
export function symbolShapes(
  placed: PlacedSymbol,
  style: SymbolStyle,
  words: string,
  dimmed: string,
): string {
  const { at, turns, flipped, symbol, part, pins, inTheAir } = placed;
  const strokes = symbolStrokes(symbol, style)
    .map(({ d, solid, dashed }) => {
      const classes = ['stroke', ...(solid ? ['solid'] : []), ...(dashed ? ['dashed'] : [])];
      return `<path class="${classes.join(' ')}" d="${d}"/>`;
    })
    .join('');
  const moves = [
    `translate(${decimal(at.x)} ${decimal(at.y)})`,
    ...(turns ? [`rotate(${turns * 90})`] : []),
    ...(flipped ? ['scale(1 -1)'] : []),
  ].join(' ');
  const kind = `part ${symbol}${inTheAir ? ' in-the-air' : ''}${dimmed}`;
  const who = `data-part="${escapeXml(part)}"`;
  // A name without strokes is there for tests and editors alone, a stud is told with its selector.
  if (strokes === '' || (symbol === 'terminal' && pins.length === 0))
    return `<g class="${kind}" ${who} transform="${moves}" aria-hidden="true">${strokes}</g>`;
  return `<g class="${kind}" ${who} role="graphics-symbol" transform="${moves}"><title>${escapeXml(words)}</title>${strokes}</g>`;
}

/** A rail's own symbol. */
export function railShape({ shape, at, net }: RailMark, dimmed: string): string {
  const [x, y] = [at.x, at.y];
  const to = (dx: number, dy: number): string => `${decimal(x + dx)} ${decimal(y + dy)}`;
  const paths: Record<RailMark['shape'], string> = {
    ground: `M${to(0, 0)}V${decimal(y + 6)}M${to(-12, 6)}h24M${to(-8, 11)}h16M${to(-4, 16)}h8`,
    'bar-down': `M${to(0, 0)}v5m-7 0h14`,
    'bar-up': `M${to(0, 0)}v-5m-7 0h14`,
    'bar-right': `M${to(0, 0)}h5m0 -5v10`,
    'bar-left': `M${to(0, 0)}h-5m0 -5v10`,
    none: '',
  };
  const d = paths[shape];
  return d === '' ? '' : `<path class="rail-mark${dimmed}" data-net="${escapeXml(net)}" d="${d}"/>`;
}

/** A line that is no wire. */
export function ornamentShape({ kind, points }: Ornament, dimmed: string): string {
  const [from, to] = [points.at(-2), points.at(-1)];
  if (kind === 'sense' && to)
    return `<circle class="sense${dimmed}" cx="${decimal(to.x)}" cy="${decimal(to.y)}" r="2"/>`;
  if (kind !== 'arrow' || !from || !to)
    return `<path class="${kind}${dimmed}" d="${pathData(points)}"/>`;
  return `<path class="arm${dimmed}" d="${pathData(points)}"/><path class="arm solid${dimmed}" d="${headData(from, to, 8, 3.5)}"/>`;
}

/** An arrow head whose point is at `to`, as path data. */
export function headData(from: Point, to: Point, length: number, half: number): string {
  const far = Math.hypot(to.x - from.x, to.y - from.y) || 1;
  const [ux, uy] = [(to.x - from.x) / far, (to.y - from.y) / far];
  const barb = (side: number): Point => ({
    x: to.x - length * ux - side * half * uy,
    y: to.y - length * uy + side * half * ux,
  });
  return `${pathData([to, barb(1), barb(-1)])}Z`;
}
