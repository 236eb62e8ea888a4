import type { Finding } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { controlsOf } from '../filaments/filament-controls.ts';
import type { FilamentGroup } from '../filaments/filament-groups.ts';
import { groupVolts } from '../filaments/group-volts.ts';
import { plateFeeds } from '../supplies/plate-feed.ts';
import { plateCurrentOf } from '../tubes/plate-current.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { joinedGroups } from '../wiring/joined-groups.ts';
import {
  amperes,
  type Lit,
  litOf,
  named,
  ohms,
  percent,
  settable,
} from '../words/filament-words.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** A filament may carry this much more or less than its rated current. Common practice. */
const CLOSE_ENOUGH = 0.1;
/** Beyond this much over its rating a filament is in danger, as in filament-over-voltage. */
const FAR_OVER = 0.2;
/** A string whose filaments differ by less than this is right or wrong as a whole. */
const ALIKE = 0.05;
/** Less than this part of the rated current is none. */
const NO_CURRENT = 0.05;

const set = (shunts: string): string => `receiver "Lantern Cove String" {
  battery A storage {
    tap A- 0 V
    tap A+ 12 V
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
  bus NEG
  wire B- to A- to C+ to GND
  switch S1 from A- to NEG closed
  resistor R1 58 ohms from A+ to V4.filament+
${shunts}  radio stage RF {
    coil L1 {
      form 3 in
      winding grid 50 turns of 24 DCC tap 10 to ANT from C-4.5
    }
    condenser C1 variable 20 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
    condenser C5 .5 mfd from C-4.5 to NEG
    resistor R9 1500 ohms from L1.grid.finish to V1.grid
    tube V1 30 {
      filament from NEG to V2.filament-
    }
  }
  detector stage DET {
    coil L2 {
      form 3 in
      winding plate 12 turns of 24 DCC from V1.plate to B+90
      winding grid 50 turns of 24 DCC beside plate spaced 1/8 in from NEG
    }
    condenser C2 variable 20 to 365 mmfd rotor to L2.grid.start stator to L2.grid.finish
    condenser C3 .00025 mfd from L2.grid.finish to V2.grid
    leak R2 2 meg from V2.grid to V2.filament+
    tube V2 30 {
      filament to V3.filament-
    }
    condenser C4 .001 mfd from V2.plate to NEG
    condenser C6 .5 mfd from B+90 to NEG
  }
  audio stage AF1 {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms from V2.plate to B+45
      winding secondary 5000 ohms from NEG to V3.grid
    }
    tube V3 30 {
      filament to V4.filament-
    }
  }
  output stage AF2 {
    transformer T2 ratio 1 to 3 {
      winding primary 800 ohms from V3.plate to B+90
      winding secondary 5000 ohms from V2.filament- to V4.grid
    }
    tube V4 30
    horn H1 2000 ohms from V4.plate to B+90
  }
}`;

export const seriesStringUneven: Check = {
  id: 'series-string-uneven',
  group: 'Filaments and controls',
  severity: 'error',
  summary:
    'A filament in a series string carries a current more than 10 % off its rating (an error above 20 % over).',
  why: 'The plate current of every tube goes home through the filaments before it: the last of the string burn, or the first are starved.',
  silent: [
    'Every filament is within 10 % of its rating, the plate currents and shunts counted.',
    'The string’s rheostat is not set, and some setting brings all of them within 10 %.',
    'All filaments are off by as much: that is a matter of the string’s voltage.',
    'A tube’s type, its published plate current or its tap’s volts are not known.',
  ],
  source:
    'common practice; plate currents from the types’ published points by the three-halves power law',
  fails: set(''),
  passes: set(
    '  resistor R3 300 ohms from NEG to V2.filament-\n  resistor R4 500 ohms from V2.filament- to V3.filament-\n',
  ),
  needsWholeText: true,
  find(study) {
    const judged = study.filamentGroups.filter(
      (group) => group.known && group.filaments.length > 1 && stringsOf(group).length > 0,
    );
    if (judged.length === 0) return [];
    const feeds = plateFeeds(study.conduction);
    const tubes = new Map(study.tubes.map((tube) => [tube.part.name, tube]));
    const currentOf = (tube: TubeAt) =>
      plateCurrentOf(tube, tube.plate && feeds.get(tube.plate.junction));
    return judged.flatMap((group) => {
      const inflow = plateInflow(group, tubes, currentOf);
      if (!inflow) return [];
      const lit = litOf(group, groupVolts(group, { inflow }));
      return stringsOf(group).flatMap((string) =>
        judge(
          group,
          lit.filter(({ branch }) => string.includes(branch)),
        ),
      );
    });
  },
};

