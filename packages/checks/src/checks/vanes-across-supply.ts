import {
  type Branch,
  type Circuit,
  type End,
  type Finding,
  type Part,
  supposedOhms,
  zeroTap,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { inSeries } from '../fixes/edits.ts';
import type { Study } from '../study.ts';
import { isPlateSupply, plateTapsOf } from '../supplies/plate-feed.ts';
import { partsAt } from '../tubes/tubes.ts';
import { leastOhms, type Nearest } from '../wiring/least-ohms.ts';
import { alsoPart, finding } from '../words/finding.ts';
import { tapWords } from '../words/supply-words.ts';

/** With this much in series touching plates do no harm. Common practice. */
const ENOUGH_OHMS = 10_000;
/** Less than this between the plates is no B battery. */
const LEAST_VOLTS = 12.6;

const set = (return_: string): string => `receiver "Lantern Cove Throttle" {
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
  bus NEG
  wire B- to A- to GND
  switch S1 from A- to NEG closed
  rheostat RH1 20 ohms from NEG
  coil L1 {
    form 3 in
    winding grid 50 turns of 24 DCC tap 10 to ANT from GND
    winding tickler 15 turns of 24 DCC beside grid spaced 1/8 in from V1.plate to H1.start
  }
  condenser C1 variable 20 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
  detector stage DET {
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from RH1 to A+
    }
    condenser C3 "throttle" variable 20 to 250 mmfd stator to H1.start rotor to ${return_}
    phones H1 2000 ohms to B+45
  }
}`;

export const vanesAcrossSupply: Check = {
  id: 'vanes-across-supply',
  group: 'Batteries',
  severity: 'information',
  summary: 'The plates of a variable condenser stand between a B tap and the filaments or a grid.',
  why: 'One bent plate or one speck of metal shorts the B battery, and burns out the winding or the tubes in its way.',
  silent: [
    'At least 10 kilohms lie in series.',
    'A fixed condenser in series keeps the battery off the plates.',
    'A trimming or neutralizing condenser, whose plates mica or glass keeps apart.',
  ],
  source: 'common practice',
  fails: set('NEG'),
  passes: set('C4.finish\n    condenser C4 .005 mfd mica from NEG'),
  needsWholeText: false,
  find(study) {
    const { circuit } = study;
    const variable = circuit.parts.filter(
      (part) => part.kind === 'condenser' && part.words.has('variable'),
    );
    if (variable.length === 0) return [];
    const found = new Map<Part, Finding>();
    for (const supply of circuit.parts) {
      if (!isPlateSupply(supply)) continue;
      const sides = sidesOf(study, supply);
      for (const condenser of variable) {
        if (found.has(condenser)) continue;
        const told = judge(study, condenser, sides);
        if (told) found.set(condenser, told);
      }
    }
    return [...found.values()];
  },
};

/** The ways of fewest ohms from a supply's taps, and from its zero. */
interface Sides {
  readonly fromTap: Nearest;
  readonly fromZero: Nearest;
}

function sidesOf({ circuit, conduction }: Study, supply: Part): Sides {
  const junctionOf = (name: string | undefined) =>
    supply.ends.find((end) => end.name === name)?.junction;
  const taps = plateTapsOf(supply).flatMap(({ end }) => junctionOf(end) ?? []);
  const zero = junctionOf(zeroTap(supply)?.end);
  const outward = (branch: Branch) =>
    branch.direct.kind === 'source' || isTube(circuit, branch) ? undefined : known(circuit, branch);
  const home = (branch: Branch) =>
    branch.part === supply.name ? undefined : known(circuit, branch);
  return {
    fromTap: leastOhms(conduction, taps, outward, ENOUGH_OHMS),
    fromZero: leastOhms(conduction, zero === undefined ? [] : [zero], home, ENOUGH_OHMS),
  };
}

function isTube(circuit: Circuit, { part }: Branch): boolean {
  return circuit.partNamed.get(part)?.kind === 'tube';
}

function known(circuit: Circuit, branch: Branch): number | undefined {
  const { direct } = branch;
  if (direct.kind === 'blocks') return undefined;
  if (direct.kind === 'source') return 0;
  return direct.ohms ?? supposedOhms(circuit, branch).ohms;
}

function judge(study: Study, condenser: Part, sides: Sides): Finding | undefined {
  const [first, second] = condenser.ends;
  if (!first || !second) return undefined;
  for (const [hot, cold] of [
    [first, second],
    [second, first],
  ] as const) {
    const feed = sides.fromTap.at(hot.junction);
    const volts = study.solved.voltage(hot.id, cold.id);
    if (!feed || feed.ohms >= ENOUGH_OHMS || volts === undefined) continue;
    if (Math.abs(volts) <= LEAST_VOLTS) continue;
    const home = sides.fromZero.at(cold.junction);
    const grid = home ? undefined : gridBeside(study, cold);
    const ohms = feed.ohms + (home?.ohms ?? 0);
    if (ohms >= ENOUGH_OHMS || (!home && !grid)) continue;
    const way = feed.steps();
    const begins = way[0] ? study.circuit.endNamed.get(way[0].from)?.junction : hot.junction;
    const tap = begins === undefined ? undefined : tapAt(study.circuit, begins);
    if (tap === undefined) continue;
    const passed = way.flatMap(({ part }) => study.circuit.partNamed.get(part) ?? []);
    return told(study.circuit, condenser, tap, Math.abs(volts), ohms, grid, passed);
  }
  return undefined;
}

/** A tube whose grid is on the far plates, with no winding's worth of ohms between. */
function gridBeside({ circuit, conduction }: Study, cold: End): Part | undefined {
  const near = leastOhms(
    conduction,
    [cold.junction],
    (branch) => (branch.direct.kind === 'source' ? undefined : known(circuit, branch)),
    ENOUGH_OHMS,
  );
  return circuit.parts.find(
    (part) =>
      part.kind === 'tube' &&
      part.ends.some(({ name, junction }) => name === 'grid' && near.at(junction) !== undefined),
  );
}

function tapAt(circuit: Circuit, junction: number): string | undefined {
  const supply = partsAt(circuit, junction).find(isPlateSupply);
  return supply?.ends.find((end) => end.junction === junction)?.id;
}

function told(
  circuit: Circuit,
  condenser: Part,
  tap: string,
  volts: number,
  ohms: number,
  grid: Part | undefined,
  passed: readonly Part[],
): Finding {
  const touching = `Should the plates of ${condenser.name} touch`;
  const through =
    ohms >= 1
      ? `through no more than ${formatQuantity(ohms, 'resistance')}`
      : 'with nothing in series';
  return finding({
    check: 'vanes-across-supply',
    severity: 'information',
    message: grid
      ? `${touching}, ${tapWords(circuit, tap)} is on the grid of ${grid.name}: ${formatQuantity(volts, 'voltage')} ${through}.`
      : `${touching}, the ${formatQuantity(volts, 'voltage')} of ${tapWords(circuit, tap)} are shorted ${through}.`,
    why: vanesAcrossSupply.why,
    cure: `Put .002 to .006 mfd of mica in series with ${condenser.name}.`,
    place: condenser.place,
    related: [...new Set(passed)].map((part) =>
      alsoPart(part, `${part.name} would carry the current.`),
    ),
    parts: [condenser.name],
    fixes: inSeries(circuit, condenser, '.005 mfd'),
  });
}
