import type { Point, Scene } from './scene.ts';

const nearly = 0.01;

/** True when a point lies on the straight piece between two others, ends included. */
export function liesOn(point: Point, from: Point, to: Point): boolean {
  const cross = (to.x - from.x) * (point.y - from.y) - (to.y - from.y) * (point.x - from.x);
  if (Math.abs(cross) > nearly * Math.max(1, Math.abs(to.x - from.x) + Math.abs(to.y - from.y)))
    return false;
  return (
    point.x >= Math.min(from.x, to.x) - nearly &&
    point.x <= Math.max(from.x, to.x) + nearly &&
    point.y >= Math.min(from.y, to.y) - nearly &&
    point.y <= Math.max(from.y, to.y) + nearly
  );
}

/**
 * Rebuilds the junctions from what is on the paper alone, as `joinedEnds` does. Each set of ends
 * comes sorted, and so do the sets.
 */
export function readGeometry(scene: OnPaper): string[][] {
  return joinedEnds(scene)
    .map((set) => set.sort())
    .sort((a, b) => ((a[0] ?? '') < (b[0] ?? '') ? -1 : 1));
}

type OnPaper = Pick<Scene, 'symbols' | 'wires' | 'marks'>;

/**
 * The ends that are joined on the paper, as an eye reads it: wires that touch at an end or a bend
 * are joined, plain crossings are not, equal rail names are joined, and so are all ground symbols,
 * which say no name. The names that wires carry for editors are not looked at.
 */
export function joinedEnds(scene: OnPaper): string[][] {
  const parent: number[] = [];
  const fresh = (): number => parent.push(parent.length) - 1;
  const root = (index: number): number => {
    let at = index;
    while (parent[at] !== at) at = parent[at] ?? at;
    return at;
  };
  const join = (a: number, b: number): void => {
    parent[root(a)] = root(b);
  };
  const wires = scene.wires.map((wire) => ({ id: fresh(), points: wire.points }));
  const touches: { id: number; at: Point }[] = [];
  for (const wire of wires) for (const at of wire.points) touches.push({ id: wire.id, at });
  const pins: { id: number; end: string }[] = [];
  for (const symbol of scene.symbols) {
    for (const pin of symbol.pins) {
      const id = fresh();
      pins.push({ id, end: pin.end });
      touches.push({ id, at: pin.at });
    }
  }
  const rails = new Map<string, number>();
  const saying = (words: string): number => {
    const known = rails.get(words);
    if (known !== undefined) return known;
    const id = fresh();
    rails.set(words, id);
    return id;
  };
  for (const { net, shape, at } of scene.marks) {
    // No tap, bus or post has a space in its name.
    touches.push({ id: saying(shape === 'ground' ? 'the ground' : net), at });
  }
  const runs = straightRuns(wires);
  const byPlace = new Map<number, number>();
  for (const { id, at } of touches) {
    const key = Math.round(at.x * 20) * 2 ** 26 + Math.round(at.y * 20);
    const other = byPlace.get(key);
    if (other === undefined) byPlace.set(key, id);
    else join(id, other);
    runs(at, (run) => {
      if (run.id !== id && liesOn(at, run.from, run.to)) join(id, run.id);
    });
  }
  const sets = new Map<number, string[]>();
  for (const { id, end } of pins) {
    const set = sets.get(root(id));
    if (set) set.push(end);
    else sets.set(root(id), [end]);
  }
  return [...sets.values()];
}

interface Run {
  readonly id: number;
  readonly from: Point;
  readonly to: Point;
}

/** Visits the straight pieces of wire that a point may lie on: level, upright, and all others. */
function straightRuns(
  wires: readonly { readonly id: number; readonly points: readonly Point[] }[],
): (at: Point, visit: (run: Run) => void) => void {
  const [level, upright] = [new Map<number, Run[]>(), new Map<number, Run[]>()];
  const aslant: Run[] = [];
  const add = (runs: Map<number, Run[]>, key: number, run: Run): void => {
    const list = runs.get(key);
    if (list) list.push(run);
    else runs.set(key, [run]);
  };
  for (const { id, points } of wires) {
    for (const [index, to] of points.entries()) {
      const from = points[index - 1];
      if (!from) continue;
      if (from.y === to.y) add(level, Math.round(to.y), { id, from, to });
      else if (from.x === to.x) add(upright, Math.round(to.x), { id, from, to });
      else aslant.push({ id, from, to });
    }
  }
  return ({ x, y }, visit) => {
    // A hair to either side may be rounded the other way.
    for (let by = -1; by <= 1; by++) {
      for (const run of level.get(Math.round(y) + by) ?? []) visit(run);
      for (const run of upright.get(Math.round(x) + by) ?? []) visit(run);
    }
    for (const run of aslant) visit(run);
  };
}
