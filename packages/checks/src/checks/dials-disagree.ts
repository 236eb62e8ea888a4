import {
  alignedGang,
  condenserValues,
  gangTracking,
  type Reckoned,
  stationReadings,
  type TunedCircuit,
} from '@setwright/analysis';
import type { Circuit, Finding, Gang } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { type SignalCircuit, signalCircuits } from '../radio/signal-circuits.ts';
import { halfWidth } from '../radio/tuned-width.ts';
import type { Study } from '../study.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';

/** Two dials may read this many divisions of a hundred apart. */
const MOST_APART = 5;

/** How far unknown strays may differ from one circuit of a gang to another, in farads. */
const STRAY_DIFFERENCE = 10e-12;

/** How far the aerial may pull its circuit, as a share of its frequency. Common practice. */
const AERIAL_PULL = 0.03;

/** An inductance that is stated is good to about this share. Common practice. */
const STATED_ERROR = 0.01;

/** Steps of a gang's turn that are looked at. */
const STEPS = 10;

/** Tuned circuits on one shaft, or on dials of their own, that do not keep together. */
export const dialsDisagree: Check = {
  id: 'dials-disagree',
  group: 'Radio frequency',
  severity: 'warning',
  summary: 'Circuits on one shaft that drift apart, or dials that read far apart on one station.',
  why: 'Circuits on one shaft that stand on different stations make the set deaf and broad.',
  silent: [
    'Circuits on one shaft that keep within half their own width once their trimmers are set.',
    'The first dial of several: the aerial pulls its circuit, and it always reads off.',
    'Dials that read within 5 divisions of 100 of one another; beyond that it is information.',
    'What unknown strays can do: without trimmers only a difference that they cannot explain counts.',
    'An oscillator beside the signal’s own circuits stands elsewhere on purpose.',
    'A coil or condenser of which not enough is said.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: set('50 turns'),
  passes: set('56 turns'),
  find(study) {
    const signal = signalCircuits(study).filter(({ use }) => use === 'signal');
    if (signal.length < 2) return [];
    const ganged = study.circuit.gangs.flatMap((gang) => gangFinding(study, gang, signal) ?? []);
    return [...ganged, ...dialFindings(study, signal)];
  },
};

function gangFinding(
  study: Study,
  gang: Gang,
  signal: readonly SignalCircuit[],
): Finding | undefined {
  const { circuit } = study;
  const here = signal.filter(({ tuned }) => tuned.gang === gang.name);
  if (here.length < 2) return undefined;
  const { tuned, trimmers } = alignedGang(
    circuit,
    here.map((each) => each.tuned),
    gang.name,
  );
  const byName = new Map(tuned.map((each, index) => [each.name, { each, from: here[index] }]));
  let worst: { name: string; than: string; off: number; at: number; over: number } | undefined;
  for (const { frequency, off } of gangTracking(circuit, tuned, gang.name, STEPS)) {
    const band = circuit.tunes;
    if (band && (frequency < band.low.value * 0.99 || frequency > band.high.value * 1.01)) continue;
    const middle = [...off].find(([, share]) => share === 0)?.[0];
    const other = middle === undefined ? undefined : byName.get(middle);
    if (!other) continue;
    for (const [name, share] of off) {
      const one = byName.get(name);
      if (!one || name === middle) continue;
      const allowed =
        Math.max(halfWidth(one.each, frequency), halfWidth(other.each, frequency)) +
        doubt(circuit, one.each, other.each, frequency, trimmers) +
        (one.from?.aerial || other.from?.aerial ? AERIAL_PULL : 0);
      const over = Math.abs(share) - allowed;
      if (over > 0 && (!worst || over > worst.over))
        worst = { name, than: other.each.name, off: share, at: frequency, over };
    }
  }
  if (!worst) return undefined;
  return gangTold(study, gang, here, worst, trimmers);
}

/** How far two circuits may differ, as a share of frequency, by what is not known of them. */
function doubt(
  circuit: Circuit,
  one: TunedCircuit,
  other: TunedCircuit,
  frequency: number,
  trimmers: ReadonlyMap<string, number>,
): number {
  const [first, second] = [one.inductance.value ?? 0, other.inductance.value ?? 0];
  const isAlike = Math.abs(first - second) <= 1e-6 * first;
  const coils = isAlike ? 0 : (errorOf(one.inductance) + errorOf(other.inductance)) / 2;
  const isTrimmed = (each: TunedCircuit) =>
    each.beside.some((name) => trimmers.has(name) || circuit.partNamed.get(name)?.values.set);
  if (isTrimmed(one) && isTrimmed(other)) return coils;
  const farads = 1 / ((2 * Math.PI * frequency) ** 2 * Math.max(first, 1e-12));
  return coils + STRAY_DIFFERENCE / (2 * farads);
}

const errorOf = (reckoned: Reckoned): number =>
  reckoned.value === undefined ? 0 : (reckoned.because.relativeError ?? STATED_ERROR);

function gangTold(
  study: Study,
  gang: Gang,
  here: readonly SignalCircuit[],
  { name, than, off, at }: { name: string; than: string; off: number; at: number },
  trimmers: ReadonlyMap<string, number>,
): Finding {
  const { circuit } = study;
  const [odd, even] = [name, than].map((each) => here.find(({ tuned }) => tuned.name === each));
  const windings = (of: SignalCircuit | undefined) =>
    (of?.tuned.windings ?? []).flatMap(({ edge }) => circuit.partNamed.get(edge.part) ?? []);
  const share = formatQuantity(Math.abs(off), 'percent', 'period', 2);
  const made = (of: SignalCircuit | undefined) =>
    formatQuantity(of?.tuned.inductance.value ?? 0, 'inductance');
  const isCoil =
    Math.abs((odd?.tuned.inductance.value ?? 0) / (even?.tuned.inductance.value || 1) - 1) > 0.005;
  const place = windings(odd)[0]?.place ?? gang.place;
  return finding({
    check: 'dials-disagree',
    severity: 'warning',
    message: `On ${gang.name} ${name} stands ${share} ${off > 0 ? 'above' : 'below'} ${than} at ${formatQuantity(at, 'frequency')}${trimmers.size > 0 ? ', trimmers set' : ''}.`,
    why: 'One shaft turns both, so the set cannot have them on one station there: it is deaf and broad.',
    cure: isCoil
      ? `Make the coils alike: ${name} has ${made(odd)} and ${than} ${made(even)}.`
      : `Put a trimmer across ${off > 0 ? name : than}, or condensers of one make on the shaft.`,
    place,
    related: [
      ...windings(even)
        .slice(0, 1)
        .map((part) => alsoPart(part, 'the circuit that it drifts from')),
      { place: gang.place, message: 'the shaft that turns both' },
    ],
    parts: [...windings(odd), ...windings(even)].map((part) => part.name),
  });
}

function dialFindings(study: Study, signal: readonly SignalCircuit[]): readonly Finding[] {
  const { circuit } = study;
  const later = signal.filter(({ tuned, aerial }) => aerial === undefined && tuned.dial);
  // One circuit of each dial stands for it; what is on one shaft is judged above.
  const first = later.filter(
    ({ tuned }, index) => later.findIndex((other) => other.tuned.dial === tuned.dial) === index,
  );
  if (first.length < 2) return [];
  const low = Math.max(...first.map(({ tuned }) => tuned.lowest.value ?? 0));
  const high = Math.min(...first.map(({ tuned }) => tuned.highest.value ?? 0));
  if (!(low > 0 && high > low)) return [];
  const band = circuit.tunes;
  const bottom = Math.max(low, band?.low.value ?? low);
  const top = Math.min(high, band?.high.value ?? high);
  const stations = [bottom, Math.sqrt(bottom * top), top].filter(
    (frequency) => frequency >= low && frequency <= high,
  );
  const tuned = first.map((each) => each.tuned);
  let worst: { apart: number; at: number; said: string[]; names: readonly string[] } | undefined;
  for (const { frequency, readings } of stationReadings(circuit, tuned, stations)) {
    const shares = first.flatMap(({ tuned: { name, dial } }) => {
      const reading = readings.get(name);
      const scale = circuit.dials.find((each) => each.name === dial);
      if (reading === undefined || !scale || scale.high === scale.low) return [];
      const share = (100 * (reading - scale.low)) / (scale.high - scale.low);
      return [{ name: scale.name, reading, share: scale.reversed ? 100 - share : share }];
    });
    if (shares.length < 2) continue;
    const sorted = [...shares].sort((a, b) => a.share - b.share);
    const [least, most] = [sorted[0], sorted.at(-1)];
    if (!least || !most) continue;
    const apart = most.share - least.share;
    if (apart > MOST_APART && apart > (worst?.apart ?? 0))
      worst = {
        apart,
        at: frequency,
        said: [least, most].map(({ name, reading }) => `${name} at ${Math.round(reading)}`),
        names: [least.name, most.name],
      };
  }
  if (!worst) return [];
  const { at, said, names } = worst;
  const dials = circuit.dials.filter(({ name }) => names.includes(name));
  const parts = first.flatMap(({ tuned: { dial, windings } }) =>
    names.includes(dial ?? '') ? windings.map(({ edge }) => edge.part) : [],
  );
  return [
    finding({
      check: 'dials-disagree',
      severity: 'information',
      message: `On a station at ${formatQuantity(at, 'frequency')} the dials may read apart: ${listed(said)}.`,
      why: 'Dials that read alike are quicker to tune; the set itself does not mind.',
      cure: `Nothing, if that is how it was made: note the readings. If they should be alike, ${differences(circuit, signal) ?? `compare ${listed(parts)}`}.`,
      place: dials[0]?.place ?? circuit.namePlace,
      related: dials.slice(1).map(({ place }) => ({ place, message: 'the other dial' })),
      parts,
    }),
  ];
}

/** Coils or condensers that differ by more than this share are not of one make. */
const UNLIKE_COILS = 0.03;
const UNLIKE_CONDENSERS = 0.05;

/**
 * What of the tuned circuits differs, the odd one of three first: `L2.grid has 170 µH where L1.grid
 * and L3.grid have 230 µH`. Undefined where all is alike.
 */
function differences(circuit: Circuit, signal: readonly SignalCircuit[]): string | undefined {
  const coils = signal.flatMap(({ tuned: { name, inductance } }) =>
    inductance.value === undefined ? [] : [{ name, value: inductance.value }],
  );
  const condensers = signal.flatMap(({ tuned: { tuner } }) => {
    const part = tuner === undefined ? undefined : circuit.partNamed.get(tuner);
    const most = part && condenserValues(circuit, part)?.most.value;
    return part && most !== undefined ? [{ name: part.name, value: most }] : [];
  });
  const said = [
    unlike(coils, UNLIKE_COILS, (value) => formatQuantity(value, 'inductance')),
    unlike(condensers, UNLIKE_CONDENSERS, (value) => formatQuantity(value, 'capacitance')),
  ].flatMap((words) => words ?? []);
  return said.length === 0 ? undefined : said.join(', and ');
}

interface Sized {
  readonly name: string;
  readonly value: number;
}

function unlike(
  all: readonly Sized[],
  most: number,
  words: (value: number) => string,
): string | undefined {
  const isNear = (one: Sized, other: Sized): boolean =>
    Math.abs(one.value - other.value) <= most * Math.max(one.value, other.value);
  const odd = all.filter((each) => all.every((other) => other === each || !isNear(each, other)));
  const [only] = odd;
  const others = all.filter((each) => !odd.includes(each));
  const [like] = others;
  if (only && odd.length === 1 && like) {
    const have = others.length > 1 ? 'have' : 'has';
    return `${only.name} has ${words(only.value)} where ${listed(others.map(({ name }) => name))} ${have} ${words(like.value)}`;
  }
  if (odd.length < 2) return undefined;
  return listed(odd.map(({ name, value }) => `${name} has ${words(value)}`));
}

function set(turns: string): string {
  return `receiver "Twin Buoys" {
  tunes 550 kc to 1500 kc
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45 45 V
    tap B+67 67.5 V
  }
  post ANT aerial 250 mmfd
  post GND ground
  wire B- to A- to GND
  rheostat RH1 20 ohms from A- set 4 ohms
  rheostat RH2 20 ohms from A- set 4 ohms
  rheostat RH3 20 ohms from A- set 4 ohms
  radio stage RF1 {
    coil L1 {
      form 2 3/4 in
      winding aerial 10 turns of 26 DCC from GND to ANT
      winding grid 56 turns of 26 DCC beside aerial from GND
    }
    condenser C1 variable 14 to 365 mmfd rotor to GND stator to L1.grid.finish
    resistor R7 1500 ohms from L1.grid.finish to V1.grid
    tube V1 01-A {
      filament from RH1 to A+
    }
  }
  radio stage RF2 {
    coil L2 {
      form 2 3/4 in
      winding plate 7 turns of 26 DCC from V1.plate to B+67
      winding grid 56 turns of 26 DCC beside plate from GND
    }
    condenser C2 variable 14 to 365 mmfd rotor to GND stator to L2.grid.finish
    condenser TR2 trimmer 2 to 30 mmfd across C2
    resistor R8 1500 ohms from L2.grid.finish to V2.grid
    tube V2 01-A {
      filament from RH2 to A+
    }
    condenser C6 .5 mfd from B+67 to GND
  }
  detector stage DET {
    coil L3 {
      form 2 3/4 in
      winding plate 7 turns of 26 DCC from V2.plate to B+67
      winding grid ${turns} of 26 DCC beside plate from GND
    }
    condenser C3 variable 14 to 365 mmfd rotor to GND stator to L3.grid.finish
    condenser TR3 trimmer 2 to 30 mmfd across C3
    condenser C4 .00025 mfd from L3.grid.finish to V3.grid
    leak R1 2 meg from V3.grid to A+
    tube V3 01-A {
      filament from RH3 to A+
    }
    condenser C5 .001 mfd from V3.plate to A-
    phones PH1 2000 ohms from V3.plate to B+45
  }
  gang G1 C2, C3 frame to GND
  dial D1 0 to 100 drives C1
  dial D2 0 to 100 drives G1
}
`;
}
