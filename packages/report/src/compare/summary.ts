import type { Circuit, Part } from '@setwright/circuit';
import { partKinds } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import { counted, listed } from '../text/words.ts';
import type { UnitStyle } from '../values/quantities.ts';

/** What a set is, in a few sentences: for one that is new, or gone. */
export function summaryOf(circuit: Circuit, style: UnitStyle): string[] {
  const { parts, tunes, year } = circuit;
  const of = (...kinds: readonly Part['kind'][]) =>
    parts.filter(({ kind }) => kinds.includes(kind));
  const facts = [
    ...(year ? [`of ${year.text}`] : []),
    ...(tunes
      ? [
          `tunes ${formatQuantity(tunes.low.value, tunes.low.dimension, style)} to ${formatQuantity(tunes.high.value, tunes.high.dimension, style)}`,
        ]
      : []),
  ];
  const tubes = of('tube');
  const supplies = of('battery', 'eliminator').map(supplyWords);
  const counts = countedKinds(parts);
  return [
    ...(facts.length > 0
      ? [
          `It is ${listed(facts)}.`
            .replace('It is tunes', 'It tunes')
            .replace(' and tunes', ', and tunes'),
        ]
      : []),
    tubes.length === 0
      ? 'It has no tubes.'
      : `It has ${counted(tubes.length, 'tube')}: ${listed(typesOf(tubes))}.`,
    ...(supplies.length > 0 ? [`It runs from ${listed(supplies)}.`] : []),
    ...(counts.length > 0 ? [`Besides it has ${listed(counts)}.`] : []),
  ];
}

/** `V1 to V3 01-A` would hide gaps, so types are counted: `4 of type 01-A`. */
function typesOf(tubes: readonly Part[]): string[] {
  const counts = new Map<string, number>();
  for (const { typeName } of tubes) {
    const type = typeName ?? 'no type said';
    counts.set(type, (counts.get(type) ?? 0) + 1);
  }
  return [...counts].map(([type, count]) => (counts.size === 1 ? type : `${count} × ${type}`));
}

function supplyWords({ name, kind, words, supplyTaps }: Part): string {
  const volts = supplyTaps.flatMap(({ volts }) => volts ?? []);
  const span = volts.length > 0 ? Math.max(...volts) - Math.min(...volts) : undefined;
  const what =
    kind === 'eliminator'
      ? 'eliminator'
      : [...words].includes('storage')
        ? 'storage battery'
        : 'battery';
  return `${what} ${name}${span === undefined ? '' : ` of ${formatQuantity(span, 'voltage')}`}`;
}

const uncounted: ReadonlySet<string> = new Set([
  'tube',
  'battery',
  'eliminator',
  'winding',
  'bus',
  'post',
  'lead',
]);

function countedKinds(parts: readonly Part[]): string[] {
  const counts = new Map<string, number>();
  for (const { kind } of parts) {
    if (uncounted.has(kind)) continue;
    const { noun } = partKinds[kind];
    counts.set(noun, (counts.get(noun) ?? 0) + 1);
  }
  return [...counts].map(([noun, count]) => counted(count, noun, pluralOf(noun)));
}

function pluralOf(noun: string): string {
  return noun.endsWith('s') ? noun : /(?:ch|x)$/.test(noun) ? `${noun}es` : `${noun}s`;
}
