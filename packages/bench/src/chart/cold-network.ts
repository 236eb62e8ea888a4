import { type Element, networkOf, tubeLawOf } from '@setwright/analysis';
import { type Circuit, conductionOf, isSupply, type Settings } from '@setwright/circuit';
import type { SetStanding } from '../edits/workbench.ts';
import type { Known } from './known.ts';

/** Ohms between two terminals, and how they go by those of the parts. */
export interface ColdOhms {
  /** Endless where nothing leads from one to the other. */
  readonly value: number;
  /** Change of the value for a share of change of a part's ohms. */
  by(part: string): number;
}

/** A set with its batteries off, as an ohmmeter sees it. */
export interface ColdNetwork {
  /** Ohms between two terminals in the set; undefined where they cannot be told. */
  between(from: string, to: string): ColdOhms | undefined;
  /** Ohms of one part between two of its terminals, one of its ends off the set. */
  lifted(part: string, from: string, to: string): ColdOhms | undefined;
}

interface Piece {
  readonly part: string;
  /** The part that it is a fault of. */
  readonly within: string | undefined;
  readonly from: number;
  readonly to: number;
  readonly ohms: number;
}

/** Parts of a set hang together by more points than this only in a set of many hundred tubes. */
const MOST_POINTS = 400;
/** Fewer ohms than this are a wire. */
const WIRE = 1e-9;

/** The set with its batteries off the posts, and its tubes out or in, controls as they stand. */
export function coldNetwork(
  { circuit, settings, held }: SetStanding,
  tubesOut: boolean,
  known: Known,
): ColdNetwork {
  const conduction = conductionOf(circuit, asCold(circuit, settings, tubesOut));
  const { elements } = networkOf(conduction, held, known.wires);
  const pieces = elements.flatMap((element) => pieceOf(circuit, element, known));
  const whole = solverOf(circuit.junctions.length, pieces);
  const junction = (terminal: string) => circuit.endNamed.get(terminal)?.junction;
  return {
    between(from, to) {
      const [a, b] = [junction(from), junction(to)];
      return a === undefined || b === undefined ? undefined : whole(a, b);
    },
    lifted(part, from, to) {
      const [a, b] = [junction(from), junction(to)];
      if (a === undefined || b === undefined) return undefined;
      const isTube = circuit.partNamed.get(part)?.kind === 'tube';
      const own = isTube
        ? filamentOf(circuit, part, settings, known)
        : pieces.filter((piece) => piece.part === part || piece.within === part);
      return solverOf(circuit.junctions.length, own)(a, b);
    },
  };
}

function asCold(circuit: Circuit, settings: Settings, tubesOut: boolean): Settings {
  if (!tubesOut) return settings;
  const tubes = circuit.parts.filter(({ kind }) => kind === 'tube').map(({ name }) => name);
  return { ...settings, removed: new Set([...settings.removed, ...tubes]) };
}

function pieceOf(circuit: Circuit, element: Element, known: Known): Piece[] {
  const { branch, part, ohms } = element;
  if (isSupply(part)) return [];
  return [
    {
      part: part.name,
      within: part.companions[0],
      from: branch.fromJunction,
      to: branch.toJunction,
      ohms: part.kind === 'tube' ? coldFilament(circuit, part.name, known) : ohms,
    },
  ];
}

function filamentOf(circuit: Circuit, name: string, settings: Settings, known: Known): Piece[] {
  const part = circuit.partNamed.get(name);
  const minus = part?.ends.find((end) => end.name === 'filament-')?.junction;
  const plus = part?.ends.find((end) => end.name === 'filament+')?.junction;
  if (!part || minus === undefined || plus === undefined || settings.removed.has(name)) return [];
  const ohms = coldFilament(circuit, name, known);
  return [{ part: name, within: undefined, from: minus, to: plus, ohms }];
}

function coldFilament(circuit: Circuit, name: string, known: Known): number {
  const { ratedVolts, ratedAmperes, hotOverCold } = tubeLawOf(
    circuit.partNamed.get(name)?.tubeType,
    known.laws,
  ).filament;
  return ratedVolts / ratedAmperes / hotOverCold;
}

type Solver = (from: number, to: number) => ColdOhms | undefined;

