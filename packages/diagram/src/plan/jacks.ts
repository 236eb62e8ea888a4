import { jackCell } from '../cells/jack.ts';
import { pluggedInto } from '../contacts.ts';
import { addCell, type Planning, roleOf } from './planning.ts';

/** Jacks with springs that lead on, or with something plugged in. */
export function planJacks(planning: Planning): void {
  const { circuit, coils, led, parts, rails, used } = planning;
  for (const jack of parts) {
    if (jack.kind !== 'jack' || used.has(jack.name)) continue;
    const [one, other] = jack.ends;
    if (!one || !other || one.junction === other.junction) continue;
    const signals = [one, other].filter((end) => roleOf(planning, end) === 'signal');
    const [signal] = signals;
    const through = [...led.values()].filter(({ holder }) => holder === jack);
    const plugged = pluggedInto(circuit, jack).find(({ name }) => !used.has(name));
    if (!signal || (through.length === 0 && !plugged)) continue;
    used.add(jack.name);
    const height = ({ junction }: typeof one): number => rails.heightOf(junction);
    const [upper, lower] = height(other) > height(one) ? [other, one] : [one, other];
    if (through.length === 0 && plugged) used.add(plugged.name);
    const parted = { jack, upper, lower, through, plugged };
    const level = coils.level(signal.junction);
    addCell(
      planning,
      (paper) =>
        jackCell(
          paper,
          rails,
          {
            ...parted,
            jack: paper.shown(jack),
            plugged: parted.plugged && paper.shown(parted.plugged),
          },
          level,
        ),
      signals.map(({ junction }) => junction),
    );
  }
}
