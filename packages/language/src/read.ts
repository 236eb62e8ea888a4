import type { IToken } from 'chevrotain';
import {
  bracesMatch,
  leadingClosers,
  marker,
  mendBraces,
  type Piece,
  spanOf,
  trailingOpener,
  type Unreadable,
  unmatchedClosers,
  unreadableMarker,
} from './braces.ts';
import type { Document } from './generated/ast.ts';
import { cutLines, isBrace, type Line } from './lines.ts';
import { troubleWith } from './messages.ts';
import { receiverServices } from './services.ts';

export type { Unreadable };

export interface ReadText {
  readonly text: string;
  readonly document: Document;
  readonly unreadable: readonly Unreadable[];
  /** Offsets of lines of which only the beginning could be read. */
  readonly partly: ReadonlySet<number>;
}

/**
 * Reads a text into its syntax tree. Every line stands by itself: one that cannot be read is told
 * of, and the rest are read as if it were not there. Where braces do not match, the indentation
 * says where blocks begin and end. Never throws, whatever the text; the tree of a line that was
 * read only in part holds what came before the trouble.
 */
export function readText(text: string): ReadText {
  const { tokens, tooDeep } = shallow(tokensOf(text));
  const lines = cutLines(tokens);
  const clean = lines.every((line) => !line.orphan && line.tokens.every(isOrdinary));
  if (clean && !tooDeep && bracesMatch(tokens)) {
    const whole = parse(text, joined(lines.map((line) => ({ line, tokens: line.tokens }))));
    if (whole.errors.length === 0)
      return { text, document: whole.document, unreadable: [], partly: new Set() };
  }
  const read = readLineByLine(text, lines);
  return tooDeep ? { ...read, unreadable: [...read.unreadable, tooDeep] } : read;
}

/** Blocks in one another deeper than this are no set's; an endless nest would fill the stack. */
const deepestBlock = 24;

/** The tokens up to the first block that is nested too deep. */
function shallow(tokens: readonly IToken[]): { tokens: readonly IToken[]; tooDeep?: Unreadable } {
  let depth = 0;
  for (const [index, token] of tokens.entries()) {
    if (isBrace(token, '{')) depth += 1;
    else if (isBrace(token, '}')) depth -= 1;
    if (depth <= deepestBlock) continue;
    const place = spanOf([token]);
    const tooDeep: Unreadable = {
      message: 'Blocks are nested too deep here; the text from here on is not read.',
      cure: 'Close the blocks above. A set needs four levels: receiver, stage, part, detail.',
      insert: undefined,
      ...place,
      line: place,
      ofBlocks: true,
    };
    return { tokens: tokens.slice(0, index), tooDeep };
  }
  return { tokens };
}

