import {
  type Branch,
  type Circuit,
  type Conduction,
  conductionOf,
  type Finding,
  type Fix,
  isSupply,
  type Part,
  type Settings,
  type Step,
  type SupplyTap,
  settingsOverPositions,
  supposedOhms,
  zeroTap,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { retargeted } from '../fixes/retarget.ts';
import type { Study } from '../study.ts';
import { type SetOff, setOff } from '../supplies/battery-switches.ts';
import { leastOhms } from '../wiring/least-ohms.ts';
import { controlsMoved, standingWords } from '../wiring/positions.ts';
import { FEW_OHMS, ohmsOfWire } from '../wiring/wire-ohms.ts';
import { alsoPart, finding, junctionName, listed } from '../words/finding.ts';
import { tapJunction } from '../words/supply-words.ts';
import { distinct, partsOfWay, partWords } from '../words/way-words.ts';

/** What an A or B battery may lose by insulation, in amperes. Common practice. */
const LEAST_DRAIN = 10e-6;
/** A C battery gives nothing but what leaks across its own top, in amperes. Common practice. */
const LEAST_BIAS_DRAIN = 1e-6;
/** Resistances of these kinds may be of any size where the text does not say. */
const anySize: ReadonlySet<string> = new Set(['resistor', 'leak']);
/** No filament of a receiving tube glows with less, in amperes; the smallest take 60 mA. */
const LEAST_GLOW = 0.03;
const SECONDS_OF_DAY = 86_400;

/** Current that a battery gives with the set off. */
interface DrainOff {
  readonly battery: Part;
  readonly amperes: number;
  readonly steps: readonly Step[];
}

/** A battery that goes on giving current when every switch is off. */
export const drainWhenOff: Check = {
  id: 'drain-when-off',
  group: 'Batteries',
  severity: 'warning',
  summary: 'With every switch off a battery still delivers current.',
  why: 'A stabilizing potentiometer, a bleeder or a meter on the battery side of the switch, or a switch that something leads round, empties a battery in days and may leave a filament burning.',
  silent: [
    'A set without a battery switch has nothing to be off by; a rheostat drawn at its off stop counts as one.',
    'Where pulling a plug puts the filaments out, the jack is the switch.',
    'A switch of the aerial, and one that shorts a rheostat for more volume, is no battery switch.',
    'An eliminator is turned off at the wall.',
    'Less than 10 microamperes from an A or B battery is insulation.',
    'A resistor or leak of which the ohms are not known says nothing.',
    'Where nothing but wire leads round a battery it is a short, and told as one.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: setWith('A-'),
  passes: setWith('NEG'),
  find(study) {
    const off = setOff(study);
    if (off.switches.length === 0 && off.rheostats.length === 0) return [];
    const drains = drainsAt(conductionOf(study.circuit, off.settings));
    if (drains.length === 0) return [];
    const cures = curesOf(study, off, drains);
    return drains.flatMap((drain) => told(study, off, drain, cures.get(drain.battery)));
  },
};

/** The batteries that deliver, each by its way of most current. */
function drainsAt(conduction: Conduction): readonly DrainOff[] {
  return conduction.circuit.parts.flatMap((battery) => {
    if (battery.kind !== 'battery') return [];
    const least = battery.supplyTaps.some(({ volts }) => (volts ?? 0) < 0)
      ? LEAST_BIAS_DRAIN
      : LEAST_DRAIN;
    const most = drainOf(conduction, battery);
    return most && most.amperes > least ? [most] : [];
  });
}

function drainOf(conduction: Conduction, battery: Part): DrainOff | undefined {
  const { circuit } = conduction;
  const ohmsOf = (branch: Branch): number | undefined => {
    const part = circuit.partNamed.get(branch.part);
    if (!part || part === battery || branch.direct.kind === 'blocks') return undefined;
    if (branch.direct.kind === 'source' && part.kind === 'eliminator') return undefined;
    return branch.direct.ohms ?? supposedOhms(circuit, branch).ohms;
  };
  let most: DrainOff | undefined;
  const taps = [...battery.supplyTaps].sort((a) => (a === zeroTap(battery) ? -1 : 0));
  for (const [index, from] of taps.entries()) {
    const start = tapJunction(battery, from);
    if (start === undefined || index === taps.length - 1) continue;
    const ways = leastOhms(conduction, [start], ohmsOf, Number.POSITIVE_INFINITY);
    for (const to of taps.slice(index + 1)) {
      const way = ways.at(tapJunction(battery, to) ?? -1);
      const volts = voltsBetween(from, to);
      // What another supply drives through it charges it.
      if (!way || volts === undefined || (volts - way.volts) * volts <= 0) continue;
      const amperes = Math.abs(volts - way.volts) / Math.max(way.ohms, 1e-3);
      if (most && amperes <= most.amperes) continue;
      const steps = way.steps();
      const isTold =
        steps.some((step) => isLoad(circuit, step)) &&
        steps.every((step) => isKnown(circuit, step));
      if (isTold) most = { battery, amperes, steps };
    }
  }
  return most;
}

function voltsBetween(from: SupplyTap, to: SupplyTap): number | undefined {
  return from.volts === undefined || to.volts === undefined ? undefined : to.volts - from.volts;
}

/** Not wire and not another supply: where those alone lead round, it is a short, told as one. */
function isLoad(circuit: Circuit, step: Step): boolean {
  const ohms = ohmsOfWire(circuit, step) ?? Number.POSITIVE_INFINITY;
  return step.direct.kind === 'conducts' && ohms > FEW_OHMS;
}

function isKnown(circuit: Circuit, { part: name, direct }: Step): boolean {
  if (direct.kind === 'source') return direct.volts !== undefined;
  const kind = circuit.partNamed.get(name)?.kind ?? '';
  return direct.kind !== 'conducts' || direct.ohms !== undefined || !anySize.has(kind);
}

/** For every battery the settings of jacks and selectors at which it gives nothing, if there are. */
function curesOf(
  study: Study,
  off: SetOff,
  drains: readonly DrainOff[],
): ReadonlyMap<Part, Settings> {
  const { circuit } = study;
  const cures = new Map<Part, Settings>();
  const except = new Set(off.switches.map(({ name }) => name));
  for (const settings of settingsOverPositions(circuit, off.settings, { except }).settings) {
    if (settings === off.settings) continue;
    const still = new Set(drainsAt(conductionOf(circuit, settings)).map(({ battery }) => battery));
    for (const { battery } of drains)
      if (!still.has(battery) && !cures.has(battery)) cures.set(battery, settings);
    if (cures.size === drains.length) break;
  }
  return cures;
}

function told(
  study: Study,
  off: SetOff,
  drain: DrainOff,
  curedBy: Settings | undefined,
): readonly Finding[] {
  const { circuit } = study;
  const { battery, amperes, steps } = drain;
  if (curedBy && isByJackAlone(study, off, curedBy)) return [];
  const names = partsOfWay(steps);
  const parts = names.flatMap((name) => circuit.partNamed.get(name) ?? []);
  const bypassed = off.switches.find((part) => isBypassed(circuit, part));
  const load = parts.find((part) => !isSupply(part));
  const at = bypassed ?? load ?? battery;
  const turnedOff = [...off.switches, ...off.rheostats].map(({ name }) => name);
  const state = off.switches.length > 0 ? 'open' : 'off';
  const way = listed(names.map((name) => partWords(circuit, name)));
  const current = formatQuantity(amperes, 'current', 'period', 2);
  const { cure, fixes } = bypassed
    ? {
        cure: `Take out the join that leads round ${bypassed.name}: both its ends are on ${junctionName(circuit, bypassed.ends[0]?.junction ?? -1)}.`,
        fixes: [],
      }
    : cureOf(circuit, off, drain);
  return [
    finding({
      check: 'drain-when-off',
      severity: curedBy ? 'information' : 'warning',
      message: `With ${listed(turnedOff)} ${state}, ${battery.name} still drives ${current} through ${way}.`,
      why: whyOf(drain, parts),
      cure: curedBy
        ? `Nothing, if it is meant: it stops with ${standingWords(circuit, off.settings, curedBy)}.`
        : cure,
      place: at.place,
      related: distinct(
        [
          alsoPart(battery, `${battery.name} runs down.`),
          ...off.switches.map((part) => alsoPart(part, `${part.name} does not stop it.`)),
          ...parts.map((part) => alsoPart(part, `${partWords(circuit, part.name)} is on the way.`)),
        ],
        at.place,
      ),
      // Not the tubes that burn: nothing is wrong with them.
      parts: partsAtFault(battery, parts, bypassed),
      fixes: curedBy ? [] : fixes,
    }),
  ];
}

function partsAtFault(
  battery: Part,
  way: readonly Part[],
  bypassed: Part | undefined,
): readonly string[] {
  const atFault = [battery, ...way.filter(({ kind }) => kind !== 'tube')];
  return [...new Set([...atFault, ...(bypassed ? [bypassed] : [])].map(({ name }) => name))];
}

function isByJackAlone({ circuit }: Study, off: SetOff, curedBy: Settings): boolean {
  return controlsMoved(circuit, off.settings, curedBy).every(
    (name) => circuit.partNamed.get(name)?.kind === 'jack',
  );
}

function isBypassed(circuit: Circuit, part: Part): boolean {
  const [contact] = part.contacts;
  const from = circuit.endNamed.get(contact?.from ?? '')?.junction;
  return from !== undefined && from === circuit.endNamed.get(contact?.to ?? '')?.junction;
}

function whyOf({ battery, amperes }: DrainOff, parts: readonly Part[]): string {
  const tube = parts.find(({ kind }) => kind === 'tube');
  if (tube && amperes > LEAST_GLOW)
    return `${tube.name} burns day and night and takes ${battery.name} with it.`;
  const charge = battery.values.capacity?.value;
  const days = charge === undefined ? Number.NaN : charge / amperes / SECONDS_OF_DAY;
  return days >= 1 && Number.isFinite(days)
    ? `It runs down while the set stands idle: its ${formatQuantity(charge ?? 0, 'charge')} are gone in ${Math.round(days)} ${Math.round(days) === 1 ? 'day' : 'days'}.`
    : 'It runs down while the set stands idle.';
}

/** Moves a load on the battery side to the far side of the switch whose near side it is on. */
function cureOf(
  circuit: Circuit,
  { switches, rheostats }: SetOff,
  { battery, steps }: DrainOff,
): { readonly cure: string; readonly fixes: readonly Fix[] } {
  const [first] = steps;
  const last = steps.at(-1);
  const isLit = steps.some(({ part }) => circuit.partNamed.get(part)?.kind === 'tube');
  for (const part of switches) {
    const [contact] = part.contacts;
    if (!first || !last || !contact || isLit) break;
    for (const [near, far] of [
      [contact.from, contact.to],
      [contact.to, contact.from],
    ] as const) {
      const side = circuit.endNamed.get(near)?.junction;
      const end = [first.from, last.to].find((id) => circuit.endNamed.get(id)?.junction === side);
      if (end === undefined || side === undefined) continue;
      const target = junctionName(circuit, circuit.endNamed.get(far)?.junction ?? -1);
      return {
        cure: `Move ${end} from ${junctionName(circuit, side)} to ${target}, the other side of ${part.name}.`,
        fixes: retargeted(circuit, end, target),
      };
    }
  }
  const opener = [...switches, ...rheostats][0]?.name ?? 'a switch';
  return {
    cure: isLit
      ? `Put ${opener} in the one lead of ${battery.name} that all its current goes through.`
      : `Let ${opener} open a lead of ${battery.name} too, or take the way apart.`,
    fixes: [],
  };
}

function setWith(side: string): string {
  return `
receiver "One stage with a pilot lamp" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
    capacity 100 Ah
  }
  battery B dry {
    tap B-
    tap B+45
  }
  bus NEG
  wire B- to A-
  switch S1 from A- to NEG closed
  lamp PL1 6 V .15 A from ${side} to A+
  resistor F1 4 ohms from NEG
  radio stage RF {
    coil L1 {
      winding grid 240 uH 4 ohms from NEG to V1.grid
    }
    condenser C1 variable 14 to 365 mmfd across L1.grid
    tube V1 01-A {
      filament from F1 to A+
      plate to PH1
    }
    phones PH1 2000 ohms to B+45
    condenser C2 .001 mfd from V1.plate to NEG
  }
}
`;
}
