import type { IToken, TokenType } from 'chevrotain';
import { isBrace, type Line } from './lines.ts';
import type { LineTrouble } from './messages.ts';
import { receiverServices } from './services.ts';

/** A line, or the end of one, that could not be read. */
export interface Unreadable extends LineTrouble {
  readonly start: number;
  readonly end: number;
  /** Offsets of the whole line it stands in. */
  readonly line: { readonly start: number; readonly end: number };
  /** True for a fault of the blocks, which braces are missing or too many, not of one line's words. */
  readonly ofBlocks: boolean;
}

/** A line with those of its tokens that are to be read. */
export interface Piece {
  readonly line: Line;
  readonly tokens: readonly IToken[];
}

export function leadingClosers(tokens: readonly IToken[]): number {
  let count = 0;
  while (isBrace(tokens[count], '}')) count += 1;
  return count;
}

export function trailingOpener(tokens: readonly IToken[]): boolean {
  return isBrace(tokens.at(-1), '{');
}

/** How many `}` at the end of a line close blocks that were opened on earlier lines. */
export function unmatchedClosers(tokens: readonly IToken[]): number {
  let depth = 0;
  let extra = 0;
  for (const token of tokens) {
    if (isBrace(token, '{')) depth += 1;
    else if (isBrace(token, '}')) {
      if (depth > 0) depth -= 1;
      else extra += 1;
    }
  }
  let trailing = 0;
  while (trailing < extra && isBrace(tokens[tokens.length - 1 - trailing], '}')) trailing += 1;
  return trailing;
}

/** Whether every brace has its fellow. */
export function bracesMatch(tokens: readonly IToken[]): boolean {
  let depth = 0;
  for (const token of tokens) {
    if (isBrace(token, '{')) depth += 1;
    else if (isBrace(token, '}')) {
      depth -= 1;
      if (depth < 0) return false;
    }
  }
  return depth === 0;
}

interface OpenBlock {
  readonly indent: number;
  readonly line: Line;
  readonly opener: IToken | undefined;
}

/**
 * Puts blocks right where braces are missing or too many. In a text that is indented the
 * indentation says where blocks begin and end; in any other, braces that close nothing are left
 * out and what is open at the end is closed there.
 */
export function mendBraces(pieces: readonly Piece[]): {
  pieces: Piece[];
  unreadable: Unreadable[];
} {
  const said = pieces.filter((piece) => piece.line.tokens.length > 0);
  return isIndented(said) ? mendByIndentation(said) : mendByBraces(said);
}

interface Mending {
  readonly out: Piece[];
  readonly unreadable: Unreadable[];
  readonly open: OpenBlock[];
}

function say(mending: Mending, token: IToken | undefined, line: Line, trouble: LineTrouble) {
  const span = token ? spanOf([token]) : spanOf(line.tokens);
  mending.unreadable.push({ ...trouble, ...span, line: spanOf(line.tokens), ofBlocks: true });
}

const closesNothing: LineTrouble = {
  message: 'This } closes nothing.',
  cure: 'Take it out, or open its block with a { above.',
  insert: undefined,
};

const neverClosed: LineTrouble = {
  message: 'The block that is opened here is never closed.',
  cure: 'Put a } on a line of its own below the last line of the block.',
  insert: undefined,
};

const notOpened: LineTrouble = {
  message: 'The lines below belong to a block that is not opened here.',
  cure: 'End this line with a {.',
  insert: ' {',
};

const opensNothing: LineTrouble = {
  message: 'This { opens a block, but nothing below belongs to it.',
  cure: 'Take it out.',
  insert: undefined,
};

/** Closes the innermost block, with the author's brace or with one that stands for it. */
function close(mending: Mending, token: IToken | undefined, line: Line) {
  const block = mending.open.pop();
  mending.out.push({ line, tokens: [token ?? marker('}', line.tokens[0])] });
  if (!token && block) say(mending, block.opener, block.line, neverClosed);
}

const innermost = (mending: Mending) => mending.open.at(-1)?.indent ?? 0;

