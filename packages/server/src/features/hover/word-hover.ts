import { receiverCode } from '../../text/markdown.ts';
import { detailHelp } from '../../words/details.ts';
import { type BlockKind, statementHelp } from '../../words/statements.ts';
import { joined } from './part-hover.ts';

/** What a word that begins a statement means, in the block that it stands in. */
export function statementHover(word: string, block: BlockKind): string | undefined {
  const all = statementHelp.filter((each) => each.word === word);
  const here = all.filter(({ within }) => within.includes(block));
  return helpText(word, here.length > 0 ? here : all);
}

/** What a word inside a statement means. */
export function detailHover(word: string): string | undefined {
  return helpText(
    word,
    detailHelp.filter((each) => each.word === word),
  );
}

function helpText(
  word: string,
  entries: readonly { readonly meaning: string; readonly example: string }[],
): string | undefined {
  if (entries.length === 0) return undefined;
  return joined([
    `**${word}**`,
    ...entries.map(({ meaning, example }) => `${meaning}\n\n${receiverCode(example)}`),
  ]);
}
