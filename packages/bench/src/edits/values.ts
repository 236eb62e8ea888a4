import { isSupply, type Part, type Setting } from '@setwright/circuit';
import { inSeries } from './bridging.ts';
import type { Amount } from './edit.ts';
import { replace, type Workbench, writtenValue } from './workbench.ts';

/** `change P to Q`: another value; of a contact or a single end, a resistance in series there. */
export function change(bench: Workbench, target: string, amount: Amount | undefined): void {
  if (!amount) {
    bench.refused.push(`to how much ${target} changes is not said`);
    return;
  }
  const part = bench.parts.get(target);
  if (!part) {
    changeEnd(bench, target, amount);
    return;
  }
  if (isSupply(part) && amount.dimension === 'voltage') {
    changeVolts(bench, part, amount);
    return;
  }
  if (isContact(part) && amount.dimension === 'resistance') {
    const first = part.ends[0];
    if (first) inSeries(bench, first.id, amount.value);
    return;
  }
  const slot = slotFor(part, amount);
  if (slot === undefined) {
    bench.refused.push(`${target} has nothing that is measured so`);
    return;
  }
  const ranges = Object.fromEntries(Object.entries(part.ranges).filter(([name]) => name !== slot));
  const value = writtenValue(amount, part);
  // A condenser that is turned stays one; it only stands there.
  if (part.ranges[slot] !== undefined && part.kind === 'condenser') {
    replace(bench, { ...part, values: { ...part.values, set: value } });
    return;
  }
  // Ohms at a setting are of its old wire.
  const setting = part.setting?.kind === 'ohms' ? undefined : part.setting;
  if (part.kind === 'rheostat') bench.held.delete(part.name);
  replace(bench, {
    ...part,
    ranges,
    setting: part.kind === 'rheostat' ? settingAt(part, amount.value) : setting,
    values: { ...part.values, [slot]: value },
  });
}

/** A rheostat that has come to another resistance has it in circuit. */
function settingAt(part: Part, ohms: number): Setting {
  return { kind: 'ohms', ohms, place: part.place };
}

const slots: Readonly<Record<string, readonly string[]>> = {
  resistance: ['resistance'],
  capacitance: ['capacitance'],
  inductance: ['inductance'],
  turns: ['turns'],
  ratio: ['ratio'],
  current: ['ratedCurrent'],
  voltage: ['volts'],
};

function slotFor(part: Part, { dimension }: Amount): string | undefined {
  const known = slots[dimension] ?? [];
  return known.find((slot) => part.values[slot] || part.ranges[slot]) ?? known[0];
}

function isContact({ kind }: Part): boolean {
  return kind === 'switch' || kind === 'selector' || kind === 'jack' || kind === 'post';
}

function changeEnd(bench: Workbench, terminal: string, amount: Amount): void {
  const owner = bench.before.circuit.partOfEnd.get(terminal);
  if (owner && isSupply(owner) && amount.dimension === 'voltage') {
    const now = bench.parts.get(owner.name) ?? owner;
    const name = now.ends.find(({ id }) => id === terminal)?.name;
    replace(bench, {
      ...now,
      supplyTaps: now.supplyTaps.map((tap) =>
        tap.end === name ? { ...tap, volts: amount.value } : tap,
      ),
    });
    return;
  }
  if (amount.dimension === 'resistance') inSeries(bench, terminal, amount.value);
  else bench.refused.push(`${terminal} is an end: a resistance may come there`);
}

/** All taps in step, so that the whole supply has these volts. */
function changeVolts(bench: Workbench, part: Part, amount: Amount): void {
  const known = part.supplyTaps.flatMap(({ volts }) => volts ?? []);
  const whole = Math.max(...known) - Math.min(...known);
  if (!(whole > 0)) {
    bench.refused.push(`the volts of ${part.name} are not known`);
    return;
  }
  const share = amount.value / whole;
  replace(bench, {
    ...part,
    supplyTaps: part.supplyTaps.map((tap) =>
      tap.volts === undefined ? tap : { ...tap, volts: tap.volts * share },
    ),
  });
}

