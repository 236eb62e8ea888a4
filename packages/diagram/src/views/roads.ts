import { liesOn } from '../read-geometry.ts';
import type { PlacedSymbol, Point, RailMark, Scene } from '../scene.ts';

/** A way along the wires of a drawing. */
export interface Way {
  /**
   * Runs of wire with every place that they pass; where one ends, the next goes on at another
   * symbol of the same rail.
   */
  readonly runs: readonly (readonly Point[])[];
  /** The rail symbols it leads through. */
  readonly marks: readonly RailMark[];
  readonly length: number;
}

/** The wires of a drawing as roads from pin to pin. */
export interface Roads {
  /** Where an end of a part meets the wiring; more than once where its part is drawn twice. */
  readonly pinsOf: (end: string) => readonly Point[];
  /** The shortest way between points of one junction; undefined where no wire leads there. */
  readonly way: (from: readonly Point[], to: readonly Point[]) => Way | undefined;
  /** The number of the piece of wiring that a point lies on. */
  readonly pieceOf: (at: Point) => number | undefined;
  /** The place on the wiring that hangs together with some points and is nearest to another. */
  readonly nearestTo: (at: Point, from: readonly Point[]) => Point | undefined;
}

interface Road {
  readonly to: string;
  readonly length: number;
  /** The rail symbol at its end, where it is a leap between two of one name. */
  readonly leap?: boolean;
}

/** A leap to another symbol of a rail counts as much as this length of wire, in drawing units. */
const LEAP = 500;

const keyOf = ({ x, y }: Point): string => `${Math.round(x * 20)},${Math.round(y * 20)}`;

/** Makes roads of a drawing's wires. About n log n in the length of the drawing. */
export function roadsOf(scene: Pick<Scene, 'symbols' | 'wires' | 'marks'>): Roads {
  const places = new Map<string, Point>();
  const roads = new Map<string, Road[]>();
  const note = (at: Point): string => {
    const key = keyOf(at);
    if (!places.has(key)) places.set(key, at);
    return key;
  };
  const join = (a: string, b: string, length: number, leap = false): void => {
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      const list = roads.get(from);
      const road = leap ? { to, length, leap } : { to, length };
      if (list) list.push(road);
      else roads.set(from, [road]);
    }
  };

  for (const { points } of scene.wires) for (const at of points) note(at);
  const pins = new Map<string, Point[]>();
  for (const { pins: own } of scene.symbols) {
    for (const { end, at } of own) {
      note(at);
      pins.set(end, [...(pins.get(end) ?? []), at]);
    }
  }
  const byName = new Map<string, RailMark[]>();
  for (const mark of scene.marks) {
    note(mark.at);
    byName.set(mark.net, [...(byName.get(mark.net) ?? []), mark]);
  }

  const onLine = lineIndex([...places.values()]);
  for (const { points } of scene.wires) {
    for (const [index, to] of points.entries()) {
      const from = points[index - 1];
      if (!from) continue;
      const along = onLine(from, to)
        .map((at) => ({ at, far: Math.hypot(at.x - from.x, at.y - from.y) }))
        .sort((a, b) => a.far - b.far);
      for (const [step, { at, far }] of along.entries()) {
        const before = along[step - 1];
        if (before) join(keyOf(before.at), keyOf(at), far - before.far);
      }
    }
  }
  for (const [name, marks] of byName) {
    // Through a hub, so that many symbols of one rail do not make a road from each to each.
    for (const { at } of marks)
      if (marks.length > 1) join(keyOf(at), `rail ${name}`, LEAP / 2, true);
  }
  const marksAt = new Map<string, RailMark[]>();
  for (const mark of scene.marks)
    marksAt.set(keyOf(mark.at), [...(marksAt.get(keyOf(mark.at)) ?? []), mark]);

  const pieces = piecesOf(places, roads);

  const way: Roads['way'] = (from, to) => {
    const goals = new Set(to.map(keyOf));
    const found = search(roads, from.map(keyOf), goals);
    if (!found) return undefined;
    const runs: Point[][] = [[]];
    const marks: RailMark[] = [];
    for (const key of found.keys) {
      const at = places.get(key);
      if (at) {
        runs.at(-1)?.push(at);
        continue;
      }
      // A hub: the run ends at one symbol and goes on at another.
      const name = key.replace(/^rail /, '');
      const last = runs.at(-1)?.at(-1);
      const next = places.get(found.keys[found.keys.indexOf(key) + 1] ?? '');
      for (const end of [last, next]) {
        const mark = end && marksAt.get(keyOf(end))?.find(({ net }) => net === name);
        if (mark) marks.push(mark);
      }
      runs.push([]);
    }
    return { runs, marks, length: found.length };
  };

  return {
    pinsOf: (end) => pins.get(end) ?? [],
    way,
    pieceOf: (at) => pieces.get(keyOf(at)),
    nearestTo(at, from) {
      const own = new Set(from.map((each) => pieces.get(keyOf(each))));
      let nearest: Point | undefined;
      let least = Number.POSITIVE_INFINITY;
      for (const [key, here] of places) {
        const far = Math.hypot(here.x - at.x, here.y - at.y);
        if (far < least && own.has(pieces.get(key))) [nearest, least] = [here, far];
      }
      return nearest;
    },
  };
}

