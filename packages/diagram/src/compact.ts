import type { Cell } from './cell.ts';
import type { Box, Point } from './scene.ts';

/** A run of wire between two cells, from the inner wiring of one to that of the other. */
export interface Run {
  readonly net: number;
  /** Indices of the cells that it leaves and enters. */
  readonly from: number;
  readonly to: number;
  readonly points: readonly Point[];
  /** The least lengths of its first and its last piece. */
  readonly rooms: readonly [number, number];
}

/** Something that keeps its distance from others. */
interface Block extends Box {
  readonly kind: 'wire' | 'symbol' | 'text';
  /** The junction of a wire; -1 where there is none. */
  readonly net: number;
}

/** What moves as one: a cell with all that is in it, or an upright piece of a run. */
type Body = readonly Block[];

/** How far one thing must at least be moved after another; both move by multiples of `grid`. */
interface Distance {
  readonly before: number;
  readonly after: number;
  readonly least: number;
}

const grid = 5;
/** Things closer to one level than this count as standing side by side. */
const air = 5;
const endless = 1e6;

/** Clear paper between two kinds of things, side by side. */
const gaps: Readonly<Record<Block['kind'], Readonly<Record<Block['kind'], number>>>> = {
  wire: { wire: 10, symbol: 10, text: 7 },
  symbol: { wire: 10, symbol: 14, text: 8 },
  text: { wire: 7, symbol: 8, text: 10 },
};

/**
 * Moves everything in a row to the left as far as nothing comes too near to anything else. The
 * order of things side by side stays as it was, so no wire crosses what it did not cross before;
 * nothing moves up or down.
 *
 * @param sequence pairs of cells of which the second stands to the right of the first, whatever
 * their heights, if that can be
 */
export function drawTogether(
  cells: readonly Cell[],
  offsets: readonly Point[],
  runs: readonly Run[],
  sequence: readonly (readonly [number, number])[] = [],
): { offsets: Point[]; runs: Run[] } {
  const bodies: Body[] = cells.map((cell, index) =>
    blocksOf(cell, offsets[index] ?? { x: 0, y: 0 }),
  );
  const touching: Distance[] = [];
  // Which body each point of each run belongs to.
  const owners = runs.map(({ net, from, to, points, rooms }) => {
    const own = points.map((_, index) =>
      index === 0 ? from : index === points.length - 1 ? to : -1,
    );
    for (const [index, point] of points.entries()) {
      const next = points[index + 1];
      if (!next || next.x !== point.x || next.y === point.y) continue;
      if (own[index] !== -1 || own[index + 1] !== -1) continue;
      own[index] = bodies.length;
      own[index + 1] = bodies.length;
      bodies.push([
        {
          kind: 'wire',
          net,
          left: point.x,
          right: point.x,
          top: Math.min(point.y, next.y),
          bottom: Math.max(point.y, next.y),
        },
      ]);
    }
    for (const [index, end] of [...points.entries()].filter(
      (_, at, all) => at % (all.length - 1) === 0,
    )) {
      const body = own[index];
      if (body === undefined || body < 0) continue;
      bodies[body] = [
        ...(bodies[body] ?? []),
        { kind: 'wire', net, left: end.x, right: end.x, top: end.y, bottom: end.y },
      ];
    }
    for (const [index, point] of points.entries()) {
      const next = points[index + 1];
      const [one, other] = [own[index], own[index + 1]];
      if (!next || one === undefined || other === undefined || one === other) continue;
      const length = next.x - point.x;
      const room = Math.max(
        10,
        index === 0 ? rooms[0] : 0,
        index === points.length - 2 ? rooms[1] : 0,
      );
      const least = Math.min(Math.abs(length), room) - Math.abs(length);
      touching.push(
        length >= 0 ? { before: one, after: other, least } : { before: other, after: one, least },
      );
    }
    return own;
  });
  const wanted = [...touching, ...distances(bodies)].map((each) => ({
    ...each,
    least: onGrid(each.least),
  }));
  const ordered = [...wanted, ...sequence.map(([before, after]) => passed(bodies, before, after))];
  const [moves, kept] = tryLeft(bodies, ordered) ??
    tryLeft(bodies, wanted) ?? [bodies.map(() => 0), wanted];
  drawAfter(bodies, kept, touching, moves);
  for (const [which, run] of runs.entries()) {
    straighten(bodies, kept, moves, run, owners[which] ?? [], cells);
  }
  return {
    offsets: offsets.map(({ x, y }, index) => ({ x: x + (moves[index] ?? 0), y })),
    runs: runs.map((run, which) => ({
      ...run,
      points: cornersOf(
        run.points.map(({ x, y }, index) => ({
          x: x + (moves[owners[which]?.[index] ?? -1] ?? 0),
          y,
        })),
      ),
    })),
  };
}

