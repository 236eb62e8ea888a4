import {
  type Branch,
  type Circuit,
  type Conduction,
  type End,
  type Finding,
  type Fix,
  isSupply,
  type JoinedBranch,
  type Part,
  type Step,
  supposedOhms,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { exchanged } from '../fixes/exchange.ts';
import type { Study } from '../study.ts';
import { withEveryContactClosed } from '../wiring/every-contact.ts';
import { leastOhms, type Way } from '../wiring/least-ohms.ts';
import { standingWords } from '../wiring/positions.ts';
import { alsoPart, finding, listed, nameOf } from '../words/finding.ts';
import { tapWords } from '../words/supply-words.ts';

/** The rest of the way is next to nothing when it has less than this part of the control's ohms. */
const NEXT_TO_NOTHING = 1 / 10;
/** No more controls of one set are tried, and no more are told of. */
const MOST_TRIED = 128;
const MOST_TOLD = 16;

const set = (ends: string): string => `receiver "Lantern Cove Stabilized" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45 45 V
  }
  post ANT aerial
  post GND ground
  bus NEG
  bus RET
  wire B- to A- to GND
  switch S1 from A- to NEG closed
  rheostat RH1 20 ohms from NEG
  potentiometer P1 400 ohms ${ends}
  coil L1 {
    form 3 in
    winding grid 50 turns of 24 DCC from RET
    winding aerial 10 turns of 24 DCC beside grid spaced 1/8 in from GND to ANT
  }
  condenser C1 variable 20 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
  condenser C2 .5 mfd from RET to NEG
  radio stage RF {
    tube V1 01-A {
      filament from RH1 to A+
      grid to L1.grid.finish
    }
    phones H1 2000 ohms from V1.plate to B+45
    condenser C3 .001 mfd across H1
  }
}`;

export const controlShortsBattery: Check = {
  id: 'control-shorts-battery',
  group: 'Batteries',
  severity: 'error',
  summary:
    'At an end of its travel a control lies across a battery with next to nothing in series.',
  why: 'The control burns the moment it is turned there, and a storage battery can start a fire.',
  silent: [
    'A tube or a lamp lies in the way of the current.',
    'Something in series that cannot be turned down has a tenth of the control’s own resistance or more.',
    'Something in series keeps the current to what the control is rated for.',
    'A potentiometer with its two ends across the battery and its arm elsewhere, as a stabilizer is.',
  ],
  source: 'common practice',
  fails: set('from NEG to RET arm to A+'),
  passes: set('from NEG to A+ arm to RET'),
  needsWholeText: false,
  find(study) {
    const possible = shortsAt(study.circuit, withEveryContactClosed(study.conduction));
    if (possible.length === 0) return [];
    const found = new Map<Part, Finding>();
    for (const { settings, conduction } of study.everyPosition) {
      for (const short of shortsAt(study.circuit, conduction)) {
        if (found.has(short.control)) continue;
        const where = standingWords(study.circuit, study.on.settings, settings);
        found.set(short.control, told(study, short, where));
      }
      if (found.size === new Set(possible.map(({ control }) => control)).size) break;
    }
    return [...found.values()];
  },
};

/** A control at the end of its travel where it shorts a battery. */
interface Short {
  readonly control: Part;
  /** The two ends that meet there. */
  readonly ends: readonly [End, End];
  readonly supply: Part;
  /** The supply's taps that the two ends lead to. */
  readonly taps: readonly [string, string];
  readonly volts: number;
  /** Ohms of the rest of the way. */
  readonly ohms: number;
  readonly on: readonly Part[];
}

/** Every control's shorts at one position of the switches. */
function shortsAt(circuit: Circuit, conduction: Conduction): Short[] {
  const controls = circuit.parts.filter(
    (part) => part.kind === 'rheostat' || part.kind === 'potentiometer',
  );
  if (controls.length === 0) return [];
  const closed = partsOnClosedWays(conduction, (branch) => ohmsBeside(circuit, branch));
  const candidates = controls.filter(({ name }) => closed.has(name)).slice(0, MOST_TRIED);
  const found: Short[] = [];
  for (const control of candidates) {
    if (found.length >= MOST_TOLD) break;
    found.push(...shortOf(circuit, conduction, control));
  }
  return found;
}

/**
 * Names of the parts that may lie on a closed way: what leads nowhere is taken away, end by end.
 * In a sound set few controls are left, since the tubes hold the current back. Linear.
 */
function partsOnClosedWays(
  conduction: Conduction,
  ohmsOf: (branch: Branch) => number | undefined,
): ReadonlySet<string> {
  const passing = conduction.branches.filter(
    (branch) => branch.fromJunction !== branch.toJunction && ohmsOf(branch) !== undefined,
  );
  const at = new Map<number, Set<JoinedBranch>>();
  for (const branch of passing) {
    for (const junction of [branch.fromJunction, branch.toJunction]) {
      const here = at.get(junction);
      if (here) here.add(branch);
      else at.set(junction, new Set([branch]));
    }
  }
  const ends = [...at].filter(([, here]) => here.size === 1).map(([junction]) => junction);
  for (let end = ends.pop(); end !== undefined; end = ends.pop()) {
    for (const branch of at.get(end) ?? []) {
      const other = branch.fromJunction === end ? branch.toJunction : branch.fromJunction;
      at.get(end)?.delete(branch);
      at.get(other)?.delete(branch);
      if (at.get(other)?.size === 1) ends.push(other);
    }
  }
  return new Set([...at.values()].flatMap((here) => [...here].map(({ part }) => part)));
}

/** The ends at which the arms of potentiometers stand that the text does not set, by their names. */
type Arms = ReadonlyMap<string, 'start' | 'finish'>;

/**
 * Ohms of what may lie in the way of a short; undefined for what would hold the current back.
 * An arm of which it is not said where it stands may be at either end.
 */
function ohmsBeside(circuit: Circuit, branch: Branch, arms: Arms = new Map()): number | undefined {
  const { direct } = branch;
  if (direct.kind === 'blocks') return undefined;
  if (direct.kind === 'source') return direct.volts === undefined ? undefined : 0;
  const part = circuit.partNamed.get(branch.part);
  switch (part?.kind) {
    case undefined:
    case 'tube':
    case 'lamp':
    case 'ballast':
      return undefined;
    case 'rheostat':
      // One that is not set may be turned down as well.
      return part.setting === undefined ? 0 : direct.ohms;
    case 'potentiometer':
      return part.setting === undefined ? armOhms(part, branch, arms.get(part.name)) : direct.ohms;
    case 'lead':
    case 'fuse':
    case 'winding':
      return direct.ohms ?? supposedOhms(circuit, branch).ohms;
    default:
      return direct.ohms;
  }
}

/** Ohms from an end of a potentiometer to its arm; next to the arm none, beyond it all. */
function armOhms(
  part: Part,
  { from, to }: Branch,
  at: 'start' | 'finish' | undefined,
): number | undefined {
  if (at === undefined) return 0;
  const isNext = [from, to].includes(`${part.name}.${at}`);
  return isNext ? 0 : part.values.resistance?.value;
}

/** More arms than this on one way are not tried at either end: they hold the current back. */
const MOST_ARMS = 4;

/**
 * The way of fewest ohms, with every arm that is not set where it leaves least in the way. However
 * it stands, the whole of the potentiometer lies between its ends.
 */
function leastWay(
  circuit: Circuit,
  conduction: Conduction,
  { control, from, to, bound }: { control: Part; from: End; to: End; bound: number },
  arms: Arms = new Map(),
): Way | undefined {
  const beside = (branch: Branch) =>
    branch.part === control.name ? undefined : ohmsBeside(circuit, branch, arms);
  const way = leastOhms(conduction, [from.junction], beside, bound).at(to.junction);
  const through = way?.steps().map(({ part }) => part) ?? [];
  const whole = through.find(
    (name, index) =>
      !arms.has(name) &&
      through.indexOf(name) < index &&
      circuit.partNamed.get(name)?.kind === 'potentiometer' &&
      circuit.partNamed.get(name)?.setting === undefined,
  );
  if (whole === undefined) return way;
  if (arms.size >= MOST_ARMS) return undefined;
  const [one, other] = (['start', 'finish'] as const).map((at) =>
    leastWay(circuit, conduction, { control, from, to, bound }, new Map([...arms, [whole, at]])),
  );
  return one && other ? (one.ohms <= other.ohms ? one : other) : (one ?? other);
}

function shortOf(circuit: Circuit, conduction: Conduction, control: Part): Short[] {
  const whole = control.values.resistance?.value;
  const bound = whole === undefined ? 0 : whole * NEXT_TO_NOTHING;
  for (const [a, b] of extremes(control)) {
    if (a.junction === b.junction) continue;
    // From the end with less on it: the other is as likely as not a battery's own bus.
    const [from, to] = isBusier(circuit, a, b) ? [b, a] : [a, b];
    const way = leastWay(circuit, conduction, { control, from, to, bound });
    if (!way || way.volts === 0 || !(way.ohms < bound || way.ohms === 0)) continue;
    const volts = Math.abs(way.volts);
    if (isWithinRating(control, volts, way.ohms)) continue;
    const steps = way.steps();
    const source = steps.find(({ direct }) => direct.kind === 'source');
    const supply = source && circuit.partNamed.get(source.part);
    if (!source || !supply) continue;
    const on = steps.flatMap(({ part }) => circuit.partNamed.get(part) ?? []);
    const passed = [...new Set(on)].filter((part) => !isSupply(part));
    const taps = tapsPassed(circuit, supply, steps);
    return [{ control, ends: [a, b], supply, taps, volts, ohms: way.ohms, on: passed }];
  }
  return [];
}

function isBusier(circuit: Circuit, a: End, b: End): boolean {
  const count = (end: End) => circuit.junctions[end.junction]?.terminals.length ?? 0;
  return count(a) > count(b);
}

/** Pairs of ends that are one at an end of the travel. */
function extremes(control: Part): readonly (readonly [End, End])[] {
  const end = (name: string) => control.ends.find((candidate) => candidate.name === name);
  const pairs =
    control.kind === 'rheostat'
      ? [[control.ends[0], control.ends[1]] as const]
      : [[end('start'), end('arm')] as const, [end('arm'), end('finish')] as const];
  return pairs.flatMap(([a, b]) => (a && b ? [[a, b] as const] : []));
}

function isWithinRating(control: Part, volts: number, ohms: number): boolean {
  const whole = control.values.resistance?.value;
  const power = control.values.ratedPower?.value;
  const allowed =
    control.values.ratedCurrent?.value ??
    (power !== undefined && whole ? Math.sqrt(power / whole) : undefined);
  return allowed !== undefined && ohms > 0 && volts / ohms <= allowed;
}

/** The two taps between which a way leads through a supply. */
function tapsPassed(
  circuit: Circuit,
  supply: Part,
  steps: readonly Step[],
): readonly [string, string] {
  const inside = steps.filter(({ part }) => part === supply.name);
  const ids = [inside[0]?.from ?? '', inside.at(-1)?.to ?? ''];
  const ordered = supply.ends.filter(({ id }) => ids.includes(id)).map(({ id }) => id);
  const [first = '', second = ''] = ordered.map((id) => tapWords(circuit, id));
  return [first, second];
}

function told({ circuit }: Study, short: Short, where: string): Finding {
  const { control, ends, supply, taps, volts, ohms, on } = short;
  const [a, b] = ends;
  const turned =
    control.kind === 'rheostat'
      ? 'with its resistance all out'
      : `with its arm at the ${a.name === 'arm' ? b.name : a.name}`;
  const at = where === '' ? '' : `, with ${where}`;
  const left = ohms > 0 ? `${formatQuantity(ohms, 'resistance')} in the way` : 'nothing in the way';
  const fix = control.kind === 'potentiometer' ? exchangeFix(circuit, control, ends) : undefined;
  return finding({
    check: 'control-shorts-battery',
    severity: 'error',
    message: `${control.name} shorts ${supply.name} ${turned}${at}: ${listed(taps)}, ${formatQuantity(
      volts,
      'voltage',
    )} apart, meet there with ${left}.`,
    why: controlShortsBattery.why,
    cure: fix
      ? `${fix.title}, so that the whole of it lies across the battery; or put a stop resistor in series.`
      : `Take ${control.name} off one side of the battery, or put a stop resistor in series.`,
    place: control.place,
    related: [
      alsoPart(supply, `${supply.name} is what it shorts.`),
      ...on.map((part) => alsoPart(part, `${part.name} lies on the way.`)),
    ],
    parts: [control.name, supply.name],
    fixes: fix ? [fix] : [],
  });
}

/** Exchanges the arm with the end that is not on the battery, where that is what went wrong. */
function exchangeFix(
  circuit: Circuit,
  control: Part,
  shorted: readonly [End, End],
): Fix | undefined {
  const arm = shorted.find(({ name }) => name === 'arm');
  const free = control.ends.find((end) => !shorted.includes(end));
  if (!arm || !free || free.junction === arm.junction) return undefined;
  if ((circuit.junctions[free.junction]?.terminals.length ?? 0) < 2) return undefined;
  const edits = exchanged(circuit, arm, free);
  const title = `Exchange ${nameOf(circuit, arm.id)} and ${nameOf(circuit, free.id)}`;
  return edits && { title, edits };
}
