import type { IToken, TokenType } from 'chevrotain';
import type { Document } from './generated/ast.ts';
import { cutLines, isBrace, type Line } from './lines.ts';
import { type LineTrouble, troubleWith } from './messages.ts';
import { receiverServices } from './services.ts';

/** A line, or the end of one, that could not be read. */
export interface Unreadable extends LineTrouble {
  readonly start: number;
  readonly end: number;
  /** Offsets of the whole line it stands in. */
  readonly line: { readonly start: number; readonly end: number };
  /** The check id that a waiver on this line would have named, when it is one. */
  readonly images: readonly string[];
}

export interface ReadText {
  readonly text: string;
  readonly document: Document;
  readonly unreadable: readonly Unreadable[];
  /** Offsets of lines of which only the beginning could be read. */
  readonly partly: ReadonlySet<number>;
}

type Piece = { readonly line: Line; readonly tokens: readonly IToken[] };

/**
 * Reads a text into its syntax tree. Every line stands by itself: one that cannot be read is told
 * of, and the rest are read as if it were not there. Where braces do not match, the indentation
 * says where blocks begin and end. Never throws, whatever the text; the tree of a line that was
 * read only in part holds what came before the trouble.
 */
export function readText(text: string): ReadText {
  const { lexer } = receiverServices();
  const { tokens } = lexer.tokenize(text);
  const lines = cutLines(tokens);
  const clean = lines.every((line) => !line.orphan && line.tokens.every(isOrdinary));
  if (clean && bracesMatch(tokens)) {
    const whole = parse(text, joined(lines.map((line) => ({ line, tokens: line.tokens }))));
    if (whole.errors.length === 0)
      return { text, document: whole.document, unreadable: [], partly: new Set() };
  }
  return readLineByLine(text, lines);
}

const isOrdinary = (token: IToken) =>
  token.tokenType.name !== 'STRAY' && token.tokenType.name !== 'OPEN_STRING';

function readLineByLine(text: string, lines: readonly Line[]): ReadText {
  const unreadable: Unreadable[] = [];
  const partly = new Set<number>();
  const pieces: Piece[] = [];
  for (const line of lines) {
    const { kept, trouble } = readLine(text, line);
    pieces.push({ line, tokens: kept });
    if (trouble) {
      unreadable.push(trouble);
      const first = kept[0];
      if (first) partly.add(first.startOffset);
    }
  }
  const mended = bracesMatch(pieces.flatMap((piece) => [...piece.tokens]))
    ? { pieces, unreadable: [] }
    : mendBraces(pieces);
  const last = parse(text, joined(mended.pieces));
  unreadable.push(...mended.unreadable);
  for (const error of last.errors) {
    const token = error.token;
    if (Number.isNaN(token.startOffset)) continue;
    const place = spanOf([token]);
    unreadable.push({ ...troubleWith([token], 0), ...place, line: place, images: [token.image] });
  }
  unreadable.sort((a, b) => a.start - b.start);
  return { text, document: last.document, unreadable, partly };
}

/** The longest beginning of a line that can be read, and what is wrong with the rest. */
function readLine(text: string, line: Line): { kept: readonly IToken[]; trouble?: Unreadable } {
  const tokens = line.tokens;
  const closers = leadingClosers(tokens);
  const body = tokens.slice(closers);
  const openers = trailingOpener(body) ? 1 : 0;
  const said = openers ? body.slice(0, -1) : body;
  if (said.length === 0 && !openers) return { kept: tokens };
  const fault = line.orphan ? 0 : faultIn(text, body);
  if (fault === undefined) return { kept: tokens };
  // What cannot be read ends before the brace that opens a block: the block is still there.
  let keep = Math.min(fault, said.length);
  const least = Math.max(1, keep - 8);
  while (keep >= least && faultIn(text, [...said.slice(0, keep), ...body.slice(said.length)]))
    keep -= 1;
  const beginning =
    keep >= least &&
    keep >= 2 &&
    faultIn(text, [...said.slice(0, keep), ...body.slice(said.length)]) === undefined
      ? said.slice(0, keep)
      : [];
  const rest = said.slice(beginning.length);
  const from = rest.length > 0 ? rest : body;
  const trouble: Unreadable = {
    ...troubleWith(body, Math.min(fault, body.length - 1)),
    ...spanOf(from),
    line: spanOf(tokens),
    images: tokens.map((token) => token.image),
  };
  const head = beginning.length > 0 || !openers ? beginning : [marker('UNREADABLE', body[0])];
  return { kept: [...tokens.slice(0, closers), ...head, ...body.slice(said.length)], trouble };
}

/** Index of the first token of a line's body that cannot be read; undefined when all can. */
function faultIn(text: string, body: readonly IToken[]): number | undefined {
  const stray = body.findIndex((token) => !isOrdinary(token));
  const closing: IToken[] = [];
  let depth = 0;
  for (const token of body) {
    if (isBrace(token, '{')) depth += 1;
    else if (isBrace(token, '}') && depth > 0) depth -= 1;
  }
  for (; depth > 0; depth -= 1) closing.push(marker('}', body.at(-1)));
  const extra = unmatchedClosers(body);
  const readable = stray >= 0 ? body.slice(0, stray) : body.slice(0, body.length - extra);
  const { errors } = parse(text, stray >= 0 ? readable : [...readable, ...closing]);
  const first = errors[0];
  if (first) {
    const at = body.indexOf(first.token);
    return at >= 0 ? at : stray >= 0 ? stray : Math.max(0, readable.length - 1);
  }
  return stray >= 0 ? stray : undefined;
}

