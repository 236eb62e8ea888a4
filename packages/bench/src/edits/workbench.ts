import type {
  Circuit,
  End,
  Junction,
  Part,
  PartKindName,
  Settings,
  SettingsOn,
  Value,
} from '@setwright/circuit';
import type { Amount } from './edit.ts';

/** A set with the controls as they stand. */
export interface SetStanding {
  readonly circuit: Circuit;
  readonly settings: Settings | SettingsOn;
  /** Ohms at which rheostats without a setting stand, by name. */
  readonly held: ReadonlyMap<string, number>;
}

/** A set taken apart, to be edited and put together again. */
export interface Workbench {
  readonly before: SetStanding;
  /** Parts by name, in the order of the text. */
  readonly parts: Map<string, Part>;
  /** Junctions by terminal, where they are others than before. */
  readonly moved: Map<string, number>;
  junctions: number;
  readonly positions: Map<string, number>;
  readonly travels: Map<string, number>;
  readonly removed: Set<string>;
  readonly held: Map<string, number>;
  /** What could not be done, and why. */
  readonly refused: string[];
}

/** Lays a set out. */
export function workbenchOf(before: SetStanding): Workbench {
  const { circuit, settings, held } = before;
  return {
    before,
    parts: new Map(circuit.partNamed),
    moved: new Map(),
    junctions: circuit.junctions.length,
    positions: new Map(settings.positions),
    travels: new Map(settings.travels),
    removed: new Set(settings.removed),
    held: new Map(held),
    refused: [],
  };
}

/** The junction of a terminal as it is by now. */
export function junctionOf(bench: Workbench, terminal: string): number | undefined {
  return bench.moved.get(terminal) ?? bench.before.circuit.endNamed.get(terminal)?.junction;
}

/** Takes a terminal off its junction: it ends on a new one that nothing else is on. */
export function detach(bench: Workbench, terminal: string): number {
  const junction = bench.junctions++;
  bench.moved.set(terminal, junction);
  return junction;
}

/** Puts another part in the place of one. */
export function replace(bench: Workbench, part: Part): void {
  bench.parts.set(part.name, part);
}

/** An amount as the values of parts are kept, at the place of the part it is of. */
export function writtenValue({ value, dimension }: Amount, { place }: Part): Value {
  return { value, dimension, text: '', place };
}

/** A part to be added. */
interface Wanted {
  readonly name: string;
  readonly kind: PartKindName;
  readonly amount: Amount;
  /** The part that it is a fault of, and comes out of the set with. */
  readonly within?: string;
}

/** Adds a part of two ends between two junctions, made as if it stood where another does. */
export function addBetween(
  bench: Workbench,
  like: Part,
  wanted: Wanted,
  from: number,
  to: number,
): Part {
  const { kind, amount } = wanted;
  let name = wanted.name;
  for (let count = 2; bench.parts.has(name); count++) name = `${wanted.name} ${count}`;
  const slot = amount.dimension === 'capacitance' ? 'capacitance' : 'resistance';
  const ends: End[] = [
    { name: 'start', id: `${name}.start`, junction: from, joins: [] },
    { name: 'finish', id: `${name}.finish`, junction: to, joins: [] },
  ];
  const part: Part = {
    name,
    kind,
    title: undefined,
    owner: undefined,
    stage: like.stage,
    place: like.place,
    namePlace: like.namePlace,
    ends,
    values: { [slot]: writtenValue(amount, like) },
    ranges: {},
    words: new Set(),
    setting: undefined,
    positions: [],
    drawnAt: 0,
    contacts: [],
    taps: [],
    supplyTaps: [],
    winding: undefined,
    typeName: undefined,
    tubeType: undefined,
    sidesKnown: false,
    companions: wanted.within === undefined ? [] : [wanted.within],
    unread: false,
  };
  replace(bench, part);
  return part;
}

/** A part through which nothing passes any more; its terminals stay wired. */
export function brokenOff(part: Part): Part {
  const ends = part.kind === 'tube' ? part.ends.filter(({ name }) => name !== 'filament+') : [];
  return { ...part, ends, contacts: [], taps: [], positions: [] };
}