/** Ohms between any two junctions of a net of resistances. */
function solverOf(junctions: number, pieces: readonly Piece[]): Solver {
  const points = Int32Array.from({ length: junctions }, (_, index) => index);
  const islands = Int32Array.from(points);
  const rootIn = (above: Int32Array, member: number): number => {
    let at = member;
    while (above[at] !== at) {
      above[at] = above[above[at] as number] as number;
      at = above[at] as number;
    }
    return at;
  };
  const merge = (above: Int32Array, a: number, b: number): void => {
    above[rootIn(above, a)] = rootIn(above, b);
  };
  for (const { from, to, ohms } of pieces) {
    merge(islands, from, to);
    if (ohms < WIRE) merge(points, from, to);
  }
  const solved = new Map<number, Island | undefined>();
  const islandOf = (root: number): Island | undefined => {
    if (solved.has(root)) return solved.get(root);
    const own = pieces.filter(({ from, ohms }) => ohms >= WIRE && rootIn(islands, from) === root);
    const island = islandAt(own, (junction) => rootIn(points, junction));
    solved.set(root, island);
    return island;
  };
  return (from, to) => {
    if (rootIn(points, from) === rootIn(points, to)) return { value: 0, by: () => 0 };
    if (rootIn(islands, from) !== rootIn(islands, to))
      return { value: Number.POSITIVE_INFINITY, by: () => 0 };
    const island = islandOf(rootIn(islands, from));
    if (!island) return undefined;
    const { pieces: own, volts } = island;
    const [a, b] = [rootIn(points, from), rootIn(points, to)];
    const across = (c: number, d: number): number =>
      volts(a, c) - volts(b, c) - volts(a, d) + volts(b, d);
    return {
      value: across(a, b),
      by(part) {
        let sum = 0;
        for (const { part: of, from: c, to: d, ohms } of own) {
          if (of !== part) continue;
          const drop = across(rootIn(points, c), rootIn(points, d));
          sum += (drop * drop) / ohms;
        }
        return sum;
      },
    };
  };
}

interface Island {
  readonly pieces: readonly Piece[];
  /** Volts of a point, against the island's zero, for an ampere pushed into another. */
  volts(into: number, at: number): number;
}

/**
 * The inverse of an island's conductances, by elimination of one point after another with no
 * differences taken, so that a leak of megohms beside a wire loses nothing.
 */
function islandAt(
  pieces: readonly Piece[],
  pointOf: (junction: number) => number,
): Island | undefined {
  const index = new Map<number, number>();
  for (const { from, to } of pieces)
    for (const junction of [from, to]) {
      const point = pointOf(junction);
      if (!index.has(point)) index.set(point, index.size);
    }
  const size = index.size;
  if (size > MOST_POINTS) return undefined;
  const between = new Float64Array(size * size);
  for (const { from, to, ohms } of pieces) {
    const a = index.get(pointOf(from)) as number;
    const b = index.get(pointOf(to)) as number;
    if (a === b || !Number.isFinite(ohms)) continue;
    between[a * size + b] = (between[a * size + b] as number) + 1 / ohms;
    between[b * size + a] = (between[b * size + a] as number) + 1 / ohms;
  }
  // Points are taken out from the last; point 0 stays and is the zero.
  const sums = new Float64Array(size);
  for (let out = size - 1; out > 0; out--) {
    let sum = 0;
    for (let a = 0; a < out; a++) sum += between[out * size + a] as number;
    sums[out] = sum;
    if (!(sum > 0)) continue;
    for (let a = 0; a < out; a++) {
      const share = (between[out * size + a] as number) / sum;
      if (share === 0) continue;
      for (let b = 0; b < out; b++) {
        if (a === b) continue;
        between[a * size + b] =
          (between[a * size + b] as number) + share * (between[out * size + b] as number);
      }
    }
  }
  const table = new Map<number, Float64Array>();
  const columnOf = (into: number): Float64Array => {
    const known = table.get(into);
    if (known) return known;
    const amperes = new Float64Array(size);
    amperes[into] = 1;
    for (let out = size - 1; out > 0; out--) {
      const here = amperes[out] as number;
      const sum = sums[out] as number;
      if (here === 0 || !(sum > 0)) continue;
      for (let a = 0; a < out; a++)
        amperes[a] = (amperes[a] as number) + (here * (between[out * size + a] as number)) / sum;
    }
    const volts = new Float64Array(size);
    for (let at = 1; at < size; at++) {
      const sum = sums[at] as number;
      if (!(sum > 0)) continue;
      let total = amperes[at] as number;
      for (let a = 0; a < at; a++)
        total += (between[at * size + a] as number) * (volts[a] as number);
      volts[at] = total / sum;
    }
    table.set(into, volts);
    return volts;
  };
  return {
    pieces,
    volts: (into, at) => columnOf(index.get(into) as number)[index.get(at) as number] as number,
  };
}
