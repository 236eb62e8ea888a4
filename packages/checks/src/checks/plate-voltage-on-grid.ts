import {
  type Conduction,
  type End,
  type Finding,
  openVolts,
  type Part,
  type Settings,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { returnEnds, wayTo } from '../grids/return-path.ts';
import type { Study } from '../study.ts';
import { type Rail, type Rails, railsOf } from '../supplies/rails.ts';
import { isDiode, otherJunction, partsAt, type TubeAt } from '../tubes/tubes.ts';
import { judgedOverPositions, standingWords, whileLit } from '../wiring/positions.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';

const set = (coupling: string) => `receiver "Cove Cutter" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
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
  wire B- to A- to GND to C+
  rheostat RH1 20 ohms from A- set 4 ohms
  rheostat RH2 20 ohms from A- set 4 ohms
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
    resistor R2 100 kilohms from V1.plate to B+90
    condenser C3 .00025 mfd from V1.plate to A-
  }
  audio stage AF1 {
    ${coupling}
    leak R3 1 meg from V2.grid to C-4.5
    tube V2 01-A {
      filament from RH2 to A+
    }
    phones PH1 2000 ohms from V2.plate to B+90
  }
}
`;

/** A cathode with this much under it, in ohms, is lifted by its own current. */
const LIFTING_OHMS = 1000;

/** Plate voltage on a grid. */
export const plateVoltageOnGrid: Check = {
  id: 'plate-voltage-on-grid',
  group: 'DC returns',
  severity: 'error',
  summary: 'A B tap whose direct current reaches a grid: a blocking condenser missing or bypassed.',
  why: 'Plate voltage on a grid drives the tube’s current up until its emission or the part that feeds it is lost.',
  silent: [
    'The positive side of the filament battery is no plate voltage: `grid-return-side` speaks of that.',
    'A tube with grid and plate strapped together is a diode.',
    'The inner grid of a space-charge tube stands on a B tap on purpose.',
    'A direct-coupled amplifier, whose filament or cathode is lifted as high as its grid.',
    'One coil that carries both plate and grid, with a condenser ahead of the grid.',
    'A grid that by the numbers is not above its own filament.',
    'A condenser never counts as a path, whatever it may leak.',
    'What another position of a switch, jack or selector cures is information.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: set('wire V1.plate to V2.grid'),
  passes: set('condenser C4 .006 mfd 200 V from V1.plate to V2.grid'),
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
  readonly junction: number;
  readonly rail: Rail & { readonly kind: 'plate' };
}

function faultsIn(study: Study, conduction: Conduction): ReadonlyMap<TubeAt, Fault> {
  const rails = railsOf(conduction);
  const faults = new Map<TubeAt, Fault>();
  for (const tube of study.tubes) {
    if (!tube.grid || tube.screen || isDiode(tube) || isLifted(study, rails, tube)) continue;
    const ends = returnEnds(conduction, rails, tube, tube.grid.junction);
    const others = ends.some(({ rail }) => rail?.kind !== 'plate');
    for (const { junction, rail } of ends) {
      if (rail?.kind !== 'plate' || isNotAbove(study, tube, others, rail)) continue;
      faults.set(tube, { junction, rail });
      break;
    }
  }
  return faults;
}

/** Whether by the numbers the grid is not above its filament, or nobody can tell. */
function isNotAbove(
  study: Study,
  tube: TubeAt,
  hasOtherEnds: boolean,
  rail: Fault['rail'],
): boolean {
  const { grid, reference } = tube;
  const volts = grid && reference && study.solved.voltage(grid.id, reference.id);
  if (volts !== undefined) return volts <= 0;
  // With nothing but the tap on it, the grid is at the tap.
  return hasOtherEnds || (openVolts(rail.part, rail.tap) ?? 1) <= 0;
}

function isLifted(study: Study, rails: Rails, { cathode }: TubeAt): boolean {
  if (!cathode || rails.at.has(cathode.junction)) return false;
  return partsAt(study.circuit, cathode.junction).some(
    (part) =>
      part.kind === 'resistor' && (part.values.resistance?.value ?? LIFTING_OHMS) >= LIFTING_OHMS,
  );
}

function told(
  study: Study,
  tube: TubeAt,
  { junction, rail }: Fault,
  curedBy: Settings | undefined,
): Finding {
  const { circuit, conduction } = study;
  const { part, grid, reference } = tube;
  const from = grid?.junction ?? -1;
  const way = [...new Set(wayTo(conduction, from, junction).map((step) => step.part))];
  const passed = way.flatMap((name) => circuit.partNamed.get(name) ?? []);
  const through = way.length > 0 ? ` through ${listed(way.toReversed())}` : '';
  const volts = grid && reference && study.solved.voltage(grid.id, reference.id);
  const stands =
    volts !== undefined
      ? ` and holds it ${formatQuantity(volts, 'voltage', 'period', 2)} above its filament`
      : '';
  const condenser = partsAt(circuit, from).find(
    (candidate) => candidate.kind === 'condenser' && otherJunction(candidate, from) === from,
  );
  const plate = (circuit.junctions[from]?.terminals ?? []).find(
    (id) => id.endsWith('.plate') && circuit.partOfEnd.get(id) !== part,
  );
  const exchanged = curedBy ? undefined : leadsExchanged(study, passed.at(-1), junction);
  return finding({
    check: 'plate-voltage-on-grid',
    severity: curedBy ? 'information' : 'error',
    message: `${rail.tap.end} reaches the grid of ${part.name}${through}${curedBy ? ' as drawn' : ''}${stands}.`,
    why: 'So much plate current flows that the tube, or what feeds it, is spoilt.',
    cure: exchanged?.cure ?? cureOf(study, tube, { curedBy, condenser: condenser?.name, plate }),
    place: part.place,
    related: passed.map((each) => alsoPart(each, `${rail.tap.end} comes this way`)),
    // Whatever else is said of the way that B takes follows from this.
    parts: [part.name, ...way, ...(exchanged ? [exchanged.drives] : [])],
  });
}

/**
 * The feeds of a transformer's two windings, each on the other's lead: B comes to the grid's
 * winding, and the plate's winding leads to where a grid is returned. The tags stand side by side.
 */
function leadsExchanged(
  study: Study,
  winding: Part | undefined,
  junction: number,
): { readonly cure: string; readonly drives: string } | undefined {
  const { circuit } = study;
  const fed = winding?.ends.find((end) => end.junction === junction);
  if (winding?.kind !== 'winding' || winding.owner === undefined || !fed) return undefined;
  const rails = railsOf(study.conduction);
  for (const other of circuit.parts) {
    if (other.kind !== 'winding' || other.owner !== winding.owner || other === winding) continue;
    for (const tube of study.tubes) {
      const plate = other.ends.find((end) => end.junction === tube.plate?.junction);
      const feed = plate && farFrom(other, plate);
      const there = (feed && rails.at.get(feed.junction)) ?? [];
      if (!feed || there.length === 0 || there.some(({ kind }) => kind === 'plate')) continue;
      const names = [fed, feed].map(({ junction: at }) => circuit.junctions[at]?.name ?? '');
      return {
        cure: `The leads of ${fed.id} and ${feed.id} are exchanged: ${names[0]} belongs on ${feed.id}, ${names[1]} on ${fed.id}.`,
        drives: tube.part.name,
      };
    }
  }
  return undefined;
}

const farFrom = ({ ends }: Part, { junction }: End): End | undefined =>
  ends.find((end) => end.junction !== junction && (end.name === 'start' || end.name === 'finish'));

function cureOf(
  study: Study,
  tube: TubeAt,
  {
    curedBy,
    condenser,
    plate,
  }: {
    readonly curedBy: Settings | undefined;
    readonly condenser: string | undefined;
    readonly plate: string | undefined;
  },
): string {
  const grid = tube.grid?.id ?? '';
  if (curedBy)
    return `Nothing, if it is meant: it is otherwise with ${standingWords(study.circuit, study.on.settings, curedBy)}.`;
  if (condenser) return `Take off the wire round ${condenser}, which should keep ${grid} apart.`;
  if (plate) return `Put a blocking condenser of .006 mfd between ${plate} and ${grid}.`;
  return `Part ${grid} from what leads to the B tap, or put a blocking condenser ahead of it.`;
}
