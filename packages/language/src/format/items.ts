import type { IToken } from 'chevrotain';
import { cutLines, isBrace } from '../lines.ts';
import { tokensOf } from '../read.ts';
import { receiverServices } from '../services.ts';

/** A token or comment of the text: what the formatter sets down again, each with its own words. */
export interface Item {
  readonly kind: 'token' | 'line-comment' | 'block-comment';
  readonly image: string;
  /** Offset of its first character, and one past its last. */
  readonly start: number;
  readonly end: number;
  readonly startLine: number;
  readonly endLine: number;
  readonly brace: '{' | '}' | undefined;
  readonly isNumber: boolean;
  /** Number of the line it belongs to, by lines.ts; -1 for a comment. */
  readonly line: number;
  /** Whether it is the first token of that line. */
  readonly leadsLine: boolean;
  /** Whether an empty line stands before it in the text. */
  readonly afterBlank: boolean;
  /** Whether it is the first thing on its line of the text. */
  readonly startsTextLine: boolean;
  /** Whether it is a comment with no token before it on its line of the text. */
  readonly leadsText: boolean;
}

/** Tokens and comments of a text, in order. */
export function itemsOf(text: string): Item[] {
  const lines = cutLines(tokensOf(text));
  const raw: { token: IToken; line: number; leadsLine: boolean }[] = lines.flatMap((line, number) =>
    line.tokens.map((token, index) => ({ token, line: number, leadsLine: index === 0 })),
  );
  for (const token of receiverServices().lexer.tokenize(text).hidden)
    raw.push({ token, line: -1, leadsLine: false });
  raw.sort((a, b) => a.token.startOffset - b.token.startOffset);
  const items: Item[] = [];
  let before: Item | undefined;
  for (const { token, line, leadsLine } of raw) {
    const startLine = token.startLine ?? 1;
    const name = token.tokenType.name;
    const ahead = before && before.endLine === startLine ? before : undefined;
    const item: Item = {
      kind:
        line >= 0
          ? 'token'
          : name === 'BLOCK_COMMENT'
            ? 'block-comment'
            : ('line-comment' as const),
      image: name === 'LINE_COMMENT' ? token.image.trimEnd() : token.image,
      start: token.startOffset,
      end: (token.endOffset ?? token.startOffset) + 1,
      startLine,
      endLine: startLine + lineBreaksIn(token.image),
      brace:
        line < 0 ? undefined : isBrace(token, '{') ? '{' : isBrace(token, '}') ? '}' : undefined,
      isNumber: name === 'NUMBER',
      line,
      leadsLine,
      afterBlank: before !== undefined && startLine - before.endLine > 1,
      startsTextLine: ahead === undefined,
      leadsText:
        line < 0 &&
        (ahead === undefined ||
          (ahead.kind !== 'token' && (ahead.leadsText || ahead.endLine > ahead.startLine))),
    };
    items.push(item);
    before = item;
  }
  return items;
}

function lineBreaksIn(image: string): number {
  return image.match(/\r\n?|\n/g)?.length ?? 0;
}
