import type { Wire } from './scene.ts';

/** Wires by the junction that they belong to, each junction's in the order given. */
export function wiresByNet(wires: readonly Wire[]): ReadonlyMap<string, readonly Wire[]> {
  const byNet = new Map<string, Wire[]>();
  for (const wire of wires) {
    const own = byNet.get(wire.net);
    if (own) own.push(wire);
    else byNet.set(wire.net, [wire]);
  }
  return byNet;
}
