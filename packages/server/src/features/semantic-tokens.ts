import { partKinds } from '@setwright/circuit';
import { connectingWords, type Item, statementWords } from '@setwright/language';
import { readUnit } from '@setwright/units';
import type { Range, SemanticTokens, SemanticTokensLegend } from 'vscode-languageserver-protocol';
import type { Occurrence } from '../text/names.ts';
import type { Snapshot } from '../text/snapshot.ts';

const types = [
  'namespace',
  'variable',
  'property',
  'class',
  'keyword',
  'modifier',
  'number',
  'string',
  'comment',
  'decorator',
  'enumMember',
] as const;
const modifiers = ['declaration', 'readonly', 'defaultLibrary'] as const;

type TokenType = (typeof types)[number];
type Modifier = (typeof modifiers)[number];

/** What the numbers of the tokens stand for. */
export const tokenLegend: SemanticTokensLegend = {
  tokenTypes: [...types],
  tokenModifiers: [...modifiers],
};

/** Plain words that any kind of part takes, and those of wires and posts. */
const plainWords: ReadonlySet<string> = new Set([
  ...Object.values(partKinds).flatMap(({ words }) => words),
  'DCC',
  'SCC',
  'DSC',
  'SSC',
  'enamel',
  'bare',
  'stage',
  'type',
  'off',
  'out',
  'short',
  'open',
  'heard',
  'faint',
  'silent',
  'broad',
]);

interface Token {
  readonly start: number;
  readonly length: number;
  readonly type: TokenType;
  readonly modifiers: readonly Modifier[];
}

/** What every word of a text is, for colouring; all of it, or the lines of a range. */
export function semanticTokens(snapshot: Snapshot, range?: Range): SemanticTokens {
  const from = range ? snapshot.offset({ line: range.start.line, character: 0 }) : 0;
  const to = range ? snapshot.offset({ line: range.end.line + 1, character: 0 }) : undefined;
  const data: number[] = [];
  let before = { line: 0, character: 0 };
  for (const token of tokensOf(snapshot, from, to ?? snapshot.text.length)) {
    for (const piece of piecesByLine(snapshot, token)) {
      const { line, character } = snapshot.position(piece.start);
      data.push(
        line - before.line,
        line === before.line ? character - before.character : character,
        piece.length,
        types.indexOf(token.type),
        token.modifiers.reduce((bits, each) => bits | (1 << modifiers.indexOf(each)), 0),
      );
      before = { line, character };
    }
  }
  return { data };
}

function tokensOf({ items, names }: Snapshot, from: number, to: number): readonly Token[] {
  const { occurrences } = names;
  const tokens: Token[] = [];
  let next = 0;
  let before: Item | undefined;
  for (const item of items) {
    const last = before;
    before = item;
    while ((occurrences[next]?.end ?? Number.POSITIVE_INFINITY) <= item.start) next++;
    if (item.end <= from) continue;
    if (item.start >= to) break;
    const inside: Occurrence[] = [];
    for (let at = next; (occurrences[at]?.start ?? item.end) < item.end; at++)
      inside.push(occurrences[at] as Occurrence);
    if (inside.length > 0 && item.kind === 'token')
      for (const each of inside) tokens.push(nameToken(each));
    else {
      const type = typeOf(item, last);
      if (type)
        tokens.push({ start: item.start, length: item.end - item.start, type, modifiers: [] });
    }
  }
  return tokens;
}

function nameToken({ start, end, named, isDeclaration }: Occurrence): Token {
  const own: Modifier[] = isDeclaration ? ['declaration'] : [];
  const length = end - start;
  switch (named.kind) {
    case 'receiver':
    case 'stage':
      return { start, length, type: 'namespace', modifiers: own };
    case 'type': {
      const library: Modifier[] = named.declared ? [] : ['defaultLibrary'];
      return { start, length, type: 'class', modifiers: [...own, ...library] };
    }
    case 'terminal':
      return { start, length, type: 'property', modifiers: own };
    case 'tap':
      return { start, length, type: 'variable', modifiers: [...own, 'readonly'] };
    default:
      return { start, length, type: 'variable', modifiers: own };
  }
}

function typeOf(item: Item, before: Item | undefined): TokenType | undefined {
  const { kind, image, isNumber } = item;
  if (kind !== 'token') return 'comment';
  if (image.startsWith('"')) return 'string';
  if (isNumber) return 'number';
  if (item.brace !== undefined || image === ',') return undefined;
  if (before?.image === 'meant') return 'decorator';
  // `in` and `turns` are units behind a number only.
  if (before?.isNumber && !item.leadsLine && (readUnit(image) !== undefined || image === 'turns'))
    return 'enumMember';
  if (plainWords.has(image) && !item.leadsLine) return 'modifier';
  if (statementWords.has(image) || connectingWords.has(image)) return 'keyword';
  return plainWords.has(image) ? 'modifier' : undefined;
}

/** A token cut where lines end: clients take none that goes over several. */
function piecesByLine(
  { text }: Snapshot,
  { start, length }: Token,
): readonly { readonly start: number; readonly length: number }[] {
  const image = text.slice(start, start + length);
  if (!/[\r\n]/.test(image)) return [{ start, length }];
  const pieces: { start: number; length: number }[] = [];
  let at = start;
  for (const line of image.split(/(\r\n|\r|\n)/)) {
    if (line !== '' && !/^[\r\n]/.test(line)) pieces.push({ start: at, length: line.length });
    at += line.length;
  }
  return pieces;
}
