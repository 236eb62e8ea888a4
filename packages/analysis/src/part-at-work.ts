import type { Part } from '@setwright/circuit';
import { type Figure, fact, figure } from './because.ts';
import type { Rest } from './dc-rest.ts';
import type { Element } from './network.ts';
import type { Flows } from './rest-flows.ts';
import type { Known } from './tube-at-work.ts';

/** A part that current passes through, at rest. Supplies and tubes are told of by themselves. */
export interface PartAtWork {
  readonly part: string;
  /** Amperes from its first end to its last; of its sections the one that carries most. */
  readonly amperes: Figure | undefined;
  /** Watts that it turns into heat, all sections together. */
  readonly watts: Figure | undefined;
}

/** What a part carries; undefined for one that nothing passes through. */
export function partAtWork(
  part: Part,
  rest: Rest,
  flows: Flows,
  isKnown: Known,
): PartAtWork | undefined {
  const { system } = rest;
  const indices = rest.elementsOf.get(part.name);
  if (!indices || indices.length === 0) return undefined;
  let most = 0;
  let watts = 0;
  let ohms = 0;
  let volts = 0;
  let known = true;
  for (const index of indices) {
    const { branch } = system.elements[index] as (typeof system.elements)[number];
    const amperes = flows.amperes[index] as number;
    known &&= Number.isFinite(amperes) && isKnown(branch.fromJunction, branch.toJunction);
    const across =
      (system.volts[system.from[index] as number] as number) -
      (system.volts[system.to[index] as number] as number);
    const isOhmic = system.curves[index]?.kind === 'ohmic';
    const isWire = system.elements[index]?.ohms === 0 && system.from[index] === system.to[index];
    const resistance = isWire ? 0 : (system.ohms[index] as number);
    watts += isOhmic ? amperes * amperes * resistance : amperes * across;
    ohms += resistance;
    volts += across;
    if (Math.abs(amperes) > Math.abs(most)) most = amperes;
  }
  if (!known) return { part: part.name, amperes: undefined, watts: undefined };
  // In a wire of no resistance the current is what comes to its ends: V/R says nothing of it.
  if (ohms === 0) {
    return {
      part: part.name,
      amperes: figure(most, 'Kirchhoff’s first law: what the parts on its ends bring it', []),
      watts: figure(watts, 'Joule’s law, P = I² R', [
        fact('amperes', most, 'current'),
        fact('ohms', 0, 'resistance'),
      ]),
    };
  }
  const facts = [
    fact(`volts across ${part.name}`, volts, 'voltage', part.place),
    fact(
      howKnown(part, system.elements[indices[0] as number]),
      ohms,
      'resistance',
      part.setting?.place ?? part.values.resistance?.place,
    ),
  ];
  return {
    part: part.name,
    amperes: figure(most, 'Ohm’s law, I = V/R', facts),
    watts: figure(watts, 'Joule’s law, P = I² R', [fact('amperes', most, 'current'), ...facts]),
  };
}

/** What its ohms rest on. */
function howKnown(part: Part, element: Element | undefined): string {
  const isReckoned = part.kind === 'winding' && part.values.resistance === undefined;
  if (isReckoned && element?.supposed === undefined) return 'ohms, those of its wire';
  if (element?.control !== undefined) return 'ohms, as found for its filaments';
  return element?.supposed === undefined ? 'ohms' : `ohms, taken for ${element.supposed}`;
}
