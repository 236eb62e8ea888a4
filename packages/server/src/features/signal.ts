import type { Circuit, Part } from '@setwright/circuit';

/** The signal goes from one to the other. */
export interface SignalLink {
  readonly from: string;
  readonly to: string;
}

/** A condenser of this many farads and more keeps a point still. Common practice. */
const STILL = 5e-8;

/**
 * Which tube, crystal or source of signal feeds which tube, crystal or sound part: by wire, through
 * windings and from winding to winding, through condensers and resistors, at any position of
 * switches and jacks. What leads back from a plate to its own grid is left out, and so are
 * neutralizing condensers. By names of parts, in the order in which the signal passes them.
 */
export function signalLinks(circuit: Circuit): readonly SignalLink[] {
  const ways = waysOf(circuit);
  const links: SignalLink[] = [];
  const seen = new Set<string>();
  const add = (from: string, to: string): void => {
    const key = `${from} ${to}`;
    if (from === to || seen.has(key)) return;
    seen.add(key);
    links.push({ from, to });
  };
  const done = new Set<string>();
  const waiting: { name: string; at: readonly number[]; barred: ReadonlySet<number> }[] = [];
  const none: ReadonlySet<number> = new Set();
  const push = (part: Part, at: readonly number[], barred: ReadonlySet<number> = none): void => {
    if (done.has(part.name)) return;
    done.add(part.name);
    waiting.push({ name: part.name, at, barred });
  };
  const junctions = (part: Part, ...ends: string[]): readonly number[] =>
    part.ends.flatMap(({ name, junction }) =>
      ends.length === 0 || ends.includes(name) ? [junction] : [],
    );
  const run = (): void => {
    for (let next = waiting.shift(); next; next = waiting.shift()) {
      const reached = flood(ways, next.at, next.barred);
      for (const part of circuit.parts) {
        if (part.name === next.name) continue;
        const isFed = (end: string): boolean => junctions(part, end).some((at) => reached.has(at));
        if (part.kind === 'tube' && isFed('grid')) {
          if (ways.oscillators.has(part.name) && next.name !== part.name) continue;
          add(next.name, part.name);
          push(part, junctions(part, 'plate'));
        } else if (part.kind === 'crystal' && (isFed('mineral') || isFed('whisker'))) {
          add(next.name, part.name);
          push(
            part,
            junctions(part).filter((at) => !reached.has(at)),
            reached,
          );
        } else if (isSound(part) && junctions(part).some((at) => reached.has(at)))
          add(next.name, part.name);
      }
    }
  };
  for (const part of circuit.parts)
    if (part.kind === 'loop' || (part.kind === 'post' && part.words.has('aerial')))
      push(part, junctions(part));
  run();
  // What no aerial reaches, such as an oscillator, and what it feeds.
  for (const part of circuit.parts)
    if (part.kind === 'tube') {
      push(part, junctions(part, 'plate'));
      run();
    }
  return links;
}

/** The same by stages; what stands in no stage goes by its own name. */
export function stageLinks(circuit: Circuit): readonly SignalLink[] {
  const home = (name: string): string => circuit.partNamed.get(name)?.stage ?? name;
  const links = new Map<string, SignalLink>();
  for (const link of signalLinks(circuit)) {
    const [from, to] = [home(link.from), home(link.to)];
    if (from !== to) links.set(`${from} ${to}`, { from, to });
  }
  return [...links.values()];
}

const isSound = ({ kind }: Part): boolean =>
  kind === 'phones' || kind === 'horn' || kind === 'speaker';

interface Ways {
  /** By junction: the junctions that a signal there comes to as well. */
  readonly from: ReadonlyMap<number, readonly number[]>;
  /** Junctions that stand still for the signal: supplies, ground, filaments, bypassed ones. */
  readonly still: ReadonlySet<number>;
  /** Junctions of grids: the signal goes on from there through its tube only. */
  readonly grids: ReadonlySet<number>;
  /** Tubes that make their own signal and take none. */
  readonly oscillators: ReadonlySet<string>;
}

