import { allChecks } from '@setwright/checks';
import { connectingWords, statementWords } from '@setwright/language';
import { type Hover, MarkupKind, type Position } from 'vscode-languageserver-protocol';
import { wordsBefore } from '../../text/context.ts';
import { plainWords } from '../../text/markdown.ts';
import type { Occurrence } from '../../text/names.ts';
import { itemAt } from '../../text/tokens.ts';
import { checkPageUri } from '../../texts.ts';
import { blockKind } from '../../words/statements.ts';
import { setHover, shaftHover, stageHover } from './group-hover.ts';
import { endHover, joined, partHover } from './part-hover.ts';
import { patternHover, useHover } from './pattern-hover.ts';
import { quantityAt, quantityHover } from './quantity-hover.ts';
import { circuitOf, type HoverSource } from './source.ts';
import { tubeTypeNamed, typeHover } from './type-hover.ts';
import { detailHover, statementHover } from './word-hover.ts';

/** What there is to know of what stands at a position, as Markdown. */
export function hoverAt(source: HoverSource, position: Position): Hover | undefined {
  const { snapshot } = source;
  const offset = snapshot.offset(position);
  const item = itemAt(snapshot.items, offset);
  if (item?.kind !== 'token') return undefined;
  const occurrence = snapshot.names.at(offset);
  const named = occurrence && nameHover(source, occurrence);
  if (occurrence && named !== undefined) return hoverOf(source, named, occurrence);
  const told = wordHover(source, offset);
  return told && hoverOf(source, told.markdown, told.place ?? item);
}

function hoverOf(
  { snapshot }: HoverSource,
  value: string,
  place: { readonly start: number; readonly end: number },
): Hover {
  return { contents: { kind: MarkupKind.Markdown, value }, range: snapshot.range(place) };
}

function nameHover(source: HoverSource, { named }: Occurrence): string | undefined {
  switch (named.kind) {
    case 'part':
      return (
        partHover(source, named.receiver, named.name) ?? patternHover(source.snapshot, named.name)
      );
    case 'tap':
    case 'terminal':
      return endHover(source, named);
    case 'type': {
      const type = tubeTypeNamed(source.snapshot, named.name);
      return type && typeHover(type, source.units, source.snapshot);
    }
    case 'stage':
      return stageHover(source, named);
    case 'gang':
    case 'dial':
      return shaftHover(source, named);
    case 'receiver':
      return setHover(source, named);
  }
}

function wordHover(
  source: HoverSource,
  offset: number,
): { markdown: string; place?: { start: number; end: number } } | undefined {
  const { snapshot } = source;
  const item = itemAt(snapshot.items, offset);
  if (!item) return undefined;
  const word = item.image;
  const { words, blocks } = wordsBefore(snapshot, item.start);
  if (words[0]?.image === 'use' && words.length === 1) {
    const use = snapshot.file.uses.find(({ pathPlace }) => pathPlace.start - 1 === item.start);
    return use && { markdown: useHover(use) };
  }
  if (words[0]?.image === 'meant' && words.length === 1) {
    const markdown = checkHover(word);
    return markdown === undefined ? undefined : { markdown };
  }
  const circuit = circuitOf(source, snapshot.names.receiverAt(offset));
  const value = circuit && quantityAt(circuit, offset);
  const quantity = value && quantityHover(value, source.units);
  if (value && quantity !== undefined) return { markdown: quantity, place: value.place };
  const block = blockKind(blocks.at(-1)?.map(({ image }) => image));
  const begins = words.length === 0 && statementWords.has(word);
  const markdown =
    (begins ? statementHover(word, block) : undefined) ??
    (connectingWords.has(word) ? detailHover(word) : undefined) ??
    (statementWords.has(word) ? statementHover(word, block) : undefined);
  return markdown === undefined ? undefined : { markdown };
}

/** What a check finds, and where its page is. */
function checkHover(id: string): string | undefined {
  const check = allChecks.find((each) => each.id === id);
  return (
    check &&
    joined([
      `**${check.id}**: ${plainWords(check.summary)}`,
      plainWords(check.why),
      `[When it keeps silent](${checkPageUri(check.id)})`,
    ])
  );
}
