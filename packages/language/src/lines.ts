import type { IToken } from 'chevrotain';
import { connectingWords, statementWords } from './words.ts';

/**
 * One line of the text with the deeper lines that carry it on: the unit that is read by itself, so
 * that a garbled one disturbs no other.
 */
export interface Line {
  readonly tokens: readonly IToken[];
  /** Column of the first token, counted from 1. */
  readonly indent: number;
  /** True when it does not begin with a reserved word, `}` or `{`, and so belongs to nobody. */
  readonly orphan: boolean;
}

const isBrace = (token: IToken | undefined, image: '{' | '}') =>
  token?.image === image && token.tokenType.name !== 'STRING';

/** Cuts the tokens of a text into lines. Linear in the number of tokens. */
export function cutLines(tokens: readonly IToken[]): Line[] {
  const lines: Line[] = [];
  let current: IToken[] = [];
  let orphan = false;
  let indent = 1;
  let previous: IToken | undefined;
  // Words that lead the open blocks: inside a `suppose`, `set` begins a statement.
  const blocks: string[] = [];
  let lead = '';
  const finish = () => {
    if (current.length > 0) lines.push({ tokens: current, indent, orphan });
    current = [];
    orphan = false;
  };
  for (const [index, token] of tokens.entries()) {
    const startsLine =
      previous === undefined ||
      (token.startLine ?? 0) > (previous.endLine ?? previous.startLine ?? 0);
    if (startsLine) {
      const role = roleOf(
        token,
        tokens[index + 1],
        tokens[index + 2],
        previous,
        indent,
        blocks.at(-1),
      );
      if (role !== 'continues') {
        finish();
        indent = token.startColumn ?? 1;
        orphan = role === 'orphan';
        lead = token.image;
      }
    }
    if (isBrace(token, '{')) {
      blocks.push(lead);
      lead = tokens[index + 1]?.image ?? '';
    } else if (isBrace(token, '}')) {
      blocks.pop();
      lead = tokens[index + 1]?.image ?? '';
    }
    current.push(token);
    previous = token;
  }
  finish();
  return lines;
}

function roleOf(
  token: IToken,
  next: IToken | undefined,
  after: IToken | undefined,
  previous: IToken | undefined,
  indent: number,
  block: string | undefined,
): 'begins' | 'continues' | 'orphan' {
  const word = token.image;
  if (isBrace(token, '}')) return 'begins';
  if (isBrace(token, '{')) return previous && !isBrace(previous, '{') ? 'continues' : 'orphan';
  const deeper = (token.startColumn ?? 1) > indent;
  const open = previous !== undefined && !isBrace(previous, '{') && !isBrace(previous, '}');
  const begins = statementWords.has(word) && !leadsDetailHere(word, next, after, block);
  if (begins && previous?.image !== ',') return 'begins';
  if (!open) return begins ? 'begins' : 'orphan';
  if (deeper && (connectingWords.has(word) || previous?.image === ',')) return 'continues';
  return begins ? 'begins' : 'orphan';
}

/** Words that lead both a statement and a detail: which one this is. */
function leadsDetailHere(
  word: string,
  next: IToken | undefined,
  after: IToken | undefined,
  block: string | undefined,
): boolean {
  if (word === 'tap') return next?.tokenType.name === 'NUMBER';
  if (word === 'set') {
    // `set P1 60 %` is a statement of a suppose; `set 60 %` and `set tap8` carry a line on.
    const named = next?.tokenType.name === 'ID' || next?.tokenType.name === 'PATH';
    const goesOn = after?.tokenType.name === 'NUMBER' && after.startLine === next?.startLine;
    return block !== 'suppose' && !(named && goesOn);
  }
  return false;
}

export { isBrace };
