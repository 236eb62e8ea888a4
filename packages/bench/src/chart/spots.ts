import {
  type Bench,
  type BenchEntry,
  type Circuit,
  emitterOf,
  isBias,
  isSupply,
  lowestTap,
  type Part,
  zeroTap,
} from '@setwright/circuit';
import { groundTerminal, zeroOfFilaments } from '../edits/usual-faults.ts';
import { type Spot, spot, type Taken } from './spot.ts';

/** Kinds of two ends whose ohms a restorer measures. */
const MEASURED: ReadonlySet<string> = new Set([
  'winding',
  'choke',
  'phones',
  'horn',
  'speaker',
  'resistor',
  'leak',
  'rheostat',
  'potentiometer',
  'variometer',
  'loop',
  'fuse',
  'lamp',
]);

const hot = { state: 'on', lifted: false, tubesOut: false, range: undefined } as const;
const cold = { state: 'cold', lifted: false, tubesOut: true, range: undefined } as const;

/**
 * Where a restorer puts a meter on a set: at every tap and in its lead, at every tube, at the ends
 * of transformers and chokes and across what the plate current flows through; cold, each part by
 * itself and the ways from tap to plate and from grid home.
 */
export function usualSpots(circuit: Circuit): readonly Spot[] {
  const zero = zeroOfFilaments(circuit);
  const all = [
    ...circuit.parts.flatMap((part) => ofSupply(part)),
    ...circuit.parts.flatMap((part) => ofTube(part, zero)),
    ...circuit.parts.flatMap((part) => ofWinding(circuit, part, zero)),
    ...circuit.parts.flatMap((part) => acrossPart(circuit, part)),
    ...circuit.parts.flatMap((part) => ofItself(part)),
    ...waysHome(circuit, zero),
  ];
  return [...new Map(all.map((each) => [each.id, each])).values()];
}

function idOf(part: Part, name: string | undefined): string | undefined {
  return part.ends.find((end) => end.name === name)?.id;
}

function ofSupply(part: Part): Spot[] {
  if (!isSupply(part)) return [];
  const zeroName = zeroTap(part)?.end;
  const lowest = lowestTap(part)?.end;
  const zero = idOf(part, zeroName);
  const taps = part.supplyTaps.flatMap(({ end, volts }) => {
    const id = idOf(part, end);
    return id === undefined ? [] : [{ end, id, volts }];
  });
  const above = taps.filter(({ end }) => end !== zeroName);
  const volts = above.map(({ id }) =>
    spot({ ...hot, at: id, to: zero, across: undefined, quantity: 'voltage' }),
  );
  if (isBias(part)) return volts;
  // With several taps what comes home by the common lead is worth a reading of its own.
  const home = above.length > 1 ? taps.filter(({ end }) => end === lowest) : [];
  const currents = [...above, ...home].map(({ id }) =>
    spot({ ...hot, at: id, to: undefined, across: undefined, quantity: 'current' }),
  );
  return [...volts, ...currents];
}

/** Every electrode against F−, or against the cathode where it has one. */
function ofTube(part: Part, zero: string | undefined): Spot[] {
  const emitter = emitterOf(part)?.id;
  if (part.kind !== 'tube' || emitter === undefined) return [];
  const minus = idOf(part, 'filament-');
  const volts = (name: string, to: string | undefined): Spot[] => {
    const id = idOf(part, name);
    return id === undefined || to === undefined || id === to
      ? []
      : [spot({ ...hot, at: id, to, across: undefined, quantity: 'voltage' })];
  };
  return [
    ...volts('filament+', minus),
    ...volts('grid', emitter),
    ...volts('screen', emitter),
    ...volts('plate', emitter),
    ...volts('cathode', zero),
  ];
}

/** The ends of what is wound on iron, and of chokes, against A−. */
function ofWinding(circuit: Circuit, part: Part, zero: string | undefined): Spot[] {
  if (!isAudioWinding(circuit, part) || zero === undefined) return [];
  return part.ends.map(({ id }) =>
    spot({ ...hot, at: id, to: zero, across: undefined, quantity: 'voltage' }),
  );
}

function isAudioWinding(circuit: Circuit, part: Part): boolean {
  if (part.kind === 'choke') return true;
  return part.kind === 'winding' && circuit.partNamed.get(part.owner ?? '')?.kind === 'transformer';
}

const CARRYING: ReadonlySet<string> = new Set(['phones', 'horn', 'speaker', 'rheostat', 'ballast']);

/** Volts across what plate and filament currents flow through. */
function acrossPart(circuit: Circuit, part: Part): Spot[] {
  const isOne = isAudioWinding(circuit, part)
    ? !part.name.endsWith('.secondary')
    : CARRYING.has(part.kind);
  const [from, to] = outerEnds(part);
  if (!isOne || from === undefined || to === undefined) return [];
  return [spot({ ...hot, at: from, to, across: part.name, quantity: 'voltage' })];
}

/** The two ends that a part is measured between. */
function outerEnds(part: Part): readonly [string | undefined, string | undefined] {
  const finish = idOf(part, 'finish');
  return [idOf(part, 'start') ?? part.ends[0]?.id, finish ?? part.ends[1]?.id];
}

/** Ohms of every part by itself; of a tube, of its filament while it is cold. */
function ofItself(part: Part): Spot[] {
  const [from, to] = outerEnds(part);
  const isFilament = part.kind === 'tube';
  const ends = isFilament ? [idOf(part, 'filament-'), idOf(part, 'filament+')] : [from, to];
  const [at, other] = ends;
  if ((!isFilament && !MEASURED.has(part.kind)) || at === undefined || other === undefined)
    return [];
  return [
    spot({
      ...cold,
      at,
      to: other,
      across: part.name,
      quantity: 'resistance',
      lifted: true,
    }),
  ];
}

