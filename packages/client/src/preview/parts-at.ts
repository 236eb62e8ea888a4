import type { Page, Position, Range } from '@setwright/webview';

const isBefore = (a: Position, b: Position): boolean =>
  a.line < b.line || (a.line === b.line && a.character < b.character);

const holds = ({ start, end }: Range, at: Position): boolean =>
  !isBefore(at, start) && !isBefore(end, at);

const isWithin = (inner: Range, outer: Range): boolean =>
  !isBefore(inner.start, outer.start) && !isBefore(outer.end, inner.end);

const isSame = (a: Range, b: Range): boolean => isWithin(a, b) && isWithin(b, a);

/**
 * The parts that a place of the source speaks of: of those whose text holds it, the innermost. A
 * place beside every part on its line stands for the parts of the line.
 */
export function partsAt(parts: Page['parts'], at: Position): readonly string[] {
  const all = Object.entries(parts);
  const holding = all.filter(([, { range }]) => holds(range, at));
  const innermost = holding.filter(([, { range }]) =>
    holding.every(([, other]) => isSame(other.range, range) || !isWithin(other.range, range)),
  );
  if (innermost.length > 0) return innermost.map(([name]) => name);
  return all.filter(([, { range }]) => range.start.line === at.line).map(([name]) => name);
}
