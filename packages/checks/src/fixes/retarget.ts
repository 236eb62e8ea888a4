import type { Circuit, Fix } from '@setwright/circuit';
import { writableTap } from '../grids/grid-home.ts';

/** Words of a join whose place holds more than the name of one terminal. */
const notOneName: ReadonlySet<string> = new Set(['wire', 'across', 'frame']);

/**
 * The fix that leads an end to another terminal. None where the end is joined in more than one
 * way, or where its own line does not name the one terminal that it goes to.
 */
export function retargeted(circuit: Circuit, terminal: string, to: string): readonly Fix[] {
  const joins = circuit.joins.filter((join) => join.from === terminal || join.to === terminal);
  const [join] = joins;
  if (!join || joins.length !== 1 || join.from !== terminal || notOneName.has(join.said)) return [];
  if (!circuit.endNamed.has(to) && !writableTap(circuit, to)) return [];
  return [{ title: `Lead ${terminal} to ${to}`, edits: [{ place: join.place, text: to }] }];
}

/** Kinds whose own line can say where both their ends go: `from X to Y`. */
const twoEnded: ReadonlySet<string> = new Set([
  'winding',
  'resistor',
  'leak',
  'rheostat',
  'ballast',
  'fuse',
  'choke',
  'phones',
  'horn',
  'speaker',
  'lamp',
]);

/** The fix that leads a loose end somewhere by a word more on its own line. None where it cannot. */
export function led(circuit: Circuit, terminal: string, to: string): readonly Fix[] {
  const part = circuit.partOfEnd.get(terminal);
  const end = circuit.endNamed.get(terminal);
  const word = end?.name === 'start' ? 'from' : end?.name === 'finish' ? 'to' : undefined;
  if (!part || !end || !word || end.joins.length > 0 || !twoEnded.has(part.kind)) return [];
  if (!circuit.endNamed.has(to) && !writableTap(circuit, to)) return [];
  const place = { ...part.place, start: part.place.end };
  return [{ title: `Lead ${terminal} to ${to}`, edits: [{ place, text: ` ${word} ${to}` }] }];
}
