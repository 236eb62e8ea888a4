import type { Suppose, SupposeEdit } from '@setwright/circuit';
import { type Dimension, formatQuantity } from '@setwright/units';

/** What can be done to a set in thought: the verbs of a `suppose`. */
export type Verb =
  | 'open'
  | 'short'
  | 'leaky'
  | 'weak'
  | 'gas'
  | 'change'
  | 'set'
  | 'remove'
  | 'reverse'
  | 'swap'
  | 'join'
  | 'turns shorted'
  | 'damped'
  | 'plug'
  | 'intermittent'
  | 'microphonic';

/** An amount in SI units; percent as a share, turns and Q as plain numbers. */
export interface Amount {
  readonly value: number;
  readonly dimension: Dimension;
}

/** One edit: a verb, the part or terminal it acts on, and what else it needs. */
export interface Edit {
  readonly verb: Verb;
  /** A part's name, or a terminal's full one. */
  readonly target: string;
  /** The second part or terminal of `swap`, `join` and `plug`. */
  readonly other?: string | undefined;
  readonly amount?: Amount | undefined;
  /** Where a switch or selector is set, as the text names it; `off`. */
  readonly words?: readonly string[];
}

const verbs: Readonly<Record<Verb, true>> = {
  open: true,
  short: true,
  leaky: true,
  weak: true,
  gas: true,
  change: true,
  set: true,
  remove: true,
  reverse: true,
  swap: true,
  join: true,
  'turns shorted': true,
  damped: true,
  plug: true,
  intermittent: true,
  microphonic: true,
};

const isVerb = (word: string): word is Verb => word in verbs;

/** The edits of a `suppose` as read; those whose target could not be read are left out. */
export function editsOf({ edits }: Suppose): readonly Edit[] {
  return edits.flatMap((edit) => editOf(edit) ?? []);
}

function editOf({ verb, target, other, value, words }: SupposeEdit): Edit | undefined {
  if (!isVerb(verb) || target === undefined) return undefined;
  const amount = value && { value: value.value, dimension: value.dimension };
  return { verb, target, other, amount, words };
}

/**
 * An edit as a line of a `suppose` says it; equal edits have equal lines.
 *
 * @param called how the text calls a part or terminal
 */
export function lineOf(edit: Edit, called: (name: string) => string = (name) => name): string {
  const { verb, amount, words = [] } = edit;
  const target = called(edit.target);
  const other = edit.other === undefined ? undefined : called(edit.other);
  const said = amount && amountText(amount);
  // What a line of a text lacks, or says so that it cannot be read, is left out of this one too.
  const behind = (word: string, what: string | number | undefined): string =>
    what === undefined ? '' : ` ${word} ${what}`;
  switch (verb) {
    case 'change':
      return `change ${target}${behind('to', said)}`;
    case 'swap':
      return `swap ${target}${behind('with', other)}`;
    case 'join':
      return `join ${target}${behind('to', other)}${behind('through', said)}`;
    case 'plug':
      return `plug ${target}${behind('into', other)}`;
    case 'turns shorted':
      return `turns${amount ? ` ${amount.value}` : ''} shorted in ${target}`;
    case 'damped':
      return `damped ${target}${behind('to Q', amount?.value)}`;
    default:
      return [verb, target, ...(said === undefined ? words : [said])].join(' ');
  }
}

function amountText({ value, dimension }: Amount): string {
  return formatQuantity(value, dimension, 'period', 6);
}
