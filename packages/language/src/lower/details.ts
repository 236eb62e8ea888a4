import {
  partKinds,
  type Range,
  type Setting,
  type Value,
  type WindingMake,
  type WindingTap,
} from '@setwright/circuit';
import { type Dimension, nearest, parseNumber, readCovering, readGauge } from '@setwright/units';
import {
  isAmountDetail,
  isCentreDetail,
  isFlagDetail,
  isFoundDetail,
  isLieDetail,
  isOnDetail,
  isPlacedDetail,
  isPlaceWord,
  isRatioDetail,
  isSetDetail,
  isSizeDetail,
  isTapDetail,
  isWireDetail,
  isWordDetail,
  type Quantity,
  type TapItem,
} from '../generated/ast.ts';
import { readValue } from './amounts.ts';
import { type Lowering, placeOf, remark, replacing } from './context.ts';
import type { AnyDetail, Said } from './said.ts';

/** What the details of a part say, apart from what it is joined to. */
export interface Read {
  readonly values: Record<string, Value>;
  readonly ranges: Record<string, Range>;
  readonly words: Set<string>;
  setting: Setting | undefined;
  /** The position a selector is set to, as written. */
  setTo: string | undefined;
  readonly taps: WindingTap[];
  winding: WindingMake | undefined;
}

/** Reads amounts, words, settings, taps and the make of a winding from a part's details. */
export function readDetails(cx: Lowering, said: Said): Read {
  const kind = partKinds[said.kind];
  const read: Read = {
    values: {},
    ranges: {},
    words: new Set(),
    setting: undefined,
    setTo: undefined,
    taps: [],
    winding: undefined,
  };
  const make: { -readonly [key in keyof WindingMake]: WindingMake[key] } = {
    turns: undefined,
    gauge: undefined,
    covering: undefined,
    length: undefined,
    form: undefined,
    reversed: false,
    beside: undefined,
    over: undefined,
    inside: undefined,
    at: undefined,
    spaced: undefined,
    paper: undefined,
  };
  for (const { detail } of said.details) {
    if (isAmountDetail(detail)) {
      if (detail.amount?.high) readRange(cx, said, detail.amount.low, detail.amount.high, read);
      else readAmount(cx, said, detail.amount?.low, read);
    } else if (isWordDetail(detail)) {
      for (const word of detail.words) readWord(cx, said, word, detail, read);
    } else if (isFlagDetail(detail)) readWord(cx, said, detail.word, detail, read);
    else if (isPlaceWord(detail)) readWord(cx, said, detail.word, detail, read);
    else if (isCentreDetail(detail)) {
      if (kind.details.includes('taps')) {
        read.taps.push({
          end: 'centre',
          fraction: 0.5,
          turns: undefined,
          place: placeOf(cx, detail),
        });
      } else refuse(cx, said, 'centre', detail);
    } else if (isTapDetail(detail)) {
      if (!kind.details.includes('taps')) refuse(cx, said, detail.led, detail);
      else for (const item of detail.items) readTap(cx, said, item, read);
    } else if (isSetDetail(detail)) readSetting(cx, said, detail, read);
    else if (isFoundDetail(detail)) readFound(cx, said, detail, read);
    else if (isRatioDetail(detail)) {
      if (!kind.details.includes('ratio')) refuse(cx, said, 'ratio', detail);
      const low = parseNumber(detail.low ?? '');
      const high = parseNumber(detail.high ?? '');
      if (low && high !== undefined) {
        const place = placeOf(cx, detail);
        read.values.ratio = {
          value: high / low,
          dimension: 'ratio',
          text: cx.text.slice(place.start, place.end),
          place,
        };
      }
    } else if (said.kind === 'winding') readMake(cx, said, detail, make);
    else if (isSizeDetail(detail) && said.kind === 'condenser' && detail.led === 'paper') {
      readWord(cx, said, 'paper', detail, read);
      readAmount(cx, said, detail.amount, read);
    } else if (
      isWireDetail(detail) ||
      isSizeDetail(detail) ||
      isPlacedDetail(detail) ||
      isLieDetail(detail) ||
      isOnDetail(detail)
    )
      refuse(cx, said, detail.led, detail);
  }
  if (said.kind === 'winding') {
    make.turns = read.values.turns;
    make.reversed = read.words.has('reversed');
    read.winding = make;
  }
  settleTaps(read);
  return read;
}

/** "a condenser takes mfd, volts …": the quantities of a kind, in words. */
function takes(amounts: Readonly<Record<string, Dimension>>): string {
  const names = [...new Set(Object.values(amounts))];
  return names.length ? names.join(', ') : 'no quantity';
}

