import { nearest } from '@setwright/units';
import type { IToken } from 'chevrotain';
import { connectingWords, statementWords } from './words.ts';

/** What is wrong with a line, in plain words. */
export interface LineTrouble {
  readonly message: string;
  readonly cure: string;
  /** Text that would cure it when put in at the end of the trouble's place, where one is plain. */
  readonly insert: string | undefined;
  /** A word that probably was meant in place of the one at the trouble. */
  readonly instead?: { readonly start: number; readonly end: number; readonly word: string };
}

const wants: Readonly<Record<string, string>> = {
  from: 'the terminal it comes from',
  to: 'the terminal it goes to',
  across: 'the part that it lies across',
  beside: 'the winding that it stands beside',
  over: 'the winding that it lies over',
  inside: 'the winding that it lies inside',
  of: 'the wire gauge, as in `of 26 DCC`',
  spaced: 'a distance, as in `spaced 1/4 in`',
  set: 'how it is set, as in `set 50 %`',
  taps: 'turns counted from the start, as in `taps 4, 8`',
  tap: 'turns counted from the start, as in `tap 13`',
  ratio: 'two numbers, as in `ratio 1 to 3.5`',
  through: 'the part that current goes through',
  into: 'the jack that it plugs into',
  drives: 'the condensers or gang that it turns',
  with: 'the part it is taken with',
  found: 'what was found, as in `found 2.2 meg` or `found open`',
  form: 'a diameter, as in `form 2 3/4 in`',
  use: 'the file in quotation marks, as in `use "parts/coils.receiver"`',
};

const quoted = (token: IToken) =>
  token.image.length > 24 ? `${token.image.slice(0, 24)}…` : token.image;

/**
 * Says in the trade's words why a line cannot be read from its token at `fault` on. Works from the
 * tokens alone, so that the words are ours and do not change with the parser.
 */
export function troubleWith(tokens: readonly IToken[], fault: number): LineTrouble {
  const bad = tokens[fault];
  const before = tokens[fault - 1];
  if (!bad)
    return { message: 'Nothing is said here.', cure: 'Finish the line.', insert: undefined };
  const kind = bad.tokenType.name;
  if (kind === 'OPEN_STRING') {
    return {
      message: 'The quotation mark is not closed on this line.',
      cure: 'Close it with a second " at the end of the words.',
      insert: '"',
    };
  }
  if (kind === 'STRAY') {
    return {
      message: `The sign "${quoted(bad)}" means nothing here.`,
      cure: 'Take it out.',
      insert: undefined,
    };
  }
  const next = tokens[fault + 1];
  const thousands = before && next && thousandsAt(before, bad, next);
  if (thousands) return thousands;
  if (fault === 0) return beginning(bad, tokens[1]);
  const last = fault === tokens.length - 1;
  const lead = before && wants[before.image];
  if (lead && (connectingWords.has(bad.image) || bad.image === '{' || bad.image === '}')) {
    return {
      message: `After "${before.image}" the line does not say ${lead}.`,
      cure: `Name it after "${before.image}".`,
      insert: undefined,
    };
  }
  const lastWord = tokens.at(-1);
  const lastWants = last && lastWord ? wants[lastWord.image] : undefined;
  if (lastWants) {
    return {
      message: `The line breaks off: after "${lastWord?.image}" it does not say ${lastWants}.`,
      cure: 'Finish the line.',
      insert: undefined,
    };
  }
  const first = tokens[0];
  return {
    message: last
      ? `The line cannot be read at "${quoted(bad)}": something is missing here or after it.`
      : `The line cannot be read from "${quoted(bad)}" on.`,
    cure:
      first && statementWords.has(first.image)
        ? `See how a line that begins with "${first.image}" is put together, and say one fact a line.`
        : 'Begin the line with the word for the part or fact that it tells of.',
    insert: undefined,
  };
}

/** `10,000 ohms`: the comma parts things in a list, so a number is written without it. */
function thousandsAt(before: IToken, comma: IToken, after: IToken): LineTrouble | undefined {
  const close = (left: IToken, right: IToken) =>
    (left.endOffset ?? left.startOffset) + 1 === right.startOffset;
  if (comma.image !== ',' || !/^\d{1,3}$/.test(before.image) || !/^\d{3}$/.test(after.image))
    return;
  if (!close(before, comma) || !close(comma, after)) return;
  const word = `${before.image}${after.image}`;
  return {
    message: `A comma parts the things in a list; it cannot stand inside a number such as ${before.image},${after.image}.`,
    cure: `Write ${word}.`,
    insert: undefined,
    instead: { start: before.startOffset, end: (after.endOffset ?? after.startOffset) + 1, word },
  };
}

function beginning(bad: IToken, next: IToken | undefined): LineTrouble {
  if (statementWords.has(bad.image)) {
    return {
      message: `The line begins with "${bad.image}" but does not go on as such a line should${
        next ? `, with "${quoted(next)}" next` : ''
      }.`,
      cure: 'Finish the line.',
      insert: undefined,
    };
  }
  const likely = nearest(bad.image, statementWords, 1)[0];
  if (likely) {
    return {
      message: `A line cannot begin with "${quoted(bad)}". Did you mean "${likely}"?`,
      cure: `Begin the line with "${likely}", or with the word for the part or fact that it tells of.`,
      insert: undefined,
      instead: {
        start: bad.startOffset,
        end: (bad.endOffset ?? bad.startOffset) + 1,
        word: likely,
      },
    };
  }
  if (connectingWords.has(bad.image)) {
    return {
      message: `A line that begins with "${bad.image}" carries on the line above only when it stands deeper; here it belongs to nothing.`,
      cure: 'Put it on the line it belongs to, or indent it below that line.',
      insert: undefined,
    };
  }
  if (bad.image === 'stage') {
    return {
      message: 'A line cannot begin with "stage": what the stage is for comes before it.',
      cure: `Write radio, detector, audio, output or another word for it first, as in "audio stage ${
        next && /^[A-Za-z]\w*$/.test(next.image) ? next.image : 'AF'
      }".`,
      insert: undefined,
    };
  }
  return {
    message: `A line cannot begin with "${quoted(bad)}".`,
    cure: 'Begin it with the word for the part or fact that it tells of, such as condenser, wire or tube.',
    insert: undefined,
  };
}
