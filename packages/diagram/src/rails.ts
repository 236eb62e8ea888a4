import type { Circuit, Part } from '@setwright/circuit';

/** What a junction is to the drawing. */
export type NetRole = 'signal' | 'high' | 'low' | 'alone';

/** The junctions by role, and the parts that belong to the filament circuit. */
export interface Rails {
  readonly roleOf: (junction: number) => NetRole;
  readonly stripParts: ReadonlySet<string>;
  /** Junctions of filaments and of the supply that heats them. */
  readonly stripNets: ReadonlySet<number>;
  readonly ground: number | undefined;
}

const regulating = new Set(['rheostat', 'ballast', 'switch', 'fuse', 'lamp', 'resistor', 'lead']);
export const isSupply = (part: Part): boolean =>
  part.kind === 'battery' || part.kind === 'eliminator';
export const isFilamentEnd = (name: string): boolean => name.startsWith('filament');

/**
 * Tells rails from signal junctions: supplies, ground and everything between the filament supply
 * and the filaments never enter the layout of the signal path.
 */
export function findRails(circuit: Circuit): Rails {
  const filaments = new Set<number>();
  const supplies = new Set<number>();
  const high = new Set<number>();
  for (const part of circuit.parts) {
    for (const end of part.ends) {
      if (part.kind === 'tube' && isFilamentEnd(end.name)) filaments.add(end.junction);
      if (isSupply(part)) supplies.add(end.junction);
    }
  }
  const size = (net: number): number => circuit.junctions[net]?.terminals.length ?? 0;
  const { parts: regulators, nets } = filamentCircuit(circuit, filaments, supplies);
  const low = new Set<number>([...nets].filter((net) => size(net) > 1));
  for (const net of supplies) low.add(net);
  let ground: number | undefined;
  for (const part of circuit.parts) {
    if (part.kind === 'post' && part.words.has('ground')) {
      const net = part.ends[0]?.junction;
      if (net === undefined) continue;
      ground ??= net;
      low.add(net);
    }
  }
  for (const part of circuit.parts) {
    if (!isSupply(part)) continue;
    for (const tap of part.supplyTaps) {
      const end = part.ends.find(({ name }) => name === tap.end);
      if (!end || nets.has(end.junction)) continue;
      if ((tap.volts ?? (tap.end.startsWith('B+') ? 1 : 0)) > 0) high.add(end.junction);
    }
  }
  const stripParts = new Set(regulators);
  for (const part of circuit.parts) {
    if (part.kind !== 'potentiometer') continue;
    const [start, finish, arm] = part.ends;
    if (!start || !finish || !arm) continue;
    if (!nets.has(start.junction) || !nets.has(finish.junction)) continue;
    stripParts.add(part.name);
    if (size(arm.junction) > 1) low.add(arm.junction);
  }
  return {
    roleOf: (net) =>
      size(net) <= 1 ? 'alone' : high.has(net) ? 'high' : low.has(net) ? 'low' : 'signal',
    stripParts,
    stripNets: nets,
    ground,
  };
}

/** Walks from the filaments through what regulates them to the supply; dead ends are left out. */
function filamentCircuit(
  circuit: Circuit,
  filaments: ReadonlySet<number>,
  supplies: ReadonlySet<number>,
): { parts: Set<string>; nets: Set<number> } {
  const nets = new Set(filaments);
  const found = new Map<string, readonly [number, number]>();
  for (let grew = true; grew; ) {
    grew = false;
    for (const part of circuit.parts) {
      if (found.has(part.name) || !regulating.has(part.kind)) continue;
      const [a, b] = [part.ends[0]?.junction, part.ends[1]?.junction];
      if (a === undefined || b === undefined) continue;
      const reached = [a, b].some((net) => nets.has(net) && !supplies.has(net));
      if (!reached && !(nets.has(a) && nets.has(b))) continue;
      found.set(part.name, [a, b]);
      nets.add(a).add(b);
      grew = true;
    }
  }
  const firm = (net: number): boolean => filaments.has(net) || supplies.has(net);
  for (let shrank = true; shrank; ) {
    shrank = false;
    for (const [name, ends] of found) {
      const dangling = ends.some(
        (net) =>
          !firm(net) && ![...found].some(([other, its]) => other !== name && its.includes(net)),
      );
      if (!dangling) continue;
      found.delete(name);
      shrank = true;
    }
  }
  const kept = new Set<number>([...found.values()].flat());
  for (const net of filaments) kept.add(net);
  return { parts: new Set(found.keys()), nets: kept };
}

/** What a rail is called on paper: `V1.filament-` is F− of V1, a hyphen is a minus sign. */
export function railName(name: string): string {
  return name
    .replace(/\.filament([-+])$/, ' F$1')
    .replace(/\.filament$/, ' F')
    .replaceAll('-', '−');
}
