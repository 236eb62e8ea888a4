import { escapeXml } from './escape.ts';
import type { Box, Point } from './scene.ts';
import { lineOfLetters } from './svg-letters.ts';
import { decimal, pathData } from './svg-numbers.ts';
import { headData } from './svg-shapes.ts';
import { textWidth } from './text-width.ts';
import type { Badge } from './views/badges.ts';
import type { DrawnPath } from './views/drawn-paths.ts';
import type { PathKind } from './views/overlay.ts';
import { straightened } from './views/roads.ts';
import type { StageArea } from './views/stage-areas.ts';

/** The shaded piece of a stage. */
export function areaShape({ stage, outlines }: StageArea): string {
  const d = outlines.map((points) => `${pathData(points)}Z`).join('');
  return `<path class="area" data-stage="${escapeXml(stage)}" fill-rule="evenodd" d="${d}"/>`;
}

/** Where two kinds of path share a wire their lines run side by side, this far off its middle. */
const ASIDE = 2.4;

/**
 * The paths of an overlay in two layers: lines below the symbols, heads and stops above them. Each
 * piece says its path and its step in `data-path` and `data-step`, for pages that let it run.
 */
export function pathShapes(
  paths: readonly DrawnPath[],
  wireOf: (points: readonly Point[]) => string,
): { readonly lines: readonly string[]; readonly heads: readonly string[] } {
  const asideOf = sharedWires(paths);
  const afresh = drawnOnce();
  const lines: string[] = [];
  const heads: string[] = [];
  const stood: { readonly kind: PathKind; readonly at: Point; readonly towards: string }[] = [];
  for (const [index, { kind, heading, pieces, stoppedAt }] of paths.entries()) {
    const drawn = pieces.flatMap((piece) =>
      afresh(kind, piece.points).map((points) => ({ ...piece, points: asideOf(kind, points) })),
    );
    lines.push(
      `<g data-path="${index + 1}"><title>${escapeXml(heading)}</title>`,
      ...drawn.map(({ step, by, points }) => {
        const d = by === 'wire' ? wireOf(points) : pathData(points);
        const field = by === 'field' ? ' field' : '';
        return `<path class="path ${kind}${field}" data-step="${step}" d="${d}"/>`;
      }),
      '</g>',
    );
    const own = drawn.flatMap(({ step, by, points }) =>
      by === 'part'
        ? []
        : headsOn(points, by === 'field').flatMap(({ from, to }) => {
            const towards = `${Math.sign(to.x - from.x)} ${Math.sign(to.y - from.y)}`;
            // Paths that share a wire share its arrows.
            const isThere = stood.some(
              (other) =>
                other.kind === kind &&
                other.towards === towards &&
                Math.hypot(other.at.x - to.x, other.at.y - to.y) < SHARED,
            );
            if (isThere) return [];
            stood.push({ kind, at: to, towards });
            const d = headData(from, to, 11, 5);
            return [`<path class="head ${kind}" data-step="${step}" d="${d}"/>`];
          }),
    );
    if (stoppedAt) own.push(crossAt(stoppedAt, 7));
    if (own.length > 0) heads.push(`<g data-path="${index + 1}">`, ...own, '</g>');
  }
  return { lines, heads };
}

const edgeOf = (a: Point, b: Point): string => [`${a.x} ${a.y}`, `${b.x} ${b.y}`].sort().join(' ');

/**
 * Of a run the pieces that no path of its kind has been drawn on before: dashes on dashes would
 * fill one another's gaps.
 */
function drawnOnce(): (kind: PathKind, points: readonly Point[]) => readonly (readonly Point[])[] {
  const drawn = new Set<string>();
  return (kind, points) => {
    const runs: Point[][] = [];
    let goesOn = false;
    for (const [index, b] of points.entries()) {
      const a = points[index - 1];
      if (!a) continue;
      const key = `${kind} ${edgeOf(a, b)}`;
      const isNew = !drawn.has(key);
      drawn.add(key);
      if (isNew && goesOn) runs.at(-1)?.push(b);
      else if (isNew) runs.push([a, b]);
      goesOn = isNew;
    }
    return runs;
  };
}

