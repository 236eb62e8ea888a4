import {
  type Circuit,
  type Fix,
  isSupply,
  type Join,
  type Part,
  type Place,
} from '@setwright/circuit';
import { writableTap } from '../grids/grid-home.ts';
import { nameOf } from '../words/finding.ts';

/**
 * The edits that exchange two taps wherever the text joins something to them, in wires too.
 * Undefined where a tap cannot be named alone, or a line does not name its terminals one by one.
 */
function tapsExchanged(circuit: Circuit, a: string, b: string): Fix['edits'] | undefined {
  const other = (terminal: string): string => (terminal === a ? b : terminal === b ? a : terminal);
  const edits: { place: Place; text: string }[] = [];
  for (const join of circuit.joins) {
    const touched = [join.from, join.to].some((id) => id === a || id === b);
    if (!touched || join.said === 'wire') continue;
    const name = written(circuit, other(join.to));
    if (join.said === 'across' || join.said === 'frame' || other(join.from) !== join.from)
      return undefined;
    if (name === undefined) return undefined;
    edits.push({ place: join.place, text: name });
  }
  for (const wire of wiresOf(circuit)) {
    if (!wire.terminals.some((id) => id === a || id === b)) continue;
    const text = wireText(circuit, wire.terminals.map(other));
    if (text === undefined) return undefined;
    edits.push({ place: wire.place, text });
  }
  return edits.length > 0 ? edits : undefined;
}

/**
 * The fix that takes a terminal out of the wires that join it to another. None where something
 * else than a wire that names both joins them.
 */
export function takenOff(circuit: Circuit, terminal: string, from: string): readonly Fix[] {
  const wires = wiresOf(circuit).filter(({ terminals }) =>
    [terminal, from].every((id) => terminals.includes(id)),
  );
  const [wire] = wires;
  if (!wire || wires.length > 1) return [];
  const left = wire.terminals.filter((id) => id !== terminal);
  const text = left.length < 2 ? '' : wireText(circuit, left);
  if (text === undefined) return [];
  const [off, on] = [nameOf(circuit, terminal), nameOf(circuit, from)];
  return [{ title: `Take ${off} off ${on}`, edits: [{ place: wire.place, text }] }];
}

interface Wire {
  readonly place: Place;
  /** The terminals in the order of the line. */
  readonly terminals: readonly string[];
}

/** The `wire` lines of a set; those that are leads with a resistance of their own are left out. */
function wiresOf(circuit: Circuit): readonly Wire[] {
  const byPlace = new Map<string, Join[]>();
  for (const join of circuit.joins) {
    if (join.said !== 'wire') continue;
    const key = `${join.place.file} ${join.place.start}`;
    byPlace.set(key, [...(byPlace.get(key) ?? []), join]);
  }
  return [...byPlace.values()].flatMap((joins): Wire[] => {
    const [first] = joins;
    if (!first) return [];
    const terminals = [first.from, ...joins.map(({ to }) => to)];
    const isChain = joins.every(({ from }, at) => at === 0 || from === joins[at - 1]?.to);
    const isStar = joins.every(({ from }) => from === first.from);
    const isLead = terminals.some((id) => circuit.partOfEnd.get(id)?.kind === 'lead');
    return (isChain || isStar) && !isLead ? [{ place: first.place, terminals }] : [];
  });
}

function wireText(circuit: Circuit, terminals: readonly string[]): string | undefined {
  const names = terminals.map((id) => written(circuit, id));
  return names.includes(undefined) ? undefined : `wire ${names.join(' to ')}`;
}

/** A terminal as it can be written; undefined for a tap that two supplies have. */
function written(circuit: Circuit, id: string): string | undefined {
  const part = circuit.partOfEnd.get(id);
  const name = nameOf(circuit, id);
  return part && isSupply(part) && !writableTap(circuit, name) ? undefined : name;
}

/** The fix that exchanges two taps of a supply that stands in backwards. */
export function turnedRound(circuit: Circuit, supply: Part, a: string, b: string): readonly Fix[] {
  const edits = tapsExchanged(circuit, a, b);
  return edits ? [{ title: `Exchange the leads of ${supply.name}`, edits }] : [];
}
