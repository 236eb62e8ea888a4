import { type Circuit, isSupply, type Part, spread } from '@setwright/circuit';
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
    about: [...(year ? [year.text] : []), ...(tunes ? [`tunes ${bandOf(tunes)}`] : [])],
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
        : supplies.some(mayHurt)
          ? `B voltage can hurt: take the supply leads off, B first, before working inside. ${DRAWN}`
          : `Take the battery leads off before working inside. ${DRAWN}`,
  };
}

/** Cells for filaments and crystals have fewer volts than this; a B supply has more, or may have. */
const leastB = 15;

function mayHurt(supply: Part): boolean {
  const volts = spread(supply);
  return supply.kind === 'eliminator' || volts <= 0 || volts >= leastB;
}

/** A band as it was written: of two wavelengths that share their unit the last one bears it. */
function bandOf({ low, high }: NonNullable<Circuit['tunes']>): string {
  const bearsUnit = ({ text }: { readonly text: string }): boolean => /[a-z]/i.test(text);
  const [first, last] = bearsUnit(low) && !bearsUnit(high) ? [high, low] : [low, high];
  return `${first.text} to ${last.text}`;
}
