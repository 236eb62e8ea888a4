import { type FoldingRange, FoldingRangeKind } from 'vscode-languageserver-protocol';
import type { Block } from '../text/blocks.ts';
import type { Snapshot } from '../text/snapshot.ts';

/** What can be folded: blocks, long comments, runs of comment lines. */
export function foldingRanges(snapshot: Snapshot): FoldingRange[] {
  const { items, blocks } = snapshot;
  const ranges: FoldingRange[] = [];
  const line = (offset: number): number => snapshot.position(offset).line;
  const add = (startLine: number, endLine: number, kind?: FoldingRangeKind): void => {
    if (endLine > startLine)
      ranges.push({ startLine, endLine, ...(kind === undefined ? {} : { kind }) });
  };
  const walk = (inner: readonly Block[]): void => {
    for (const { start, open, close, end, blocks: deeper } of inner) {
      // The line with the closing brace stays in sight.
      if (open !== undefined) add(line(start), close === undefined ? line(end) : line(close) - 1);
      walk(deeper);
    }
  };
  walk(blocks);
  let run: { first: number; last: number } | undefined;
  const endRun = (): void => {
    if (run) add(run.first, run.last, FoldingRangeKind.Comment);
    run = undefined;
  };
  for (const { kind, startsTextLine, start, end } of items) {
    if (kind === 'line-comment' && startsTextLine) {
      const here = line(start);
      if (run && here === run.last + 1) run.last = here;
      else {
        endRun();
        run = { first: here, last: here };
      }
      continue;
    }
    endRun();
    if (kind === 'block-comment') add(line(start), line(end), FoldingRangeKind.Comment);
  }
  endRun();
  return ranges;
}
