import { directCurrent } from '@setwright/analysis';
import { type Circuit, type Finding, isSupply, type Part, type Settings } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import type { Study } from '../study.ts';
import { isPlateSupply } from '../supplies/plate-feed.ts';
import { aboveGround } from '../wiring/ground.ts';
import { shaftsOf } from '../wiring/shafts.ts';
import { finding, listed, nameOf } from '../words/finding.ts';

/** Direct current above this, in volts, is treated as able to hurt. Common practice. */
const HARMLESS_VOLTS = 60;
/** A condenser of this many farads holds a charge worth minding. Common practice. */
const LEAST_CHARGE_FARADS = 0.1e-6;
/** No more names than this in one sentence. */
const MOST_NAMES = 12;

/** Where a person can touch more than 60 volts. Told once for a whole set. */
export const shockHazard: Check = {
  id: 'shock-hazard',
  group: 'Safety',
  severity: 'information',
  summary: 'The points that a hand can reach and that stand more than 60 volts from ground.',
  why: 'A B supply can hurt, and a mains supply can kill: know the points before the hand goes there.',
  silent: [
    'A set in which nothing that a hand can reach stands above 60 volts.',
    'A shaft said to be `insulated` is not on the list.',
    'A terminal whose volts cannot be told is not on the list.',
    'It speaks once for the whole set, not for every part.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: setWith('67.5', '-3'),
  passes: setWith('45', '-1.5'),
  find(study) {
    const touchable = touchableOf(study.circuit);
    const voltsOf = aboveGround(study, study.solved);
    const live = touchable.flatMap((spot) => {
      const volts = highest(spot, voltsOf);
      return volts > HARMLESS_VOLTS ? [{ ...spot, volts }] : [];
    });
    return live.length > 0 ? [hazard(study, live)] : [];
  },
};

/** Something that a hand can reach. */
interface Spot {
  /** What to call it: `LS1`, `the cord of PH1`. */
  readonly name: string;
  readonly part: Part;
  readonly terminals: readonly string[];
  readonly isTap: boolean;
}

interface LiveSpot extends Spot {
  readonly volts: number;
}

function touchableOf(circuit: Circuit): readonly Spot[] {
  const spots = circuit.parts.flatMap((part): Spot[] => {
    const terminals = part.ends.map(({ id }) => id);
    if (isSupply(part))
      return part.ends.map(({ id }) => ({
        name: nameOf(circuit, id),
        part,
        terminals: [id],
        isTap: true,
      }));
    const spot = (name: string): Spot[] => [{ name, part, terminals, isTap: false }];
    switch (part.kind) {
      case 'post':
        return spot(part.name);
      case 'jack':
        return spot(`the jack ${part.name}`);
      case 'phones':
      case 'horn':
      case 'speaker':
        return spot(`the cord of ${part.name}`);
      default:
        return [];
    }
  });
  const shafts = shaftsOf(circuit).map(({ dial, gang, rotors }): Spot[] => {
    const first = rotors[0]?.condenser;
    if (!first) return [];
    const of = dial?.name ?? gang?.name ?? first.name;
    const terminals = rotors.map(({ rotor }) => rotor.id);
    return [{ name: `the shaft of ${of}`, part: first, terminals, isTap: false }];
  });
  return [...spots, ...shafts.flat()];
}

function highest(spot: Spot, voltsOf: (terminal: string) => number | undefined): number {
  return spot.terminals.reduce((most, id) => Math.max(most, Math.abs(voltsOf(id) ?? 0)), 0);
}

function hazard(study: Study, live: readonly LiveSpot[]): Finding {
  const { circuit } = study;
  const most = live.reduce((a, b) => (b.volts > a.volts ? b : a));
  const supply = live.find(({ isTap }) => isTap)?.part;
  const worn = live.filter(({ part }) => part.kind === 'phones').map(({ part }) => part.name);
  const charged = circuit.parts
    .filter(
      ({ kind, ends, values }) =>
        kind === 'condenser' &&
        (values.capacitance?.value ?? 0) >= LEAST_CHARGE_FARADS &&
        Math.abs(study.solved.voltage(ends[0]?.id ?? '', ends[1]?.id ?? '') ?? 0) > HARMLESS_VOLTS,
    )
    .map(({ name }) => name);
  const isMains = circuit.parts.some((part) => isPlateSupply(part) && part.kind === 'eliminator');
  const advice = [
    isMains
      ? 'Unplug the supply before working inside, and leave its own repair to licensed hands'
      : 'Take the B leads off at the battery before working inside',
    switchSays(study, live),
    charged.length > 0 ? `discharge ${shortened(charged)} through a resistor` : '',
    worn.length > 0 ? `keep ${shortened(worn)} off the head while you touch anything` : '',
    'keep one hand away from the set while B is on',
  ].filter((words) => words !== '');
  return finding({
    check: 'shock-hazard',
    severity: 'information',
    message: `Within reach of a hand and up to ${formatQuantity(most.volts, 'voltage')} from ground: ${shortened(live.map(({ name }) => name))}.`,
    why: `More than ${formatQuantity(HARMLESS_VOLTS, 'voltage')} can hurt${isMains ? ', and from the mains it can kill' : ''}.`,
    cure: `${advice.join('; ')}.`,
    place: supply?.place ?? most.part.place,
    related: live.map(({ name, part, volts }) => ({
      place: part.supplyTaps.find(({ end }) => end === name)?.place ?? part.place,
      message: `${name}: ${formatQuantity(volts, 'voltage')}`,
    })),
    parts: [...new Set(live.map(({ part }) => part.name))],
  });
}

/** What the switches of the set do to what is live. */
function switchSays({ circuit, on }: Study, live: readonly LiveSpot[]): string {
  const switches = circuit.parts.filter(({ kind }) => kind === 'switch');
  if (switches.length === 0) return 'no switch takes it off';
  const positions = new Map(on.settings.positions);
  for (const part of switches) {
    const open = part.positions.indexOf('open');
    if (open >= 0) positions.set(part.name, open);
  }
  const off: Settings = { ...on.settings, positions };
  const voltsOf = aboveGround({ circuit }, directCurrent(circuit, off));
  // The battery's own terminals stay live in any case.
  const inside = live.filter(({ isTap }) => !isTap);
  const stays = (inside.length > 0 ? inside : live).some(
    (spot) => highest(spot, voltsOf) > HARMLESS_VOLTS,
  );
  const names = shortened(switches.map(({ name }) => name));
  return stays ? `${names} ${switches.length > 1 ? 'do' : 'does'} not take it off` : '';
}

function shortened(names: readonly string[]): string {
  const most = names.slice(0, MOST_NAMES);
  const left = names.length - most.length;
  return left > 0 ? `${most.join(', ')} and ${left} more` : listed(most);
}

function setWith(plateVolts: string, gridVolts: string): string {
  return `receiver "Harbour office" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+ ${plateVolts} V
  }
  battery C dry {
    tap C+
    tap C- ${gridVolts} V
  }
  post ANT aerial
  post GND ground
  bus NEG
  wire B- to A- to C+ to GND
  switch S1 from A- to NEG closed
  rheostat RH1 20 ohms from A+ to V1.filament+ set 4 ohms
  detector stage DET {
    coil L1 {
      form 3 in
      winding aerial 12 turns of 24 DCC from GND to ANT
      winding secondary 44 turns of 24 DCC beside aerial spaced 1/4 in from GND
    }
    condenser C1 variable 20 to 500 mmfd rotor to GND stator to L1.secondary.finish
    crystal CR1 from L1.secondary.finish to T1.primary.start
    condenser C2 .001 mfd across T1.primary
  }
  output stage AF {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms to GND
      winding secondary 5000 ohms from C- to V1.grid
    }
    tube V1 01-A {
      filament from NEG
      plate to PH1.start
    }
    phones PH1 2000 ohms from V1.plate to B+
  }
}
`;
}
