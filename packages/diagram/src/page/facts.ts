import { type Circuit, isSupply, spread } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import { naturally } from '../natural-order.ts';

/** What a title block says of a set, in lines. */
export interface SetFacts {
  readonly title: string;
  /** Year and band, as far as the text gives them. */
  readonly about: readonly string[];
  readonly tubes: readonly string[];
  readonly supplies: readonly string[];
  readonly caution: string;
}

const DRAWN =
  'Drawn from the written text of the set: prove every wire against the set itself before power goes on.';

/** The facts of a set for its title block. Never throws. */
export function factsOf(circuit: Circuit): SetFacts {
  const { year, tunes } = circuit;
  const byType = new Map<string, string[]>();
  for (const { kind, name, typeName } of circuit.parts) {
    if (kind !== 'tube') continue;
    const type = typeName ?? 'type not said';
    byType.set(type, [...(byType.get(type) ?? []), name]);
  }
  const supplies = circuit.parts.filter(isSupply).sort((a, b) => naturally(a.name, b.name));
  return {
    title: circuit.title,
    about: [
      ...(year ? [year.text] : []),
      ...(tunes ? [`tunes ${tunes.low.text} to ${tunes.high.text}`] : []),
    ],
    tubes: [...byType]
      .sort(([a], [b]) => naturally(a, b))
      .map(([type, names]) => `${type}: ${names.sort(naturally).join(', ')}`),
    supplies: supplies.map((part) => {
      const volts = spread(part);
      const make = ['storage', 'dry'].find((word) => part.words.has(word));
      const kind = part.kind === 'eliminator' ? 'eliminator' : make;
      return [part.name, volts > 0 ? formatQuantity(volts, 'voltage') : undefined, kind]
        .filter((word) => word !== undefined)
        .join(' ');
    }),
    caution:
      supplies.length === 0
        ? DRAWN
        : `B voltage can hurt: take the supply leads off, B first, before working inside. ${DRAWN}`,
  };
}
