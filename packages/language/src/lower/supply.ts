import { endId, type SupplyTap, type Value } from '@setwright/circuit';
import { nearest } from '@setwright/units';
import {
  isAmountDetail,
  isFactStatement,
  isLieDetail,
  isPartStatement,
  isSizeDetail,
  isTargetStatement,
  isTitleDetail,
  isWordDetail,
  type PartStatement,
  type TargetStatement,
} from '../generated/ast.ts';
import { readValue, splitUnit } from './amounts.ts';
import { placeOf, remark, replacing } from './context.ts';
import { leftOver, needsAmount } from './facts.ts';
import { list, type Naming } from './references.ts';
import type { Said } from './said.ts';

/** `earthed B-`: which tap of a supply is joined to the mains' earth. */
function readEarthed(naming: Naming, said: Said, inner: TargetStatement, words: Set<string>) {
  const { cx } = naming;
  const written = (inner.target?.ref ?? '').replace(/\u2212/g, '-');
  const place = placeOf(cx, inner.target ?? inner);
  if (said.ends.includes(written)) {
    words.add(`earthed ${written}`);
    const id = endId(said, written);
    naming.mentions.push({ place, meaning: { kind: 'end', said, end: written, id } });
    return;
  }
  remark(
    cx,
    'unknown-name',
    'error',
    place,
    {
      message: `${said.name} has no tap called "${written}".`,
      why: 'Where two earthed supplies meet goes by it.',
      cure: said.ends.length ? `It has ${list(said.ends)}.` : 'Say its taps first.',
    },
    {
      parts: [said.name],
      fixes: nearest(written, said.ends, 2).map((name) =>
        replacing(`Change to ${name}`, place, name),
      ),
    },
  );
}

/** Reads the block of a battery or eliminator: its taps, and its facts into `values` and `words`. */
export function readSupply(
  naming: Naming,
  said: Said,
  values: Record<string, Value>,
  words: Set<string>,
): SupplyTap[] {
  const { cx } = naming;
  const taps: {
    node: PartStatement;
    name: string;
    said: Value | undefined;
    load?: number;
    ohms?: number;
  }[] = [];
  for (const inner of said.children) {
    if (isFactStatement(inner)) {
      if (inner.keyword !== 'capacity' && inner.keyword !== 'resistance') continue;
      const dimension = inner.keyword === 'capacity' ? 'charge' : 'resistance';
      const example = inner.keyword === 'capacity' ? 'capacity 100 Ah' : 'resistance 30 ohms';
      const what = `The ${inner.keyword} of ${said.name}`;
      let skipWord = false;
      for (const [index, detail] of inner.details.entries()) {
        if (isAmountDetail(detail) && !detail.amount?.high) {
          const split = splitUnit(cx, detail.amount?.low, inner.details[index + 1]);
          const value = readValue(cx, detail.amount?.low, dimension, what, {
            split,
            lowOhms: true,
          });
          if (value) values[inner.keyword] = value;
          skipWord = split !== undefined;
        } else if (skipWord) skipWord = false;
        else leftOver(cx, detail, `the ${inner.keyword} of ${said.name}`, [example]);
      }
      needsAmount(cx, inner, example);
    } else if (isTargetStatement(inner) && inner.keyword === 'earthed') {
      readEarthed(naming, said, inner, words);
    } else if (isPartStatement(inner) && inner.keyword === 'tap') {
      const name = (inner.name ?? '').replace(/\u2212/g, '-');
      const details = inner.details.filter((detail) => detail.$type !== 'PlaceWord');
      const entry: (typeof taps)[number] = { node: inner, name, said: undefined };
      for (const detail of details) {
        if (isAmountDetail(detail)) {
          const value = readValue(cx, detail.amount?.low, 'voltage', `The tap ${name}`);
          if (value) entry.said = value;
        } else if (isLieDetail(detail) && detail.amount && said.kind === 'eliminator') {
          entry.load = readValue(cx, detail.amount, 'current', `The load of ${name}`)?.value ?? 0;
        } else if (
          isSizeDetail(detail) &&
          detail.led === 'resistance' &&
          said.kind === 'eliminator'
        ) {
          const ohms = readValue(
            cx,
            detail.amount,
            'resistance',
            `The resistance of ${name}`,
          )?.value;
          if (ohms !== undefined) entry.ohms = ohms;
        } else if (!isTitleDetail(detail)) {
          const saying = isWordDetail(detail)
            ? detail.words.join(', ')
            : 'led' in detail
              ? detail.led
              : '';
          remark(
            cx,
            'unknown-word',
            'error',
            placeOf(cx, detail),
            {
              message: `"${saying}" says nothing of a tap such as ${name}.`,
              why: 'What is not understood is never passed over in silence.',
              cure: 'A tap takes its volts; an eliminator tap also at a current and a resistance. Joins are said by wire or by the other part.',
            },
            { parts: [said.name] },
          );
        }
      }
      taps.push(entry);
    }
  }
  const byName = (name: string): number | undefined => {
    const number = /([-+])([0-9]+(?:\.[0-9]+)?)$/.exec(name);
    return number ? Number(`${number[1]}${number[2]}`) : undefined;
  };
  const numbered = taps.map((tap) => tap.said?.value ?? byName(tap.name));
  const anyPositive = numbered.some((volts) => volts !== undefined && volts > 0);
  const anyNegative = numbered.some((volts) => volts !== undefined && volts < 0);
  return taps.map((tap, index) => {
    let volts = numbered[index];
    // A bare minus is the zero of an A or B battery, a bare plus that of a C battery.
    if (volts === undefined && /-$/.test(tap.name) && !anyNegative) volts = 0;
    if (volts === undefined && /\+$/.test(tap.name) && anyNegative && !anyPositive) volts = 0;
    return {
      end: tap.name,
      volts,
      said: tap.said,
      resistance: tap.ohms,
      atLoad: tap.load,
      place: placeOf(cx, tap.node),
    };
  });
}