/** A run without the points that it passes straight on. */
export function cornersOf(points: readonly Point[]): Point[] {
  return points
    .filter(({ x, y }, index) => {
      const last = points[index - 1];
      return !last || last.x !== x || last.y !== y;
    })
    .filter((at, index, all) => {
      const [last, next] = [all[index - 1], all[index + 1]];
      if (!last || !next) return true;
      return !((last.x === at.x && at.x === next.x) || (last.y === at.y && at.y === next.y));
    });
}

/**
 * A run that leaves one cell downwards, steps a little to the right and enters the next from above
 * goes straight down, where the first cell can be moved over without moving the second.
 */
function straighten(
  bodies: readonly Body[],
  wanted: readonly Distance[],
  moves: number[],
  run: Run,
  owners: readonly number[],
  cells: readonly Cell[],
): void {
  const [start, , , end] = run.points;
  const step = owners[1];
  if (run.points.length !== 4 || !start || !end || step === undefined) return;
  if (cells[run.from]?.kind !== 'winding' || cells[run.to]?.kind !== 'tube') return;
  const by = end.x + (moves[run.to] ?? 0) - start.x - (moves[run.from] ?? 0);
  if (by <= 0 || by > 60) return;
  const moved = [...moves];
  moved[run.from] = (moves[run.from] ?? 0) + by;
  const pushed = new Set([run.from]);
  const others = wanted.filter(({ before, after }) => before !== step && after !== step);
  for (let round = 0; round <= bodies.length; round++) {
    let grew = false;
    for (const { before, after, least } of others) {
      const needed = (moved[before] ?? 0) + least;
      if (needed <= (moved[after] ?? 0)) continue;
      moved[after] = needed;
      pushed.add(after);
      grew = true;
    }
    if (!grew) break;
  }
  const isPath = (index: number): boolean =>
    index === run.to || ['tube', 'coil'].includes(cells[index]?.kind ?? '');
  if ([...pushed].some((index) => isPath(index) || index >= cells.length)) return;
  const upright = bodies[step]?.[0];
  const x = end.x + (moves[run.to] ?? 0);
  // The straight piece keeps clear of all that it passes.
  const isNear = upright
    ? bodies.some(
        (body, index) =>
          index !== step &&
          index !== run.from &&
          index !== run.to &&
          body.some(
            (block) =>
              block.top < upright.bottom &&
              block.bottom > upright.top &&
              block.left + (moved[index] ?? 0) < x + 8 &&
              block.right + (moved[index] ?? 0) > x - 8,
          ),
      )
    : true;
  if (isNear) return;
  for (const index of pushed) moves[index] = moved[index] ?? 0;
  moves[step] = x - (upright?.left ?? 0);
}

/** All that a cell holds, where it stands; rails run out of it to the edge of the row. */
function blocksOf(cell: Cell, { x, y }: Point): Block[] {
  const moved = (kind: Block['kind'], net: number, box: Box): Block => ({
    kind,
    net,
    left: box.left + x,
    right: box.right + x,
    top: box.top + y,
    bottom: box.bottom + y,
  });
  const pieces = (net: number, points: readonly Point[]): Block[] =>
    points.slice(1).map((to, index) => moved('wire', net, around(points[index] ?? to, to)));
  return [
    ...cell.symbols.map(({ box }) => moved('symbol', -1, box)),
    ...cell.labels.map(({ box }) => moved('text', -1, box)),
    ...cell.marks.map(({ box }) => moved('text', -1, box)),
    ...cell.wires.flatMap(({ net, points }) => pieces(net, points)),
    ...cell.ornaments.flatMap(({ points }) => pieces(-1, points)),
    ...cell.drops.map(({ net, at, up }) =>
      moved('wire', net, around(at, { x: at.x, y: up ? -endless : endless })),
    ),
  ];
}

const around = (a: Point, b: Point): Box => ({
  left: Math.min(a.x, b.x),
  right: Math.max(a.x, b.x),
  top: Math.min(a.y, b.y),
  bottom: Math.max(a.y, b.y),
});

