import type { Finding, Part } from '@setwright/circuit';
import type { Check } from '../check.ts';
import type { FilamentGroup } from '../filaments/filament-groups.ts';
import { groupVolts } from '../filaments/group-volts.ts';
import {
  hottest,
  type Lit,
  litOf,
  named,
  percent,
  rating,
  volts,
} from '../words/filament-words.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** Above this part of its rating a filament is over-run; above the second it is in danger. */
const OVER = 1.1;
const FAR_OVER = 1.2;
/** Slack for numbers that are exact on paper. */
const SLACK = 1e-3;
/** How many tubes of one group are pulled in turn; tubes of one type side by side are one. */
const MOST_TRIED = 32;
/** A part is shared where it carries this many times the current of one tube. */
const SHARED = 1.15;

const set = (second: string, bus: string): string => `receiver "Lantern Cove Pair" {
  battery A dry {
    tap A- 0 V
    tap A+ 4.5 V
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
  rheostat RH1 30 ohms from NEG${second}
  coil L1 {
    form 3 in
    winding grid 50 turns of 24 DCC tap 10 to ANT from GND
  }
  condenser C1 variable 20 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
  detector stage DET {
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 99 {
      filament from RH1 to A+
    }
    condenser C3 .001 mfd from V1.plate to NEG
  }
  output stage AF {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms from V1.plate to B+45
      winding secondary 5000 ohms from C-4.5 to V2.grid
    }
    tube V2 99 {
      filament from ${bus} to A+
    }
    horn H1 2000 ohms from V2.plate to B+90
  }
}`;

export const tubeOutOverVoltage: Check = {
  id: 'tube-out-over-voltage',
  group: 'Filaments and controls',
  severity: 'warning',
  summary: 'Pulling a tube lifts the filaments that share its rheostat over their rating.',
  why: 'Tubes die while they are being tested: the one that is left takes the current that the others no longer draw through the shared resistance.',
  silent: [
    'Every tube has a rheostat, resistor or ballast of its own.',
    'The rise leaves the others within 10 % of their rating.',
    'A tube in a series string: pulling it puts the string out.',
    'What is over its rating with all tubes in is told by filament-over-voltage.',
  ],
  source: 'common practice',
  fails: set('', 'RH1'),
  passes: set('\n  rheostat RH2 30 ohms from NEG', 'RH2'),
  needsWholeText: true,
  find({ filamentGroups }) {
    return filamentGroups.flatMap((group) => {
      if (!group.known || group.filaments.length < 2) return [];
      const worst = worstPulled(group);
      return worst && worst.lit.ratio > OVER + SLACK ? [liftedBy(group, worst)] : [];
    });
  },
};

interface Pulled {
  /** The tubes that are out, by branch. */
  readonly out: readonly number[];
  /** The filament that is then furthest over. */
  readonly lit: Lit;
}

/** Each tube pulled alone, and each left alone: what does most harm. */
function worstPulled(group: FilamentGroup): Pulled | undefined {
  const asIs = groupVolts(group);
  const rightNow = new Set(
    litOf(group, asIs)
      .filter(({ ratio }) => ratio <= OVER + SLACK)
      .map(({ branch }) => branch),
  );
  let worst: Pulled | undefined;
  const pull = (out: readonly number[]): void => {
    const without = new Set(out);
    const left = litOf(group, groupVolts(group, { without })).filter(
      ({ branch }) => !without.has(branch) && rightNow.has(branch),
    );
    const lit = hottest(left);
    if (lit && lit.ratio > (worst?.lit.ratio ?? 0) * (1 + 1e-9)) worst = { out, lit };
  };
  for (const filament of oneOfEachKind(group)) {
    // One pulled first: of two that do the same harm it is the plainer to tell.
    pull([filament]);
    if (group.filaments.length > 2) pull(group.filaments.filter((other) => other !== filament));
  }
  return worst;
}

/** Filaments of which no two are alike: of one type, between the same two points. */
function oneOfEachKind(group: FilamentGroup): number[] {
  const seen = new Set<string>();
  return group.filaments
    .filter((filament) => {
      const branch = group.branches[filament];
      const key = `${branch?.from} ${branch?.to} ${branch?.ohms}`;
      return !seen.has(key) && seen.add(key) !== undefined;
    })
    .slice(0, MOST_TRIED);
}

function liftedBy(group: FilamentGroup, { out, lit }: Pulled): Finding {
  const pulled = partsOf(group, out);
  const shared = sharedParts(group, lit);
  const through = shared.length > 0 ? `, for they share ${named(shared)}` : '';
  const first = shared[0];
  return finding({
    check: 'tube-out-over-voltage',
    severity: lit.ratio > FAR_OVER + SLACK ? 'error' : 'warning',
    message: `With ${named(pulled)} out of ${pulled.length > 1 ? 'their sockets' : 'its socket'} ${
      lit.tube.name
    } gets ${volts(lit.volts)}, ${percent(lit.ratio - 1)} over ${rating(lit)}${through}.`,
    why: tubeOutOverVoltage.why,
    cure: 'Give each tube a rheostat, resistor or ballast of its own, and pull tubes only with the A battery off.',
    place: (first ?? lit.tube).place,
    related: [
      ...(first ? [alsoPart(lit.tube, `${lit.tube.name} is the one that is over-run.`)] : []),
      ...pulled.map((tube) => alsoPart(tube, `With ${tube.name} out the others get more.`)),
    ],
    parts: [...shared, lit.tube, ...pulled].map(({ name }) => name),
  });
}

function partsOf(group: FilamentGroup, branches: readonly number[]): Part[] {
  return branches.flatMap((branch) => group.branches[branch]?.part ?? []);
}

/** The resistances that carry the current of more tubes than one, those of most volts first. */
function sharedParts(group: FilamentGroup, lit: Lit): Part[] {
  const across = groupVolts(group);
  const one = Math.abs(across(lit.branch)) / (group.branches[lit.branch]?.ohms ?? 1);
  return group.branches
    .map(({ part, ohms }, branch) => ({ part, volts: Math.abs(across(branch)), ohms }))
    .filter(({ part, volts: lost, ohms }) => part.kind !== 'tube' && lost / ohms > SHARED * one)
    .sort((a, b) => b.volts - a.volts)
    .map(({ part }) => part);
}
