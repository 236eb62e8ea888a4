import {
  type Conduction,
  directPath,
  type Finding,
  type Fix,
  isSupply,
  type Part,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { retargeted } from '../fixes/retarget.ts';
import { ohmsOf, type ReturnEnd, returnEnds, wayTo } from '../grids/return-path.ts';
import { typicalGridCurrent } from '../grids/typical-grid.ts';
import type { Study } from '../study.ts';
import { type Rails, railsOf } from '../supplies/rails.ts';
import { detectingCondenserOf } from '../tubes/detecting.ts';
import { isDiode, type TubeAt } from '../tubes/tubes.ts';
import { alsoPart, finding, junctionName, listed } from '../words/finding.ts';

const set = (gridReturn: string) => `receiver "Cove Whaler" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45 45 V
    tap B+90 90 V
  }
  battery C dry {
    tap C+
    tap C-4.5
  }
  post ANT aerial
  post GND ground
  wire B- to A- to GND to C+
  rheostat RH1 20 ohms from A- set 4 ohms
  rheostat RH2 20 ohms from A+ set 4 ohms
  detector stage DET {
    coil L1 {
      winding aerial 20 uH from GND to ANT
      winding grid 240 uH from GND
    }
    condenser C1 variable 14 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from RH1 to A+
    }
    condenser C3 .001 mfd from V1.plate to A-
  }
  audio stage AF1 {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms from V1.plate to B+45
      winding secondary 5000 ohms from ${gridReturn} to V2.grid
    }
    tube V2 01-A {
      filament from A- to RH2
    }
    phones PH1 2000 ohms from V2.plate to B+90
  }
}
`;

/** Volts above its own filament that a grid may stand with nobody the wiser. */
const MOST_VOLTS = 0.3;
/** Above this many volts the grid draws so much current that the stage is spoilt. */
const SPOILT_VOLTS = 1.5;
/** Grid current in amperes that is worth a word. */
const LEAST_CURRENT = 10e-6;

/** An amplifier whose grid stands above its filament. */
export const gridBiasedPositive: Check = {
  id: 'grid-biased-positive',
  group: 'DC returns',
  severity: 'error',
  summary: 'An amplifier whose computed bias is above zero.',
  why: 'A positive grid draws current: it loads what drives it, distorts, and lets the plate waste the B battery.',
  silent: [
    'A grid-leak detector rests a little positive on purpose; so may a mixer and an oscillator.',
    'A grid no more than .3 V above its filament, or one that draws less than 10 microamperes through its return.',
    'Bias is counted from the tube’s own F−, so that a rheostat in the negative lead makes a grid negative.',
    'A return to the arm of a potentiometer across the filament is a volume control: only its range is told, as information.',
    'A space-charge grid stands positive on purpose.',
    'A cathode lifted by its own resistor: its bias is made by the plate current.',
    'A bias that hangs on volts that the text does not give is not known.',
  ],
  source: 'common practice; grid current of a usual tube from memory',
  needsWholeText: true,
  fails: set('V1.filament-'),
  passes: set('C-4.5'),
  find(study) {
    const rails = railsOf(study.conduction);
    const byArm = new Map<Part, TubeAt[]>();
    const findings: Finding[] = [];
    for (const tube of study.tubes) {
      const { grid } = tube;
      if (!grid || !isJudged(study, rails, tube)) continue;
      const ends = returnEnds(study.conduction, rails, tube, grid.junction);
      if (ends.some(({ rail }) => rail?.kind === 'plate')) continue;
      const arm = ends.map(({ rail }) => rail).find((rail) => rail?.kind === 'arm');
      if (arm) {
        const others = byArm.get(arm.part);
        if (others) others.push(tube);
        else byArm.set(arm.part, [tube]);
        continue;
      }
      if (isSpaceCharge(tube, ends)) continue;
      findings.push(...told(study, tube, ends));
    }
    return [...findings, ...[...byArm].flatMap(([part, tubes]) => rangeTold(study, part, tubes))];
  },
};

/** Whether a tube amplifies, and its bias is one that the batteries make. */
function isJudged(study: Study, rails: Rails, tube: TubeAt): boolean {
  if (isDiode(tube)) return false;
  if (tube.roles.some((role) => ['detector', 'mixer', 'oscillator'].includes(role))) return false;
  if (detectingCondenserOf(study.circuit, tube)) return false;
  return !tube.cathode || rails.at.has(tube.cathode.junction);
}

/** The inner grid of a two-grid tube on a positive tap, to help the electrons on their way. */
function isSpaceCharge(tube: TubeAt, ends: readonly ReturnEnd[]): boolean {
  return tube.screen !== undefined && ends.some(({ rail }) => rail?.kind === 'bias');
}

function told(study: Study, tube: TubeAt, ends: readonly ReturnEnd[]): Finding[] {
  const { circuit, conduction } = study;
  const { part, grid, reference } = tube;
  if (!grid || !reference) return [];
  const bias = study.solved.voltage(grid.id, reference.id);
  if (bias === undefined || bias <= MOST_VOLTS) return [];
  const path = directPath(conduction, grid.junction, (here) => here === reference.junction, {
    prefer: 'ohms',
  });
  const steps = path.found ? path.steps : [];
  const current = typicalGridCurrent(bias, ohmsOf(conduction, steps));
  if (current === undefined || current < LEAST_CURRENT) return [];
  const cells = [...new Set(steps.map((step) => circuit.partNamed.get(step.part)))].filter(
    (passed) => passed !== undefined && isSupply(passed),
  ) as Part[];
  const names = [...new Set(ends.map(({ junction }) => junctionName(circuit, junction)))];
  const between = names.length > 1 ? 'stands between' : 'returns to';
  const isOwn = ends.every(({ rail }) => rail === undefined);
  const where = isOwn ? '' : `: it ${between} ${listed(names)}`;
  const through =
    cells.length > 0 ? ` by way of battery ${listed(cells.map(({ name }) => name))}` : '';
  const emitter = tube.cathode ? 'cathode' : 'filament';
  return [
    finding({
      check: 'grid-biased-positive',
      severity: bias > SPOILT_VOLTS ? 'error' : 'warning',
      message: `The grid of ${part.name} stands ${inVolts(bias)} above its ${emitter}${where}${through}.`,
      why: 'A positive grid draws current, which loads what drives it, distorts, and wastes the B battery.',
      cure: `Lead the return of ${part.name} to the negative side of its filament, or to a C tap that makes it negative.`,
      place: part.place,
      related: cells.map((cell) => alsoPart(cell, `the way of the bias goes through ${cell.name}`)),
      parts: [part.name, ...cells.filter((cell) => biases(study, cell)).map(({ name }) => name)],
      fixes: returned(study, conduction, tube),
    }),
  ];
}

/**
 * The fix that leads a grid's one return to the one C tap that there is, where the stage is an
 * audio stage, else to the negative side of its own filament.
 */
function returned(study: Study, conduction: Conduction, tube: TubeAt): readonly Fix[] {
  const { circuit } = study;
  const rails = railsOf(conduction);
  const ends = tube.grid ? returnEnds(conduction, rails, tube, tube.grid.junction) : [];
  const [end] = ends;
  const taps = circuit.parts
    .filter((part) => isSupply(part) && !rails.lighting.has(part))
    .flatMap((part) => part.supplyTaps.filter(({ volts }) => (volts ?? 0) < 0));
  const isAudio = tube.roles.some((role) => role === 'audio' || role === 'output');
  const own = tube.cathode?.id ?? tube.filamentMinus?.id;
  const home = isAudio && taps.length === 1 ? taps[0]?.end : own;
  if (!tube.grid || !end || ends.length > 1 || home === undefined) return [];
  const last = wayTo(conduction, tube.grid.junction, end.junction).at(-1);
  return last ? retargeted(circuit, last.to, home) : [];
}

/** Whether a supply lights nothing and only biases. */
function biases(study: Study, cell: Part): boolean {
  return !railsOf(study.conduction).lighting.has(cell);
}

/** Two figures: a rheostat's stand gives no more. */
const inVolts = (volts: number): string => formatQuantity(volts, 'voltage', 'period', 2);

/** What a potentiometer can do to the bias of the tubes that return to its arm. */
function rangeTold(study: Study, control: Part, tubes: readonly TubeAt[]): Finding[] {
  const volts = tubes.flatMap(({ reference }) =>
    ['start', 'finish'].flatMap((name) => {
      const end = control.ends.find((candidate) => candidate.name === name);
      return (end && reference && study.solved.voltage(end.id, reference.id)) ?? [];
    }),
  );
  if (volts.length === 0) return [];
  const low = Math.min(...volts);
  const high = Math.max(...volts);
  if (high <= MOST_VOLTS) return [];
  const names = tubes.map(({ part }) => part.name);
  const current = typicalGridCurrent(high, 0);
  const draws =
    current === undefined
      ? ''
      : `, where each draws about ${formatQuantity(current, 'current', 'period', 1)} of grid current`;
  return [
    finding({
      check: 'grid-biased-positive',
      severity: 'information',
      message: `${control.name} sets the ${names.length > 1 ? 'grids' : 'grid'} of ${listed(names)} anywhere from ${inVolts(low)} to ${inVolts(high)} from the filament${draws}.`,
      why: 'Turned up it damps the tuned circuits on purpose; turned up for long it eats the B battery.',
      cure: 'Keep it no higher than it takes to stop the howl.',
      place: control.place,
      related: tubes.map(({ part }) =>
        alsoPart(part, `the grid of ${part.name} returns to the arm`),
      ),
      parts: [control.name, ...names],
    }),
  ];
}
