import type { Circuit, Part } from '@setwright/circuit';

/** What is written at a part, by what it is the value of. */
const usual: Readonly<Record<string, string>> = {
  capacitance: '.5 mfd',
  inductance: '30 H',
  ratio: '1 to 3',
  resistance: '20 ohms',
  volts: '5 V',
};

/** Ends of the span of a variable condenser or variometer, likewise. */
const usualRange = ['20', '365 mmfd'] as const;

/**
 * The same circuit with the usual words for every value. What is chosen from it, rows and places,
 * does not depend on how long the values of a set are, so that nothing jumps when one changes.
 */
export function withUsualValues(circuit: Circuit): Circuit {
  const parts = circuit.parts.map((part): Part => {
    const turns = part.winding?.turns;
    return {
      ...part,
      values: mapped(part.values, (value, slot) => ({ ...value, text: usualText(part, slot) })),
      ranges: mapped(part.ranges, ({ low, high }) => ({
        low: { ...low, text: usualRange[0] },
        high: { ...high, text: usualRange[1] },
      })),
      winding: part.winding && turns ? { ...part.winding, turns: fifty(turns) } : part.winding,
    };
  });
  return {
    ...circuit,
    parts,
    partNamed: new Map(parts.map((part) => [part.name, part])),
    partOfEnd: new Map(parts.flatMap((part) => part.ends.map(({ id }) => [id, part]))),
  };
}

const usualText = ({ kind }: Part, slot: string): string =>
  kind === 'leak' && slot === 'resistance' ? '2 meg' : (usual[slot] ?? '');

const fifty = <T extends object>(turns: T): T & { text: string } => ({
  ...turns,
  text: '50 turns',
});

function mapped<T>(
  of: Readonly<Record<string, T>>,
  change: (each: T, slot: string) => T,
): Record<string, T> {
  return Object.fromEntries(Object.entries(of).map(([slot, each]) => [slot, change(each, slot)]));
}
