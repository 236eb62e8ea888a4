import type { Bench, BenchEntry, Suppose, SupposeEdit } from '@setwright/circuit';
import type { Dimension } from '@setwright/units';
import {
  type Detail,
  isAmountDetail,
  isFactStatement,
  isFlagDetail,
  isMeantStatement,
  isOnDetail,
  isPartStatement,
  isTargetStatement,
  isThroughDetail,
  isTitleDetail,
  isToDetail,
  isTurnsStatement,
  isUnreadableStatement,
  isWithDetail,
  isWordDetail,
  type PlaceWord,
  type Statement,
  type Target,
} from '../generated/ast.ts';
import { readValue } from './amounts.ts';
import type { Collected } from './collected.ts';
import { placeOf, remark, unquoted } from './context.ts';
import { lookUp, type Naming } from './references.ts';

const readingDimensions: readonly Dimension[] = ['voltage', 'current', 'resistance'];

/** Reads the benches and supposes of a set; names in them are looked up like any other. */
export function benchesAndSupposes(
  naming: Naming,
  all: Collected,
): { benches: Bench[]; supposes: Suppose[] } {
  const benches: Bench[] = [];
  const supposes: Suppose[] = [];
  for (const node of all.titled) {
    const title = unquoted(node.title) ?? '';
    const place = placeOf(naming.cx, node);
    // What a bench or suppose names wrongly says nothing of how the set is wired.
    const apart: Naming = { ...naming, cx: { ...naming.cx, unread: [] } };
    if (node.keyword === 'bench') {
      const entries = (node.statements ?? []).flatMap((inner) => benchEntry(apart, inner));
      benches.push({ title, entries, place });
    } else {
      const edits = (node.statements ?? []).flatMap((inner) => supposeEdit(apart, inner));
      supposes.push({ title, edits, place });
    }
  }
  return { benches, supposes };
}

function words(details: readonly (Detail | PlaceWord)[]): string[] {
  return details.flatMap((detail) =>
    isWordDetail(detail) ? [...detail.words] : isFlagDetail(detail) ? [detail.word] : [],
  );
}

function meant(naming: Naming, target: Target | undefined): string | undefined {
  const meaning = lookUp(naming, target, undefined);
  return meaning?.kind === 'end' ? meaning.id : meaning?.said.name;
}

function benchEntry(naming: Naming, node: Statement): BenchEntry[] {
  const { cx } = naming;
  const place = placeOf(cx, node);
  const empty = {
    at: undefined,
    to: undefined,
    value: undefined,
    range: undefined,
    words: [],
    text: undefined,
    place,
  };
  if (isTargetStatement(node) && ['actual', 'reading', 'click'].includes(node.keyword)) {
    const to = node.details.find(isToDetail)?.targets[0];
    const amount = node.details.find(isAmountDetail)?.amount?.low;
    const on = node.details.find(isOnDetail)?.amount;
    return [
      {
        ...empty,
        kind: node.keyword as 'actual' | 'reading' | 'click',
        at: meant(naming, node.target),
        to: to && meant(naming, to),
        value: readValue(cx, amount, readingDimensions, 'This reading'),
        range: readValue(cx, on, readingDimensions, 'The range'),
        words: words(node.details),
      },
    ];
  }
  if (isFactStatement(node) && ['meter', 'tubes', 'heard', 'note'].includes(node.keyword)) {
    if (node.keyword === 'meter') {
      const [sensitivity, accuracy] = node.details.filter(isAmountDetail);
      return [
        {
          ...empty,
          kind: 'meter',
          value: readValue(cx, sensitivity?.amount?.low, 'resistance', 'The meter'),
          range: readValue(cx, accuracy?.amount?.low, 'percent', 'The accuracy of the meter'),
          words: words(node.details),
        },
      ];
    }
    const kind =
      node.keyword === 'heard' ? 'heard' : node.keyword === 'tubes' ? 'tubes-out' : 'state';
    return [
      {
        ...empty,
        kind,
        text: unquoted(node.details.find(isTitleDetail)?.text),
        words: words(node.details),
      },
    ];
  }
  if (isPartStatement(node) && node.keyword === 'dial') {
    const amount = node.details.find(isAmountDetail)?.amount?.low;
    return [
      {
        ...empty,
        kind: 'dial',
        at: node.name,
        value: readValue(cx, amount, 'number', 'The dial'),
        words: words(node.details as Detail[]),
      },
    ];
  }
  return outOfPlace(naming, node, 'a bench');
}

function supposeEdit(naming: Naming, node: Statement): SupposeEdit[] {
  const { cx } = naming;
  const place = placeOf(cx, node);
  if (isTurnsStatement(node)) {
    return [
      {
        verb: 'turns shorted',
        target: meant(naming, node.target),
        other: undefined,
        value: {
          value: Number(node.number),
          dimension: 'turns',
          text: node.number,
          place,
        },
        words: [...node.words],
        place,
      },
    ];
  }
  if (isTargetStatement(node)) {
    const { keyword } = node;
    const to = node.details.find(isToDetail);
    const other =
      node.details.find(isWithDetail)?.target ??
      (keyword === 'damped' ? undefined : to?.targets[0]);
    const quantity =
      to?.amount ??
      node.details.find(isAmountDetail)?.amount?.low ??
      node.details.find(isThroughDetail)?.amount;
    const number = keyword === 'damped';
    return [
      {
        verb: keyword,
        target: meant(naming, node.target),
        other: other && meant(naming, other),
        value: readValue(
          cx,
          quantity,
          number
            ? 'number'
            : ['resistance', 'voltage', 'capacitance', 'inductance', 'percent', 'current'],
          'What is supposed',
        ),
        words: words(node.details),
        place,
      },
    ];
  }
  return outOfPlace(naming, node, 'a suppose');
}

function outOfPlace(naming: Naming, node: Statement, where: string): never[] {
  if (isUnreadableStatement(node) || isMeantStatement(node)) return [];
  if (isFactStatement(node) && node.keyword === 'note') return [];
  const word = 'keyword' in node ? String(node.keyword) : 'stage';
  remark(naming.cx, 'unknown-word', 'error', placeOf(naming.cx, node), {
    message: `A line that begins with "${word}" has no meaning inside ${where}.`,
    why: 'What is not understood is never passed over in silence.',
    cure: 'Move it to the block it belongs to.',
  });
  return [];
}
