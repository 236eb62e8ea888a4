import {
  type Circuit,
  type Conduction,
  type Finding,
  type Fix,
  isFilamentSupply,
  type Part,
  type Settings,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { turnedRound } from '../fixes/rewired.ts';
import type { Study } from '../study.ts';
import { type SupplyPassed, suppliesFromFilaments } from '../supplies/supplies-on-way.ts';
import { detectingCondenserOf } from '../tubes/detecting.ts';
import { isDiode, type TubeAt } from '../tubes/tubes.ts';
import { judgedOverPositions, standingWords } from '../wiring/positions.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';
import { tapWords } from '../words/supply-words.ts';
import { distinct } from '../words/way-words.ts';

/** Less than this, in volts, is within what a rheostat's setting does. Common practice. */
const LEAST_VOLTS = 0.05;
/** A filament with less than this across it, in volts, is not lit by anything. */
const LEAST_LIT_VOLTS = 0.3;
/** So many tubes are named one by one. */
const MOST_NAMED = 5;

/** A supply that does to some tubes the opposite of what it is for. */
interface Reversed {
  readonly passed: SupplyPassed;
  readonly electrode: 'plate' | 'grid';
  readonly tubes: TubeAt[];
}

/** A battery put in backwards, judged by what it does to the tubes. */
export const batteryReversed: Check = {
  id: 'battery-reversed',
  group: 'Batteries',
  severity: 'error',
  summary:
    'A B battery makes plates negative, a C battery makes grids positive, or the A battery lights every tube from the wrong side.',
  why: 'A negative plate draws no current. A positive amplifier grid draws grid current, distorts, and lets the plate take several times its proper current. With the A leads exchanged all tubes light, and every grid return is on the wrong side.',
  silent: [
    'B- may be on A- or on A+: the plates only get some volts more.',
    'C+ may be on A-, on a filament, on B- or on a bus, ahead of or behind a rheostat.',
    'The second block stands with its minus on the plus of the first.',
    'A C cell in the return of a grid-leak detector sets its working point.',
    'A bias resistor in the B- lead, a cell that holds a meter back and the cell of a crystal turn nothing round.',
    'A whole set may be drawn with A+ as its common side.',
    'A single tube whose filament ends are crossed among others lights as well as they do.',
    'A tap whose volts are not known says nothing.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: setWith('wire B+45 to A-', 'B-'),
  passes: setWith('wire B- to A-', 'B+45'),
  find(study) {
    const judged = judgedOverPositions(study, (conduction) => {
      const reversed = reversedAt(study, conduction);
      return new Set([...reversed.values()].map(({ passed }) => passed.supply));
    });
    const told =
      judged.size === 0
        ? []
        : [...reversedAt(study, study.conduction).values()].map((reversed) =>
            tellOf(study, reversed, judged.get(reversed.passed.supply)?.curedBy),
          );
    return [...told, ...filamentsReversed(study)];
  },
};

/** Supplies that make plates negative or grids positive, at one position of the set. */
function reversedAt(study: Study, conduction: Conduction): ReadonlyMap<string, Reversed> {
  const { solved, tubes } = study;
  const isAsDrawn = conduction === study.conduction;
  const found = new Map<string, Reversed>();
  const suppliesTo = suppliesFromFilaments(conduction, tubes);
  const add = (electrode: Reversed['electrode'], passed: SupplyPassed, tube: TubeAt): void => {
    const key = `${electrode} ${passed.supply.name}`;
    const before = found.get(key);
    if (before) before.tubes.push(tube);
    else found.set(key, { passed, electrode, tubes: [tube] });
  };
  /** Volts above the tube's own filament; known by reckoning for the set as drawn only. */
  const isAbove = (end: TubeAt['plate'], tube: TubeAt, sign: 1 | -1): boolean => {
    if (!isAsDrawn) return true;
    const volts = end && tube.reference && solved.voltage(end.id, tube.reference.id);
    return volts !== undefined && volts * sign > LEAST_VOLTS;
  };
  const feedsPlates = new Set<Part>();
  for (const tube of tubes) {
    const passed = (tube.plate && suppliesTo(tube.plate.junction)) ?? [];
    for (const { supply } of passed) feedsPlates.add(supply);
    const plateSupplies = passed.filter(({ supply }) => !isFilamentSupply(supply));
    if (sumOf(plateSupplies) >= 0 || isDiode(tube) || !isAbove(tube.plate, tube, -1)) continue;
    const turned = plateSupplies.reduce((a, b) => (b.volts < a.volts ? b : a));
    add('plate', turned, tube);
  }
  for (const tube of tubes) {
    if (!tube.grid || !isAmplifier(study, tube)) continue;
    const bias = (suppliesTo(tube.grid.junction) ?? []).filter(
      ({ supply }) => !feedsPlates.has(supply),
    );
    if (sumOf(bias) <= 0 || !isAbove(tube.grid, tube, 1)) continue;
    const turned = bias.reduce((a, b) => (b.volts > a.volts ? b : a));
    add('grid', turned, tube);
  }
  return found;
}

function sumOf(passed: readonly SupplyPassed[]): number {
  return passed.reduce((sum, { volts }) => sum + volts, 0);
}

/** Roles of stages whose grid works near or above zero on purpose. */
const notAmplifying: ReadonlySet<string> = new Set(['detector', 'mixer', 'oscillator']);

function isAmplifier({ circuit }: Study, tube: TubeAt): boolean {
  return !(
    isDiode(tube) ||
    tube.roles.some((role) => notAmplifying.has(role)) ||
    detectingCondenserOf(circuit, tube)
  );
}

function tellOf(study: Study, reversed: Reversed, curedBy: Settings | undefined): Finding {
  const { circuit, solved } = study;
  const { passed, electrode, tubes } = reversed;
  const { supply } = passed;
  const worst = tubes
    .flatMap((tube) => {
      const end = electrode === 'plate' ? tube.plate : tube.grid;
      const volts = end && tube.reference && solved.voltage(end.id, tube.reference.id);
      return volts === undefined ? [] : [{ tube, volts }];
    })
    .sort((a, b) => Math.abs(b.volts) - Math.abs(a.volts))[0];
  const names = listedTubes(tubes);
  const [entered, left] = [passed.entered, passed.left].map((id) => tapWords(circuit, id));
  const amount = worst ? formatQuantity(Math.abs(worst.volts), 'voltage') : 'some volts';
  const isOne = tubes.length === 1;
  const who = isOne
    ? `the ${electrode} of ${names} stands`
    : `the ${electrode}s of ${names} stand up to`;
  const whose = isOne ? 'its filament' : 'their filaments';
  const end = circuit.endNamed.get(passed.entered);
  const place = end?.joins.find(({ file }) => file === supply.place.file) ?? supply.place;
  return finding({
    check: 'battery-reversed',
    severity: curedBy ? 'information' : 'error',
    message: `${supply.name} is in backwards, ${entered} toward the filaments and ${left} toward the ${electrode}s: ${who} ${amount} ${electrode === 'plate' ? 'below' : 'above'} ${whose}.`,
    why:
      electrode === 'plate'
        ? 'A negative plate draws no electrons, and the stage is dead.'
        : 'A positive grid draws current and distorts, and the plate takes several times its proper current.',
    cure: curedBy
      ? `Nothing, if it is meant: it stands right with ${standingWords(circuit, study.on.settings, curedBy)}.`
      : `Exchange the leads of ${supply.name}: ${left} belongs toward the filaments and ${entered} toward the ${electrode === 'plate' ? 'plates' : 'grids'}.`,
    place,
    related: distinct(
      [
        alsoPart(supply, `${supply.name} is the battery.`),
        ...tubes.map(({ part }) => alsoPart(part, `${part.name} has it on its ${electrode}.`)),
      ],
      place,
    ),
    parts: [supply.name, ...tubes.map(({ part }) => part.name)],
    fixes: curedBy ? [] : turnedRound(circuit, supply, passed.entered, passed.left),
  });
}

/** The A leads exchanged: every filament that is lit is lit from the wrong side. */
function filamentsReversed(study: Study): readonly Finding[] {
  const { circuit, tubes, solved } = study;
  const state = new Map(solved.filaments.map((filament) => [filament.tube, filament]));
  const lit = tubes.flatMap((tube) => {
    const volts = state.get(tube.part.name)?.volts;
    const isDirect = tube.cathode === undefined && tube.part.tubeType?.heated !== true;
    return isDirect && volts !== undefined && Math.abs(volts) > LEAST_LIT_VOLTS
      ? [{ tube, volts }]
      : [];
  });
  const [first] = lit;
  if (!first || lit.some(({ volts }) => volts > 0)) return [];
  const lighting = [
    ...new Set(
      solved.drains.flatMap(({ supply: name, amperes }) => {
        const supply = circuit.partNamed.get(name);
        return supply && isFilamentSupply(supply) && (amperes ?? 0) > 0 ? [supply] : [];
      }),
    ),
  ];
  const [battery] = lighting;
  if (!battery) return [];
  const { part } = first.tube;
  const own = lit.length === 1 ? 'its' : 'their';
  return [
    finding({
      check: 'battery-reversed',
      severity: 'warning',
      message: `${listed(lighting.map(({ name }) => name))} lights ${listedTubes(lit.map(({ tube }) => tube))} from the wrong side: ${part.name}.filament- stands ${formatQuantity(-first.volts, 'voltage')} above ${part.name}.filament+.`,
      why: `The ${lit.length === 1 ? 'tube lights' : 'tubes light'} all the same, but ${own} grid returns, and with them bias and detection, are on the wrong side.`,
      cure: `Exchange the leads of ${battery.name}; if the set is wired right, write the positive end of each filament after to, and the negative one after from.`,
      place: battery.place,
      related: lit.map(({ tube }) => alsoPart(tube.part, `${tube.part.name} is lit by it.`)),
      parts: [...lighting.map(({ name }) => name), ...lit.map(({ tube }) => tube.part.name)],
      fixes: lighting.length > 1 ? [] : endsExchanged(circuit, battery),
    }),
  ];
}

/** The fix that exchanges the leads of a battery of two taps; which of more go where is not plain. */
function endsExchanged(circuit: Circuit, battery: Part): readonly Fix[] {
  const [first, second, ...more] = battery.ends;
  return first && second && more.length === 0
    ? turnedRound(circuit, battery, first.id, second.id)
    : [];
}

function listedTubes(tubes: readonly TubeAt[]): string {
  const names = tubes.map(({ part }) => part.name);
  return names.length <= MOST_NAMED
    ? listed(names)
    : listed([...names.slice(0, MOST_NAMED - 1), `${names.length - MOST_NAMED + 1} more tubes`]);
}

function setWith(strap: string, top: string): string {
  return `
receiver "One tube with phones" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45
  }
  ${strap}
  resistor F1 4 ohms from A-
  detector stage DET {
    coil L1 {
      winding grid 240 uH 4 ohms from A-
    }
    condenser C1 variable 14 to 365 mmfd across L1.grid
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from F1 to A+
      plate to PH1
    }
    phones PH1 2000 ohms to ${top}
    condenser C3 .001 mfd from V1.plate to A-
  }
}
`;
}
