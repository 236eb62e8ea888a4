import {
  type Conduction,
  closedCircuits,
  type Finding,
  type Part,
  positionOf,
  type Settings,
} from '@setwright/circuit';
import type { Check } from '../check.ts';
import { floatingGrids } from '../grids/floating-grid.ts';
import type { Study } from '../study.ts';
import { unsuppliedPlates } from '../supplies/plate-supply.ts';
import { railsOf } from '../supplies/rails.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { outsideBridges } from '../wiring/outside.ts';
import { controlsMoved, standingWords } from '../wiring/positions.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';

const set = (hornReturn: string) => `receiver "Cove Yawl" {
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
    condenser C3 .001 mfd from V1.plate to A-
  }
  audio stage AF1 {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms from V1.plate to B+45
      winding secondary 5000 ohms from C-4.5 to V2.grid
    }
    tube V2 01-A {
      filament from RH2 to A+
    }
    selector S1 "phones or horn" from V2.plate to PH1.start, H1.start set 1
    phones PH1 2000 ohms to B+90
    horn H1 2000 ohms to ${hornReturn}
  }
}
`;

/** A plate or grid that some position of a control cuts off. */
export const lostInSomePosition: Check = {
  id: 'lost-in-some-position',
  group: 'DC returns',
  severity: 'warning',
  summary:
    'A lit tube that loses its plate supply or its grid return at some position of a control.',
  why: 'A tube that is lit but cut off at one position of a jack or switch screeches, chokes or leaves the horn dead.',
  silent: [
    'A position that puts out that tube’s filament as well may take its plate and grid with it.',
    'A blank stud between two taps of a selector.',
    'A switch that takes the supply from every plate at once is an off switch.',
    'A plate whose jack closes when the plug is out keeps its supply.',
    'A tube that is cut off as drawn has its fault told by another check.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: set('A-'),
  passes: set('B+90'),
  find(study) {
    return losses(study).map((loss) => told(study, loss));
  },
};

type Electrode = 'plate' | 'grid';

interface Loss {
  readonly settings: Settings;
  readonly controls: readonly string[];
  readonly lost: { readonly tube: TubeAt; readonly electrode: Electrode }[];
}

/** What is lost at each way the controls can stand, the smallest changes first. */
function losses(study: Study): readonly Loss[] {
  const { circuit, tubes } = study;
  const [drawn, ...others] = study.everyPosition;
  if (!drawn || others.length === 0 || tubes.length === 0) return [];
  const bridges = outsideBridges(circuit);
  const cutOff = (conduction: Conduction) => ({
    plate: unsuppliedPlates(conduction, tubes, railsOf(conduction), bridges).none,
    grid: floatingGrids(conduction, tubes, bridges).tubes,
  });
  const asDrawn = cutOff(drawn.conduction);
  const ways = others
    .map((way) => ({ ...way, controls: controlsMoved(circuit, drawn.settings, way.settings) }))
    .sort((a, b) => a.controls.length - b.controls.length);
  const found: Loss[] = [];
  const told = new Map<string, (readonly string[])[]>();
  for (const { settings, conduction, controls } of ways) {
    if (isBlank(study, settings, controls)) continue;
    const cut = cutOff(conduction);
    if (isOff(tubes, asDrawn.plate, cut.plate)) continue;
    const { filaments } = closedCircuits(conduction);
    const lost: Loss['lost'] = [];
    for (const electrode of ['plate', 'grid'] as const) {
      for (const tube of cut[electrode]) {
        if (asDrawn[electrode].has(tube) || !filaments.has(tube.part.name)) continue;
        const key = `${tube.part.name}.${electrode}`;
        const before = told.get(key) ?? [];
        const positions = controls.map((name) => `${name} ${settings.positions.get(name)}`);
        // Two controls together are no news where one of them alone does it.
        if (before.some((fewer) => fewer.every((each) => positions.includes(each)))) continue;
        told.set(key, [...before, positions]);
        lost.push({ tube, electrode });
      }
    }
    if (lost.length > 0) found.push({ settings, controls, lost });
  }
  return found;
}

/** Whether a position takes the supply from every plate that has one: the set is off. */
function isOff(
  tubes: readonly TubeAt[],
  before: ReadonlySet<TubeAt>,
  now: ReadonlySet<TubeAt>,
): boolean {
  const supplied = tubes.filter((tube) => tube.plate && !before.has(tube));
  return supplied.length > 1 && supplied.every((tube) => now.has(tube));
}

/** Whether a selector that was moved stands on a stud that leads nowhere. */
function isBlank(study: Study, settings: Settings, controls: readonly string[]): boolean {
  const { circuit } = study;
  return controls.some((name) => {
    const part = circuit.partNamed.get(name);
    if (part?.kind !== 'selector') return false;
    const position = positionOf(part, settings);
    return part.contacts
      .filter(({ closedAt }) => closedAt.includes(position))
      .every(({ to }) => {
        const stud = circuit.endNamed.get(to);
        if (!stud || (circuit.junctions[stud.junction]?.terminals.length ?? 0) > 1) return !stud;
        return (study.conduction.at[stud.junction] ?? []).every((branch) => branch.part === name);
      });
  });
}

function told(study: Study, { settings, controls, lost }: Loss): Finding {
  const { circuit } = study;
  const parts = controls.flatMap((name) => circuit.partNamed.get(name) ?? []);
  const words = (electrode: Electrode): string[] => {
    const names = lost
      .filter((each) => each.electrode === electrode)
      .map(({ tube }) => tube.part.name);
    if (names.length === 0) return [];
    const whose =
      names.length > 1 ? `${electrode}s of ${listed(names)}` : `${electrode} of ${names[0]}`;
    const have = names.length > 1 ? 'have' : 'has';
    return [
      `the ${whose} ${have} no ${electrode === 'plate' ? 'supply' : 'way back to the filament'}`,
    ];
  };
  const at = standingWords(circuit, study.on.settings, settings);
  const tubes = [...new Set(lost.map(({ tube }) => tube.part))];
  const place = (parts[0] as Part | undefined)?.place ?? (tubes[0] as Part).place;
  return finding({
    check: 'lost-in-some-position',
    severity: 'warning',
    message: `With ${at}, ${listed([...words('plate'), ...words('grid')])}.`,
    why: 'The tube stays lit but is cut off: it screeches, chokes, or leaves the horn dead.',
    cure: `Give ${listed(controls)} a contact that closes at this position, or wire ${listed(tubes.map(({ name }) => name))} ahead of it.`,
    place,
    related: tubes.map((tube) => alsoPart(tube, `${tube.name} is cut off`)),
    parts: [...controls, ...tubes.map(({ name }) => name)],
  });
}
