import {
  type Conduction,
  isSupply,
  type JoinedBranch,
  type Part,
  type Step,
  supposedOhms,
} from '@setwright/circuit';
import type { TubeAt } from '../tubes/tubes.ts';
import { leastOhms } from '../wiring/least-ohms.ts';
import { regionsOf } from '../wiring/regions.ts';

/** A supply on the way from the filaments. */
export interface SupplyPassed {
  readonly supply: Part;
  /** Volts that it adds on this way; negative when it is passed from plus to minus. */
  readonly volts: number;
  /** Full names of the taps by which it is entered and left. */
  readonly entered: string;
  readonly left: string;
}

/** A way of this many ohms or more is no part of the filament wiring. */
const MOST_HOME_OHMS = 5000;

/**
 * For any junction the supplies that lie between it and the nearest filament or cathode, on the
 * way of fewest ohms, in order from the filament. The supplies that light the filaments are left
 * out. Undefined for a junction that no way leads to, and where a supply on the way has taps of
 * unknown volts. n log n in the set; asking is as long as the way.
 */
export function suppliesFromFilaments(
  conduction: Conduction,
  tubes: readonly TubeAt[],
): (junction: number) => readonly SupplyPassed[] | undefined {
  const { circuit } = conduction;
  const emitters = tubes.flatMap(({ reference }) => reference?.junction ?? []);
  const ways = leastOhms(
    conduction,
    emitters,
    (branch) => {
      if (branch.direct.kind === 'blocks') return undefined;
      return branch.direct.ohms ?? supposedOhms(circuit, branch).ohms;
    },
    Number.POSITIVE_INFINITY,
  );
  const regions = regionsOf(conduction, isFilamentWiring);
  const home = new Set(
    tubes.flatMap(({ filamentMinus, filamentPlus, cathode }) =>
      [filamentMinus, filamentPlus, cathode].flatMap((end) => (end ? regions[end.junction] : [])),
    ),
  );
  return (junction) => {
    const way = ways.at(junction);
    if (!way) return undefined;
    const passed: SupplyPassed[] = [];
    for (const run of supplyRuns(way.steps())) {
      const last = run.at(-1) as Step;
      const supply = circuit.partNamed.get(last.part);
      if (!supply || !isSupply(supply) || home.has(regions[last.junction])) continue;
      let volts = 0;
      for (const { direct } of run) {
        if (direct.kind !== 'source' || direct.volts === undefined) return undefined;
        volts += direct.volts;
      }
      passed.push({ supply, volts, entered: (run[0] as Step).from, left: last.to });
    }
    return passed;
  };
}

/** Steps through one supply from tap to tap are one passage. */
function supplyRuns(steps: readonly Step[]): readonly (readonly Step[])[] {
  const runs: Step[][] = [];
  let before: Step | undefined;
  for (const step of steps) {
    if (step.direct.kind === 'source') {
      const last = runs.at(-1);
      if (last && before?.direct.kind === 'source' && before.part === step.part) last.push(step);
      else runs.push([step]);
    }
    before = step;
  }
  return runs;
}

function isFilamentWiring({ direct }: JoinedBranch): boolean {
  return direct.kind === 'conducts' && (direct.ohms ?? 0) < MOST_HOME_OHMS;
}
