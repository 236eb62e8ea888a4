import type { Circuit, Suppose, SupposeEdit } from '@setwright/circuit';
import type { ChangedPart, FailedPart, Overlay } from './overlay.ts';

/** What a suppose changes, as a bench engine tells it: where, and in a few words how. */
export interface Change {
  /** A part or one of its terminals. */
  readonly at: string;
  readonly words: string;
}

/** A suppose with the parts that fail in it, and what that changes where it is known. */
export function supposeOverlay(
  circuit: Circuit,
  id: string,
  suppose: Suppose,
  changes: readonly Change[],
): Overlay {
  const failed = suppose.edits.flatMap((edit) => failedIn(circuit, edit));
  const changed: ChangedPart[] = changes.map(({ at, words }, index) => ({
    at,
    words,
    letter: letterOf(index),
  }));
  return {
    id,
    title: `Suppose: ${suppose.title}`,
    parts: changed.length > 0 ? [...failed, ...changed].map(({ at }) => at) : undefined,
    paths: [],
    failed,
    changed,
    notes: failed.length === 0 ? ['What it supposes is nowhere on the drawing.'] : [],
  };
}

/** a to z, then aa, ab … */
function letterOf(index: number): string {
  const last = String.fromCharCode(97 + (index % 26));
  return index < 26 ? last : `${letterOf(Math.floor(index / 26) - 1)}${last}`;
}

/** The parts that an edit is about, each with what has become of it. */
function failedIn(circuit: Circuit, edit: SupposeEdit): FailedPart[] {
  const words = wordsOf(edit);
  const both = [edit.target, edit.verb === 'swap' || edit.verb === 'join' ? edit.other : undefined];
  return both.flatMap((at) => {
    if (at === undefined) return [];
    return circuit.partNamed.has(at) || circuit.endNamed.has(at) ? [{ at, words }] : [];
  });
}

function wordsOf({ verb, value, other, words }: SupposeEdit): string {
  const amount = value?.text;
  switch (verb) {
    case 'short':
      return 'shorted';
    case 'remove':
      return 'taken out';
    case 'reverse':
      return 'leads exchanged';
    case 'leaky':
      return amount ? `leaks, ${amount}` : 'leaks';
    case 'change':
      return amount ? `changed to ${amount}` : 'changed';
    case 'set':
      return amount ? `set to ${amount}` : ['set', ...words].join(' ');
    case 'swap':
      return other ? `exchanged with ${other}` : 'exchanged';
    case 'join':
      return other ? `joined to ${other}` : 'joined';
    case 'turns shorted':
      return amount ? `${amount} turns shorted` : verb;
    case 'gas':
      return amount ? `gassy, ${amount}` : 'gassy';
    case 'damped':
      return amount ? `damped to Q ${amount}` : verb;
    case 'plug':
      return other ? `plugged into ${other}` : 'plugged in';
    default:
      return amount ? `${verb}, ${amount}` : verb;
  }
}
