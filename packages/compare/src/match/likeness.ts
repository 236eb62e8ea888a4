import type { Amount, Phrase } from '../plain/phrase.ts';
import { namelessKey, type Unit } from './units.ts';

/** Slots that say little of what a part is. */
const light: ReadonlySet<string> = new Set(['kind', 'title', 'stage', 'found', 'set']);

/** How alike two parts are by what is said of them, 0 to 1, their names left out. */
export function alikeBySaying(one: Unit, other: Unit): number {
  let sum = 0.5;
  let whole = 0.5;
  for (const slot of new Set([...one.facts.keys(), ...other.facts.keys()])) {
    const weight = light.has(slot) ? 0.3 : 1;
    whole += weight;
    sum += weight * alikePhrases(one.facts.get(slot) ?? [], other.facts.get(slot) ?? []);
  }
  return sum / whole;
}

function alikePhrases(one: readonly Phrase[], other: readonly Phrase[]): number {
  if (namelessKey(one) === namelessKey(other)) return 1;
  const [a, b] = [amounts(one), amounts(other)];
  if (a.length === 0 || a.length !== b.length) return 0;
  const near = a.map((each, index) => alikeAmounts(each, b[index] as Amount));
  return near.reduce((sum, each) => sum + each, 0) / near.length;
}

const amounts = (phrases: readonly Phrase[]): Amount[] =>
  phrases.flat().flatMap((word) => (typeof word !== 'string' && 'value' in word ? word : []));

/** 1 for the same value, 0.5 for twice as much, 0 for a hundred times. */
function alikeAmounts(one: Amount, other: Amount): number {
  if (one.dimension !== other.dimension) return 0;
  if (one.value === other.value) return 1;
  const ratio = one.value / other.value;
  return ratio > 0 ? Math.max(0, 0.7 - Math.abs(Math.log10(ratio)) * 0.35) : 0;
}
