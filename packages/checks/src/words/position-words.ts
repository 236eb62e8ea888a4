import type { Settings } from '@setwright/circuit';
import type { Study } from '../study.ts';
import { standingWords } from '../wiring/positions.ts';

/**
 * How switches, selectors and jacks stand that do not stand as drawn, for the start of a
 * sentence: `With S2 at tap8, `. Empty when all stand as drawn.
 */
export function standingFirst(study: Study, settings: Settings): string {
  const words = standingWords(study.circuit, study.on.settings, settings);
  return words === '' ? '' : `With ${words}, `;
}

/** A sentence with its first letter made large. */
export function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
