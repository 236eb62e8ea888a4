import type { Fix } from '@setwright/circuit';
import type { Check } from '../src/check.ts';
import { circuitOf, findingsOf } from './support.ts';

/** A text with a fix applied to it. */
export function withFix(text: string, { edits }: Fix): string {
  return [...edits]
    .sort((a, b) => b.place.start - a.place.start)
    .reduce(
      (now, { place, text: put }) => now.slice(0, place.start) + put + now.slice(place.end),
      text,
    );
}

/** The text after a fix of a check's first finding: the first fix where no other is asked for. */
export function afterFix(check: Check, text: string, which = 0): string {
  const fix = findingsOf(check, text)[0]?.fixes[which];
  if (!fix) throw new Error('the finding has no such fix');
  return withFix(text, fix);
}

/**
 * What a check says of a text, and what the reader says of it: a fixture that cannot be read
 * would keep a check silent for the wrong reason.
 */
export function heard(check: Check, text: string): string[] {
  const remarks = circuitOf(text).remarks.filter(({ severity }) => severity === 'error');
  return [...remarks, ...findingsOf(check, text)].map(({ message }) => message);
}
