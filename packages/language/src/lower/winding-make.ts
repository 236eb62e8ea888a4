import type { Place, WindingMake } from '@setwright/circuit';
import { type Dimension, nearest, readCovering, readGauge } from '@setwright/units';
import {
  isLieDetail,
  isOnDetail,
  isPlacedDetail,
  isSizeDetail,
  isWireDetail,
} from '../generated/ast.ts';
import { readValue } from './amounts.ts';
import { type Lowering, placeOf, placeOfProperty, remark, replacing } from './context.ts';
import { refuse } from './refuse.ts';
import type { AnyDetail, Said } from './said.ts';

/** Reads a detail of how a winding is made into `make`; other windings it names into `links`. */
export function readMake(
  cx: Lowering,
  said: Said,
  detail: AnyDetail,
  make: { -readonly [key in keyof WindingMake]: WindingMake[key] },
  links: { place: Place; said: Said }[],
) {
  if (isWireDetail(detail)) {
    const number = Number.parseInt(detail.gauge ?? '', 10);
    let table: 'B&S' | 'SWG' = 'B&S';
    for (const [index, word] of detail.words.entries()) {
      const gauge = readGauge(word);
      const covering = readCovering(word);
      if (gauge) table = gauge;
      else if (covering) make.covering = covering;
      else {
        const known = ['enamel', 'bare', 'SSC', 'DSC', 'SCC', 'DCC', 'B&S', 'SWG'];
        const place = placeOfProperty(cx, detail, 'words', index);
        remark(
          cx,
          'unknown-word',
          'error',
          place,
          {
            message: `"${word}" is no wire gauge or covering.`,
            why: 'How long the winding is goes by the wire and its covering.',
            cure: `Write one of ${known.join(', ')}.`,
          },
          {
            parts: [said.name],
            fixes: nearest(word, known, 3).map((other) =>
              replacing(`Change to ${other}`, place, other),
            ),
          },
        );
      }
    }
    if (Number.isFinite(number)) make.gauge = { number, table, place: placeOf(cx, detail) };
  } else if (isSizeDetail(detail)) {
    const value = readValue(
      cx,
      detail.amount,
      sizeDimension[detail.led],
      sizeWords[detail.led].replace('…', said.name),
    );
    if (detail.led === 'length') make.length = value;
    else if (detail.led === 'spaced') make.spaced = value;
    else if (detail.led === 'paper') make.paper = value;
    else refuse(cx, said, detail.led, detail);
  } else if (isOnDetail(detail)) {
    make.form = readValue(cx, detail.amount, 'length', `The form of ${said.name}`);
  } else if (isPlacedDetail(detail)) {
    const other = detail.target?.ref;
    const sibling = said.owner?.windings.find(
      (winding) => winding.ownName === other || winding.name === other,
    );
    if (!sibling || sibling === said) {
      const place = placeOf(cx, detail.target ?? detail);
      const names = (said.owner?.windings ?? [])
        .filter((winding) => winding !== said)
        .map((winding) => winding.ownName);
      remark(
        cx,
        'unknown-name',
        'error',
        place,
        {
          message: `${said.owner?.name ?? 'The coil'} has no other winding called "${other ?? ''}".`,
          why: 'How far one winding reaches into another goes by where it lies.',
          cure: names.length ? `It has ${names.join(', ')}.` : 'Say the other winding first.',
        },
        {
          parts: [said.name],
          fixes: nearest(other ?? '', names, 2).map((name) =>
            replacing(`Change to ${name}`, place, name),
          ),
        },
      );
      return;
    }
    make[detail.led] = sibling.name;
    links.push({ place: placeOf(cx, detail.target ?? detail), said: sibling });
  } else if (isLieDetail(detail)) {
    if (detail.place) make.at = detail.place;
    else refuse(cx, said, 'at', detail);
  }
}

const sizeDimension: Readonly<
  Record<'length' | 'spaced' | 'paper' | 'resistance' | 'capacity', Dimension>
> = {
  length: 'length',
  spaced: 'length',
  paper: 'length',
  resistance: 'resistance',
  capacity: 'charge',
};

const sizeWords: Readonly<Record<keyof typeof sizeDimension, string>> = {
  length: 'The length of …',
  spaced: 'The space beside …',
  paper: 'The paper under …',
  resistance: 'The resistance of …',
  capacity: 'The capacity of …',
};
