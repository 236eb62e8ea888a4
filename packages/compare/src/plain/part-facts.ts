import type { Circuit, Contact, Part, Setting, SupplyTap, WindingTap } from '@setwright/circuit';
import { type Dimension, formatQuantity } from '@setwright/units';
import type { Amount, Facts, Joint, Named, Phrase, Word } from './phrase.ts';

type Slots = Record<string, readonly Phrase[]>;

/** Words of a part that say something of their own, by the slot they go to. */
const wordSlots = ['found', 'earthed'] as const;

/** All that a text says of a part, but for its name and what its ends are joined to. */
export function factsOfPart(circuit: Circuit, part: Part): Facts {
  const facts: Slots = { kind: [[part.kind]] };
  const put = (slot: string, ...phrase: Word[]) => {
    facts[slot] = [...(facts[slot] ?? []), phrase];
  };
  if (part.title !== undefined) put('title', part.title);
  if (part.stage !== undefined && part.owner === undefined)
    put('stage', { name: `stage:${part.stage}` });
  if (part.typeName !== undefined) put('type', part.typeName);
  for (const [slot, value] of Object.entries(part.values)) {
    const [, one, other] = /^coupling (\S+) (\S+)$/.exec(slot) ?? [];
    if (one === undefined || other === undefined) put(slot, amountOf(value));
    else put('coupling', { both: [winding(part, one), winding(part, other)] }, amountOf(value));
  }
  for (const [slot, { low, high }] of Object.entries(part.ranges))
    put(slot, amountOf(low), 'to', amountOf(high));
  for (const word of part.words) {
    const slot = wordSlots.find((each) => word.startsWith(`${each} `));
    const rest = slot === undefined ? word : word.slice(slot.length + 1);
    if (slot === 'earthed') put(slot, { name: `${part.name}.${rest}` });
    else put(slot ?? 'words', rest);
  }
  if (part.setting) put('set', ...settingWords(part.setting));
  for (const tap of part.taps) put('taps', ...tapWords(part, tap));
  for (const tap of part.supplyTaps) put('taps', ...supplyTapWords(part, tap));
  for (const name of part.companions) put(companionSlot(part), { name });
  if (part.kind === 'condenser' && hasRotor(part) && !part.sidesKnown)
    put('words', 'rotor side not said');
  putWinding(circuit, part, put);
  putContacts(circuit, part, put);
  return facts;
}

/** An amount as it is written; `text` is the author's. */
export function amountOf(value: {
  readonly value: number;
  readonly dimension: Dimension;
  readonly text: string;
}): Amount {
  return { value: value.value, dimension: value.dimension, said: value.text };
}

/** An amount of which only the number is known. */
export function amount(value: number, dimension: Dimension): Amount {
  return { value, dimension, said: formatQuantity(value, dimension) };
}

const winding = (coil: Part, own: string): Named => ({ name: `${coil.name}.${own}` });

function hasRotor({ words }: Part): boolean {
  return ['variable', 'trimmer', 'neutralizing'].some((word) => words.has(word));
}

function companionSlot({ kind }: Part): string {
  return kind === 'shield' ? 'around' : kind === 'jack' ? 'through' : 'into';
}

function settingWords(setting: Setting): Phrase {
  if (setting.kind === 'off') return ['off'];
  return setting.kind === 'ohms'
    ? [amount(setting.ohms, 'resistance')]
    : [amount(setting.fraction, 'percent')];
}

function tapWords(part: Part, { end, turns, fraction }: WindingTap): Phrase {
  const tap = { name: `${part.name}.${end}` };
  if (turns !== undefined) return [tap, { value: turns, dimension: 'turns', said: `${turns}` }];
  return fraction === undefined ? [tap] : [tap, amount(fraction, 'percent')];
}

function supplyTapWords(part: Part, { end, volts, said, resistance, atLoad }: SupplyTap): Phrase {
  const words: Word[] = [{ name: `${part.name}.${end}` }];
  if (volts !== undefined)
    words.push(said?.value === volts ? amountOf(said) : amount(volts, 'voltage'));
  if (atLoad !== undefined) words.push('at', amount(atLoad, 'current'));
  if (resistance !== undefined) words.push('through', amount(resistance, 'resistance'));
  return words;
}

type Put = (slot: string, ...phrase: Word[]) => void;

function putWinding(circuit: Circuit, part: Part, put: Put) {
  const make = part.winding;
  if (!make) return;
  if (make.gauge) put('wire', `${make.gauge.number}${make.gauge.table === 'SWG' ? ' SWG' : ''}`);
  if (make.covering !== undefined) put('covering', make.covering);
  for (const slot of ['length', 'spaced', 'paper'] as const) {
    const value = make[slot];
    if (value) put(slot, amountOf(value));
  }
  // A winding on the form of its coil says nothing of its own.
  const owner = part.owner === undefined ? undefined : circuit.partNamed.get(part.owner);
  if (make.form && make.form.value !== owner?.values.form?.value) put('form', amountOf(make.form));
  for (const slot of ['beside', 'over', 'inside'] as const) {
    const name = make[slot];
    if (name !== undefined) put(slot, { name });
  }
  if (make.at !== undefined) put('at', make.at);
}

/**
 * Contacts that the text gives: the studs of a selector, further poles of a switch, springs of a
 * jack. What follows from what is plugged in, or from the part's own ends, is told by those.
 */
function putContacts(circuit: Circuit, part: Part, put: Put) {
  const own = (id: string): Named | Joint =>
    circuit.partOfEnd.get(id)?.name === part.name ? { name: id } : { at: id };
  if (part.kind === 'selector') {
    for (const { to } of part.contacts) put('studs', { at: to });
    const drawn = part.contacts.find(({ closedAt }) => closedAt.includes(part.drawnAt));
    if (drawn) put('set', { at: drawn.to });
    return;
  }
  const rest =
    part.positions.length > 0 ? part.contacts.filter((each) => !follows(part, each)) : [];
  for (const { from, to, closedAt } of rest) {
    const both = [own(from), own(to)] as const;
    // A switch stands closed at its first position, a jack empty.
    put('contacts', closedAt.includes(0) === (part.kind === 'switch') ? 'makes' : 'breaks', {
      both,
    });
  }
}

/** Whether a jack's contact follows from what is plugged into it. */
function follows(part: Part, { from, to, closedAt }: Contact): boolean {
  if (part.kind !== 'jack') return false;
  const [only] = closedAt;
  if (only === undefined || only === 0 || closedAt.length > 1) return false;
  const plug = part.positions[only] ?? '';
  const isSpring = from === `${part.name}.tip` || from === `${part.name}.sleeve`;
  return isSpring && (to === `${part.name}.sleeve` || to.startsWith(`${plug}.`));
}
