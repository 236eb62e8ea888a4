import { type Circuit, isSupply, type Part, partKinds } from '@setwright/circuit';
import { valueText, windingText } from './part-words.ts';

/** A part in one plain line, for a screen reader: `C1, condenser, first tuning condenser, 365 mmfd`. */
export function spokenPart(circuit: Circuit, part: Part): string {
  const { noun } = partKinds[part.kind];
  const owner = circuit.partNamed.get(part.owner ?? '');
  const kind = owner ? `${noun} of ${owner.name}` : noun;
  const value = part.kind === 'winding' ? windingText(part) : valueText(part);
  const title = part.title ?? (owner?.title && `in the ${owner.title}`);
  const taps = isSupply(part) ? `taps ${part.ends.map(({ name }) => name).join(', ')}` : undefined;
  return [part.name, kind, title === noun ? undefined : title, value, taps]
    .filter((words) => words !== undefined && words !== '')
    .join(', ');
}
