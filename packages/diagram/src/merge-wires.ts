import type { Wire } from './scene.ts';

interface Piece {
  readonly fixed: number;
  low: number;
  high: number;
}

/**
 * The same wires as straight pieces, each as long as it runs: pieces of one junction that lie on
 * one line and touch become one. Where a junction crosses itself it is joined there: the upright
 * piece ends at the level one. Pieces that are neither level nor upright stay as they are.
 */
export function mergeWires(wires: readonly Wire[]): Wire[] {
  const byNet = new Map<string, { level: Piece[]; upright: Piece[]; rest: Wire[] }>();
  for (const { net, points } of wires) {
    const own = byNet.get(net) ?? { level: [], upright: [], rest: [] };
    byNet.set(net, own);
    for (let index = 1; index < points.length; index++) {
      const [from, to] = [points[index - 1], points[index]];
      if (!from || !to || (from.x === to.x && from.y === to.y)) continue;
      if (from.y === to.y) {
        own.level.push({
          fixed: from.y,
          low: Math.min(from.x, to.x),
          high: Math.max(from.x, to.x),
        });
      } else if (from.x === to.x) {
        const [low, high] = [Math.min(from.y, to.y), Math.max(from.y, to.y)];
        own.upright.push({ fixed: from.x, low, high });
      } else own.rest.push({ net, points: [from, to] });
    }
  }
  return [...byNet].flatMap(([net, { level, upright, rest }]) => {
    const levels = joined(level);
    const uprights = joined(upright).flatMap((piece) => splitAt(piece, levels));
    return [
      ...levels.map(({ fixed, low, high }) => ({
        net,
        points: [
          { x: low, y: fixed },
          { x: high, y: fixed },
        ],
      })),
      ...uprights.map(({ fixed, low, high }) => ({
        net,
        points: [
          { x: fixed, y: low },
          { x: fixed, y: high },
        ],
      })),
      ...rest,
    ];
  });
}

/** An upright piece in parts, parted wherever a level piece runs across it. */
function splitAt(piece: Piece, levels: readonly Piece[]): Piece[] {
  const cuts = levels
    .filter(({ fixed, low, high }) => {
      const across = low < piece.fixed && piece.fixed < high;
      return across && piece.low < fixed && fixed < piece.high;
    })
    .map(({ fixed }) => fixed)
    .sort((a, b) => a - b);
  const edges = [piece.low, ...cuts, piece.high];
  return edges
    .slice(1)
    .map((high, index) => ({ fixed: piece.fixed, low: edges[index] ?? high, high }));
}

function joined(pieces: readonly Piece[]): Piece[] {
  const sorted = [...pieces].sort((a, b) => a.fixed - b.fixed || a.low - b.low || a.high - b.high);
  const out: Piece[] = [];
  for (const piece of sorted) {
    const last = out.at(-1);
    if (last && last.fixed === piece.fixed && piece.low <= last.high) {
      last.high = Math.max(last.high, piece.high);
    } else out.push({ ...piece });
  }
  return out;
}