function readAmount(cx: Lowering, said: Said, quantity: Quantity | undefined, read: Read) {
  if (!quantity?.number) return;
  const kind = partKinds[said.kind];
  const free = Object.entries(kind.amounts).filter(
    ([slot]) => read.values[slot] === undefined && read.ranges[slot] === undefined,
  );
  const noun = `${said.name}`;
  const first = free[0];
  if (!first) {
    // Filled already: by the part itself, so that what is copied from another gives way.
    if (said.details.some(({ detail, inherited }) => inherited && isAmountDetail(detail))) return;
    remark(
      cx,
      'wrong-unit',
      'error',
      placeOf(cx, quantity),
      {
        message: `A ${kind.noun} such as ${said.name} takes ${takes(kind.amounts)}; this is one quantity too many.`,
        why: 'What is not understood is never passed over in silence.',
        cure: 'Take it out, or say it on the part it belongs to.',
      },
      { parts: [said.name] },
    );
    return;
  }
  // A word after a number without a unit may be one of the part's own: `2000 insulated`.
  if (quantity.unit && kind.words.includes(quantity.unit)) {
    readWord(cx, said, quantity.unit, undefined, read);
    const { unit: _unit, ...bare } = quantity;
    readAmount(cx, said, bare as Quantity, read);
    return;
  }
  const value = readValue(
    cx,
    quantity,
    quantity.unit === undefined ? first[1] : [...new Set(free.map(([, dimension]) => dimension))],
    noun,
  );
  if (!value) return;
  const slot = free.find(([, dimension]) => dimension === value.dimension)?.[0];
  if (slot) read.values[slot] = value;
}

function readRange(cx: Lowering, said: Said, low: Quantity, high: Quantity, read: Read) {
  const kind = partKinds[said.kind];
  const slots = kind.ranges.filter((slot) => read.ranges[slot] === undefined);
  const slot = slots[0];
  const dimension = slot ? kind.amounts[slot] : undefined;
  if (!slot || !dimension) {
    remark(
      cx,
      'unknown-word',
      'error',
      { ...placeOf(cx, low), end: placeOf(cx, high).end },
      {
        message: `A ${kind.noun} such as ${said.name} takes one value, not a range.`,
        why: 'What is not understood is never passed over in silence.',
        cure: 'Write the one value.',
      },
      { parts: [said.name] },
    );
    return;
  }
  const from = readValue(cx, low, dimension, said.name, high);
  const to = readValue(cx, high, dimension, said.name);
  if (from && to) {
    read.ranges[slot] = from.value <= to.value ? { low: from, high: to } : { low: to, high: from };
  }
}

function readWord(
  cx: Lowering,
  said: Said,
  word: string,
  detail: AnyDetail | undefined,
  read: Read,
) {
  const kind = partKinds[said.kind];
  if (kind.words.includes(word)) {
    read.words.add(word);
    return;
  }
  if (!detail) return;
  const place = placeOf(cx, detail);
  const likely = nearest(word, kind.words, 2);
  remark(
    cx,
    'unknown-word',
    'error',
    place,
    {
      message: `"${word}" says nothing of a ${kind.noun} such as ${said.name}.`,
      why: 'What is not understood is never passed over in silence.',
      cure: likely.length
        ? `Did you mean "${likely.join('" or "')}"?`
        : kind.words.length
          ? `It takes the words ${kind.words.join(', ')}.`
          : 'Take the word out.',
    },
    {
      parts: [said.name],
      fixes: likely.map((other) => replacing(`Change to ${other}`, place, other)),
    },
  );
}

/** A detail that this kind of part does not take. */
export function refuse(cx: Lowering, said: Said, led: string, detail: AnyDetail) {
  remark(
    cx,
    'unknown-word',
    'error',
    placeOf(cx, detail),
    {
      message: `A ${partKinds[said.kind].noun} such as ${said.name} takes no "${led}".`,
      why: 'What is not understood is never passed over in silence.',
      cure: 'Take it out, or say it on the part it belongs to.',
    },
    { parts: [said.name] },
  );
}