/** Which places hang together by wire: a number for each piece of wiring. */
function piecesOf(
  places: ReadonlyMap<string, Point>,
  roads: ReadonlyMap<string, readonly Road[]>,
): ReadonlyMap<string, number> {
  const pieces = new Map<string, number>();
  let next = 0;
  for (const start of places.keys()) {
    if (pieces.has(start)) continue;
    pieces.set(start, next);
    const open = [start];
    for (let here = open.pop(); here !== undefined; here = open.pop()) {
      for (const { to, leap } of roads.get(here) ?? []) {
        if (leap || pieces.has(to)) continue;
        pieces.set(to, next);
        open.push(to);
      }
    }
    next++;
  }
  return pieces;
}

/** The places on a straight piece between two points, by their rows and columns. */
function lineIndex(places: readonly Point[]): (from: Point, to: Point) => readonly Point[] {
  const rows = new Map<number, Point[]>();
  const columns = new Map<number, Point[]>();
  const add = (map: Map<number, Point[]>, key: number, at: Point): void => {
    const list = map.get(key);
    if (list) list.push(at);
    else map.set(key, [at]);
  };
  for (const at of places) {
    add(rows, Math.round(at.y), at);
    add(columns, Math.round(at.x), at);
  }
  const near = (map: Map<number, Point[]>, value: number): Point[] =>
    [-1, 0, 1].flatMap((more) => map.get(Math.round(value) + more) ?? []);
  return (from, to) => {
    const some =
      from.y === to.y ? near(rows, from.y) : from.x === to.x ? near(columns, from.x) : places;
    return some.filter((at) => liesOn(at, from, to));
  };
}

/** Bends only: points on a straight line between their neighbours are left out. */
export function straightened(points: readonly Point[]): Point[] {
  return points.filter((at, index) => {
    const [before, after] = [points[index - 1], points[index + 1]];
    if (!before || !after) return true;
    const level = before.y === at.y && at.y === after.y;
    const upright = before.x === at.x && at.x === after.x;
    return !(level || upright);
  });
}

/** Dijkstra's search over the roads from several places to the nearest goal. */
function search(
  roads: ReadonlyMap<string, readonly Road[]>,
  from: readonly string[],
  goals: ReadonlySet<string>,
): { readonly keys: readonly string[]; readonly length: number } | undefined {
  const best = new Map<string, { readonly length: number; readonly before: string | undefined }>();
  const open = new Set<string>();
  for (const key of from) {
    best.set(key, { length: 0, before: undefined });
    open.add(key);
  }
  while (open.size > 0) {
    let here: string | undefined;
    let least = Number.POSITIVE_INFINITY;
    for (const key of open) {
      const length = best.get(key)?.length ?? 0;
      if (length < least) [here, least] = [key, length];
    }
    if (here === undefined) return undefined;
    open.delete(here);
    if (goals.has(here)) {
      const keys: string[] = [];
      for (let key: string | undefined = here; key !== undefined; key = best.get(key)?.before)
        keys.unshift(key);
      return { keys, length: least };
    }
    for (const { to, length } of roads.get(here) ?? []) {
      const known = best.get(to);
      if (known && known.length <= least + length) continue;
      best.set(to, { length: least + length, before: here });
      open.add(to);
    }
  }
  return undefined;
}

/** The symbol of a part that has both of two ends, else those that have either. */
export function symbolsWith(
  symbols: readonly PlacedSymbol[],
  part: string,
  one: string,
  other: string,
): readonly PlacedSymbol[] {
  const own = symbols.filter((symbol) => symbol.part === part);
  const has = ({ pins }: PlacedSymbol, end: string): boolean => pins.some((pin) => pin.end === end);
  const both = own.find((symbol) => has(symbol, one) && has(symbol, other));
  return both ? [both] : own.filter((symbol) => has(symbol, one) || has(symbol, other));
}
