import { type Circuit, isSupply, type Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Edit } from '../edits/edit.ts';

/**
 * What is to be said of a bypass of a supply that has opened and left every voltage as it was: a
 * voltmeter will not find it, and what it does goes by the supply's resistance. Undefined where no
 * such condenser opens.
 *
 * @param radio what is left of the signal at the detector, as a share
 */
export function bypassNote(
  circuit: Circuit,
  edits: readonly Edit[],
  radio: number | undefined,
): string | undefined {
  for (const { verb, target } of edits) {
    const part = circuit.partNamed.get(target);
    if (verb !== 'open' || part?.kind !== 'condenser') continue;
    const supply = supplyAt(circuit, part);
    if (!supply) continue;
    const ohms = supply.values.resistance?.value;
    const inside =
      ohms === undefined ? 'its own resistance' : `its ${formatQuantity(ohms, 'resistance')}`;
    const left = radio === undefined ? undefined : Math.round(100 * radio);
    return [
      `All volts stay as they were, since no direct current goes through ${part.name}.`,
      `What it sent home now goes through ${supply.name} and ${inside}${left === undefined ? '' : `, and ${left} % of the signal is left`}.`,
      `The more ${supply.name} has in it the weaker the set grows, until it howls: hold another condenser across ${part.name} and listen.`,
    ].join(' ');
  }
  return undefined;
}

/** The supply whose tap a condenser has one end on; none for one between two points of the set. */
function supplyAt(circuit: Circuit, { ends }: Part): Part | undefined {
  const on = new Set(ends.map(({ junction }) => junction));
  return circuit.parts.find(
    (part) =>
      isSupply(part) &&
      part.supplyTaps.some(
        ({ end, volts }) =>
          volts !== 0 && part.ends.some(({ name, junction }) => name === end && on.has(junction)),
      ),
  );
}