function mendByIndentation(pieces: readonly Piece[]): {
  pieces: Piece[];
  unreadable: Unreadable[];
} {
  const mending: Mending = { out: [], unreadable: [], open: [] };
  const { out, open } = mending;
  for (const [index, { line, tokens }] of pieces.entries()) {
    const next = pieces[index + 1]?.line;
    const closers = leadingClosers(tokens);
    for (const [nth, token] of tokens.slice(0, closers).entries()) {
      if (nth === 0)
        while (open.length > 0 && innermost(mending) > line.indent) close(mending, undefined, line);
      const fits =
        open.length > 0 &&
        (nth === 0 ? innermost(mending) === line.indent : endsWith(mending, next));
      if (fits) close(mending, token, line);
      else say(mending, token, line, closesNothing);
    }
    let body = tokens.slice(closers);
    // A rubbish line where a } is owed was that brace; it has been told of already.
    if (body.length === 0 && closers === 0 && isOwedBrace(mending, line, next)) {
      while (open.length > 0 && innermost(mending) > line.indent) close(mending, undefined, line);
      close(mending, marker('}', line.tokens[0]), line);
      continue;
    }
    if (body.length === 0 && line.tokens.length === leadingClosers(line.tokens)) continue;
    if (closers === 0)
      while (open.length > 0 && innermost(mending) >= line.indent) close(mending, undefined, line);
    const deeper = next !== undefined && next.indent > line.indent;
    // `tube V1 01-A { }` with its lines below: the brace that closes is one too many.
    if (deeper && isBrace(body.at(-1), '}') && isBrace(body.at(-2), '{')) {
      say(mending, body.at(-1), line, closesNothing);
      body = body.slice(0, -1);
    }
    const extra = unmatchedClosers(body);
    const trailing = body.slice(body.length - extra);
    body = body.slice(0, body.length - extra);
    let opens = trailingOpener(body);
    const closedBelow =
      next !== undefined && next.indent === line.indent && isBrace(next.tokens[0], '}');
    if (opens && !deeper && !closedBelow) {
      say(mending, body.at(-1), line, opensNothing);
      body = body.slice(0, -1);
      opens = false;
    }
    if (!opens && (deeper || (closedBelow && !inlineBlock(body)))) {
      // Its brace is lost: the deeper lines below, or a } of its own, show that it had one.
      const owed = deeper || !open.some((block) => block.indent === line.indent);
      if (owed && !onlyClosers(line)) {
        body = [
          ...(body.length > 0 ? body : [unreadableMarker(line)]),
          marker('{', line.tokens.at(-1)),
        ];
        opens = true;
        say(mending, undefined, line, notOpened);
      }
    }
    out.push({ line, tokens: body });
    if (opens) open.push({ indent: line.indent, line, opener: body.at(-1) });
    for (const token of trailing) {
      if (open.length > 0 && !opens && endsWith(mending, next)) close(mending, token, line);
      else say(mending, token, line, closesNothing);
    }
  }
  const last = pieces.at(-1)?.line;
  while (open.length > 0 && last) close(mending, undefined, last);
  return { pieces: out, unreadable: mending.unreadable };
}

/** Whether a line of which nothing can be read stands where a block should be closed. */
function isOwedBrace(mending: Mending, line: Line, next: Line | undefined): boolean {
  return (
    mending.open.some((block) => block.indent === line.indent) &&
    (next === undefined || next.indent <= line.indent)
  );
}

const onlyClosers = (line: Line) => line.tokens.every((token) => isBrace(token, '}'));

const inlineBlock = (body: readonly IToken[]) => body.some((token) => isBrace(token, '{'));

/** Whether the innermost block ends before the next line, and has no brace of its own there. */
function endsWith(mending: Mending, next: Line | undefined): boolean {
  if (!next) return true;
  const indent = innermost(mending);
  return next.indent < indent || (next.indent === indent && !isBrace(next.tokens[0], '}'));
}

function mendByBraces(pieces: readonly Piece[]): { pieces: Piece[]; unreadable: Unreadable[] } {
  const mending: Mending = { out: [], unreadable: [], open: [] };
  for (const { line, tokens } of pieces) {
    const kept: IToken[] = [];
    for (const token of tokens) {
      if (isBrace(token, '{')) mending.open.push({ indent: line.indent, line, opener: token });
      else if (isBrace(token, '}')) {
        if (mending.open.length === 0) {
          say(mending, token, line, closesNothing);
          continue;
        }
        mending.open.pop();
      }
      kept.push(token);
    }
    mending.out.push({ line, tokens: kept });
  }
  const last = pieces.at(-1)?.line;
  while (mending.open.length > 0 && last) close(mending, undefined, last);
  return { pieces: mending.out, unreadable: mending.unreadable };
}

/** Whether blocks are indented, so that indentation can stand in for a lost brace. */
function isIndented(pieces: readonly Piece[]): boolean {
  let deeper = 0;
  let level = 0;
  for (const [index, { line, tokens }] of pieces.entries()) {
    const next = pieces[index + 1];
    if (!next || !trailingOpener(tokens) || isBrace(next.line.tokens[0], '}')) continue;
    if (next.line.indent > line.indent) deeper += 1;
    else level += 1;
  }
  return deeper > level;
}

/** The offsets that tokens span. */
export function spanOf(tokens: readonly IToken[]): { start: number; end: number } {
  const first = tokens[0];
  const last = tokens.at(-1);
  const start = first?.startOffset ?? 0;
  return { start, end: Math.max(start + 1, (last?.endOffset ?? start) + 1) };
}

/** A token that the author did not write, of no length, standing at the given token's place. */
export function marker(name: string, at: IToken | undefined): IToken {
  const type = receiverServices().lexer.definition[name] as TokenType;
  return {
    image: name === '{' || name === '}' ? name : '',
    startOffset: at?.startOffset ?? 0,
    endOffset: (at?.startOffset ?? 0) - 1,
    startLine: at?.startLine ?? 1,
    endLine: at?.startLine ?? 1,
    startColumn: at?.startColumn ?? 1,
    endColumn: (at?.startColumn ?? 1) - 1,
    tokenTypeIdx: type.tokenTypeIdx ?? 0,
    tokenType: type,
  };
}

/** A token that stands for a whole line of which nothing can be read. */
export function unreadableMarker(line: Line): IToken {
  const first = line.tokens[0];
  const last = line.tokens.at(-1);
  return {
    ...marker('UNREADABLE', first),
    endOffset: last?.endOffset ?? first?.startOffset ?? 0,
    endLine: last?.endLine ?? first?.startLine ?? 1,
    endColumn: last?.endColumn ?? first?.startColumn ?? 1,
  };
}
