import type { Finding, Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { guessesOf } from '../sizes/guesses.ts';
import type { Study } from '../study.ts';
import { isPlateSupply } from '../supplies/plate-feed.ts';
import { amperes } from '../words/filament-words.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';

/**
 * A large dry cell holds about 30 ampere-hours when it gives a quarter ampere, a few hours a day:
 * what a dry battery gives without strain is its capacity over this many seconds. From memory.
 */
const DRY_SECONDS = 120 * 3600;
/** Amperes that one row of large dry cells gives without strain, where nothing is said of them. */
const DRY_AMPERES = 0.25;
/** A storage battery is not to be emptied in less than this many seconds. Common practice. */
const STORAGE_SECONDS = 10 * 3600;
/**
 * A B battery of the large size gives about 20 mA without strain, a few hours a day; of one whose
 * capacity is stated that is what it holds over this many seconds. From memory.
 */
const PLATE_AMPERES = 20e-3;
const PLATE_SECONDS = 250 * 3600;
/** A C battery is to give nothing, and to last as long as it would on the shelf: amperes. */
const BIAS_AMPERES = 1e-3;
/** No plates take so many amperes: then the battery is shorted, and other checks say by what. */
const SHORTED = 0.25;
/** Below this many times the usual rate it is a matter of hours, not of fault. */
const STRAIN = 5;
/** A little over the usual rate is nothing to speak of. */
const USUAL = 1.1;
/** Slack for numbers that are exact on paper. */
const SLACK = 0.02;

const set = (kind: string, capacity: string): string => `receiver "Lantern Cove Powerhouse" {
  battery A ${kind} {
    tap A- 0 V
    tap A+ 6 V
    capacity ${capacity}
  }
  battery B dry {
    tap B-
    tap B+90 90 V
  }
  battery C dry {
    tap C+
    tap C-4.5
  }
  post ANT aerial
  post GND ground
  bus NEG
  wire B- to A- to C+ to GND
  switch S1 from A- to NEG closed
  resistor F1 4 ohms from NEG to V1.filament-
  resistor F2 4 ohms from NEG to V2.filament-
  resistor F3 4 ohms from NEG to V3.filament-
  resistor F4 4 ohms from NEG to V4.filament-
  resistor F5 4 ohms from NEG to V5.filament-
  radio stage RF {
    coil L1 {
      form 3 in
      winding grid 50 turns of 24 DCC tap 10 to ANT from GND
    }
    condenser C1 variable 20 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
    tube V1 01-A {
      filament to A+
      grid to L1.grid.finish
    }
  }
  output stage AF {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms from V1.plate to B+90
      winding secondary 5000 ohms from C-4.5
    }
    tube V2 01-A {
      filament to A+
      grid to T1.secondary.finish
    }
    tube V3 01-A {
      filament to A+
      grid to T1.secondary.finish
    }
    tube V4 01-A {
      filament to A+
      grid to T1.secondary.finish
    }
    tube V5 01-A {
      filament to A+
      grid to T1.secondary.finish
    }
    wire V2.plate to V3.plate to V4.plate to V5.plate
    horn H1 2000 ohms from V2.plate to B+90
  }
}`;

export const batteryDrain: Check = {
  id: 'battery-drain',
  group: 'Filaments and controls',
  severity: 'warning',
  summary: 'A battery has to give more than its kind can; says for how long.',
  why: 'Dry cells that are driven hard sag within the hour and are used up long before their capacity is.',
  silent: [
    'The drain is what cells of this kind usually give; up to five times as much it is information.',
    'An eliminator or a bench supply stands in place of the battery.',
    'A B battery that gives no more than about 20 mA, or what its stated capacity bears; a C battery that gives no more than a milliampere.',
    'A B or C battery that is as good as shorted: the check that finds the short speaks.',
    'A B or C battery whose current hangs on a resistance that is not stated.',
    'A storage battery whose capacity is not given, or a battery that is neither dry nor storage.',
  ],
  source: 'common practice; capacity of large dry cells and of B batteries from memory',
  fails: set('dry', '30 Ah'),
  passes: set('storage', '100 Ah'),
  needsWholeText: true,
  find(study) {
    const batteries = new Set(study.filamentGroups.flatMap(({ supply }) => supply ?? []));
    return [
      ...[...batteries].flatMap((battery) => drained(study, battery)),
      ...drainedByPlates(study, batteries),
    ];
  },
};

/** The B and C batteries that give more than they should, with the tubes at work. */
function drainedByPlates(study: Study, lighting: ReadonlySet<Part>): Finding[] {
  const judged = study.circuit.parts.filter(
    (part) => part.kind === 'battery' && !lighting.has(part) && usualAtWork(part) !== undefined,
  );
  if (judged.length === 0) return [];
  const work = new Map(study.operating.supplies.map((each) => [each.supply, each]));
  const isGuess = guessesOf(study);
  return judged.flatMap((battery): Finding[] => {
    const at = work.get(battery.name);
    const usual = usualAtWork(battery);
    const drain = at?.drain?.value ?? 0;
    if (!at || usual === undefined || !(drain > usual * USUAL) || drain > SHORTED) return [];
    if (battery.ends.some(({ junction }) => isGuess(junction))) return [];
    const times = drain / usual;
    const isBias = !isPlateSupply(battery);
    const taps = at.taps
      .filter(({ amperes: flows }) => (flows?.value ?? 0) > usual * LEAST_TAP)
      .map(({ tap, amperes: flows }) => `${tap} ${amperesAbout(flows?.value ?? 0)}`);
    return [
      finding({
        check: 'battery-drain',
        severity: times > STRAIN ? 'warning' : 'information',
        message: isBias
          ? `${battery.name} gives ${amperesAbout(drain)}, and a bias battery is to give nothing${hoursOf(battery, drain)}.`
          : `${battery.name} gives ${amperesAbout(drain)} to the plates (${listed(taps)}), ${formatQuantity(times, 'number', 'period', 2)} times what it gives without strain${hoursOf(battery, drain)}.`,
        why: isBias
          ? 'It runs down in weeks, and with it goes the bias.'
          : 'Small cells that are driven hard sag, and the set howls on them before it grows weak.',
        cure: isBias
          ? `Find what ${battery.name} feeds besides grids, and take it off.`
          : 'Give the power tube more bias or a lower tap, or use a larger battery.',
        place: battery.place,
        parts: [battery.name],
      }),
    ];
  });
}

/** A tap that gives less than this part of the usual rate is not told of. */
const LEAST_TAP = 0.05;

const amperesAbout = (value: number): string => formatQuantity(value, 'current', 'period', 2);

/** Amperes that a B or C battery gives without strain. */
function usualAtWork(battery: Part): number | undefined {
  if (isPlateSupply(battery)) {
    const capacity = battery.values.capacity?.value;
    if (capacity !== undefined && capacity > 0) return capacity / PLATE_SECONDS;
    return battery.words.has('storage') ? undefined : PLATE_AMPERES;
  }
  const volts = battery.supplyTaps.map((tap) => tap.volts ?? 0);
  return volts.some((each) => each < 0) ? BIAS_AMPERES : undefined;
}

function drained(study: Study, battery: Part): Finding[] {
  const usual = usualAmperes(battery);
  if (battery.kind !== 'battery' || usual === undefined) return [];
  const groups = study.filamentGroups.filter(({ supply }) => supply === battery);
  if (groups.some(({ known }) => !known)) return [];
  // What a fresh battery would give: a tired one gives less because it sags.
  const unloaded = Math.max(1, ...groups.map((group) => group.unloaded));
  const drain = drawnFrom(study, battery) * unloaded;
  const times = drain / usual;
  if (!(times > USUAL)) return [];
  const { filaments } = study.solved;
  const names = new Set(
    groups.flatMap(({ filaments: own, branches }) =>
      own.map((index) => branches[index]?.part.name),
    ),
  );
  const tubes = filaments.filter(({ tube }) => names.has(tube)).length;
  const isDry = battery.words.has('dry');
  const kind = isDry ? 'dry cells' : 'a storage battery of its size';
  const rate = `${formatQuantity(times, 'number', 'period', 2)} times`;
  return [
    finding({
      check: 'battery-drain',
      severity: times > STRAIN - SLACK * STRAIN ? 'warning' : 'information',
      message: `${tubes} ${tubes === 1 ? 'filament draws' : 'filaments draw'} ${amperes(drain)} from ${
        battery.name
      }, ${rate} what ${kind} ${isDry ? 'give' : 'gives'} without strain${hoursOf(battery, drain)}.`,
      why: batteryDrain.why,
      cure: isDry
        ? `Use a storage battery, or more rows of cells side by side, ${amperes(usual)} to a row.`
        : 'Use a larger battery, or charge it that much more often.',
      place: battery.place,
      related: study.tubes
        .filter(({ part }) => names.has(part.name))
        .map(({ part }) => alsoPart(part, `${part.name} is lit by ${battery.name}.`)),
      parts: [battery.name],
    }),
  ];
}

function hoursOf(battery: Part, drain: number): string {
  const capacity = battery.values.capacity?.value;
  if (capacity === undefined || !(capacity > 0)) return '';
  const hours = capacity / drain / 3600;
  const said = formatQuantity(capacity, 'charge');
  return `; its ${said} last ${formatQuantity(hours, 'number', 'period', 2)} hours at the most`;
}

/** What the battery gives in all; of a tap below its zero the current runs the other way. */
function drawnFrom({ solved }: Study, battery: Part): number {
  let sum = 0;
  for (const { supply, tap, amperes: flows = 0 } of solved.drains) {
    if (supply !== battery.name) continue;
    const volts = battery.supplyTaps.find(({ end }) => end === tap)?.volts ?? 0;
    sum += volts < 0 ? -flows : flows;
  }
  return sum;
}

/** Amperes that a battery gives without strain; undefined where nothing can be said of it. */
function usualAmperes(battery: Part): number | undefined {
  const capacity = battery.values.capacity?.value;
  const coulombs = capacity !== undefined && capacity > 0 ? capacity : undefined;
  if (battery.words.has('dry')) return coulombs ? coulombs / DRY_SECONDS : DRY_AMPERES;
  if (battery.words.has('storage') && coulombs) return coulombs / STORAGE_SECONDS;
  return undefined;
}
