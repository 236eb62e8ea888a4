import type { Circuit } from '@setwright/circuit';
import { gathered } from '@setwright/report';

/** What was taken for granted, as a note; what is said of several parts is said once. */
export function takenNote(circuit: Circuit, taken: readonly string[]): readonly string[] {
  const isName = (word: string): boolean =>
    circuit.partNamed.has(word) || circuit.endNamed.has(word);
  return taken.length > 0 ? [`Taken: ${gathered(taken, isName).join('; ')}.`] : [];
}