/** Filaments, by branch, that the same current passes one after the other: two or more each. */
function stringsOf(group: FilamentGroup): number[][] {
  const { branches, filaments, rails } = group;
  const across = groupVolts(group);
  const joined = joinedGroups(branches.length);
  const at = new Map<number, { readonly arriving: number[]; readonly leaving: number[] }>();
  for (const index of filaments) {
    const branch = branches[index];
    const rated = branch?.part.tubeType?.filamentVolts;
    if (!branch || !rated || Math.abs(across(index)) < NO_CURRENT * rated) continue;
    const forward = across(index) < 0;
    for (const point of [branch.from, branch.to]) {
      if (rails.has(point)) continue;
      const here = at.get(point) ?? { arriving: [], leaving: [] };
      at.set(point, here);
      ((point === branch.to) === forward ? here.arriving : here.leaving).push(index);
    }
  }
  const inString = new Set<number>();
  for (const { arriving, leaving } of at.values()) {
    const [first] = arriving;
    if (first === undefined || leaving.length === 0) continue;
    for (const index of [...arriving, ...leaving]) {
      joined.join(first, index);
      inString.add(index);
    }
  }
  const strings = new Map<number, number[]>();
  for (const index of inString) {
    const string = strings.get(joined.of(index));
    if (string) string.push(index);
    else strings.set(joined.of(index), [index]);
  }
  return [...strings.values()];
}

/**
 * What the plates bring to the filament wiring, by point. It leaves the filament all along its
 * length, half of it as if at either end. Undefined where a plate's current is not known.
 */
function plateInflow(
  { branches, filaments }: FilamentGroup,
  tubes: ReadonlyMap<string, TubeAt>,
  currentOf: (tube: TubeAt) => number | undefined,
): ReadonlyMap<number, number> | undefined {
  const inflow = new Map<number, number>();
  for (const index of filaments) {
    const branch = branches[index];
    const tube = branch && tubes.get(branch.part.name);
    // A separate cathode takes the plate's current elsewhere.
    if (!branch || !tube || tube.cathode) continue;
    const current = currentOf(tube);
    if (current === undefined) return undefined;
    for (const point of [branch.from, branch.to])
      inflow.set(point, (inflow.get(point) ?? 0) + current / 2);
  }
  return inflow;
}

function judge(group: FilamentGroup, string: readonly Lit[]): Finding[] {
  const ratios = string.map(({ ratio }) => ratio);
  const [most, least] = [Math.max(...ratios), Math.min(...ratios)];
  if (string.length < 2 || most - least <= ALIKE) return [];
  const solvable = controlsOf(group).some(
    ({ part, filaments }) =>
      part.setting === undefined && string.some(({ branch }) => filaments.includes(branch)),
  );
  if (solvable && most / least <= (1 + CLOSE_ENOUGH) / (1 - CLOSE_ENOUGH)) return [];
  const off = string.filter(({ ratio }) => Math.abs(ratio - 1) > CLOSE_ENOUGH);
  const worst = off.reduce<Lit | undefined>(
    (a, b) => (a && Math.abs(a.ratio - 1) >= Math.abs(b.ratio - 1) ? a : b),
    undefined,
  );
  return worst ? [uneven(string, off, worst)] : [];
}

function ratedAmperes({ tube }: Lit): number {
  return tube.tubeType?.filamentAmperes ?? 0;
}

function uneven(string: readonly Lit[], off: readonly Lit[], worst: Lit): Finding {
  const rated = ratedAmperes(worst);
  const carries = rated * worst.ratio;
  const over = worst.ratio > 1;
  const type = worst.tube.tubeType?.name ?? worst.tube.name;
  const others = off.filter((each) => each !== worst).map(({ tube }) => tube);
  const also =
    others.length > 0
      ? `, and ${named(others)} ${others.length > 1 ? 'are' : 'is'} off as well`
      : '';
  const shunt = over ? settable(worst.rated / (carries - rated)) : 0;
  return finding({
    check: 'series-string-uneven',
    severity: worst.ratio - 1 > FAR_OVER ? 'error' : 'warning',
    message: `In the string of ${named(string.map(({ tube }) => tube))} the filament of ${worst.tube.name} carries about ${amperes(
      carries,
    )}, ${percent(Math.abs(worst.ratio - 1))} ${over ? 'over' : 'under'} the ${amperes(rated)} of the ${type}${also}.`,
    why: seriesStringUneven.why,
    cure: over
      ? `Put about ${ohms(shunt)} across the filament of ${worst.tube.name}.`
      : `Let ${amperes(rated)} through the string, and put a shunt across each filament that wants less.`,
    place: worst.tube.place,
    related: string
      .filter((each) => each !== worst)
      .map((each) =>
        alsoPart(
          each.tube,
          `${each.tube.name} carries about ${amperes(ratedAmperes(each) * each.ratio)}.`,
        ),
      ),
    parts: off.map(({ tube }) => tube.name),
  });
}
