import {
  type Bench,
  type BenchEntry,
  partKinds,
  type Suppose,
  type SupposeEdit,
} from '@setwright/circuit';
import { type Dimension, nearest, parseNumber } from '@setwright/units';
import {
  type Detail,
  type FactStatement,
  isAmountDetail,
  isCompanionDetail,
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
  type PartStatement,
  type PlaceWord,
  type Quantity,
  type Statement,
  type Target,
  type TitleDetail,
} from '../generated/ast.ts';
import { readValue } from './amounts.ts';
import type { Collected } from './collected.ts';
import { type Lowering, placeOf, placeOfProperty, remark, replacing, unquoted } from './context.ts';
import { incomplete, leftOver } from './facts.ts';
import { onePoint } from './joins.ts';
import { list, lookUp, type Naming } from './references.ts';

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
      const entries = (node.statements ?? []).flatMap((inner, index, all) =>
        isHeardOfClick(naming.cx, all[index - 1], inner)
          ? []
          : benchEntry(apart, inner, isHeardOfClick(naming.cx, inner, all[index + 1])),
      );
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

/** `click V4 heard`: the last word leads a statement elsewhere, and so is read as one of its own. */
function isHeardOfClick(cx: Lowering, click: Statement | undefined, node: Statement | undefined) {
  if (!isTargetStatement(click) || click.keyword !== 'click') return false;
  if (!isFactStatement(node) || node.keyword !== 'heard' || node.details.length > 0) return false;
  return /^[ \t]+$/.test(cx.text.slice(placeOf(cx, click).end, placeOf(cx, node).start));
}

