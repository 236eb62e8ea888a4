import type { Chance } from './chance.ts';

/** A statement of a text with the block it opens. */
export interface Statement {
  readonly head: string;
  readonly block: Statement[] | undefined;
}

/**
 * The statements of a sound text, comments left out. A line that carries on the one above stays
 * with it.
 */
export function statementsOf(text: string): Statement[] {
  const bare = text
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/^((?:[^"\n]|"[^"\n]*")*?)\/\/.*$/gm, '$1');
  // A block may be written on one line: `battery A dry { tap A- tap A+ 6 V }`.
  const lines = bare
    .split(/("[^"\n]*")/)
    .map((piece, index) =>
      index % 2 === 1 ? piece : piece.replace(/\{/g, '{\n').replace(/\}/g, '\n}\n'),
    )
    .join('')
    .split('\n')
    .filter((line) => line.trim() !== '');
  const root: Statement[] = [];
  const open: Statement[][] = [root];
  for (const line of lines) {
    const said = line.trim();
    const top = open.at(-1);
    if (said === '}') {
      open.pop();
      continue;
    }
    const before = top?.at(-1);
    if (carriesOn.test(said) && before && top) {
      top[top.length - 1] = { ...before, head: `${before.head} ${said}` };
      continue;
    }
    const block: Statement[] | undefined = said.endsWith('{') ? [] : undefined;
    top?.push({ head: block ? said.slice(0, -1).trim() : said, block });
    if (block) open.push(block);
  }
  return root;
}

const carriesOn = /^(?:from|to|across|of|beside|set|with|over|into|through|rotor|stator|arm)\b/;

/** Statements written out as text. */
export function writtenOut(statements: readonly Statement[], indent = ''): string {
  return statements
    .map(({ head, block }) =>
      block
        ? `${indent}${head} {\n${writtenOut(block, `${indent}  `)}${indent}}\n`
        : `${indent}${head}\n`,
    )
    .join('');
}

/** Every block's statements in another order, where order means nothing. */
export function shuffled(statements: readonly Statement[], chance: Chance): Statement[] {
  const left = statements.map(({ head, block }) => ({
    head,
    block: block && shuffled(block, chance),
  }));
  const out: Statement[] = [];
  while (left.length > 0) out.push(...left.splice(chance.below(left.length), 1));
  return out;
}
