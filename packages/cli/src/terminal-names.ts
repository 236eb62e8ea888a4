import { type Circuit, isSupply, type Part } from '@setwright/circuit';
import { nearest } from '@setwright/units';

/** What a written name stands for: a terminal's full name, or what to say instead. */
export type TerminalNamed =
  | { readonly id: string }
  | { readonly choices: readonly string[] }
  | { readonly likely: readonly string[] };

/** Words that stand for ends of tubes, as sockets are marked. */
const onTubes: Readonly<Record<string, string>> = {
  filament: 'filament-',
  heater: 'filament-',
  'F-': 'filament-',
  'F+': 'filament+',
  G: 'grid',
  P: 'plate',
  K: 'cathode',
};

/** Letters stamped on audio transformers. */
const onTransformers: Readonly<Record<string, string>> = {
  P: 'primary.start',
  B: 'primary.finish',
  F: 'secondary.start',
  G: 'secondary.finish',
};

/** Ends by place, for parts whose ends have names of their own. */
const places: Readonly<Record<string, number>> = {
  start: 0,
  rotor: 0,
  positive: 0,
  mineral: 0,
  tip: 0,
  finish: 1,
  stator: 1,
  negative: 1,
  whisker: 1,
  sleeve: 1,
};

/** The terminal that a person means by a name such as `V3.grid`, `B+45`, `T1.P` or `ANT`. */
export function terminalNamed(circuit: Circuit, written: string): TerminalNamed {
  const name = written.trim().replace(/\u2212/g, '-');
  if (circuit.endNamed.has(name)) return { id: name };
  for (const part of circuit.parts) {
    const tap = isSupply(part) ? part.ends.find((end) => end.name === name) : undefined;
    if (tap) return { id: tap.id };
  }
  const whole = circuit.partNamed.get(name);
  if (whole) return ofPart(circuit, whole);
  const dot = name.lastIndexOf('.');
  const part = circuit.partNamed.get(name.slice(0, dot));
  const end = part && endOf(circuit, part, name.slice(dot + 1));
  if (end) return { id: end };
  return { likely: nearest(name, terminalNames(circuit), 5) };
}

/** A bare part: its only end, or its arm; otherwise its ends to choose from. */
function ofPart(circuit: Circuit, part: Part): TerminalNamed {
  const ends = endsOf(circuit, part);
  const arm = part.ends.find((end) => end.name === 'arm');
  const only = ends.length === 1 ? ends[0] : arm?.id;
  return only === undefined ? { choices: ends } : { id: only };
}

/** Its own ends, or those of its windings. */
function endsOf(circuit: Circuit, part: Part): string[] {
  if (part.ends.length > 0) return part.ends.map((end) => end.id);
  return circuit.parts
    .filter((winding) => winding.owner === part.name)
    .flatMap((winding) => winding.ends.map((end) => end.id));
}

function endOf(circuit: Circuit, part: Part, word: string): string | undefined {
  const named = (end: string | undefined) => part.ends.find((each) => each.name === end)?.id;
  if (part.kind === 'tube') return named(onTubes[word]);
  if (part.kind === 'transformer') {
    const id = `${part.name}.${onTransformers[word] ?? ''}`;
    if (circuit.endNamed.has(id)) return id;
  }
  const windings = circuit.parts.filter((winding) => winding.owner === part.name);
  const [only] = windings;
  if (only && windings.length === 1) return only.ends.find((end) => end.name === word)?.id;
  return part.ends[places[word] ?? -1]?.id;
}

/** Every name that a terminal of the set goes by, taps by their own. */
function terminalNames(circuit: Circuit): string[] {
  return circuit.parts.flatMap((part) =>
    part.ends.map((end) => (isSupply(part) ? end.name : end.id)),
  );
}