/** Puts the set together again. Terminals that no part owns any more stay where they were. */
export function putTogether(bench: Workbench): SetStanding {
  const { circuit } = bench.before;
  const { moved } = bench;
  const partOfEnd = new Map(circuit.partOfEnd);
  const changed = new Set<Part>();
  const parts: Part[] = [];
  for (const part of bench.parts.values()) {
    const isMoved = moved.size > 0 && part.ends.some(({ id }) => moved.has(id));
    const own = isMoved ? { ...part, ends: part.ends.map((end) => movedEnd(end, moved)) } : part;
    parts.push(own);
    if (circuit.partNamed.get(own.name) !== own) changed.add(own);
  }
  const endNamed = endsNow(bench, changed);
  const isChanged = new Map([...changed].map((part) => [part.name, part]));
  if (changed.size > 0)
    circuit.partOfEnd.forEach((part, id) => {
      const now = isChanged.get(part.name);
      if (now) partOfEnd.set(id, now);
    });
  for (const part of changed) for (const end of part.ends) partOfEnd.set(end.id, part);
  const isUntouched = changed.size === 0 && parts.length === circuit.parts.length;
  return {
    circuit: isUntouched
      ? circuit
      : {
          ...circuit,
          parts,
          partNamed: new Map(parts.map((part) => [part.name, part])),
          endNamed,
          partOfEnd,
          junctions: junctionsNow(bench, endNamed),
        },
    settings: settingsNow(bench),
    held: isSame(bench.held, bench.before.held) ? bench.before.held : bench.held,
  };
}

/** The terminals as they are by now; those of before themselves where all are as they were. */
function endsNow({ before, moved }: Workbench, changed: ReadonlySet<Part>): Circuit['endNamed'] {
  const { endNamed } = before.circuit;
  const isAsBefore = ({ ends }: Part): boolean => ends.every((end) => endNamed.get(end.id) === end);
  if (moved.size === 0 && [...changed].every(isAsBefore)) return endNamed;
  const now = new Map(endNamed);
  for (const [id, junction] of moved) {
    const end = now.get(id);
    if (end) now.set(id, { ...end, junction });
  }
  for (const { ends } of changed) for (const end of ends) now.set(end.id, end);
  return now;
}

/** The settings as before, and the same ones where nothing is set otherwise: what rests on them
 * need not be worked out again. */
function settingsNow({ before, positions, travels, removed }: Workbench): SetStanding['settings'] {
  const { settings } = before;
  const sameTravels = isSame(travels, settings.travels);
  const samePositions = isSame(positions, settings.positions);
  const sameTubes =
    removed.size === settings.removed.size &&
    [...removed].every((name) => settings.removed.has(name));
  if (sameTravels && samePositions && sameTubes) return settings;
  return {
    ...settings,
    positions: samePositions ? settings.positions : positions,
    travels: sameTravels ? settings.travels : travels,
    removed,
  };
}

function isSame(one: ReadonlyMap<string, number>, other: ReadonlyMap<string, number>): boolean {
  return one.size === other.size && [...one].every(([name, value]) => other.get(name) === value);
}

function movedEnd(end: End, moved: ReadonlyMap<string, number>): End {
  const junction = moved.get(end.id);
  return junction === undefined ? end : { ...end, junction };
}

/** The junctions with the terminals that are on them by now. */
function junctionsNow(bench: Workbench, endNamed: ReadonlyMap<string, End>): readonly Junction[] {
  const { circuit } = bench.before;
  const isAsBefore = bench.moved.size === 0 && endNamed.size === circuit.endNamed.size;
  if (isAsBefore) return circuit.junctions;
  const terminals: string[][] = Array.from({ length: bench.junctions }, () => []);
  for (const { id, junction } of endNamed.values()) terminals[junction]?.push(id);
  return terminals.map((here, index) => ({
    index,
    terminals: here,
    name: circuit.junctions[index]?.name ?? here[0] ?? '',
  }));
}