/** How much room two things side by side want between them. */
function gapOf(a: Block, b: Block): number {
  if (a.kind !== 'wire' || b.kind !== 'wire' || a.net !== b.net) return gaps[a.kind][b.kind];
  // Wires of one junction may meet, but two that run side by side look like two.
  return a.top < a.bottom && b.top < b.bottom ? 10 : 0;
}

/** Whatever stands side by side stays so, and in that order. */
function distances(bodies: readonly Body[]): Distance[] {
  const found: Distance[] = [];
  for (let one = 0; one < bodies.length; one++) {
    for (let other = one + 1; other < bodies.length; other++) {
      const forward = leastMove(bodies[one] ?? [], bodies[other] ?? []);
      if (forward !== undefined) found.push({ before: one, after: other, least: forward });
      const back = leastMove(bodies[other] ?? [], bodies[one] ?? []);
      if (back !== undefined) found.push({ before: other, after: one, least: back });
    }
  }
  return found;
}

/** The least that `right` must move after `left`, from what of it stands to the right of that. */
function leastMove(left: Body, right: Body): number | undefined {
  let least: number | undefined;
  for (const a of left) {
    for (const b of right) {
      if (a.right > b.left || a.top > b.bottom + air || b.top > a.bottom + air) continue;
      const now = b.left - a.right;
      const move = Math.min(gapOf(a, b), now) - now;
      if (least === undefined || move > least) least = move;
    }
  }
  return least;
}

/** How far a cell must move to stand wholly to the right of another. */
function passed(bodies: readonly Body[], before: number, after: number): Distance {
  const right = Math.max(...(bodies[before] ?? []).map((block) => block.right));
  const left = Math.min(...(bodies[after] ?? []).map((block) => block.left));
  return { before, after, least: onGrid(right + 10 - left) };
}

/** The smallest moves that keep every distance; undefined where they contradict one another. */
function tryLeft(
  bodies: readonly Body[],
  wanted: readonly Distance[],
): [number[], readonly Distance[]] | undefined {
  const lefts = bodies.map((body) => Math.min(...body.map(({ left }) => left)));
  const edge = Math.min(...lefts);
  const moves = lefts.map((left) => (Number.isFinite(left) ? onGrid(edge - left) : 0));
  for (let round = 0; round <= bodies.length; round++) {
    let moved = false;
    for (const { before, after, least } of wanted) {
      const needed = (moves[before] ?? 0) + least;
      if (needed <= (moves[after] ?? 0)) continue;
      moves[after] = needed;
      moved = true;
    }
    if (!moved) return [moves, wanted];
  }
  return undefined;
}

/** What more wires lead on to the right than to the left follows them, as far as it may. */
function drawAfter(
  bodies: readonly Body[],
  wanted: readonly Distance[],
  touching: readonly Distance[],
  moves: number[],
): void {
  const pull = bodies.map(() => 0);
  for (const { before, after } of touching) {
    pull[before] = (pull[before] ?? 0) + 1;
    pull[after] = (pull[after] ?? 0) - 1;
  }
  const place = (index: number): number =>
    Math.max(...(bodies[index] ?? []).map(({ right }) => right)) + (moves[index] ?? 0);
  const order = [...bodies.keys()]
    .filter((index) => (pull[index] ?? 0) > 0)
    .sort((a, b) => place(b) - place(a));
  for (const index of order) {
    const group = new Set([index]);
    let force = pull[index] ?? 0;
    // What stands in the way comes along as long as the group as a whole is drawn to the right.
    while (force > 0) {
      const { room, inTheWay } = roomAfter(group, wanted, moves);
      if (inTheWay.length > 0) {
        for (const other of inTheWay) {
          group.add(other);
          force += pull[other] ?? 0;
        }
      } else if (Number.isFinite(room)) {
        for (const member of group) moves[member] = (moves[member] ?? 0) + room;
      } else break;
    }
  }
}

/** How far a group may move, and what hinders it from moving at all. */
function roomAfter(
  group: ReadonlySet<number>,
  wanted: readonly Distance[],
  moves: readonly number[],
): { room: number; inTheWay: number[] } {
  let room = Number.POSITIVE_INFINITY;
  const inTheWay = new Set<number>();
  for (const { before, after, least } of wanted) {
    if (!group.has(before) || group.has(after)) continue;
    const slack = (moves[after] ?? 0) - least - (moves[before] ?? 0);
    if (slack <= 0) inTheWay.add(after);
    else room = Math.min(room, slack);
  }
  return { room, inTheWay: [...inTheWay] };
}

/** Rounded up, towards where it stood. */
const onGrid = (move: number): number => Math.ceil(move / grid) * grid + 0;
