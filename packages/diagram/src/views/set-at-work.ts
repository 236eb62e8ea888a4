import {
  alignedAt,
  operatingPoint,
  pathAt,
  type SignalStep,
  type SmallSignal,
  smallSignal,
  type Tuning,
  tunedCircuits,
} from '@setwright/analysis';
import {
  asOn,
  type Circuit,
  type Conduction,
  conductionOf,
  emitterOf,
  isSupply,
} from '@setwright/circuit';
import { findRails, type Rails } from '../rails.ts';
import type { OverlayStep } from './overlay.ts';

/** A set that is switched on, and what its currents see of it. */
export interface SetAtWork {
  readonly circuit: Circuit;
  readonly conduction: Conduction;
  readonly rails: Rails;
  /** What signals see, worked out when it is first wanted. */
  readonly signals: () => Signals;
}

/** A set as signals see it, tuned to the middle of its band. */
export interface Signals {
  readonly set: SmallSignal;
  /** Hertz. */
  readonly radio: number;
  /** How the condensers stand there. */
  readonly tuning: Tuning;
}

/** Where the set does not say what it tunes: the middle of the broadcast band, in hertz. */
const BROADCAST = 1e6;

/** Impedances up to this many times one another are as good as equal. */
const EQUALS = 1.05;

/** The set switched on and tuned to the middle of its band. Never throws. */
export function setAtWork(circuit: Circuit): SetAtWork {
  const { settings } = asOn(circuit);
  let known: Signals | undefined;
  return {
    circuit,
    conduction: conductionOf(circuit, settings),
    rails: findRails(circuit),
    signals() {
      if (known) return known;
      const set = smallSignal(circuit, operatingPoint(circuit, settings));
      const radio = middleOfBand(circuit);
      known = { set, radio, tuning: alignedAt(set, radio).tuning };
      return known;
    },
  };
}

function middleOfBand(circuit: Circuit): number {
  const { tunes } = circuit;
  const edges = tunes
    ? [tunes.low.value, tunes.high.value]
    : tunedCircuits(circuit).flatMap(({ tuner, lowest, highest }) =>
        tuner ? [lowest.value ?? [], highest.value ?? []].flat() : [],
      );
  const middle = Math.sqrt(Math.min(...edges) * Math.max(...edges));
  return middle > 0 && Number.isFinite(middle) ? middle : BROADCAST;
}

/** The way of least impedance home from a terminal at a frequency in hertz, contacts included. */
export function signalHome(
  work: SetAtWork,
  terminal: string,
  frequency: number,
): { readonly steps: OverlayStep[]; readonly to: string } | undefined {
  const part = work.circuit.partOfEnd.get(terminal);
  const home = part?.kind === 'tube' ? emitterOf(part)?.id : undefined;
  const path = pathAt(work.signals().set, terminal, frequency, home, work.signals().tuning);
  if (!path.found || path.to === undefined || !work.circuit.endNamed.has(path.to)) return undefined;
  const steps = joinedSections(path.steps.map((step) => aroundSupply(work, step, frequency)));
  return { steps: withContacts(work.conduction, terminal, steps, path.to), to: path.to };
}

/**
 * A step through a supply as one through the condenser across it, where that is as good a way: of
 * two equals the wired one is the one that was meant.
 */
function aroundSupply(
  { circuit, signals }: SetAtWork,
  step: SignalStep,
  frequency: number,
): OverlayStep {
  const { part, in: from, out } = step;
  const own = { part, in: from, out };
  const supply = circuit.partNamed.get(part);
  if (!supply || !isSupply(supply)) return own;
  const { set } = signals();
  const [a, b] = [set.pointOf(from), set.pointOf(out)];
  const ohmsOf = (farads: number): number => 1 / (2 * Math.PI * frequency * farads);
  for (const { from: one, to: other, origin, farads, isStray } of set.network.capacities) {
    const wired = circuit.partNamed.get(origin?.part ?? '');
    if (!origin || !wired || wired === supply || isStray) continue;
    if (ohmsOf(farads) > EQUALS * step.impedance) continue;
    if (one === a && other === b) return { part: wired.name, in: origin.from, out: origin.to };
    if (one === b && other === a) return { part: wired.name, in: origin.to, out: origin.from };
  }
  return own;
}

/** Steps through one part after another become one. */
export function joinedSections(steps: readonly OverlayStep[]): OverlayStep[] {
  const joined: OverlayStep[] = [];
  for (const step of steps) {
    const last = joined.at(-1);
    if (last?.part === step.part && !step.coupled)
      joined[joined.length - 1] = { ...last, out: step.out };
    else joined.push(step);
  }
  return joined;
}

/** Puts in the closed contacts between steps, which signals do not count as parts. */
function withContacts(
  conduction: Conduction,
  from: string,
  steps: readonly OverlayStep[],
  to: string,
): OverlayStep[] {
  const whole: OverlayStep[] = [];
  let at = from;
  for (const step of [...steps, undefined]) {
    whole.push(...contactsBetween(conduction, at, step?.in ?? to));
    if (!step) break;
    whole.push(step);
    at = step.out;
  }
  return whole;
}

/** The closed contacts and pieces of wire between two terminals; none where they are one junction. */
function contactsBetween(conduction: Conduction, from: string, to: string): OverlayStep[] {
  const { circuit, at } = conduction;
  const [start, goal] = [circuit.endNamed.get(from)?.junction, circuit.endNamed.get(to)?.junction];
  if (start === undefined || goal === undefined || start === goal) return [];
  const arrived = new Map<number, { readonly before: number; readonly step: OverlayStep }>();
  const open = [start];
  for (let here = open.shift(); here !== undefined && here !== goal; here = open.shift()) {
    for (const { direct, part, from: a, to: b, fromJunction, toJunction } of at[here] ?? []) {
      if (direct.kind !== 'conducts' || !(direct.ohms === undefined || direct.ohms < 1)) continue;
      const there = fromJunction === here ? toJunction : fromJunction;
      if (there === start || arrived.has(there)) continue;
      const step = fromJunction === here ? { part, in: a, out: b } : { part, in: b, out: a };
      arrived.set(there, { before: here, step });
      open.push(there);
    }
  }
  const steps: OverlayStep[] = [];
  for (let here = goal; here !== start; ) {
    const way = arrived.get(here);
    if (!way) return [];
    steps.unshift(way.step);
    here = way.before;
  }
  return steps;
}