function leadingClosers(tokens: readonly IToken[]): number {
  let count = 0;
  while (isBrace(tokens[count], '}')) count += 1;
  return count;
}

function trailingOpener(tokens: readonly IToken[]): boolean {
  return isBrace(tokens.at(-1), '{');
}

/** How many `}` at the end of a line close blocks that were opened on earlier lines. */
function unmatchedClosers(tokens: readonly IToken[]): number {
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

function bracesMatch(tokens: readonly IToken[]): boolean {
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

/** Puts blocks right by indentation where braces are missing or too many. */
function mendBraces(pieces: readonly Piece[]): { pieces: Piece[]; unreadable: Unreadable[] } {
  const out: Piece[] = [];
  const unreadable: Unreadable[] = [];
  const open: { indent: number; line: Line; opener: IToken | undefined }[] = [];
  const indented = isIndented(pieces);
  const say = (token: IToken | undefined, line: Line, trouble: LineTrouble) => {
    const span = token ? spanOf([token]) : spanOf(line.tokens);
    unreadable.push({ ...trouble, ...span, line: spanOf(line.tokens), images: [] });
  };
  const close = (token: IToken | undefined, line: Line) => {
    const block = open.pop();
    out.push({ line, tokens: [token ?? marker('}', line.tokens[0])] });
    if (!token && block) {
      say(block.opener, block.line, {
        message: 'The block that is opened here is never closed.',
        cure: 'Put a } on a line of its own below the last line of the block.',
        insert: undefined,
      });
    }
  };
  let before: { line: Line; opens: boolean } | undefined;
  for (const { line, tokens } of pieces) {
    const closers = leadingClosers(tokens);
    for (const token of tokens.slice(0, closers)) {
      if (indented)
        while (open.length > 0 && (open.at(-1)?.indent ?? 0) > line.indent) close(undefined, line);
      const fits =
        open.length > 0 &&
        (!indented || open.at(-1)?.indent === line.indent || token !== tokens[0]);
      if (fits) close(token, line);
      else {
        say(token, line, {
          message: 'This } closes nothing.',
          cure: 'Take it out, or open its block with a { above.',
          insert: undefined,
        });
      }
    }
    const body = tokens.slice(closers);
    if (body.length === 0) {
      before = { line, opens: false };
      continue;
    }
    if (indented && closers === 0) {
      while (open.length > 0 && (open.at(-1)?.indent ?? 0) >= line.indent) close(undefined, line);
      if (
        before &&
        !before.opens &&
        line.indent > before.line.indent &&
        !isBrace(before.line.tokens[0], '}')
      ) {
        out.push({ line: before.line, tokens: [marker('{', before.line.tokens.at(-1))] });
        open.push({ indent: before.line.indent, line: before.line, opener: undefined });
        say(undefined, before.line, {
          message: 'The lines below belong to a block that is not opened here.',
          cure: 'End this line with a {.',
          insert: ' {',
        });
      }
    }
    const trailing = unmatchedClosers(body);
    const kept = trailing > 0 ? body.slice(0, -trailing) : [...body];
    const opens = trailingOpener(kept);
    out.push({ line, tokens: kept });
    if (opens) open.push({ indent: line.indent, line, opener: kept.at(-1) });
    for (const token of body.slice(kept.length)) {
      if (open.length > 0 && !indented) close(token, line);
      else {
        say(token, line, {
          message: 'This } closes nothing that is open here.',
          cure: 'Put it on a line of its own, under the line that opened its block.',
          insert: undefined,
        });
      }
    }
    before = { line, opens };
  }
  const last = pieces.at(-1)?.line;
  while (open.length > 0 && last) close(undefined, last);
  return { pieces: out, unreadable };
}

/** Whether blocks are indented, so that indentation can stand in for a lost brace. */
function isIndented(pieces: readonly Piece[]): boolean {
  let deeper = 0;
  let level = 0;
  for (const [index, { line, tokens }] of pieces.entries()) {
    const next = pieces[index + 1];
    if (!next || !trailingOpener(tokens)) continue;
    if (next.line.indent > line.indent) deeper += 1;
    else level += 1;
  }
  return deeper > level;
}

function spanOf(tokens: readonly IToken[]): { start: number; end: number } {
  const first = tokens[0];
  const last = tokens.at(-1);
  const start = first?.startOffset ?? 0;
  return { start, end: Math.max(start + 1, (last?.endOffset ?? start) + 1) };
}

/** The tokens of all lines with a separator before each. */
function joined(pieces: readonly Piece[]): IToken[] {
  const tokens: IToken[] = [];
  for (const piece of pieces) {
    if (piece.tokens.length === 0) continue;
    if (!isBrace(piece.tokens[0], '{')) tokens.push(marker('SEP', piece.tokens[0]));
    for (const token of piece.tokens) tokens.push(token);
  }
  return tokens;
}

/** A token that the author did not write, of no length, standing at the given token's place. */
function marker(name: string, at: IToken | undefined): IToken {
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

function parse(text: string, tokens: IToken[]) {
  const { core, lexer } = receiverServices();
  lexer.prepared = { tokens, hidden: [], errors: [], report: undefined } as never;
  try {
    const result = core.parser.LangiumParser.parse<Document>(text);
    return { document: result.value, errors: result.parserErrors };
  } finally {
    lexer.prepared = undefined;
  }
}