function readTap(cx: Lowering, said: Said, item: TapItem, read: Read) {
  const place = placeOf(cx, item);
  if (item.low !== undefined && item.high !== undefined) {
    const low = parseNumber(item.low);
    const high = parseNumber(item.high);
    if (low === undefined || high === undefined) return;
    // A thousand studs is more than any panel holds; a slip of the pencil must not fill memory.
    for (let turn = Math.ceil(low); turn <= Math.min(high, low + 1000); turn += 1)
      read.taps.push({ end: `tap${turn}`, turns: turn, fraction: undefined, place });
    return;
  }
  const number = item.at?.number ?? '';
  const counted = item.at?.unit === undefined || /^turns?$/i.test(item.at.unit);
  const turn = parseNumber(number);
  if (turn === undefined) return;
  const end = `tap${String(turn).replace('.', '_')}`;
  if (counted && said.kind !== 'resistor') {
    read.taps.push({ end, turns: turn, fraction: undefined, place });
    return;
  }
  const value = readValue(
    cx,
    item.at,
    said.kind === 'winding' || said.kind === 'loop' ? 'percent' : ['resistance', 'percent'],
    `A tap of ${said.name}`,
  );
  if (!value) return;
  const total = read.values.resistance?.value;
  const fraction =
    value.dimension === 'percent' ? value.value : total ? value.value / total : undefined;
  read.taps.push({ end, turns: undefined, fraction, place });
}

/** Fractions of taps that are counted in turns, once the turns of the whole are known. */
function settleTaps(read: Read) {
  const total = read.values.turns?.value;
  for (const [index, tap] of read.taps.entries()) {
    if (tap.fraction === undefined && tap.turns !== undefined && total)
      read.taps[index] = { ...tap, fraction: tap.turns / total };
  }
  const seen = new Set<string>();
  for (let index = 0; index < read.taps.length; ) {
    const tap = read.taps[index];
    if (tap && seen.has(tap.end)) read.taps.splice(index, 1);
    else {
      if (tap) seen.add(tap.end);
      index += 1;
    }
  }
}

function readSetting(
  cx: Lowering,
  said: Said,
  detail: Extract<AnyDetail, { $type: 'SetDetail' }>,
  read: Read,
) {
  const kind = partKinds[said.kind];
  if (!kind.details.includes('set')) {
    refuse(cx, said, 'set', detail);
    return;
  }
  const place = placeOf(cx, detail);
  if (said.kind === 'selector') {
    read.setTo = detail.word ?? detail.amount?.number;
    return;
  }
  if (detail.word !== undefined) {
    if (detail.word === 'off') read.setting = { kind: 'off', place };
    else {
      remark(
        cx,
        'unknown-word',
        'error',
        place,
        {
          message: `${said.name} cannot be set to "${detail.word}".`,
          why: 'The numbers go by how each control is set.',
          cure: 'Write a percentage of its travel, ohms, or off.',
        },
        { parts: [said.name] },
      );
    }
    return;
  }
  const value = readValue(
    cx,
    detail.amount,
    ['percent', 'resistance', 'capacitance'],
    `The setting of ${said.name}`,
  );
  if (!value) return;
  if (value.dimension === 'percent')
    read.setting = { kind: 'fraction', fraction: value.value, place };
  else if (value.dimension === 'resistance')
    read.setting = { kind: 'ohms', ohms: value.value, place };
}

function readFound(
  cx: Lowering,
  said: Said,
  detail: Extract<AnyDetail, { $type: 'FoundDetail' }>,
  read: Read,
) {
  if (detail.word) {
    read.words.add(`found ${detail.word}`);
    return;
  }
  const dimensions = [...new Set(Object.values(partKinds[said.kind].amounts))];
  const value = readValue(cx, detail.amount, dimensions, `What ${said.name} was found to be`);
  if (value) read.values.found = value;
}

function readMake(
  cx: Lowering,
  said: Said,
  detail: AnyDetail,
  make: { -readonly [key in keyof WindingMake]: WindingMake[key] },
) {
  if (isWireDetail(detail)) {
    const number = Number.parseInt(detail.gauge ?? '', 10);
    let table: 'B&S' | 'SWG' = 'B&S';
    for (const word of detail.words) {
      const gauge = readGauge(word);
      const covering = readCovering(word);
      if (gauge) table = gauge;
      else if (covering) make.covering = covering;
      else {
        const known = ['enamel', 'bare', 'SSC', 'DSC', 'SCC', 'DCC', 'B&S', 'SWG'];
        const place = placeOf(cx, detail);
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
          { parts: [said.name] },
        );
      }
    }
    if (Number.isFinite(number)) make.gauge = { number, table, place: placeOf(cx, detail) };
  } else if (isSizeDetail(detail)) {
    const value = readValue(
      cx,
      detail.amount,
      sizeDimension[detail.led],
      `The ${detail.led} of ${said.name}`,
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