/**
 * From the aerial to the ground, from every plate tap to A−, from the taps to the plates, from the
 * grids home, winding to winding.
 */
function waysHome(circuit: Circuit, zero: string | undefined): Spot[] {
  const ohms = (at: string | undefined, to: string | undefined): Spot[] =>
    at === undefined || to === undefined || at === to
      ? []
      : [spot({ ...cold, at, to, across: undefined, quantity: 'resistance' })];
  const supplies = circuit.parts.filter(isSupply);
  const atZero = circuit.endNamed.get(zero ?? '')?.junction;
  const plateTaps = supplies.flatMap((part) =>
    isBias(part) || idOf(part, zeroTap(part)?.end) === zero
      ? []
      : part.supplyTaps.flatMap(({ end }) =>
          end === zeroTap(part)?.end ? [] : (idOf(part, end) ?? []),
        ),
  );
  const returns = supplies.flatMap((part) =>
    isBias(part) || idOf(part, zeroTap(part)?.end) === zero
      ? part.ends.flatMap(({ id, junction }) => (junction === atZero && id !== zero ? [] : id))
      : [],
  );
  const tubes = circuit.parts.filter(({ kind }) => kind === 'tube');
  return [
    ...circuit.parts
      .filter(({ kind, words }) => kind === 'post' && words.has('aerial'))
      .flatMap(({ ends }) => ohms(ends[0]?.id, groundTerminal(circuit))),
    ...plateTaps.flatMap((tap) => ohms(tap, zero)),
    ...tubes.flatMap((part) => plateTaps.flatMap((tap) => ohms(tap, idOf(part, 'plate')))),
    ...tubes.flatMap((part) => returns.flatMap((tap) => ohms(idOf(part, 'grid'), tap))),
    ...circuit.parts.flatMap((owner) => {
      if (owner.kind !== 'transformer') return [];
      const [first, second] = circuit.parts.filter((part) => part.owner === owner.name);
      return first && second ? ohms(idOf(first, 'start'), idOf(second, 'finish')) : [];
    }),
  ];
}

/** What a bench says was read, each at its spot. */
export function takenSpots(circuit: Circuit, bench: Bench): readonly Taken[] {
  const zero = zeroOfFilaments(circuit);
  const tubesOut = bench.entries.some(
    ({ kind, words }) => kind === 'tubes-out' && words.includes('out'),
  );
  return bench.entries.flatMap((entry) => takenSpot(circuit, entry, zero, tubesOut) ?? []);
}

function takenSpot(
  circuit: Circuit,
  entry: BenchEntry,
  zero: string | undefined,
  tubesOut: boolean,
): Taken | undefined {
  const { kind, at, to, value, range, words, place } = entry;
  if (kind !== 'reading' || at === undefined) return undefined;
  const isOpen = words.includes('open');
  const isShort = words.includes('short');
  const dimension = value?.dimension ?? (isOpen || isShort ? 'resistance' : undefined);
  if (dimension !== 'voltage' && dimension !== 'current' && dimension !== 'resistance')
    return undefined;
  const read = value?.value ?? (isOpen ? Number.POSITIVE_INFINITY : 0);
  const part = circuit.partNamed.get(at);
  const terminal = circuit.endNamed.has(at) ? at : part && outerEnds(part)[0];
  if (terminal === undefined) return undefined;
  const owner = circuit.partOfEnd.get(terminal);
  const isAcross = !circuit.endNamed.has(at) && to === undefined && part !== undefined;
  const said = {
    quantity: dimension,
    state: dimension === 'resistance' ? 'cold' : 'on',
    lifted: words.includes('lifted'),
    tubesOut: tubesOut || dimension === 'resistance',
    range: range?.value,
  } as const;
  const taken = { read, place };
  if (dimension === 'current')
    return { ...spot({ ...said, at: terminal, to: undefined, across: undefined }), ...taken };
  if (isAcross) {
    const [from, other] =
      part.kind === 'tube' && dimension === 'resistance'
        ? [idOf(part, 'filament-'), idOf(part, 'filament+')]
        : outerEnds(part);
    if (from === undefined || other === undefined) return undefined;
    return { ...spot({ ...said, at: from, to: other, across: part.name }), ...taken };
  }
  const other = otherTerminal(circuit, to) ?? usualReference(owner, terminal, zero);
  if (other === undefined) return undefined;
  return {
    ...spot({
      ...said,
      at: terminal,
      to: other,
      across: undefined,
    }),
    ...taken,
  };
}

function otherTerminal(circuit: Circuit, to: string | undefined): string | undefined {
  if (to === undefined || circuit.endNamed.has(to)) return to;
  return circuit.partNamed.get(to)?.ends[0]?.id;
}

/** A tube's terminals against its own F−, a tap against its battery's zero, all else against A−. */
function usualReference(
  owner: Part | undefined,
  terminal: string,
  zero: string | undefined,
): string | undefined {
  if (owner?.kind === 'tube') {
    const minus = idOf(owner, 'filament-');
    const emitter = emitterOf(owner)?.id ?? minus;
    const isHeater = terminal.endsWith('.filament+') || terminal === minus;
    if (terminal === emitter) return zero;
    return isHeater ? (terminal === minus ? zero : minus) : emitter;
  }
  if (owner && isSupply(owner)) return idOf(owner, zeroTap(owner)?.end);
  return zero;
}
