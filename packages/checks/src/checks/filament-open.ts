import {
  type Circuit,
  type Conduction,
  closedCircuits,
  type End,
  type Finding,
  isFilamentSupply,
  isSupply,
  type Part,
  spread,
  zeroTap,
} from '@setwright/circuit';
import type { Check } from '../check.ts';
import { type Break, type Breaks, breaksOf, sidesOf } from '../filaments/filament-sides.ts';
import { led } from '../fixes/retarget.ts';
import type { Study } from '../study.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { type JoinedGroups, joinedGroups } from '../wiring/joined-groups.ts';
import { controlsMoved } from '../wiring/positions.ts';
import { named } from '../words/filament-words.ts';
import { alsoPart, finding, nameOf } from '../words/finding.ts';

const set = (start: string): string => `receiver "Lantern Cove Single" {
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
  wire B- to A- to GND
  switch S1 from A- to NEG closed
  rheostat RH1 20 ohms${start} to V1.filament-
  coil L1 {
    form 3 in
    winding grid 50 turns of 24 DCC tap 10 to ANT from GND
  }
  condenser C1 variable 20 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
  detector stage DET {
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament to A+
    }
    condenser C3 .001 mfd from V1.plate to NEG
    phones H1 2000 ohms from V1.plate to B+45
  }
}`;

export const filamentOpen: Check = {
  id: 'filament-open',
  group: 'DC returns',
  severity: 'error',
  summary: 'A filament has no closed path through its battery.',
  why: 'A tube that is not lit passes no current: its stage is dead.',
  silent: [
    'The set is drawn switched off: it is judged as if on.',
    'A jack that lights the tube when the plug is in stands empty; another switch or selector that cures it makes it information.',
    'A rheostat stands at its off stop.',
    'The heaters of the set run on alternating current that is not in the text: one line of information for all of them.',
  ],
  source: 'common practice',
  fails: set(''),
  passes: set(' from NEG'),
  needsWholeText: true,
  find(study) {
    const { circuit, conduction } = study;
    const lit = closedCircuits(conduction).filaments;
    const dark = study.tubes.filter((tube) => isDark(tube, lit));
    if (dark.length === 0) return [];
    const cure = curedElsewhere(study, dark);
    const never = dark.filter(({ part }) => !cure.has(part.name));
    const sourceless = withoutSource(circuit, conduction, study.tubes, never);
    const rest = never.filter((tube) => !sourceless.includes(tube));
    return [
      ...(sourceless.length > 0 ? [noSource(sourceless)] : []),
      ...faultsOf(circuit, conduction, rest),
      ...asDrawnOnly(dark, cure),
    ];
  },
};

/** A filament with both ends on one junction is a shorted part, which is another fault. */
function isDark({ part, filamentMinus, filamentPlus }: TubeAt, lit: ReadonlySet<string>): boolean {
  return (
    !lit.has(part.name) &&
    filamentMinus !== undefined &&
    filamentPlus !== undefined &&
    filamentMinus.junction !== filamentPlus.junction
  );
}

/** For the tubes that some other position lights: the control that does it. */
function curedElsewhere(study: Study, dark: readonly TubeAt[]): ReadonlyMap<string, Part> {
  const cured = new Map<string, Part>();
  const drawn = study.on.settings;
  for (const { settings, conduction } of study.everyPosition.slice(1)) {
    if (cured.size === dark.length) break;
    const lit = closedCircuits(conduction).filaments;
    for (const { part } of dark) {
      if (!lit.has(part.name) || cured.has(part.name)) continue;
      const [name] = controlsMoved(study.circuit, drawn, settings);
      const moved = name === undefined ? undefined : study.circuit.partNamed.get(name);
      if (moved) cured.set(part.name, moved);
    }
  }
  return cured;
}

function asDrawnOnly(dark: readonly TubeAt[], cured: ReadonlyMap<string, Part>): Finding[] {
  const by = new Map<Part, Part[]>();
  for (const { part } of dark) {
    const control = cured.get(part.name);
    // A jack that lights its tube only when it is used is meant to.
    if (!control || control.kind === 'jack') continue;
    by.set(control, [...(by.get(control) ?? []), part]);
  }
  return [...by].map(([control, tubes]) =>
    finding({
      check: 'filament-open',
      severity: 'information',
      message: `${named(tubes)} ${tubes.length > 1 ? 'are' : 'is'} out as drawn: another position of ${control.name} lights ${tubes.length > 1 ? 'them' : 'it'}.`,
      why: filamentOpen.why,
      cure: `Turn ${control.name}, if the set is to be judged with every tube lit.`,
      place: (tubes[0] as Part).place,
      related: [alsoPart(control, `${control.name} opens the filament.`)],
      parts: tubes.map(({ name }) => name),
    }),
  );
}