/** The tokens of a text; the brace at the end of a line whose quotation mark is lost stays one. */
export function tokensOf(text: string): IToken[] {
  const { lexer } = receiverServices();
  return lexer.tokenize(text).tokens.flatMap((token) => {
    if (token.tokenType.name !== 'OPEN_STRING') return [token];
    const cut = /\s*\{\s*$/.exec(token.image);
    if (!cut) return [token];
    const start = token.startOffset + token.image.lastIndexOf('{');
    const shorter = token.image.slice(0, cut.index);
    const words = { ...token, image: shorter, endOffset: token.startOffset + shorter.length - 1 };
    const column = (token.startColumn ?? 1) + start - token.startOffset;
    const brace = { startOffset: start, endOffset: start, startColumn: column, endColumn: column };
    return [words, { ...marker('{', token), ...brace }];
  });
}

const isOrdinary = (token: IToken) =>
  token.tokenType.name !== 'STRAY' && token.tokenType.name !== 'OPEN_STRING';

/**
 * Reads line by line where the text as a whole cannot be read. Only lines that the parser stumbles
 * over are looked at by themselves, so that a long text with one bad line costs a few parses.
 */
function readLineByLine(text: string, lines: readonly Line[]): ReadText {
  const looked = new Map<number, { kept: readonly IToken[]; trouble?: Unreadable }>();
  const suspects = new Set<number>();
  for (const [index, line] of lines.entries())
    if (line.orphan || !line.tokens.every(isOrdinary)) suspects.add(index);
  for (;;) {
    for (const index of suspects) {
      const line = lines[index];
      if (line && !looked.has(index))
        looked.set(index, readLine(text, line, looked.size < mostLookedInto));
    }
    const pieces = lines.map((line, index) => ({
      line,
      tokens: looked.get(index)?.kept ?? line.tokens,
    }));
    const mended = bracesMatch(pieces.flatMap((piece) => [...piece.tokens]))
      ? { pieces, unreadable: [] }
      : mendBraces(pieces);
    const { document, errors } = parse(text, joined(mended.pieces));
    const before = suspects.size;
    for (const { token } of errors) for (const index of linesAt(lines, token)) suspects.add(index);
    if (suspects.size > before) continue;
    const unreadable: Unreadable[] = [...mended.unreadable];
    const partly = new Set<number>();
    for (const { kept, trouble } of looked.values()) {
      if (!trouble) continue;
      unreadable.push(trouble);
      const first = kept[0];
      if (first) partly.add(first.startOffset);
    }
    for (const { token } of errors) {
      if (token.image === '' || Number.isNaN(token.startOffset)) continue;
      const place = spanOf([token]);
      unreadable.push({ ...troubleWith([token], 0), ...place, line: place, ofBlocks: false });
    }
    unreadable.sort((a, b) => a.start - b.start);
    return { text, document, unreadable, partly };
  }
}

/** The lines that an error at a token may come from: its own, and the one that broke off before. */
function linesAt(lines: readonly Line[], token: IToken): number[] {
  const last = lines.length - 1;
  if (Number.isNaN(token.startOffset)) return [last];
  let low = 0;
  let high = last;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((lines[middle]?.tokens[0]?.startOffset ?? 0) <= token.startOffset) low = middle;
    else high = middle - 1;
  }
  return token.tokenType.name === 'SEP' && low > 0 ? [low - 1, low] : [low];
}

/** So many bad lines are looked at word by word; in a text with more the others are just bad. */
const mostLookedInto = 2000;

/** The longest beginning of a line that can be read, and what is wrong with the rest. */
function readLine(
  text: string,
  line: Line,
  searching: boolean,
): { kept: readonly IToken[]; trouble?: Unreadable } {
  const tokens = line.tokens;
  const closers = leadingClosers(tokens);
  const body = tokens.slice(closers);
  const openers = trailingOpener(body) ? 1 : 0;
  const said = openers ? body.slice(0, -1) : body;
  if (said.length === 0 && !openers) return { kept: tokens };
  const fault = line.orphan ? 0 : searching || body.every(isOrdinary) ? faultIn(text, body) : 0;
  if (fault === undefined) return { kept: tokens };
  // What cannot be read ends before the brace that opens a block: the block is still there.
  let keep = searching ? Math.min(fault, said.length) : 0;
  const least = Math.max(1, keep - 8);
  const reads = (count: number) =>
    isOneStatement(text, [...said.slice(0, count), ...body.slice(said.length)]);
  while (keep >= least && !reads(keep)) keep -= 1;
  const beginning = keep >= least && keep >= 2 ? said.slice(0, keep) : [];
  const rest = said.slice(beginning.length);
  const from = rest.length > 0 ? rest : body;
  const trouble: Unreadable = {
    ...troubleWith(body, Math.min(fault, body.length - 1)),
    ...spanOf(from),
    line: spanOf(tokens),
    ofBlocks: false,
  };
  const head =
    beginning.length > 0 || !openers
      ? beginning
      : [unreadableMarker({ ...line, tokens: said.length > 0 ? said : body })];
  return { kept: [...tokens.slice(0, closers), ...head, ...body.slice(said.length)], trouble };
}

/** Whether a line's tokens can be read and say one thing: words left over would begin another. */
function isOneStatement(text: string, body: readonly IToken[]): boolean {
  if (faultIn(text, body) !== undefined) return false;
  const closing = trailingOpener(body) ? [marker('}', body.at(-1))] : [];
  return parse(text, [...body, ...closing]).document.statements.length === 1;
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
