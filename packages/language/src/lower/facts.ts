import type { Place, Range, Value } from '@setwright/circuit';
import { nearest } from '@setwright/units';
import type { AstNode } from 'langium';
import {
  type Amount,
  type FactStatement,
  isAmountDetail,
  isTitleDetail,
} from '../generated/ast.ts';
import { readRangeValues, readValue } from './amounts.ts';
import type { Collected } from './collected.ts';
import { type Lowering, placeOf, remark, replacing, unquoted } from './context.ts';
import { list } from './references.ts';

/** Words on a fact's line that say nothing there, where its end has not been told of already. */
export function leftOver(cx: Lowering, node: AstNode, where: string, examples: readonly string[]) {
  if (cx.partly?.has(node.$container?.$cstNode?.offset ?? -1)) return;
  const place = placeOf(cx, node);
  remark(cx, 'unknown-word', 'error', place, {
    message: `"${cx.text.slice(place.start, place.end).replace(/\s+/g, ' ')}" says nothing of ${where}.`,
    why: 'What is not understood is never passed over in silence.',
    cure: `Take it out; such a line reads ${list(examples, 'or')}.`,
  });
}

/** A fact's line that breaks off, where that has not been told of already. */
export function incomplete(
  cx: Lowering,
  node: AstNode & { keyword: string },
  what: string,
  examples: readonly string[],
) {
  if (cx.partly?.has(node.$cstNode?.offset ?? -1)) return;
  remark(cx, 'unknown-word', 'error', placeOf(cx, node), {
    message: `This line does not say ${what}.`,
    why: 'Half a fact says nothing of the set.',
    cure: `Finish the line, as in ${list(examples, 'or')}.`,
  });
}

/**
 * Whether a fact stands in the middle of a line and gives no amount: most often a garbled word of
 * the line, such as `form` for `from`. Tells of it then, once.
 */
export function isGarbledLead(cx: Lowering, node: FactStatement): boolean {
  const place = placeOf(cx, node);
  const before = /[^\n\r]*$/.exec(cx.text.slice(Math.max(0, place.start - 400), place.start))?.[0];
  if (!before || /(^|[{}])\s*$/.test(before) || node.details.some(isAmountDetail)) return false;
  const word = { ...place, end: place.start + node.keyword.length };
  const [likely] = nearest(node.keyword, leads, 1);
  if (likely === undefined) return false;
  toldInstead(cx, place.end);
  cx.unread.push(place);
  remark(
    cx,
    'unknown-word',
    'error',
    word,
    {
      message: `"${node.keyword}" has no meaning in the middle of this line.`,
      why: 'What should be joined here is joined to nothing.',
      cure: `Did you mean "${likely}"?`,
    },
    { fixes: [replacing(`Change to ${likely}`, word, likely)] },
  );
  return true;
}

/** Words that lead a detail and may be garbled to one that begins a line. */
const leads = ['from', 'to', 'across', 'set', 'tap', 'taps'];

/** Takes back that the rest of a line, from here on, cannot be read: why it cannot is known. */
export function toldInstead(cx: Lowering, end: number): void {
  const rest = /^[ \t]*/.exec(cx.text.slice(end, end + 200))?.[0].length ?? 0;
  const at = cx.remarks.findIndex(
    ({ check, place }) =>
      check === 'unreadable-line' && place.start >= end && place.start <= end + rest,
  );
  if (at >= 0) cx.remarks.splice(at, 1);
}

/** Whether what follows a statement on its line could not be read, and has been told of. */
export function isCutOff(cx: Lowering, node: AstNode): boolean {
  const { end } = placeOf(cx, node);
  const rest = /^[ \t]*/.exec(cx.text.slice(end, end + 200))?.[0].length ?? 0;
  return cx.unread.some(({ start }) => start >= end && start <= end + rest);
}

/** Tells of a fact's line without a number. */
export function needsAmount(cx: Lowering, node: FactStatement, example: string) {
  if (!node.details.some(isAmountDetail)) incomplete(cx, node, 'how much', [example]);
}

/** Year, band and notes of a set. */
export function readFacts(cx: Lowering, all: Collected) {
  let year: Value | undefined;
  let tunes: Range | undefined;
  const notes: { text: string; place: Place }[] = [];
  for (const node of all.facts) {
    if (node.keyword === 'note') {
      const title = node.details.find(isTitleDetail);
      const text = unquoted(title?.text);
      if (text !== undefined) notes.push({ text, place: placeOf(cx, node) });
      else incomplete(cx, node, 'what is to be noted', ['note "in original case"']);
      for (const detail of node.details)
        if (title && detail !== title) leftOver(cx, detail, 'a note', ['note "in original case"']);
    } else if (node.keyword === 'year') {
      year = readValue(cx, factAmount(cx, node, 'year 1926')?.low, 'number', 'The year') ?? year;
    } else if (node.keyword === 'tunes') {
      tunes = readBand(cx, factAmount(cx, node, 'tunes 550 kc to 1500 kc')) ?? tunes;
    } else if (!isGarbledLead(cx, node) && !isCutOff(cx, node)) {
      remark(cx, 'unknown-word', 'error', placeOf(cx, node), {
        message: `A line that begins with "${node.keyword}" has no meaning here.`,
        why: 'What is not understood is never passed over in silence.',
        cure: 'Move it to the block it belongs to.',
      });
    }
  }
  return { year, tunes, notes };
}

/** The one quantity of a fact's line; tells of anything else on it. */
function factAmount(cx: Lowering, node: FactStatement, example: string): Amount | undefined {
  const detail = node.details.find(isAmountDetail);
  const others = node.details.filter((other) => other !== detail);
  if (!detail)
    incomplete(cx, node, node.keyword === 'year' ? 'which year' : 'from where to where', [example]);
  else for (const other of others) leftOver(cx, other, `the ${node.keyword}`, [example]);
  return detail?.amount;
}

function readBand(cx: Lowering, amount: Amount | undefined): Range | undefined {
  if (!amount?.low) return undefined;
  if (amount.high) return readRangeValues(cx, amount.low, amount.high, 'frequency', 'The band');
  const only = readValue(cx, amount.low, 'frequency', 'The band');
  return only && { low: only, high: only };
}