/** Whether a supply is there to light filaments: an A battery, and not one that biases grids. */
function lightsFilaments(part: Part): boolean {
  return (
    isSupply(part) &&
    isFilamentSupply(part) &&
    spread(part) > 0 &&
    !/^C/i.test(part.name) &&
    part.supplyTaps.some(({ volts }) => (volts ?? 0) > 0)
  );
}

/** Tubes whose supply is nowhere in the text: all of them, or all heaters where none is lit. */
function withoutSource(
  circuit: Circuit,
  conduction: Conduction,
  tubes: readonly TubeAt[],
  never: readonly TubeAt[],
): readonly TubeAt[] {
  const supplies = circuit.parts.filter(lightsFilaments);
  if (supplies.length === 0) return never;
  const heaters = never.filter(({ part }) => part.tubeType?.heated);
  const heated = tubes.filter(({ part }) => part.tubeType?.heated);
  if (heaters.length < heated.length || heaters.length === 0) return [];
  const sides = sidesOf(circuit, conduction);
  const fed = new Set(
    supplies.flatMap(({ ends }) => ends.map(({ junction }) => sides.of(junction))),
  );
  const reaches = (end: End | undefined) => end !== undefined && fed.has(sides.of(end.junction));
  // The chassis may be common to both; a supply on either side of its own says it is meant.
  return heaters.every((tube) => !(reaches(tube.filamentMinus) && reaches(tube.filamentPlus)))
    ? heaters.filter((tube) => !reaches(tube.filamentPlus) || !reaches(tube.filamentMinus))
    : [];
}

function noSource(tubes: readonly TubeAt[]): Finding {
  const parts = tubes.map(({ part }) => part);
  const what = parts.every(({ tubeType }) => tubeType?.heated) ? 'heater' : 'filament';
  return finding({
    check: 'filament-open',
    severity: 'information',
    message: `Nothing in the text lights ${named(parts)}: no supply for the ${what}${parts.length > 1 ? 's' : ''} is named.`,
    why: 'What the filaments get, and what the set draws, cannot be told without it.',
    cure: 'Name the supply, such as battery A with its taps; alternating current may be written as a battery of the same volts.',
    place: (parts[0] as Part).place,
    parts: parts.map(({ name }) => name),
  });
}

/** Tubes that are dark for one cause, and the sides from which nothing leads to a battery. */
interface Fault {
  readonly tubes: readonly TubeAt[];
  readonly openSides: ReadonlySet<number>;
}

function faultsOf(circuit: Circuit, conduction: Conduction, dark: readonly TubeAt[]): Finding[] {
  if (dark.length === 0) return [];
  const sides = sidesOf(circuit, conduction);
  const fed = new Set<number>();
  for (const part of circuit.parts) {
    if (isSupply(part)) for (const { junction } of part.ends) fed.add(sides.of(junction));
  }
  // Tubes that share a side without a battery share the fault.
  const sharing = joinedGroups(circuit.junctions.length);
  const sideOf = (end: End | undefined): number => (end ? sides.of(end.junction) : -1);
  for (const tube of dark) {
    const [minus, plus] = [sideOf(tube.filamentMinus), sideOf(tube.filamentPlus)];
    if (!fed.has(minus) && !fed.has(plus)) sharing.join(minus, plus);
  }
  const faults = new Map<string, { tubes: TubeAt[]; openSides: Set<number> }>();
  for (const tube of dark) {
    const ends = [sideOf(tube.filamentMinus), sideOf(tube.filamentPlus)];
    const open = ends.filter((side) => !fed.has(side));
    const [first] = open;
    const key = first === undefined ? ends.sort().join(' ') : `open ${sharing.of(first)}`;
    const fault = faults.get(key) ?? { tubes: [], openSides: new Set() };
    fault.tubes.push(tube);
    for (const side of open) fault.openSides.add(side);
    faults.set(key, fault);
  }
  const breaks = breaksOf(circuit, conduction, sides, fed);
  return [...faults.values()].flatMap((fault) =>
    fault.openSides.size > 0
      ? openAt(circuit, sides, fault, breaks)
      : noDifference(circuit, fault.tubes, sides),
  );
}

