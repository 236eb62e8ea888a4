import type { Check } from '../src/check.ts';
import { edited } from './edited.ts';
import { findingsOf } from './support.ts';
import { heard } from './trying.ts';

/** Severity and message of each finding of one check, for a text with words exchanged. */
export function saidOf(
  check: Check,
  text: string,
  ...changes: readonly (readonly [string, string])[]
): string[] {
  return findingsOf(check, edited(text, ...changes)).map(
    ({ severity, message }) => `${severity}: ${message}`,
  );
}

/** What a check says of a text with words exchanged, and what the reader says of it. */
export function silent(
  check: Check,
  text: string,
  ...changes: readonly (readonly [string, string])[]
): string[] {
  return heard(check, edited(text, ...changes));
}
