import type { Finding } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { controlsOf, type FilamentControl } from '../filaments/filament-controls.ts';
import type { FilamentGroup } from '../filaments/filament-groups.ts';
import { ohmsFor } from '../filaments/group-volts.ts';
import { revalued } from '../fixes/edits.ts';
import { type Lit, litOf, named, ohms, settable } from '../words/filament-words.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** A setting is good that gives a filament this part of its rated volts. Common practice. */
const GOOD_FROM = 0.95;
const GOOD_TO = 1.05;
/** The good part of the travel is hard to find when it is less than this. */
const LEAST_TRAVEL = 1 / 20;
/** Slack for numbers that are exact on paper. */
const SLACK = 1e-3;

const set = (size: string): string => `receiver "Lantern Cove Single" {
  battery A dry {
    tap A- 0 V
    tap A+ 4.5 V
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
  rheostat RH1 ${size} from NEG
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
    phones H1 2000 ohms from V1.plate to B+45
  }
}`;

export const rheostatRange: Check = {
  id: 'rheostat-range',
  group: 'Filaments and controls',
  severity: 'warning',
  summary: 'A rheostat has no setting that gives its tubes their volts, or only a sliver of one.',
  why: 'Too small it leaves the filaments over-run however it is turned; too large, the right spot is missed by a hair.',
  silent: [
    'Some setting gives 95 to 105 % of the rated volts, and the good part is more than a twentieth of the travel.',
    'A vernier beside a ballast or a second rheostat in the same lead: the two are set together.',
    'A rheostat that is the volume control, as long as it has a good setting.',
    'Even full on it gives too little: the battery or its leads are at fault, not the rheostat.',
  ],
  source: 'common practice',
  fails: set('200 ohms'),
  passes: set('30 ohms'),
  needsWholeText: true,
  find({ filamentGroups }) {
    return filamentGroups.flatMap((group) => {
      if (!group.known) return [];
      const controls = controlsOf(group);
      return controls.flatMap((control) => judge(group, control, controls));
    });
  },
};

/** The ohms between which a filament gets what it should. */
interface Good {
  readonly lit: Lit;
  readonly from: number;
  readonly to: number;
}

function judge(
  group: FilamentGroup,
  control: FilamentControl,
  all: readonly FilamentControl[],
): Finding[] {
  const { whole, filaments, fullOn } = control;
  if (whole === undefined || whole <= 0) return [];
  const shared = all.some(
    (other) => other !== control && other.filaments.some((each) => filaments.includes(each)),
  );
  if (shared) return [];
  const lit = litOf(group, fullOn).filter(({ branch }) => filaments.includes(branch));
  // Its own volts may be the supply's, sagging under too many tubes: that is the supply's fault.
  if (lit.length === 0 || lit.some(({ ratio }) => ratio < GOOD_FROM - SLACK)) return [];
  const good = lit.flatMap((each) => goodOhms(group, control, each) ?? []);
  if (good.length < lit.length) return [];
  const from = Math.max(...good.map((each) => each.from));
  const to = Math.min(...good.map((each) => each.to));
  if (from > to * (1 + SLACK)) return [unlike(control, good)];
  if (from > whole * (1 + SLACK)) return [tooSmall(group, control, good)];
  const part = (Math.min(to, whole) - from) / whole;
  return part < LEAST_TRAVEL - SLACK ? [tooCoarse(control, good, from, to, part)] : [];
}

function goodOhms(group: FilamentGroup, { branch }: FilamentControl, lit: Lit): Good | undefined {
  const to = ohmsFor(group, branch, lit.branch, lit.rated * GOOD_FROM);
  // Where even full on gives no more than the upper bound, the good part begins at no ohms.
  const from = lit.ratio <= GOOD_TO ? 0 : ohmsFor(group, branch, lit.branch, lit.rated * GOOD_TO);
  // A tube that part of the current passes by may never fall so low: then nothing bounds it.
  return from === undefined ? undefined : { lit, from, to: to ?? Number.MAX_VALUE };
}

const tubesOf = (good: readonly Good[]) => good.map(({ lit }) => lit.tube);

function about(
  { part }: FilamentControl,
  good: readonly Good[],
  message: string,
  cure: string,
  size?: number,
): Finding {
  return finding({
    check: 'rheostat-range',
    severity: 'warning',
    message,
    why: rheostatRange.why,
    cure,
    place: part.place,
    related: tubesOf(good).map((tube) => alsoPart(tube, `${part.name} sets ${tube.name}.`)),
    parts: [part.name, ...tubesOf(good).map(({ name }) => name)],
    fixes: size === undefined ? [] : revalued(part, 'resistance', ohms(size)),
  });
}

/** Ohms that rheostats were sold with. Common practice. */
const usualSizes: readonly number[] = [2, 4, 6, 10, 15, 20, 25, 30, 40, 50, 60, 75, 100, 150, 200];

/** The least usual size that has at least so many ohms. */
function usualSize(least: number): number | undefined {
  return usualSizes.find((size) => size >= least);
}

function tooSmall(group: FilamentGroup, control: FilamentControl, good: readonly Good[]): Finding {
  const { part, whole = 0, branch } = control;
  const tubes = named(tubesOf(good));
  let right = 0;
  for (const { lit } of good)
    right = Math.max(right, ohmsFor(group, branch, lit.branch, lit.rated) ?? 0);
  const wanted = settable(right);
  return about(
    control,
    good,
    `${part.name} has ${ohms(whole)}, too few for ${tubes}, which ${
      good.length > 1 ? 'want' : 'wants'
    } ${ohms(wanted)} in the lead.`,
    `Fit a rheostat of more than ${ohms(wanted)} in place of ${part.name}.`,
    usualSize(2 * wanted),
  );
}

function tooCoarse(
  control: FilamentControl,
  good: readonly Good[],
  from: number,
  to: number,
  part: number,
): Finding {
  const { whole = 0 } = control;
  const name = control.part.name;
  const share = part < 0.001 ? 'next to none' : formatQuantity(part, 'percent', 'period', 2);
  return about(
    control,
    good,
    `${name} has ${ohms(whole)}, of which only ${ohms(from)} to ${ohms(to)} is right for ${named(
      tubesOf(good),
    )}: ${share} of its travel.`,
    `Fit a rheostat of no more than ${ohms(settable((to - from) / LEAST_TRAVEL))} in place of ${name}.`,
    usualSize(1.2 * to),
  );
}

function unlike(control: FilamentControl, good: readonly Good[]): Finding {
  const most = good.reduce((a, b) => (b.from > a.from ? b : a));
  const least = good.reduce((a, b) => (b.to < a.to ? b : a));
  const name = control.part.name;
  return about(
    control,
    good,
    `No setting of ${name} suits both ${least.lit.tube.name} and ${most.lit.tube.name}: one wants less than ${ohms(
      least.to,
    )}, the other more than ${ohms(most.from)}.`,
    `Give ${most.lit.tube.name} a rheostat of its own.`,
  );
}
