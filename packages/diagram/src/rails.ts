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
  /** Which of two junctions belongs above the other on paper: the larger number. */
  readonly heightOf: (junction: number) => number;
}

const regulating = new Set(['rheostat', 'ballast', 'switch', 'fuse', 'lamp', 'resistor', 'lead']);
export const isSupply = (part: Part): boolean =>
  part.kind === 'battery' || part.kind === 'eliminator';
export const isFilamentEnd = (name: string): boolean => name.startsWith('filament');

/** Whether no wire leads to any end of a part. */
export const isUnwired = ({ junctions }: Circuit, { ends }: Part): boolean =>
  ends.every(({ junction }) => (junctions[junction]?.terminals.length ?? 0) <= 1);

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
      // A plate supply is one on a filament too, wherever it was put there by mistake.
      const isPlateSupply = tap.end.startsWith('B') && (tap.volts ?? 0) > 10;
      if (!end || (nets.has(end.junction) && !isPlateSupply)) continue;
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
  const roleOf = (net: number): NetRole =>
    size(net) <= 1 ? 'alone' : high.has(net) ? 'high' : low.has(net) ? 'low' : 'signal';
  const voltsAt = new Map<number, number>();
  for (const { supplyTaps, ends } of circuit.parts.filter(isSupply)) {
    for (const { end, volts } of supplyTaps) {
      const net = ends.find(({ name }) => name === end)?.junction ?? -1;
      // Where taps of two supplies are joined, the higher counts.
      voltsAt.set(net, Math.max(voltsAt.get(net) ?? 0, volts ?? 0));
    }
  }
  const [positive, negative] = [filamentSide(circuit, nets, 1), filamentSide(circuit, nets, -1)];
  return {
    roleOf,
    stripParts,
    stripNets: nets,
    ground,
    heightOf: (net) => {
      const role = roleOf(net);
      // Of two B supplies the higher above the other.
      if (role === 'high') return 5 + Math.min(1000, voltsAt.get(net) ?? 0) / 1000;
      if (net === ground) return 0;
      if (negative.has(net)) return 1;
      if (positive.has(net)) return 4;
      return role === 'alone' ? 3 : 2;
    },
  };
}

/** The junctions on one side of the filament supply, its switch and fuse passed. */
function filamentSide(
  { parts }: Circuit,
  nets: ReadonlySet<number>,
  sign: 1 | -1,
): ReadonlySet<number> {
  const side = new Set<number>();
  for (const part of parts) {
    if (!isSupply(part)) continue;
    for (const { end: name, volts } of part.supplyTaps) {
      const net = part.ends.find((end) => end.name === name)?.junction;
      const isPositive = (volts ?? (name.includes('+') ? 1 : 0)) > 0;
      if (net !== undefined && nets.has(net) && isPositive === sign > 0) side.add(net);
    }
  }
  const ways = parts
    .filter(({ kind }) => kind === 'switch' || kind === 'fuse' || kind === 'lead')
    .map(({ ends }) => ends.map(({ junction }) => junction).filter((net) => nets.has(net)));
  for (let before = -1; before < side.size; ) {
    before = side.size;
    for (const way of ways) {
      if (way.some((net) => side.has(net))) for (const net of way) side.add(net);
    }
  }
  return side;
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
