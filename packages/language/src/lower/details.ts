import {
  type PartKind,
  type Place,
  partKinds,
  type Range,
  type Setting,
  type Value,
  type WindingMake,
  type WindingTap,
} from '@setwright/circuit';
import { type Dimension, nearest, parseNumber, readQuantity } from '@setwright/units';
import {
  isAmountDetail,
  isByDetail,
  isCentreDetail,
  isFlagDetail,
  isFoundDetail,
  isLawDetail,
  isLieDetail,
  isLikeDetail,
  isOnDetail,
  isPlacedDetail,
  isPlaceWord,
  isRatioDetail,
  isSetDetail,
  isSizeDetail,
  isTapDetail,
  isTitleDetail,
  isWireDetail,
  isWithDetail,
  isWordDetail,
  type Quantity,
  type TapItem,
} from '../generated/ast.ts';
import {
  plainDimension,
  readRangeValues,
  readValue,
  type SplitUnit,
  splitUnit,
} from './amounts.ts';
import { broughtHome } from './brought-home.ts';
import { type Lowering, muted, placeOf, placeOfProperty, remark, replacing } from './context.ts';
import { refuse } from './refuse.ts';
import type { AnyDetail, Said } from './said.ts';
import { strayWords } from './stray-words.ts';
import { readMake } from './winding-make.ts';

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
  /** Other parts that these details name, and where. */
  readonly links: { readonly place: Place; readonly said: Said }[];
}

/**
 * Reads amounts, words, settings, taps and the make of a winding from a part's details.
 * `isName` says whether a word is the name of something in the set.
 */
