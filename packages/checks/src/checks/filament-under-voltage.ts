import type { Finding, Part } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { controlsOf, fixedPartsOf } from '../filaments/filament-controls.ts';
import { type FilamentGroup, LEAST_OHMS } from '../filaments/filament-groups.ts';
import { groupVolts, ohmsFor } from '../filaments/group-volts.ts';
import { revalued } from '../fixes/edits.ts';
import {
  coldest,
  type Lit,
  litOf,
  named,
  ohms,
  percent,
  rating,
  settable,
  volts,
} from '../words/filament-words.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** Below this part of its rated volts a filament emits too little. Common practice. */
const LEAST = 0.9;
/** Below this part it is not lit at all, which is another fault. */
const DARK = 0.02;
/** Slack for numbers that are exact on paper. */
const SLACK = 1e-3;

const set = (size: string): string => `receiver "Lantern Cove Single" {
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
  resistor R2 ${size} from NEG to V1.filament-
  coil L1 {
    form 3 in
    winding grid 50 turns of 24 DCC tap 10 to ANT from GND
  }
  condenser C1 variable 20 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
  detector stage DET {
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament to A+
    }
    condenser C3 .001 mfd from V1.plate to NEG
    phones H1 2000 ohms from V1.plate to B+45
  }
}`;

export const filamentUnderVoltage: Check = {
  id: 'filament-under-voltage',
  group: 'Filaments and controls',
  severity: 'warning',
  summary: 'No setting brings a filament to 90 % of its rated volts.',
  why: 'A filament that is too cool gives too few electrons: the tube is weak, and looks worn out when it is not.',
  silent: [
    'Some setting reaches 90 % on the nominal battery.',
    'A rheostat is set low on purpose, to spare the tubes or the ears, with room left.',
    'A battery that is run down is a matter for the bench, not for the wiring.',
    'A tube whose type is not known, or a resistance that is not said, is not judged.',
  ],
  source: 'common practice',
  fails: set('10 ohms'),
  passes: set('4 ohms'),
  needsWholeText: true,
  find({ filamentGroups }) {
    return filamentGroups.flatMap((group) => {
      if (!group.known) return [];
      const low = litOf(group, groupVolts(group)).filter(isLow(group.unloaded));
      if (low.length === 0) return [];
      // Each tube's own controls full on, the others as they stand.
      const controls = controlsOf(group);
      const still = low.flatMap((each) => {
        const own = controls.filter(({ filaments }) => filaments.includes(each.branch));
        const open = new Map(own.map(({ branch }) => [branch, LEAST_OHMS]));
        const best = litOf(group, groupVolts(group, { ohms: open })).find(
          ({ branch }) => branch === each.branch,
        );
        return best && isLow(group.unloaded)(best) ? [best] : [];
      });
      return still.length > 0 ? [tooLittle(group, still)] : [];
    });
  },
};

function isLow(unloaded: number): (lit: Lit) => boolean {
  return ({ ratio }) => ratio * unloaded < LEAST - SLACK && ratio > DARK;
}

function tooLittle(group: FilamentGroup, low: readonly Lit[]): Finding {
  const worst = coldest(low) as Lit;
  const tubes = low.map(({ tube }) => tube);
  const controls = controlsOf(group).filter(({ filaments }) => filaments.includes(worst.branch));
  const fullOn = new Map(controls.map(({ branch }) => [branch, LEAST_OHMS]));
  const loss = greatestLoss(group, worst, fullOn);
  const opened =
    controls.length > 0 ? ` with ${named(controls.map(({ part }) => part))} full on` : '';
  const lost = loss ? `; ${nameOfLead(loss.part)} takes ${volts(loss.volts)}` : '';
  const needed = loss && ohmsFor(group, loss.branch, worst.branch, worst.rated, fullOn);
  return finding({
    check: 'filament-under-voltage',
    severity: 'warning',
    message: `${named(tubes)} ${tubes.length > 1 ? 'get' : 'gets'} no more than ${volts(
      worst.volts,
    )}${opened}, ${percent(worst.ratio)} of ${rating(worst)}${lost}.`,
    why: filamentUnderVoltage.why,
    cure: cureOf(group, loss?.part, needed),
    place: worst.tube.place,
    related: [
      ...(loss ? [alsoPart(loss.part, `This takes ${volts(loss.volts)}.`)] : []),
      ...tubes.filter((tube) => tube !== worst.tube).map((tube) => alsoPart(tube, 'So does this.')),
    ],
    parts: [...tubes.map(({ name }) => name), ...(loss ? [loss.part.name] : [])],
    fixes:
      loss?.part.kind === 'resistor' && needed !== undefined && needed > 0
        ? revalued(loss.part, 'resistance', ohms(mostOf(needed)))
        : [],
  });
}

function nameOfLead(part: Part): string {
  return part.kind === 'lead' ? 'the lead' : part.name;
}

/** A size in hand that is surely no more than what is needed. */
function mostOf(needed: number): number {
  return Math.max(0.1, settable(needed) - (needed < 10 ? 0.1 : 1));
}

function cureOf(group: FilamentGroup, loss: Part | undefined, needed: number | undefined): string {
  if (loss && needed !== undefined && needed > 0) {
    const most = ohms(mostOf(needed));
    if (loss.kind === 'lead') return `Use a shorter or thicker lead, of no more than ${most}.`;
    if (loss.kind === 'ballast')
      return `Fit a ballast made for this tube in place of ${loss.name}.`;
    return `Give ${loss.name} no more than ${most}.`;
  }
  if (loss) return `Take ${nameOfLead(loss)} out of the filament circuit.`;
  return group.supply
    ? `Give ${group.supply.name} more cells, or fit tubes made for its volts.`
    : 'Give the battery more cells, or fit tubes made for its volts.';
}

/** No part that takes less than this part of the rated volts is to blame. */
const LEAST_LOSS = 0.05;

/** The lead or fixed part that takes most of what the filament lacks, its controls full on. */
function greatestLoss(
  group: FilamentGroup,
  worst: Lit,
  fullOn: ReadonlyMap<number, number>,
): { readonly part: Part; readonly branch: number; readonly volts: number } | undefined {
  const across = groupVolts(group, { ohms: fullOn });
  const before = new Set(fixedPartsOf(group).map(({ branch }) => branch));
  let found: { part: Part; branch: number; volts: number } | undefined;
  for (const [branch, { part }] of group.branches.entries()) {
    if (part.kind !== 'lead' && part.kind !== 'fuse' && !before.has(branch)) continue;
    const taken = Math.abs(across(branch));
    if (taken > LEAST_LOSS * worst.rated && taken > (found?.volts ?? 0))
      found = { part, branch, volts: taken };
  }
  return found;
}
