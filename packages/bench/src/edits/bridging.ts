import { isSupply } from '@setwright/circuit';
import { windingsOf } from './breaking.ts';
import type { Amount } from './edit.ts';
import { groundTerminal, LEAKY_TRANSFORMER, leakOf } from './usual-faults.ts';
import { addBetween, detach, junctionOf, type Workbench } from './workbench.ts';

/** A bridge of fewer ohms than this is a piece of wire. */
const WIRE_OHMS = 60;

/** `join X to Y through Q`: a touch, a leak or a stray capacity between two terminals. */
export function join(bench: Workbench, from: string, to: string, amount: Amount | undefined): void {
  const [a, b] = [terminalOf(bench, from), terminalOf(bench, to)];
  const one = a === undefined ? undefined : junctionOf(bench, a);
  const other = b === undefined ? undefined : junctionOf(bench, b);
  const like = bench.before.circuit.partOfEnd.get(a ?? '');
  if (one === undefined || other === undefined || !like) {
    bench.refused.push(`${one === undefined ? from : to} is no terminal`);
    return;
  }
  if (one === other) return;
  const through = amount ?? { value: 0, dimension: 'resistance' };
  const kind =
    through.dimension === 'capacitance'
      ? 'condenser'
      : through.value <= WIRE_OHMS
        ? 'lead'
        : 'resistor';
  addBetween(bench, like, { name: `${from} to ${to}`, kind, amount: through }, one, other);
}

/** The terminal that a name means: a terminal's own, else the first end of a part. */
function terminalOf(bench: Workbench, name: string): string | undefined {
  const { endNamed } = bench.before.circuit;
  return endNamed.has(name) ? name : bench.parts.get(name)?.ends[0]?.id;
}

/** `short P`: all its ends on one point. */
export function short(bench: Workbench, target: string): void {
  const part = bench.parts.get(target);
  if (part?.kind === 'coil' || part?.kind === 'transformer') {
    for (const winding of windingsOf(bench, target)) short(bench, winding.name);
    return;
  }
  const [first, ...others] = part?.ends ?? [];
  if (!part || !first || others.length === 0 || part.kind === 'tube') {
    bench.refused.push(`what ${target} would be shorted to is not said: write join … to …`);
    return;
  }
  const wire: Amount = { value: 0, dimension: 'resistance' };
  for (const other of others) {
    const [from, to] = [junctionOf(bench, first.id), junctionOf(bench, other.id)];
    if (from === undefined || to === undefined || from === to) continue;
    addBetween(
      bench,
      part,
      { name: `short of ${target}`, kind: 'lead', amount: wire, within: target },
      from,
      to,
    );
  }
}

/** `leaky P Q`: across it; of a transformer or coil from its first winding to its second. */
export function leaky(bench: Workbench, target: string, amount: Amount | undefined): void {
  const part = bench.parts.get(target);
  if (!part || part.kind === 'tube' || isSupply(part)) {
    bench.refused.push(`where ${target} would leak is not said: write join … to … through …`);
    return;
  }
  if (part.kind === 'coil' || part.kind === 'transformer') {
    const [first, second] = windingsOf(bench, target);
    const from = first?.ends.find(({ name }) => name === 'start')?.id;
    const to = second?.ends.find(({ name }) => name === 'finish')?.id;
    if (from === undefined || to === undefined)
      bench.refused.push(`${target} has no two windings to leak between`);
    else join(bench, from, to, amount ?? { value: LEAKY_TRANSFORMER, dimension: 'resistance' });
    return;
  }
  const [first, second] = part.ends;
  if (part.kind === 'winding') {
    // Across itself a leak is nothing; it leaks to its core, and that is grounded.
    const ground = groundTerminal(bench.before.circuit);
    if (!first || ground === undefined) bench.refused.push(`${target} has no ground to leak to`);
    else
      join(
        bench,
        first.id,
        ground,
        amount ?? { value: LEAKY_TRANSFORMER, dimension: 'resistance' },
      );
    return;
  }
  const [from, to] = [first && junctionOf(bench, first.id), second && junctionOf(bench, second.id)];
  if (from === undefined || to === undefined) {
    bench.refused.push(`${target} has no two ends to leak between`);
    return;
  }
  const ohms = amount ?? { value: leakOf(part), dimension: 'resistance' };
  if (from !== to)
    addBetween(
      bench,
      part,
      { name: `leak of ${target}`, kind: 'resistor', amount: ohms, within: target },
      from,
      to,
    );
}

/** Puts a resistance in series at a terminal: a green joint, a dirty contact. */
export function inSeries(bench: Workbench, terminal: string, ohms: number): void {
  const before = junctionOf(bench, terminal);
  const like = bench.before.circuit.partOfEnd.get(terminal);
  if (before === undefined || !like) {
    bench.refused.push(`there is no terminal ${terminal}`);
    return;
  }
  const beyond = detach(bench, terminal);
  const amount: Amount = { value: ohms, dimension: 'resistance' };
  addBetween(bench, like, { name: `joint at ${terminal}`, kind: 'lead', amount }, before, beyond);
}