/** Sets a path aside where another kind runs on the same wire; both shift, each its own way. */
function sharedWires(
  paths: readonly DrawnPath[],
): (kind: PathKind, points: readonly Point[]) => readonly Point[] {
  const kinds = [...new Set(paths.map(({ kind }) => kind))];
  const users = new Map<string, Set<PathKind>>();
  for (const { kind, pieces } of paths) {
    for (const { points } of pieces) {
      for (const [index, b] of points.entries()) {
        const a = points[index - 1];
        if (!a) continue;
        const key = edgeOf(a, b);
        users.set(key, (users.get(key) ?? new Set()).add(kind));
      }
    }
  }
  return (kind, points) => {
    if (kinds.length < 2) return straightened(points);
    const by = kind === kinds[0] ? -ASIDE : ASIDE;
    const moved = points.flatMap((b, index) => {
      const a = points[index - 1];
      if (!a) return [];
      const off = (users.get(edgeOf(a, b))?.size ?? 1) > 1 ? by : 0;
      return [a, b].map(({ x, y }) => ({ x: x + off, y: y + off }));
    });
    return straightened(
      moved.filter((at, index) => at.x !== moved[index - 1]?.x || at.y !== moved[index - 1]?.y),
    );
  };
}

/** Arrow heads of one kind and direction that lie nearer than this are one. */
const SHARED = 60;
/** A straight piece shorter than this bears no head. */
const SHORTEST = 26;
/** From one head to the next on a long piece. */
const EVERY = 260;

/** Heads in the middle of every straight piece that is long enough, one at least for each run. */
function headsOn(points: readonly Point[], atEnd: boolean): { from: Point; to: Point }[] {
  const pieces = points.slice(1).map((to, index) => {
    const from = points[index] ?? to;
    return { from, to, length: Math.hypot(to.x - from.x, to.y - from.y) };
  });
  if (atEnd) return pieces.slice(-1).map(({ from, to }) => ({ from, to: part(from, to, 0.72) }));
  return pieces.flatMap(({ from, to, length }) => {
    if (length < SHORTEST) return [];
    const count = Math.max(1, Math.round(length / EVERY));
    return Array.from({ length: count }, (_, index) => {
      const share = (index + 0.5) / count + 5.5 / length;
      return { from, to: part(from, to, Math.min(1, share)) };
    });
  });
}

const part = (from: Point, to: Point, share: number): Point => ({
  x: from.x + (to.x - from.x) * share,
  y: from.y + (to.y - from.y) * share,
});

function crossAt({ x, y }: Point, half: number): string {
  return `<path class="failed" d="M${decimal(x - half)} ${decimal(y - half)}l${2 * half} ${2 * half}m0 ${-2 * half}l${-2 * half} ${2 * half}"/>`;
}

/** Half the height of the cross over a symbol: as the narrower of its sides, off the words beside. */
export function crossHalf({ left, top, right, bottom }: Box): number {
  return Math.min(19, Math.max(6, Math.min(right - left, bottom - top) * 0.4));
}

/** A cross over what failed; a letter in a ring at what changed. */
export function badgeShape({ kind, at, box, letter, words }: Badge, asOutlines: boolean): string {
  if (kind === 'failed') {
    return `<g class="badge"><title>${escapeXml(words)}</title>${crossAt(at, crossHalf(box))}</g>`;
  }
  const width = textWidth(letter, 'sign');
  const half = Math.max(8, width / 2 + 4);
  const ring = `<rect class="changed" x="${decimal(at.x - half)}" y="${decimal(at.y - 8)}" width="${decimal(2 * half)}" height="16" rx="8"/>`;
  const written = lineOfLetters(
    {
      text: letter,
      x: at.x - width / 2,
      y: at.y + 4.2,
      size: 12,
      face: 'bold',
      classes: 'letter',
    },
    asOutlines,
  );
  return `<g class="badge"><title>${escapeXml(`${letter}: ${words}`)}</title>${ring}${written}</g>`;
}