function flood(
  { from, still, grids }: Ways,
  starts: readonly number[],
  barred: ReadonlySet<number>,
): ReadonlySet<number> {
  const reached = new Set<number>();
  const open = starts.filter((at) => !still.has(at));
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    if (reached.has(at) || still.has(at) || barred.has(at)) continue;
    reached.add(at);
    if (grids.has(at) && !starts.includes(at)) continue;
    open.push(...(from.get(at) ?? []));
  }
  return reached;
}

/** Kinds that pass a signal from end to end. */
const passing: ReadonlySet<Part['kind']> = new Set([
  'winding',
  'variometer',
  'loop',
  'condenser',
  'resistor',
  'leak',
  'potentiometer',
  'choke',
  'phones',
  'horn',
  'speaker',
  'lead',
]);

function waysOf(circuit: Circuit): Ways {
  const still = stillPoints(circuit);
  const from = new Map<number, number[]>();
  const way = (one: number, other: number): void => {
    if (one === other) return;
    const list = from.get(one);
    if (list) list.push(other);
    else from.set(one, [other]);
  };
  const plates = junctionsOfTubes(circuit, 'plate');
  const windings = new Map<string, Part[]>();
  for (const part of circuit.parts) {
    if (part.kind === 'winding' && part.owner !== undefined)
      windings.set(part.owner, [...(windings.get(part.owner) ?? []), part]);
    if (passing.has(part.kind) && !part.words.has('neutralizing'))
      for (const one of part.ends) for (const other of part.ends) way(one.junction, other.junction);
    for (const contact of part.contacts) {
      const one = circuit.endNamed.get(contact.from)?.junction;
      const other = circuit.endNamed.get(contact.to)?.junction;
      if (one === undefined || other === undefined) continue;
      way(one, other);
      way(other, one);
    }
  }
  for (const [owner, fellows] of windings) {
    const whole = circuit.partNamed.get(owner);
    // On iron the first winding hands the sound on: nothing that its fellows carry goes back.
    const isOneWay = whole?.kind === 'transformer' && !whole.words.has('air');
    for (const one of isOneWay ? fellows.slice(0, 1) : fellows)
      for (const other of fellows) {
        // A winding in a plate lead hands the signal on; it never takes it from its neighbour.
        if (one === other || other.ends.some(({ junction }) => plates.has(junction))) continue;
        for (const a of one.ends) for (const b of other.ends) way(a.junction, b.junction);
      }
  }
  const oscillating = new Set(
    circuit.stages.flatMap(({ roles, parts }) =>
      roles.includes('oscillator') && !roles.includes('mixer') ? parts : [],
    ),
  );
  return { from, still, grids: junctionsOfTubes(circuit, 'grid'), oscillators: oscillating };
}

function junctionsOfTubes({ parts }: Circuit, end: string): ReadonlySet<number> {
  return new Set(
    parts.flatMap(({ kind, ends }) =>
      kind === 'tube' ? ends.flatMap(({ name, junction }) => (name === end ? [junction] : [])) : [],
    ),
  );
}

function stillPoints({ parts }: Circuit): ReadonlySet<number> {
  const still = new Set<number>();
  for (const { kind, words, ends } of parts) {
    const isStill =
      kind === 'battery' ||
      kind === 'eliminator' ||
      kind === 'shield' ||
      (kind === 'post' && words.has('ground'));
    for (const { name, junction } of ends)
      if (isStill || (kind === 'tube' && name.startsWith('filament'))) still.add(junction);
  }
  // One bypassed point may be bypassed to another.
  for (let round = 0; round < 2; round++)
    for (const { kind, ends, values } of parts) {
      if (kind !== 'condenser' || (values.capacitance?.value ?? 0) < STILL) continue;
      const [one, other] = ends.map(({ junction }) => junction);
      if (one === undefined || other === undefined) continue;
      if (still.has(one)) still.add(other);
      else if (still.has(other)) still.add(one);
    }
  return still;
}
