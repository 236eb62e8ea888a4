import type { Part } from '@setwright/circuit';

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
 * A part with the usual words for every value; the same part where it has none. What is chosen from
 * it, rows and places, does not depend on how long the values of a set are, so that nothing jumps
 * when one changes.
 */
export function withUsualValues(part: Part): Part {
  const turns = part.winding?.turns;
  const hasValues = turns !== undefined || !isEmpty(part.values) || !isEmpty(part.ranges);
  if (!hasValues) return part;
  return {
    ...part,
    values: mapped(part.values, (value, slot) => ({ ...value, text: usualText(part, slot) })),
    ranges: mapped(part.ranges, ({ low, high }) => ({
      low: { ...low, text: usualRange[0] },
      high: { ...high, text: usualRange[1] },
    })),
    winding: part.winding && turns ? { ...part.winding, turns: fifty(turns) } : part.winding,
  };
}

const usualText = ({ kind }: Part, slot: string): string =>
  kind === 'leak' && slot === 'resistance' ? '2 meg' : (usual[slot] ?? '');

const fifty = <T extends object>(turns: T): T & { text: string } => ({
  ...turns,
  text: '50 turns',
});

function isEmpty(of: object): boolean {
  for (const _ in of) return false;
  return true;
}

function mapped<T>(
  of: Readonly<Record<string, T>>,
  change: (each: T, slot: string) => T,
): Record<string, T> {
  const made: Record<string, T> = {};
  for (const slot in of) made[slot] = change(of[slot] as T, slot);
  return made;
}