function benchEntry(naming: Naming, node: Statement, clickHeard: boolean): BenchEntry[] {
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
  if (isTargetStatement(node) && isOneOf(node.keyword, ['actual', 'reading', 'click'])) {
    onePoint(cx, node.target);
    const to = node.details.find(isToDetail);
    const amount = node.details.find(isAmountDetail);
    const on = node.details.find(isOnDetail);
    const said = [...words(node.details), ...(clickHeard ? ['heard'] : [])];
    const known = node.keyword === 'click' ? clicks : results;
    const strays = node.details.filter(
      (detail) =>
        detail !== amount && detail !== on && !(detail === to && node.keyword === 'reading'),
    );
    const stray = unknownWords(cx, strays, known, `a ${node.keyword}`, examples[node.keyword]);
    const isSaid = amount !== undefined || said.some((word) => known.includes(word));
    if (!isSaid && !stray) incomplete(cx, node, 'what was found', [examples[node.keyword]]);
    const ofKind = node.keyword === 'actual' ? 'voltage' : readingDimensions;
    return [
      {
        ...empty,
        kind: node.keyword,
        at: meant(naming, node.target),
        to: to?.targets[0] && meant(naming, to.targets[0]),
        value: readValue(cx, amount?.amount?.low, ofKind, 'This reading'),
        range: readValue(cx, on?.amount, readingDimensions, 'The range'),
        words: said,
      },
    ];
  }
  if (isFactStatement(node) && node.keyword === 'meter') {
    const [sensitivity, accuracy] = node.details.filter(isAmountDetail);
    if (!sensitivity) incomplete(cx, node, 'its ohms per volt', [examples.meter]);
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
  if (isFactStatement(node) && isOneOf(node.keyword, ['tubes', 'heard', 'note'])) {
    const title = node.details.find(isTitleDetail);
    const text = unquoted(title?.text);
    if (node.keyword === 'heard') heard(cx, node, title, text);
    if (node.keyword === 'note' && !title) incomplete(cx, node, 'anything', ['note "warm"']);
    if (node.keyword === 'tubes')
      unknownWords(cx, node.details, ['in', 'out'], 'the tubes', 'tubes out');
    const kind =
      node.keyword === 'heard' ? 'heard' : node.keyword === 'tubes' ? 'tubes-out' : 'state';
    return [{ ...empty, kind, text, words: words(node.details) }];
  }
  if (isPartStatement(node) && node.keyword === 'dial') {
    const amount = node.details.find(isAmountDetail);
    const said = words(node.details);
    dialNamed(naming, node);
    const strays = node.details.filter((detail) => detail !== amount);
    const stray = unknownWords(cx, strays, ['no', 'effect', 'broad'], 'a dial', examples.dial);
    if (!amount && !stray && !['no effect', 'broad'].includes(said.join(' ')))
      incomplete(cx, node, 'where it stands', [
        examples.dial,
        'dial D1 no effect',
        'dial D1 broad',
      ]);
    return [
      {
        ...empty,
        kind: 'dial',
        at: node.name,
        value: readValue(cx, amount?.amount?.low, 'number', 'The dial'),
        words: said,
      },
    ];
  }
  return outOfPlace(naming, node, 'a bench');
}

const examples = {
  actual: 'actual B+45 44 V',
  reading: 'reading V1.plate 66 V on 250 V',
  click: 'click V4 heard',
  meter: 'meter 1000 ohms per volt 2 %',
  dial: 'dial D1 42',
} as const;
const results = ['open', 'short', 'lifted'];
const clicks = ['heard', 'faint', 'silent'];

/** What may be heard of a set, as the trouble chart has it. */
export const symptoms: readonly string[] = [
  'silent',
  'faint',
  'weak',
  'broad',
  'squeals at short waves',
  'squeals all over',
  'putters',
  'hums',
  'distorts loud',
  'distorts all',
  'crackles',
  'chokes on strong',
  'one dial dead',
  'no regeneration',
  'microphonic',
  'comes and goes',
];

const isOneOf = <T extends string>(word: string, known: readonly T[]): word is T =>
  known.some((other) => other === word);

function heard(
  cx: Lowering,
  node: FactStatement,
  title: TitleDetail | undefined,
  text: string | undefined,
) {
  const strays = node.details.filter((detail) => detail !== title);
  const stray = unknownWords(cx, strays, [], 'what is heard', 'heard "weak"');
  if (title === undefined || text === undefined) {
    if (!stray) incomplete(cx, node, 'what is heard', ['heard "weak"']);
    return;
  }
  if (symptoms.includes(text)) return;
  const place = placeOf(cx, title);
  remark(
    cx,
    'unknown-word',
    'error',
    place,
    {
      message: `"${text}" is not in the list of what may be heard.`,
      why: 'Which faults it speaks for is known of the words in the list only.',
      cure: `Write one of ${list(symptoms, 'or')}; say the rest in a note.`,
    },
    {
      fixes: nearest(text, symptoms, 3).map((other) =>
        replacing(`Change to "${other}"`, place, `"${other}"`),
      ),
    },
  );
}

/** A dial of the set, or a condenser or control that a hand turns without one. */
function dialNamed(naming: Naming, node: PartStatement) {
  const { cx, all } = naming;
  const name = node.name ?? '';
  const dials = all.dials.map((dial) => dial.name ?? '');
  if (dials.includes(name) || all.named.has(name)) return;
  const place = placeOfProperty(cx, node, 'name');
  const likely = nearest(name, [...dials, ...all.named.keys()], 3);
  remark(
    cx,
    'unknown-name',
    'error',
    place,
    {
      message: `This set has no dial called "${name}".`,
      why: 'Which circuit the dial speaks of is not known.',
      cure: dials.length ? `It has ${list(dials.slice(0, 9))}.` : `Write dial ${name} drives ….`,
    },
    { fixes: likely.map((other) => replacing(`Change to ${other}`, place, other)) },
  );
}

/** Tells, once, of the details of a line that mean nothing there; whether there are any. */
function unknownWords(
  cx: Lowering,
  details: readonly (Detail | PlaceWord)[],
  known: readonly string[],
  where: string,
  example: string,
): boolean {
  const isKnown = (word: string) => known.includes(word);
  const strays = details.filter((detail) =>
    isWordDetail(detail)
      ? !detail.words.every(isKnown)
      : !(isFlagDetail(detail) && isKnown(detail.word)),
  );
  const first = strays[0];
  if (!first) return false;
  const place = { ...placeOf(cx, first), end: placeOf(cx, strays.at(-1)).end };
  const text = cx.text.slice(place.start, place.end);
  const likely = nearest(text, known, 2);
  remark(
    cx,
    'unknown-word',
    'error',
    place,
    {
      message: `"${text}" says nothing of ${where}.`,
      why: 'What is not understood is never passed over in silence.',
      cure: likely.length
        ? `Did you mean "${likely.join('" or "')}"?`
        : `Take it out; such a line reads ${example}.`,
    },
    { fixes: likely.map((other) => replacing(`Change to ${other}`, place, other)) },
  );
  return true;
}

/** What a verb of a suppose wants besides its part. */
interface Verb {
  readonly example: string;
  /** `with`, `to` or `into`, where it wants a second name. */
  readonly second?: 'with' | 'to' | 'into';
  /** What its quantity may measure; that of the part itself where not given. */
  readonly amount?: readonly Dimension[];
  readonly needsAmount?: boolean;
}

const verbs: Readonly<Record<string, Verb>> = {
  open: { example: 'open C5' },
  short: { example: 'short R1' },
  leaky: { example: 'leaky C4 1 meg', amount: ['resistance'] },
  weak: { example: 'weak V3', amount: ['percent', 'voltage'] },
  gas: { example: 'gas V5', amount: ['current'] },
  change: { example: 'change R3 to 5 meg', needsAmount: true },
  set: { example: 'set RH1 2 ohms', amount: ['percent', 'resistance', 'capacitance'] },
  remove: { example: 'remove V2' },
  reverse: { example: 'reverse T1.primary' },
  swap: { example: 'swap V1.grid with V1.plate', second: 'with' },
  join: {
    example: 'join V1.grid to V1.plate',
    second: 'to',
    amount: ['resistance', 'capacitance'],
  },
  damped: { example: 'damped L1.grid to Q 20', amount: ['number'], needsAmount: true },
  plug: { example: 'plug PH1 into J2', second: 'into' },
  intermittent: { example: 'intermittent S1' },
  microphonic: { example: 'microphonic V3' },
};

/** Parts that are contacts and have no value of their own. */
const contactKinds: ReadonlySet<string> = new Set(['switch', 'selector', 'jack', 'post']);

function supposeEdit(naming: Naming, node: Statement): SupposeEdit[] {
  const { cx } = naming;
  const place = placeOf(cx, node);
  if (isTurnsStatement(node)) {
    onePoint(cx, node.target);
    const [first, last] = node.words;
    // A line that says 1/0 turns says no number of them.
    const turns = parseNumber(node.number);
    if (first !== 'shorted' || last !== 'in' || turns === undefined || turns < 0) {
      leftOver(cx, node, 'what is supposed', ['turns 3 shorted in L1.grid']);
      return [];
    }
    return [
      {
        verb: 'turns shorted',
        target: meant(naming, node.target),
        other: undefined,
        value: {
          value: turns,
          dimension: 'turns',
          text: node.number,
          place,
        },
        words: [...node.words],
        place,
      },
    ];
  }
  const verb = isTargetStatement(node) ? verbs[node.keyword] : undefined;
  if (!isTargetStatement(node) || !verb) return outOfPlace(naming, node, 'a suppose');
  const { keyword } = node;
  onePoint(cx, node.target);
  const to = node.details.find(isToDetail);
  const into = node.details.find(isCompanionDetail);
  const damped = keyword === 'damped';
  const other =
    node.details.find(isWithDetail)?.target ??
    (into?.led === 'into' ? into.targets[0] : undefined) ??
    (damped ? undefined : to?.targets[0]);
  const through = node.details.find(isThroughDetail);
  const amount = node.details.find(isAmountDetail);
  const quantity = to?.amount ?? amount?.amount?.low ?? through?.amount;
  if (verb.second && !other) incomplete(cx, node, `${verb.second} what`, [verb.example]);
  if (verb.needsAmount && !quantity) incomplete(cx, node, 'to how much', [verb.example]);
  for (const detail of node.details) {
    const isTaken =
      isAmountDetail(detail) ||
      (isToDetail(detail) && (keyword === 'change' || keyword === 'join' || damped)) ||
      (isThroughDetail(detail) && keyword === 'join') ||
      (isWithDetail(detail) && keyword === 'swap') ||
      (isCompanionDetail(detail) && keyword === 'plug') ||
      (isWordDetail(detail) && keyword === 'set');
    if (!isTaken) leftOver(cx, detail, `what is supposed`, [verb.example]);
  }
  if (quantity && !verb.amount && keyword !== 'change')
    leftOver(cx, quantity, 'what is supposed', [verb.example]);
  const meaning = lookUp(naming, node.target, undefined);
  const isSupply = meaning?.said.kind === 'battery' || meaning?.said.kind === 'eliminator';
  const isJoint =
    meaning !== undefined && (meaning.kind === 'end' || contactKinds.has(meaning.said.kind));
  const own: Dimension[] = [
    ...(isSupply ? (['voltage'] as const) : []),
    ...new Set(meaning ? Object.values(partKinds[meaning.said.kind].amounts) : readingDimensions),
    // At a single end, and in a contact, a resistance may come: a green joint, a dirty spring.
    ...(isJoint ? (['resistance'] as const) : []),
  ];
  const dimensions = verb.amount ?? (own.length > 0 ? own : readingDimensions);
  return [
    {
      verb: keyword,
      target: meaning?.kind === 'end' ? meaning.id : meaning?.said.name,
      other: other && meant(naming, other),
      value: readValue(cx, quantity, mainFirst(quantity, dimensions), 'What is supposed'),
      words: words(node.details),
      place,
    },
  ];
}

/** Without a unit a number is taken for what the part goes by, so that one cure is offered. */
function mainFirst(
  quantity: Quantity | undefined,
  dimensions: readonly Dimension[],
): Dimension | readonly Dimension[] {
  const main = dimensions[0];
  return quantity?.unit === undefined && main !== undefined ? main : dimensions;
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