function openAt(
  circuit: Circuit,
  sides: JoinedGroups,
  { tubes, openSides }: Fault,
  { contacts, loose }: Breaks,
): Finding {
  const parts = tubes.map(({ part }) => part);
  const first = tubes[0] as TubeAt;
  let found: Break | undefined;
  for (const side of openSides) found ??= contacts.get(side) ?? loose.get(side);
  const own = found?.part.kind === 'tube';
  const open = found && !own ? found.part : undefined;
  const minus = first.filamentMinus;
  const negative = minus !== undefined && openSides.has(sides.of(minus.junction));
  const side = negative ? 'negative' : 'positive';
  const goal = tapFor(circuit, negative);
  const leads = found ? `${found.message}` : `nothing leads from the ${side} side to a battery`;
  return finding({
    check: 'filament-open',
    severity: 'error',
    message: `The filament${parts.length > 1 ? 's' : ''} of ${named(parts)} ${
      parts.length > 1 ? 'have' : 'has'
    } no closed path through a battery: ${leads}.`,
    why: filamentOpen.why,
    cure: cureOf(found, first, side, goal),
    place: first.part.place,
    related: [
      ...(open ? [alsoPart(open, `The path ends at ${open.name}.`)] : []),
      ...parts.slice(1).map((part) => alsoPart(part, `${part.name} is dark for the same reason.`)),
    ],
    parts: [...parts.map(({ name }) => name), ...(open ? [open.name] : [])],
    fixes:
      found && !found.isContact && goal !== undefined
        ? led(circuit, found.end.id, behindSwitch(circuit, goal))
        : [],
  });
}

function cureOf(
  found: Break | undefined,
  first: TubeAt,
  side: 'negative' | 'positive',
  goal: string | undefined,
): string {
  const tap = goal ?? 'the battery';
  if (!found) {
    const end = side === 'negative' ? first.filamentMinus : first.filamentPlus;
    return `Lead ${end?.id ?? 'it'} to ${tap}, through its rheostat where it has one.`;
  }
  if (found.isContact) return `Close ${found.part.name}, or join it otherwise.`;
  return `Join ${found.end.id} to ${tap}, through the battery switch where there is one.`;
}

/** The far side of the one switch of two ends that stands on a tap, else the tap itself. */
function behindSwitch(circuit: Circuit, tap: string): string {
  const supply = circuit.parts.find(lightsFilaments);
  const junction = supply?.ends.find(({ id, name }) => name === tap || id === tap)?.junction;
  const switches = circuit.parts.filter(
    ({ kind, ends }) =>
      kind === 'switch' && ends.length === 2 && ends.some((end) => end.junction === junction),
  );
  const far = switches[0]?.ends.find((end) => end.junction !== junction);
  return far && switches.length === 1 ? far.id : tap;
}

/** The tap that one side of a filament wants. */
function tapFor(circuit: Circuit, negative: boolean): string | undefined {
  const supply = circuit.parts.find(lightsFilaments);
  if (!supply) return undefined;
  const zero = zeroTap(supply);
  const tap = negative ? zero : supply.supplyTaps.find((candidate) => candidate !== zero);
  const end = supply.ends.find(({ name }) => name === tap?.end);
  return end && nameOf(circuit, end.id);
}

/** Both ends come to a supply, but to one side of it, or to two that nothing ties together. */
function noDifference(circuit: Circuit, tubes: readonly TubeAt[], sides: JoinedGroups): Finding[] {
  const first = tubes[0] as TubeAt;
  const parts = tubes.map(({ part }) => part);
  const [minus, plus] = [first.filamentMinus, first.filamentPlus].map(
    (end) => end && feederOf(circuit, sides, end),
  );
  const same = minus === plus;
  // Where the battery itself is shorted, that is the fault.
  if (same && circuit.parts.some((part) => isShorted(part, sides))) return [];
  const many = parts.length > 1;
  const told = finding({
    check: 'filament-open',
    severity: 'error',
    message: same
      ? `Both ends of the filament${many ? 's' : ''} of ${named(parts)} lead to ${minus ?? 'one side'}: nothing drives current through ${many ? 'them' : 'it'}.`
      : `The filament${many ? 's' : ''} of ${named(parts)} ${many ? 'lie' : 'lies'} between ${minus} and ${plus}, which no battery ties together.`,
    why: filamentOpen.why,
    cure: same
      ? `Lead one end to ${tapFor(circuit, minus !== tapFor(circuit, true)) ?? 'the other side of the battery'}.`
      : 'Lead both ends to taps of one battery.',
    place: first.part.place,
    related: parts
      .slice(1)
      .map((part) => alsoPart(part, `${part.name} is dark for the same reason.`)),
    parts: parts.map(({ name }) => name),
  });
  return [told];
}

function isShorted(part: Part, sides: JoinedGroups): boolean {
  return (
    lightsFilaments(part) && new Set(part.ends.map(({ junction }) => sides.of(junction))).size === 1
  );
}

/** The tap that feeds the side an end lies on, one of a filament supply if there is one. */
function feederOf(circuit: Circuit, sides: JoinedGroups, end: End): string | undefined {
  const side = sides.of(end.junction);
  const supplies = circuit.parts.filter(isSupply);
  const ordered = [...supplies.filter(lightsFilaments), ...supplies];
  for (const supply of ordered) {
    const tap = supply.ends.find(({ junction }) => sides.of(junction) === side);
    if (tap) return nameOf(circuit, tap.id);
  }
  return undefined;
}
