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
 * Rebuilds the junctions from what is on the paper alone, as an eye does: wires that touch at an
 * end or a bend are joined, plain crossings are not, equal rail names are joined. The names that
 * wires carry for editors are not looked at. Each set of ends comes sorted, and so do the sets.
 */
export function readGeometry(scene: Pick<Scene, 'symbols' | 'wires' | 'marks'>): string[][] {
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
  for (const mark of scene.marks) {
    let id = rails.get(mark.net);
    if (id === undefined) {
      id = fresh();
      rails.set(mark.net, id);
    }
    touches.push({ id, at: mark.at });
  }
  const byPlace = new Map<string, number>();
  for (const { id, at } of touches) {
    const key = `${Math.round(at.x * 20)},${Math.round(at.y * 20)}`;
    const other = byPlace.get(key);
    if (other === undefined) byPlace.set(key, id);
    else join(id, other);
    for (const wire of wires) {
      if (wire.id === id) continue;
      for (let index = 1; index < wire.points.length; index++) {
        const [from, to] = [wire.points[index - 1], wire.points[index]];
        if (from && to && liesOn(at, from, to)) join(id, wire.id);
      }
    }
  }
  const sets = new Map<number, string[]>();
  for (const { id, end } of pins) {
    const set = sets.get(root(id));
    if (set) set.push(end);
    else sets.set(root(id), [end]);
  }
  return [...sets.values()]
    .map((set) => set.sort())
    .sort((a, b) => ((a[0] ?? '') < (b[0] ?? '') ? -1 : 1));
}
