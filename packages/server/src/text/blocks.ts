import type { Item, ReadFile } from '@setwright/language';

/** A statement of the text, with the statements in its block. */
export interface Block {
  /** The word that leads it: `coil`, `tube`, `radio`; empty for a line that cannot be read. */
  readonly word: string;
  readonly start: number;
  readonly end: number;
  /** Where its own words end, before its block. */
  readonly headEnd: number;
  /** Offsets of the braces of its block, where the text has them. */
  readonly open: number | undefined;
  readonly close: number | undefined;
  readonly blocks: readonly Block[];
}

type Statement = ReadFile['read']['document']['statements'][number];

/** The statements of a text as they stand in one another. */
export function blocksOf({ read }: ReadFile, items: readonly Item[]): readonly Block[] {
  const braces = items.filter(({ brace }) => brace !== undefined);
  const opening = (from: number, to: number): Item | undefined => {
    let low = 0;
    let high = braces.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((braces[middle]?.start ?? 0) < from) low = middle + 1;
      else high = middle;
    }
    const found = braces[low];
    return found?.brace === '{' && found.start < to ? found : undefined;
  };
  const closings = new Set(braces.flatMap(({ brace, start }) => (brace === '}' ? [start] : [])));
  const blockOf = (node: Statement): Block[] => {
    const { offset: start, end } = node.$cstNode ?? { offset: 0, end: 0 };
    const inner = 'statements' in node ? (node.statements ?? []) : [];
    const blocks = inner.flatMap(blockOf);
    // Where lines cannot be read, a block may have lost its words and kept its braces.
    if (node.$type === 'UnreadableStatement' && inner.length === 0) return [];
    const hasBlock = 'open' in node && node.open !== undefined;
    const open = hasBlock ? opening(start, blocks[0]?.start ?? end)?.start : undefined;
    const close = open !== undefined && closings.has(end - 1) ? end - 1 : undefined;
    const bare = read.text.slice(start, open ?? blocks[0]?.start ?? end).trimEnd();
    return [
      {
        word: wordOf(node),
        start,
        end,
        headEnd: start + bare.length,
        open,
        close,
        blocks,
      },
    ];
  };
  return read.document.statements.flatMap(blockOf);
}

function wordOf(node: Statement): string {
  if (node.$type === 'StageStatement') return node.roles[0] ?? '';
  return 'keyword' in node && typeof node.keyword === 'string' ? node.keyword : '';
}

/** The blocks that hold an offset, the innermost last. */
export function blocksAt(blocks: readonly Block[], offset: number): readonly Block[] {
  const found: Block[] = [];
  let here = blocks;
  for (;;) {
    const next: Block | undefined = here.find(({ start, end }) => start <= offset && offset <= end);
    if (!next) return found;
    found.push(next);
    here = next.blocks;
  }
}

/** The block that begins at an offset. */
export function blockFrom(blocks: readonly Block[], start: number): Block | undefined {
  return blocksAt(blocks, start).find((block) => block.start === start);
}