export function readDetails(into: Lowering, said: Said, isName: (word: string) => boolean): Read {
  // What is copied from another part has been told of there.
  const silent = muted(into);
  let cx = into;
  const kind = partKinds[said.kind];
  const read: Read = {
    values: {},
    ranges: {},
    words: new Set(),
    setting: undefined,
    setTo: undefined,
    taps: [],
    winding: undefined,
    links: [],
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
  let title = false;
  let skipWord = false;
  let skipAmount = false;
  const strays = strayWords(into, said, isName);
  for (const [index, { detail, inherited, text }] of said.details.entries()) {
    // What a garbled end of the line left half said has been told of with it.
    const cut = said.unread && index === said.details.length - 1;
    cx = text ? muted(text) : inherited || cut ? silent : into;
    if (isAmountDetail(detail)) {
      if (skipAmount) {
        skipAmount = false;
        continue;
      }
      if (strays.wantsAmount()) {
        strays.add('', placeOf(cx, detail));
        continue;
      }
      strays.end();
      const amount = detail.amount;
      const next = said.details[index + 1]?.detail;
      const garbled = wordForUnit(cx, amount?.low, next, isName);
      if (garbledTo(cx, said, amount?.low, next)) {
        skipAmount = true;
        continue;
      }
      if (amount?.high) readRange(cx, said, amount.low, amount.high, read, inherited);
      else if (garbled) {
        const { unit: _unit, ...bare } = amount.low;
        readAmount(cx, said, bare as Quantity, read, inherited);
        strays.add(garbled.word, garbled.place);
      } else {
        const split = splitUnit(cx, amount?.low, next);
        readAmount(cx, said, amount?.low, read, inherited, split);
        skipWord = split !== undefined;
      }
      continue;
    }
    if (isWordDetail(detail)) {
      for (const [at, word] of detail.words.entries()) {
        if (skipWord && at === 0) continue;
        if (kind.words.includes(word)) {
          strays.end();
          read.words.add(word);
        } else if (!inherited) strays.add(word, placeOfProperty(cx, detail, 'words', at));
      }
      skipWord = false;
      continue;
    }
    strays.end();
    if (isTitleDetail(detail)) {
      if (title && !inherited) secondTitle(cx, said, detail);
      title = true;
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
    else if (isLawDetail(detail)) readLaw(cx, said, detail, read);
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
    } else if (isLikeDetail(detail) && !kind.details.includes('like'))
      refuse(cx, said, 'like', detail);
    else if (isWithDetail(detail) || isByDetail(detail)) refuse(cx, said, detail.led, detail);
    else if (said.kind === 'winding') readMake(cx, said, detail, make, read.links);
    else if (isSizeDetail(detail) && said.kind === 'condenser' && detail.led === 'paper') {
      readWord(cx, said, 'paper', detail, read);
      readAmount(cx, said, detail.amount, read, inherited);
    } else if (
      isWireDetail(detail) ||
      isSizeDetail(detail) ||
      isPlacedDetail(detail) ||
      isLieDetail(detail) ||
      isOnDetail(detail)
    )
      refuse(cx, said, detail.led, detail);
  }
  strays.end(said.unread);
  if (said.kind === 'winding') {
    make.turns = read.values.turns;
    make.reversed = read.words.has('reversed');
    read.winding = make;
  }
  settleTaps(read);
  const like = said.like ?? said.owner?.like;
  const isTakenOver = said.details.some(({ text }) => text && text.file !== into.file);
  return like && isTakenOver ? broughtHome(read, into.file, like.place) : read;
}

/** `14 tp 365 mmfd`: a range whose `to` is garbled. Tells of it. */
function garbledTo(
  cx: Lowering,
  said: Said,
  quantity: Quantity | undefined,
  next: AnyDetail | undefined,
): boolean {
  const word = quantity?.unit;
  if (!quantity || word === undefined || !isAmountDetail(next)) return false;
  if (partKinds[said.kind].ranges.length === 0 || plainDimension(quantity)) return false;
  if (nearest(word, ['to'], 1).length === 0) return false;
  const place = placeOfProperty(cx, quantity, 'unit');
  remark(
    cx,
    'unknown-word',
    'error',
    place,
    {
      message: `"${word}" says nothing between the two numbers of ${said.name}.`,
      why: 'What the part is worth is not known until it is put right.',
      cure: 'Did you mean "to"?',
    },
    { parts: [said.name], fixes: [replacing('Change to to', place, 'to')] },
  );
  return true;
}

/** `12 frm GND`: a garbled word before a name, which is no unit of the number before it. */
function wordForUnit(
  cx: Lowering,
  quantity: Quantity | undefined,
  next: AnyDetail | undefined,
  isName: (word: string) => boolean,
): { readonly word: string; readonly place: Place } | undefined {
  const word = quantity?.unit;
  if (!quantity || word === undefined || !isWordDetail(next)) return undefined;
  if (!isName(next.words[0] ?? '') || plainDimension(quantity) || /^m\.?$/i.test(word))
    return undefined;
  return { word, place: placeOfProperty(cx, quantity, 'unit') };
}

/** The quantities that a kind of part takes, in words. */
function takes(amounts: Readonly<Record<string, Dimension>>): string {
  const names = [...new Set(Object.values(amounts))];
  return names.length ? names.join(', ') : 'no quantity';
}

function readAmount(
  cx: Lowering,
  said: Said,
  quantity: Quantity | undefined,
  read: Read,
  inherited: boolean,
  split?: SplitUnit,
) {
  if (!quantity?.number) return;
  const kind = partKinds[said.kind];
  const free = Object.entries(kind.amounts).filter(
    ([slot]) => read.values[slot] === undefined && read.ranges[slot] === undefined,
  );
  // What is said anew of a part stands before what it copies, which gives way.
  if (inherited && filledBy(kind, read, quantity)) return;
  const first = free[0];
  if (!first) {
    const own = said.details.some((other) => !other.inherited && isAmountDetail(other.detail));
    if (inherited && own) return;
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
    readAmount(cx, said, bare as Quantity, read, inherited);
    return;
  }
  const twice = split ? undefined : filledBy(kind, read, quantity);
  if (
    twice !== undefined &&
    !free.some(([, dimension]) => dimension === plainDimension(quantity))
  ) {
    saidTwice(cx, said, quantity, twice);
    return;
  }
  const value = readValue(cx, quantity, dimensionsFor(quantity, free), said.name, {
    split,
    lowOhms: hasLowOhms(said),
  });
  if (!value) return;
  const slot = free.find(([, dimension]) => dimension === value.dimension)?.[0];
  if (slot) read.values[slot] = value;
}

/**
 * What a quantity may measure: any slot that is still free; where its unit fits none of them, the
 * first, which is the one that the part goes by.
 */
function dimensionsFor(
  quantity: Quantity,
  free: readonly (readonly [string, Dimension])[],
): Dimension | readonly Dimension[] {
  const all = [...new Set(free.map(([, dimension]) => dimension))];
  const main = all[0] ?? 'number';
  if (quantity.unit === undefined) return main;
  const plain = plainDimension(quantity);
  if (/^m\.?$/i.test(quantity.unit)) return main;
  // Centimeters are a capacity as well as a length.
  const fits = (dimension: Dimension) => readQuantity('1', quantity.unit, dimension).ok;
  return plain === undefined || all.some(fits) ? all : main;
}

/** Whether a part's ohms are never millions. */
const hasLowOhms = (said: Said) => said.kind !== 'leak' && said.kind !== 'resistor';

/** What already fills the slot that a quantity is for, as written. */
function filledBy(kind: PartKind, read: Read, quantity: Quantity): string | undefined {
  const plain = plainDimension(quantity);
  for (const [slot, dimension] of Object.entries(kind.amounts)) {
    if (dimension !== plain) continue;
    const value = read.values[slot];
    const range = read.ranges[slot];
    if (value) return value.text;
    if (range) return `${range.low.text} to ${range.high.text}`;
  }
  return undefined;
}

function saidTwice(cx: Lowering, said: Said, quantity: Quantity, before: string) {
  const place = placeOf(cx, quantity);
  const text = cx.text.slice(place.start, place.end);
  const start = place.start - (/[ \t]*$/.exec(cx.text.slice(0, place.start))?.[0].length ?? 0);
  remark(
    cx,
    'wrong-unit',
    'error',
    place,
    {
      message: `${said.name} is given ${before} and then ${text}.`,
      why: 'Both are the same kind of quantity, and only one of them can hold.',
      cure: `Take ${before} or ${text} out, or mend the unit of one of them.`,
    },
    {
      parts: [said.name],
      fixes: [replacing(`Take ${text} out`, { ...place, start }, '')],
    },
  );
}

function readRange(
  cx: Lowering,
  said: Said,
  low: Quantity,
  high: Quantity,
  read: Read,
  inherited: boolean,
) {
  const kind = partKinds[said.kind];
  if (inherited && kind.ranges.some((slot) => read.ranges[slot] ?? read.values[slot])) return;
  const slots = kind.ranges.filter((slot) => read.ranges[slot] === undefined);
  const slot = slots[0];
  const dimension = slot ? kind.amounts[slot] : undefined;
  if (!slot || !dimension) {
    const place = { ...placeOf(cx, low), end: placeOf(cx, high).end };
    const text = cx.text.slice(place.start, place.end);
    const isRatio = kind.details.includes('ratio') && !low.unit && !high.unit;
    remark(
      cx,
      'unknown-word',
      'error',
      place,
      {
        message: isRatio
          ? `${said.name} has ${text}, which does not say of what.`
          : `A ${kind.noun} such as ${said.name} takes one value, not a range.`,
        why: 'What is not understood is never passed over in silence.',
        cure: isRatio ? `Write ratio ${text}, turns of the primary first.` : 'Write the one value.',
      },
      {
        parts: [said.name],
        fixes: isRatio
          ? [text, `${high.number} to ${low.number}`].map((way) =>
              replacing(`Write ratio ${way}`, place, `ratio ${way}`),
            )
          : [],
      },
    );
    return;
  }
  const range = readRangeValues(cx, low, high, dimension, said.name);
  if (range) read.ranges[slot] = range;
}

function secondTitle(cx: Lowering, said: Said, detail: AnyDetail) {
  remark(
    cx,
    'unknown-word',
    'error',
    placeOf(cx, detail),
    {
      message: `${said.name} has a second title.`,
      why: 'Only the first is shown.',
      cure: 'Keep one, and say the rest in a note.',
    },
    { parts: [said.name] },
  );
}

const laws = ['capacity', 'wavelength', 'frequency'];

/** How the capacity of a variable condenser goes with its dial, kept as the word `law capacity`. */
function readLaw(
  cx: Lowering,
  said: Said,
  detail: Extract<AnyDetail, { $type: 'LawDetail' }>,
  read: Read,
) {
  if (!partKinds[said.kind].details.includes('law')) refuse(cx, said, 'law', detail);
  else if (laws.includes(detail.law)) read.words.add(`law ${detail.law}`);
  else {
    const place = placeOfProperty(cx, detail, 'law');
    remark(
      cx,
      'unknown-word',
      'error',
      place,
      {
        message: `"${detail.law}" is no law of the plates of ${said.name}.`,
        why: 'Where a station comes in on the dial goes by it.',
        cure: `Write one of ${laws.join(', ')}.`,
      },
      {
        parts: [said.name],
        fixes: nearest(detail.law, laws, 1).map((law) => replacing(`Change to ${law}`, place, law)),
      },
    );
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

/** The end that a tap makes: `tap13`, `tap2_5`. */
export function tapEnd(item: TapItem): string | undefined {
  const number = parseNumber(item.at?.number ?? '');
  return number === undefined ? undefined : `tap${String(number).replace('.', '_')}`;
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
  const counted = item.at?.unit === undefined || /^turns?$/i.test(item.at.unit);
  const turn = parseNumber(item.at?.number ?? '');
  const end = tapEnd(item);
  if (turn === undefined || end === undefined) return;
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
    settingDimensions(said),
    `The setting of ${said.name}`,
    { lowOhms: hasLowOhms(said) },
  );
  if (!value) return;
  if (value.dimension === 'percent')
    read.setting = { kind: 'fraction', fraction: value.value, place };
  else if (value.dimension === 'resistance')
    read.setting = { kind: 'ohms', ohms: value.value, place };
  // How far in the plates stand for a stated capacity goes by their law: kept as the value it is.
  else read.values.set = value;
}

/** What the setting of a control may be said in. */
function settingDimensions(said: Said): readonly Dimension[] {
  switch (said.kind) {
    case 'condenser':
      return ['percent', 'capacitance'];
    case 'winding':
    case 'variometer':
      return ['percent'];
    default:
      return ['percent', 'resistance'];
  }
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
  if (!detail.amount) return;
  const slots = Object.entries(partKinds[said.kind].amounts);
  const value = readValue(
    cx,
    detail.amount,
    dimensionsFor(detail.amount, slots),
    `What ${said.name} was found to be`,
    { lowOhms: hasLowOhms(said) },
  );
  if (value) read.values.found = value;
}