/** `set P Q`: a control turned: ohms, a share of its travel, a capacity, or a position by name. */
export function set(
  bench: Workbench,
  target: string,
  amount: Amount | undefined,
  words: readonly string[],
): void {
  const part = bench.parts.get(target);
  if (!part) {
    bench.refused.push(`there is no part ${target}`);
    return;
  }
  if (part.positions.length > 0) {
    const wanted = words.join(' ');
    const position = part.positions.findIndex(
      (name) => name === wanted || name.endsWith(`.${wanted}`),
    );
    if (position < 0) bench.refused.push(`${target} has no position ${wanted}`);
    else bench.positions.set(target, position);
    return;
  }
  if (part.kind === 'condenser') {
    if (amount?.dimension === 'capacitance')
      replace(bench, { ...part, values: { ...part.values, set: writtenValue(amount, part) } });
    else if (amount?.dimension === 'percent') turn(bench, part, fractionOf(part, amount.value));
    else bench.refused.push(`where ${target} is set is not said`);
    return;
  }
  if (words.includes('off')) turn(bench, part, { kind: 'off', place: part.place });
  else if (amount?.dimension === 'percent') turn(bench, part, fractionOf(part, amount.value));
  else if (amount?.dimension === 'resistance')
    turn(bench, part, { kind: 'ohms', ohms: amount.value, place: part.place });
  else bench.refused.push(`where ${target} is set is not said`);
}

function fractionOf(part: Part, fraction: number): Setting {
  return { kind: 'fraction', fraction, place: part.place };
}

function turn(bench: Workbench, part: Part, setting: Setting): void {
  bench.travels.delete(part.name);
  bench.held.delete(part.name);
  const { set: _, ...values } = part.values;
  replace(bench, { ...part, values, setting });
}

/** `plug P into J`: its plug in this jack, and out of any other. */
export function plug(bench: Workbench, target: string, name: string | undefined): void {
  const part = bench.parts.get(target);
  const jack = bench.parts.get(name ?? '');
  if (!part || jack?.kind !== 'jack') {
    bench.refused.push(`${name ?? target} is no jack that takes a plug`);
    return;
  }
  for (const other of bench.parts.values()) {
    if (other.kind !== 'jack' || other.name === jack.name) continue;
    const here = bench.positions.get(other.name) ?? other.drawnAt;
    if (here === pluggedWith(other, target)) bench.positions.set(other.name, 0);
  }
  const known = pluggedWith(jack, target);
  const plugged = known ?? jack.positions.length;
  if (known === undefined) replace(bench, takingPlug(jack, part, plugged));
  bench.positions.set(jack.name, plugged);
}

/** The position at which a jack's springs touch the plug of this part. */
function pluggedWith(jack: Part, plugged: string): number | undefined {
  return jack.contacts.find(({ from, to }) => [from, to].some((id) => id.startsWith(`${plugged}.`)))
    ?.closedAt[0];
}

/** A jack that takes one more plug: its springs move as for any other. */
function takingPlug(jack: Part, part: Part, position: number): Part {
  const end = (of: Part, name: string) => of.ends.find((each) => each.name === name)?.id;
  const [first, second] = part.ends;
  const ends = [
    [end(jack, 'tip'), first?.id],
    [end(jack, 'sleeve'), second?.id],
  ] as const;
  return {
    ...jack,
    positions: [...jack.positions, part.name],
    contacts: [
      ...jack.contacts.map((contact) =>
        // What any plug makes it makes too; but for the way through a plug of which nothing is said.
        contact.closedAt.some((at) => at > 0) && !isStraight(jack, contact)
          ? { ...contact, closedAt: [...contact.closedAt, position] }
          : contact,
      ),
      ...ends.flatMap(([from, to]) =>
        from === undefined || to === undefined
          ? []
          : [{ from, to, closedAt: [position], place: part.place }],
      ),
    ],
  };
}

function isStraight(jack: Part, { from, to }: Part['contacts'][number]): boolean {
  return [from, to].every((id) => id === `${jack.name}.tip` || id === `${jack.name}.sleeve`);
}
