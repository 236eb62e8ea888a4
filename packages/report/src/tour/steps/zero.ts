import { emitterOf, isSupply, zeroTap } from '@setwright/circuit';
import { listed } from '../../text/words.ts';
import type { Grounds } from '../grounds.ts';
import { plainOverlay, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';
import { called, endOf, suppliesOf } from '../wiring.ts';

/** Volts that a meter tells from none. */
const SEEN = 0.02;

/** Where zero is: what meets there, and how far from it each tube's own zero lies. */
export function zeroStep(grounds: Grounds): TourStep | undefined {
  const { circuit, point } = grounds;
  const supplies = suppliesOf(circuit);
  if (supplies.length === 0) return undefined;
  const tell = telling(grounds, 'zero', 'Where zero is');
  const zeros = supplies.flatMap((supply) => endOf(supply, zeroTap(supply)?.end ?? '') ?? []);
  const [first] = zeros;
  const here = (circuit.junctions[first?.junction ?? -1]?.terminals ?? []).filter((id) => {
    const part = circuit.partOfEnd.get(id);
    return part !== undefined && (isSupply(part) || part.kind === 'post' || part.kind === 'bus');
  });
  const meeting = here.map((id) => called(circuit, id));
  const apart = zeros.filter(({ junction }) => junction !== first?.junction);
  if (here.length > 1) {
    tell.fact({ kind: 'joined', terminals: here });
    tell.say(`${listed(meeting)} are one point: the zero that batteries are counted from.`);
  } else if (first)
    tell.say(
      `${called(circuit, first.id)} is the zero of its battery; nothing else is joined to it.`,
    );
  for (const { id, junction } of apart.slice(0, 2)) {
    const others = (circuit.junctions[junction]?.terminals ?? []).filter((each) => {
      const part = circuit.partOfEnd.get(each);
      return each !== id && part !== undefined && isSupply(part);
    });
    const with_ =
      others.length > 0
        ? `is joined to ${listed(others.map((each) => called(circuit, each)))} instead`
        : 'is not joined there';
    if (others.length > 0) tell.fact({ kind: 'joined', terminals: [id, ...others] });
    tell.say(`${called(circuit, id)} ${with_}.`);
  }
  const tubes = circuit.parts.filter(({ kind }) => kind === 'tube');
  const stands = tubes.flatMap((tube) => {
    const own = emitterOf(tube);
    const volts = own && first ? point.voltage(own.id, first.id) : undefined;
    return own && volts !== undefined ? [{ own, volts }] : [];
  });
  const off = stands.filter(({ volts }) => Math.abs(volts) > SEEN);
  const words = off.map(({ own }) => ({ id: own.id, text: tell.volts(own.id, first?.id ?? '') }));
  const groups = new Map<string, string[]>();
  for (const { id, text } of words)
    if (text !== undefined) groups.set(text, [...(groups.get(text) ?? []), id]);
  if (off.length > 0 && first) {
    tell.say(
      `Volts at a tube are counted from its own negative end or cathode, which is not the same place: ${listed([...groups].map(([text, ids]) => `${listed(ids)} ${ids.length > 1 ? 'stand' : 'stands'} ${text} above ${called(circuit, first.id)}`))}.`,
    );
    tell.lesson(
      'zero 1',
      'So the same grid can be told two ways, and a reading says little without the point that it was taken from.',
    );
  } else if (stands.length > 0 && first)
    tell.say(
      `Volts at a tube are counted from its own negative end or cathode; here ${listed(stands.map(({ own }) => own.id))} ${stands.length > 1 ? 'stand' : 'stands'} at that zero too.`,
    );
  const ground = here.find((id) => circuit.partOfEnd.get(id)?.words.has('ground'));
  if (ground !== undefined)
    tell.lesson(
      'zero 2',
      `${called(circuit, ground)} is there for the aerial and against the hand at the dials; the tubes would work without it.`,
    );
  tell.parts(...supplies.map(({ name }) => name));
  const lit = here.flatMap((id) => circuit.partOfEnd.get(id)?.name ?? []);
  return tell.done(
    plainOverlay('Where zero is', [
      ...lit,
      ...supplies.map(({ name }) => name),
      ...tubes.map(({ name }) => `${name}.filament-`),
    ]),
  );
}
