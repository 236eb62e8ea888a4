import {
  type Conduction,
  directPath,
  type Finding,
  type Part,
  type Step,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import type { Study } from '../study.ts';
import { gridLeakOf, type TubeAt } from '../tubes/tubes.ts';
import { stillPoints } from '../wiring/still-points.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** The most that belongs between an amplifier's grid and its return, in ohms. Common practice. */
const MOST_OHMS = 2e6;
/**
 * The same for power tubes. Half a megohm is usual, from memory; as that is not certain, only
 * twice as much is spoken of.
 */
const MOST_POWER_OHMS = 1e6;
const USUAL_POWER_OHMS = 0.5e6;
/** Nearer to the limit than this part of it counts as within. */
const MARGIN = 1.05;

/** An amplifier's grid behind too high a resistance. */
export const gridReturnTooHigh: Check = {
  id: 'grid-return-too-high',
  group: 'DC returns',
  severity: 'information',
  summary:
    'The grid of an amplifier returned through more than 2 megohms, of a power tube through more than 1.',
  why: 'Every tube has a trace of gas and leakage; through so high a resistance that drives the grid positive, and the plate current runs away.',
  silent: [
    'Detectors, whose leak is meant to be high, and oscillators.',
    'A tube that stands in no stage: what it is for is not said.',
    'A return of which some resistance is not known.',
    'A grid with no return at all: `grid-without-dc-return` speaks.',
    'A high resistance beside a lower path.',
  ],
  source: 'common practice; the figure for power tubes from memory',
  needsWholeText: true,
  fails: setWith('5 meg'),
  passes: setWith('1 meg'),
  find(study) {
    const amplifiers = study.tubes.filter(isAmplifier);
    if (amplifiers.length === 0) return [];
    const still = stillPoints(study.conduction);
    return amplifiers.flatMap((tube) => judged(study, still, tube));
  },
};

const amplifying: readonly string[] = ['radio', 'intermediate', 'audio', 'output'];
const leaky: readonly string[] = ['detector', 'mixer', 'oscillator'];

function isAmplifier({ roles }: TubeAt): boolean {
  return (
    roles.some((role) => amplifying.includes(role)) && !roles.some((role) => leaky.includes(role))
  );
}

function isPower({ part: { tubeType }, roles }: TubeAt): boolean {
  const isOutputPentode = tubeType?.pentode === true && roles.includes('output');
  return isOutputPentode || /power/i.test(tubeType?.title ?? '');
}

/** The parts of a return with their ohms; undefined where some are not known. */
function returnOf(
  conduction: Conduction,
  still: ReadonlySet<number>,
  from: number,
): readonly { readonly part: Part; readonly ohms: number }[] | undefined {
  const path = directPath(conduction, from, (junction) => still.has(junction), {
    prefer: 'ohms',
    throughSources: false,
  });
  if (!path.found) return undefined;
  const parts: { part: Part; ohms: number }[] = [];
  for (const { part: name, direct } of path.steps) {
    const part = conduction.circuit.partNamed.get(name);
    if (!part) return undefined;
    const ohms = ohmsOf(part, direct);
    if (ohms === undefined) return undefined;
    parts.push({ part, ohms });
  }
  return parts;
}

function ohmsOf(part: Part, direct: Step['direct']): number | undefined {
  const isResistance =
    part.kind === 'leak' || part.kind === 'resistor' || part.kind === 'potentiometer';
  if (direct.kind !== 'conducts') return undefined;
  return direct.ohms ?? (isResistance ? undefined : 0);
}

function judged(study: Study, still: ReadonlySet<number>, tube: TubeAt): Finding[] {
  const { circuit, conduction } = study;
  const { part, grid, reference } = tube;
  if (!grid || !reference) return [];
  // A grid that floats is a fault of its own, and would cost a search of the whole set.
  if (study.islands[grid.junction] !== study.islands[reference.junction]) return [];
  const parts = returnOf(conduction, still, grid.junction);
  if (!parts || parts.length === 0) return [];
  const ohms = parts.reduce((sum, each) => sum + each.ohms, 0);
  const power = isPower(tube);
  const most = power ? MOST_POWER_OHMS : MOST_OHMS;
  if (ohms <= most * MARGIN) return [];
  const main = parts.reduce((a, b) => (b.ohms > a.ohms ? b : a));
  const wanted = power ? USUAL_POWER_OHMS : MOST_OHMS;
  const others = ohms - main.ohms;
  const value = main.part.values.resistance;
  const instead = `${power ? '.5' : '2'} meg`;
  const coupling = gridLeakOf(circuit, tube)?.condenser;
  const farads = coupling?.values.capacitance?.value;
  const larger =
    coupling && farads
      ? `, and ${coupling.name} of ${formatQuantity((farads * main.ohms) / wanted, 'capacitance', 'period', 2)} in place of ${formatQuantity(farads, 'capacitance')} to keep the low notes`
      : '';
  return [
    finding({
      check: 'grid-return-too-high',
      severity: 'information',
      message: `The grid of ${part.name} returns through ${formatQuantity(ohms, 'resistance')}, most of it ${main.part.name}.`,
      why: `Any gas or leakage in ${power ? 'a power tube' : 'the tube'} then drives the grid positive and the plate current up.`,
      cure: `Use ${formatQuantity(wanted, 'resistance')} for ${main.part.name}${larger}.`,
      place: main.part.place,
      related: [alsoPart(part, 'its grid returns through this')],
      parts: [part.name, main.part.name],
      fixes:
        value && value.value > wanted && wanted + others <= most * MARGIN
          ? [
              {
                title: `Make ${main.part.name} ${instead}`,
                edits: [{ place: value.place, text: instead }],
              },
            ]
          : [],
    }),
  ];
}

function setWith(leak: string): string {
  return `receiver "Harbour office" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+90
  }
  battery C dry {
    tap C+
    tap C-4.5
  }
  post ANT aerial
  post GND ground
  wire B- to A- to C+ to GND
  resistor F1 4 ohms from A+ to V1.filament+
  resistor F2 4 ohms from A+ to V2.filament+
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
  audio stage AF1 {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms to GND
      winding secondary 5000 ohms from C-4.5 to V1.grid
    }
    tube V1 01-A {
      filament from A-
    }
    resistor R1 50 kilohms from B+90 to V1.plate
  }
  output stage AF2 {
    condenser C3 .01 mfd from V1.plate to V2.grid
    leak R2 ${leak} from V2.grid to C-4.5
    tube V2 01-A {
      filament from A-
    }
    phones PH1 2000 ohms from V2.plate to B+90
  }
}
`;
}
