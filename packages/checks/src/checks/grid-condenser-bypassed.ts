import {
  type Circuit,
  type Conduction,
  directPath,
  type Finding,
  type Fix,
  type JoinedBranch,
  type Part,
  type Settings,
  type Step,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { retargeted } from '../fixes/retarget.ts';
import { ohmsOf, passesReturn, returnEnds, wayTo } from '../grids/return-path.ts';
import type { Study } from '../study.ts';
import { type Rails, railsOf } from '../supplies/rails.ts';
import { detectingLeakOf } from '../tubes/detecting.ts';
import { otherJunction, type TubeAt } from '../tubes/tubes.ts';
import { judgedOverPositions, standingWords, whileLit } from '../wiring/positions.ts';
import { alsoPart, finding, junctionName, listed } from '../words/finding.ts';

const set = (choke: string) => `receiver "Cove Ketch" {
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
  wire B- to A- to GND
  rheostat RH1 20 ohms from A- set 4 ohms
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
    resistor R2 ${choke} from V1.grid to A-
    phones PH1 2000 ohms from V1.plate to B+45
    condenser C3 .001 mfd from V1.plate to A-
  }
}
`;

/** A way round of less than this part of the leak leaves the leak nothing to do. */
const BYPASSING_PART = 1 / 20;
/** The least that a leak has, in ohms, where the text does not say; common practice. */
const LEAST_LEAK = 250_000;

/** A way round a grid condenser or its leak. */
export const gridCondenserBypassed: Check = {
  id: 'grid-condenser-bypassed',
  group: 'DC returns',
  severity: 'error',
  summary: 'A direct path that makes a grid leak or grid condenser do nothing.',
  why: 'Detection by grid leak needs a grid that only the leak ties down: any easier way for direct current puts an end to it.',
  silent: [
    'A leak across the condenser is a leak in its usual place.',
    'A path of more than a twentieth of the leak, such as 10 megohms of poor insulation, only helps the leak.',
    'A second leak beside the first.',
    'A resistance that the text gives no ohms may be a leak as well.',
    'What another position of a switch, jack or selector cures is information.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: set('5 kilohms'),
  passes: set('5 meg'),
  find(study) {
    const found = faultsIn(study, study.conduction);
    const judged = judgedOverPositions(
      study,
      (conduction) =>
        conduction === study.conduction
          ? new Set(found.keys())
          : new Set(faultsIn(study, conduction).keys()),
      whileLit,
    );
    return [...judged].flatMap(([tube, { curedBy }]) => {
      const fault = found.get(tube);
      return fault ? [told(study, tube, fault, curedBy)] : [];
    });
  },
};

interface Fault {
  readonly round: 'condenser' | 'leak';
  readonly steps: readonly Step[];
  readonly to: number;
}

function faultsIn(study: Study, conduction: Conduction): ReadonlyMap<TubeAt, Fault> {
  const rails = railsOf(conduction);
  const faults = new Map<TubeAt, Fault>();
  for (const tube of study.tubes) {
    const fault = faultOf(study, conduction, rails, tube);
    if (fault) faults.set(tube, fault);
  }
  return faults;
}

function faultOf(
  study: Study,
  conduction: Conduction,
  rails: Rails,
  tube: TubeAt,
): Fault | undefined {
  const { circuit } = study;
  const found = detectingLeakOf(circuit, tube);
  if (!found || !tube.grid) return undefined;
  const from = tube.grid.junction;
  const { condenser, leak } = found;
  const most = (leak.values.resistance?.value ?? LEAST_LEAK) * BYPASSING_PART;
  const isUnknown = ({ part, direct }: JoinedBranch): boolean => {
    const kind = circuit.partNamed.get(part)?.kind;
    return (
      (kind === 'resistor' || kind === 'leak') &&
      direct.kind === 'conducts' &&
      direct.ohms === undefined
    );
  };
  const skip = (branch: JoinedBranch): boolean => branch.part === leak.name || isUnknown(branch);
  const far = otherJunction(condenser, from);
  if (far !== undefined) {
    const passes = passesReturn(conduction);
    const isRail = (junction: number): boolean => junction !== far && rails.at.has(junction);
    const path = directPath(conduction, from, (junction) => junction === far, {
      prefer: 'ohms',
      throughSources: false,
      passes: (branch) =>
        passes(branch) &&
        !skip(branch) &&
        !isRail(branch.fromJunction) &&
        !isRail(branch.toJunction),
    });
    if (path.found && ohmsOf(conduction, path.steps) < most)
      return { round: 'condenser', steps: path.steps, to: far };
  }
  for (const { junction, rail } of returnEnds(conduction, rails, tube, from, { skip })) {
    if (rail?.kind === 'plate') continue;
    const steps = wayTo(conduction, from, junction, skip);
    if (ohmsOf(conduction, steps) < most) return { round: 'leak', steps, to: junction };
  }
  return undefined;
}

/** The fix that leads what goes from the grid by a part of two ends to the condenser's far side. */
function ledToFarSide(
  circuit: Circuit,
  tube: TubeAt,
  condenser: Part | undefined,
  passed: readonly Part[],
): readonly Fix[] {
  const grid = tube.grid?.junction;
  const end = passed[0]?.ends.find(({ junction }) => junction === grid);
  const far = condenser?.ends.find(({ junction }) => junction !== grid);
  return end && far && passed[0] !== condenser ? retargeted(circuit, end.id, far.id) : [];
}

function told(
  study: Study,
  tube: TubeAt,
  { round, steps, to }: Fault,
  curedBy: Settings | undefined,
): Finding {
  const { circuit, conduction } = study;
  const { part } = tube;
  const found = detectingLeakOf(circuit, tube);
  const useless = (round === 'condenser' ? found?.condenser.name : found?.leak.name) ?? '';
  const way = [...new Set(steps.map((step) => step.part))];
  const passed = way.flatMap((name) => circuit.partNamed.get(name) ?? []);
  const ohms = formatQuantity(ohmsOf(conduction, steps), 'resistance');
  const isWire = steps.length === 0;
  const leads = isWire
    ? `the grid is wired to ${junctionName(circuit, to)}`
    : `${listed(way)} (${ohms}) ${way.length > 1 ? 'lead' : 'leads'} from the grid to ${junctionName(circuit, to)} beside it`;
  return finding({
    check: 'grid-condenser-bypassed',
    severity: curedBy ? 'information' : 'error',
    message: `${useless} of ${part.name} does nothing${curedBy ? ' as drawn' : ''}: ${leads}.`,
    why: 'The grid cannot gather the charge by which it detects, and the signal is hardly heard.',
    cure: curedBy
      ? `Nothing, if it is meant: it is otherwise with ${standingWords(circuit, study.on.settings, curedBy)}.`
      : isWire
        ? `Part ${tube.grid?.id} from ${junctionName(circuit, to)}.`
        : `Take ${listed(way)} off the grid's side of ${found?.condenser.name ?? 'the condenser'}.`,
    place: part.place,
    related: [
      ...passed.map((each) => alsoPart(each, 'direct current goes this way')),
      ...(found
        ? [alsoPart(round === 'condenser' ? found.condenser : found.leak, 'this has nothing to do')]
        : []),
    ],
    parts: [part.name, useless],
    fixes: curedBy ? [] : ledToFarSide(circuit, tube, found?.condenser, passed),
  });
}
