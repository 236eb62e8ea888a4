import type { Box, PlacedSymbol, Scene } from '../scene.ts';
import { around, type Paper } from './free-place.ts';

/** Where a part or terminal is on the drawing; a battery by each of its terminals. */
export function spotsOf({ symbols }: Scene, at: string): Box[] {
  const pins = symbols.flatMap((symbol) => symbol.pins.filter(({ end }) => end === at));
  const own = symbols.filter(({ part }) => part === at || part.startsWith(`${at}.`));
  if (own.length > 0) return own.filter(({ symbol }) => symbol !== 'name').map(({ box }) => box);
  return pins.slice(0, 1).map((pin) => around(pin.at, 4));
}

/** The side of a winding that is turned from its neighbour. */
export function outerSide({ symbols }: Scene, at: string): 'left' | 'right' {
  const symbol = symbols.find(({ part }) => part === at)?.symbol ?? '';
  return symbol.startsWith('winding') && symbol.endsWith('right') ? 'left' : 'right';
}

/** As `spotsOf`; of a terminal of the block the place where its wire leaves the block. */
export function figureSpots(scene: Scene, at: string): Box[] {
  const terminal = terminalOf(scene, at);
  if (!terminal) return spotsOf(scene, at);
  return [around({ x: blockEdge(scene, terminal) - 6, y: terminal.at.y }, 1)];
}

function terminalOf({ symbols }: Scene, at: string): PlacedSymbol | undefined {
  return symbols.find(
    ({ symbol, pins }) => symbol === 'terminal' && pins.some(({ end }) => end === at),
  );
}

/** The left side of the outline about a terminal; of one that stands alone, a little beside it. */
function blockEdge({ ornaments }: Scene, { at }: PlacedSymbol): number {
  const sides = ornaments.flatMap(({ kind, points }) => {
    const xs = points.map(({ x }) => x);
    const ys = points.map(({ y }) => y);
    const isAbout =
      kind === 'outline' &&
      Math.min(...xs) < at.x &&
      Math.max(...xs) > at.x &&
      Math.min(...ys) < at.y &&
      Math.max(...ys) > at.y;
    return isAbout ? [Math.min(...xs)] : [];
  });
  return Math.max(at.x - 40, ...sides);
}

/**
 * What belongs to a terminal stands over its wire, at the block; under it where that is taken, and
 * level with a terminal that has none.
 */
export function overWire(
  scene: Scene,
  at: string,
  { width, height }: { readonly width: number; readonly height: number },
  paper: Paper,
): Box | undefined {
  const terminal = terminalOf(scene, at);
  if (!terminal) return undefined;
  const right = blockEdge(scene, terminal) - 6;
  const { y } = terminal.at;
  const isWired = scene.wires.some(({ points }) =>
    points.some((to, index) => {
      const from = points[index - 1];
      return (
        from?.y === y &&
        to.y === y &&
        Math.min(from.x, to.x) < right &&
        Math.max(from.x, to.x) >= right
      );
    }),
  );
  return (isWired ? [y - 2 - height, y + 3] : [y - height / 2, y - 2 - height])
    .map((top) => ({ left: right - width, top, right, bottom: top + height }))
    .find((box) => paper.isFree(box));
}
