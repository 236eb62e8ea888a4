import type { Item } from './items.ts';

/** A block by the indices of its two braces. */
export interface Block {
  readonly open: number;
  readonly close: number;
}

/** The blocks of a text; undefined when a brace has no fellow. Linear in the items. */
export function blocksOf(items: readonly Item[]): Block[] | undefined {
  const blocks: Block[] = [];
  const open: number[] = [];
  for (const [index, { brace }] of items.entries()) {
    if (brace === '{') open.push(index);
    else if (brace === '}') {
      const start = open.pop();
      if (start === undefined) return undefined;
      blocks.push({ open: start, close: index });
    }
  }
  return open.length === 0 ? blocks : undefined;
}
