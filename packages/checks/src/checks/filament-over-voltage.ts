import type { Finding, Fix, Part } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { controlsOf, type FilamentControl, fixedPartsOf } from '../filaments/filament-controls.ts';
import type { FilamentGroup } from '../filaments/filament-groups.ts';
import { groupVolts, ohmsFor } from '../filaments/group-volts.ts';
import { revalued } from '../fixes/edits.ts';
import {
  hottest,
  type Lit,
  litOf,
  named,
  ohms,
  percent,
  rating,
  settable,
  volts,
} from '../words/filament-words.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';

/** Above this part of its rating a filament is over-run; above the second it is in danger. */
const OVER = 1.1;
const FAR_OVER = 1.2;
/** What a control's extreme may do before it is more than a limit to be known. */
const DESTROYS = 1.5;
/** A fresh battery stands this much over its nominal volts. Common practice. */
const FRESH = 1.07;
/** Slack for numbers that are exact on paper, such as 6 V on a 5 V filament. */
const SLACK = 1e-3;

const why =
  'Over-run by a tenth a filament loses a good part of its life, and tubes of this age are not made any more.';

const set = (resistance: string): string => `receiver "Lantern Cove Single" {
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
  resistor R2 ${resistance} from NEG to V1.filament-
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

export const filamentOverVoltage: Check = {
  id: 'filament-over-voltage',
  group: 'Filaments and controls',
  severity: 'error',
  summary: 'A filament gets more than 10 % over its rated volts (an error above 20 %).',
  why,
  silent: [
    'A rheostat with no setting is set right first: what is judged is whether it can be.',
    'A 6.3 V charge on a fixed resistor of the right size is within 10 %.',
    'A rheostat that only at the end of its travel gives too much gets one line of information for each battery, with the limit to keep to; a warning only when that end gives more than half as much again with nothing else in the lead.',
    'A filament that is cold for a moment draws more, and never counts.',
    'A tube whose type is not known, or a resistance that is not said, is not judged.',
  ],
  source: 'common practice',
  fails: set('1 ohms'),
  passes: set('4 ohms'),
  needsWholeText: true,
  find({ filamentGroups }) {
    const findings: Finding[] = [];
    const direct = new Map<string, { group: FilamentGroup; lit: Lit }[]>();
    const limits = new Map<Part | undefined, Limit[]>();
    for (const group of filamentGroups) {
      if (!group.known) continue;
      const over = litOf(group, groupVolts(group)).filter(({ ratio }) => ratio > OVER + SLACK);
      const controls = controlsOf(group);
      const [first] = over;
      if (first && group.branches.length === 1) {
        // Straight across the battery: those that stand so together are told together.
        const { from, to } = group.branches[0] as { from: number; to: number };
        const key = [from, to].sort().join(' ');
        const together = direct.get(key);
        if (together) together.push({ group, lit: first });
        else direct.set(key, [{ group, lit: first }]);
      } else if (first) findings.push(asSet(group, over, controls));
      const hot = new Set(over.map(({ branch }) => branch));
      for (const control of controls) {
        const limit = limitOf(group, control, hot);
        if (!limit) continue;
        const its = limits.get(group.supply);
        if (its) its.push(limit);
        else limits.set(group.supply, [limit]);
      }
    }
    for (const tubes of direct.values()) findings.push(straightAcross(tubes));
    for (const [supply, its] of limits) findings.push(atExtreme(supply, its));
    return findings;
  },
};

function severityOf(worst: Lit): 'error' | 'warning' {
  return worst.ratio > FAR_OVER + SLACK ? 'error' : 'warning';
}

/** `V1 and V2 get 6 V …, 20 % over the 5 V of the 01-A`. */
function tooMuch(worst: Lit, over: readonly Lit[]): string {
  const alike = over.filter(({ ratio }) => Math.abs(ratio - worst.ratio) < 0.005);
  const tubes = alike.map(({ tube }) => tube);
  const others = over.filter((each) => !alike.includes(each)).map(({ tube }) => tube);
  const also = others.length > 0 ? `, and ${named(others)} too much as well` : '';
  return `${named(tubes)} ${tubes.length > 1 ? 'get' : 'gets'} ${volts(worst.volts)} on the filament, ${percent(
    worst.ratio - 1,
  )} over ${rating(worst)}${also}`;
}

/** Tubes that get too much as the controls are set, or with nothing that could be set. */
function asSet(
  group: FilamentGroup,
  over: readonly Lit[],
  controls: readonly FilamentControl[],
): Finding {
  const worst = hottest(over) as Lit;
  const governs = ({ filaments }: FilamentControl) => filaments.includes(worst.branch);
  const control = controls.find(governs) ?? fixedPartsOf(group).find(governs);
  const wanted = control && ohmsFor(group, control.branch, worst.branch, worst.rated);
  const cure = cureOf(worst, control, wanted);
  return finding({
    check: 'filament-over-voltage',
    severity: severityOf(worst),
    message: `${tooMuch(worst, over)}${control ? `, ${standing(group, control)}` : ''}.`,
    why,
    cure: cure.text,
    place: worst.tube.place,
    related: [
      ...(control ? [alsoPart(control.part, `${control.part.name} sets these filaments.`)] : []),
      ...over.flatMap(({ tube, volts: its }) =>
        tube === worst.tube ? [] : [alsoPart(tube, `${tube.name} gets ${volts(its)}.`)],
      ),
    ],
    parts: [...over.map(({ tube }) => tube.name), ...(control ? [control.part.name] : [])],
    fixes: cure.fixes,
  });
}

function standing(group: FilamentGroup, { part, branch }: FilamentControl): string {
  const stands = group.branches[branch]?.ohms ?? 0;
  if (part.kind === 'ballast') return `behind the ballast ${part.name}`;
  if (part.kind === 'resistor') return `behind the ${ohms(stands)} of ${part.name}`;
  return part.setting === undefined
    ? `even with all of ${part.name} in`
    : `with ${ohms(stands < 1e-3 ? 0 : stands)} of ${part.name} in`;
}

function cureOf(
  worst: Lit,
  control: FilamentControl | undefined,
  wanted: number | undefined,
): { readonly text: string; readonly fixes: readonly Fix[] } {
  const { tube } = worst;
  if (!control || wanted === undefined) {
    const amperes = tube.tubeType?.filamentAmperes;
    const what = amperes ? ohms(settable((worst.volts - worst.rated) / amperes)) : 'a resistance';
    return { text: `Put ${what} in the filament lead of ${tube.name}.`, fixes: [] };
  }
  const { part, whole } = control;
  const found = settable(wanted);
  if (part.kind === 'ballast') {
    const amperes = tube.tubeType?.filamentAmperes;
    const made = amperes === undefined ? 'the current of its tubes' : `${tube.name}'s current`;
    return { text: `Fit a ballast made for ${made} in place of ${part.name}.`, fixes: [] };
  }
  if (part.kind === 'resistor')
    return {
      text: `Make ${part.name} ${ohms(found)}.`,
      fixes: revalued(part, 'resistance', ohms(found)),
    };
  if (whole !== undefined && found > whole)
    return {
      text: `${part.name} has ${ohms(whole)}; fit a rheostat of more than ${ohms(found)} in its place.`,
      fixes: [],
    };
  const setting = part.setting;
  const fixes =
    setting && setting.place.file === part.place.file
      ? [
          {
            title: `Set ${part.name} to ${ohms(found)}`,
            edits: [{ place: setting.place, text: `set ${ohms(found)}` }],
          },
        ]
      : [];
  return { text: `Set ${part.name} to ${ohms(found)}.`, fixes };
}

/** Tubes between the battery's own wires. */
function straightAcross(tubes: readonly { group: FilamentGroup; lit: Lit }[]): Finding {
  const lit = tubes.map((each) => each.lit);
  const worst = hottest(lit) as Lit;
  const supply = tubes[0]?.group.supply;
  const amperes = worst.tube.tubeType?.filamentAmperes;
  const needed = amperes ? settable((worst.volts - worst.rated) / amperes) : undefined;
  const lead =
    lit.length > 1 ? 'the filament lead of each' : `the filament lead of ${worst.tube.name}`;
  const across = supply ? `straight across ${supply.name}` : 'with nothing in the lead';
  return finding({
    check: 'filament-over-voltage',
    severity: severityOf(worst),
    message: `${tooMuch(worst, lit)}, ${across}.`,
    why,
    cure: needed ? `Put ${ohms(needed)} in ${lead}.` : `Put a rheostat in ${lead}.`,
    place: worst.tube.place,
    related: [
      ...(supply ? [alsoPart(supply, `${supply.name} lights them.`)] : []),
      ...lit.flatMap(({ tube, volts: its }) =>
        tube === worst.tube ? [] : [alsoPart(tube, `${tube.name} gets ${volts(its)}.`)],
      ),
    ],
    parts: lit.map(({ tube }) => tube.name),
  });
}

/** A control whose extreme gives too much, and what must stay in. */
interface Limit {
  readonly part: Part;
  readonly worst: Lit;
  /** Ohms to keep in on a fresh battery; undefined when it has not got as many. */
  readonly keep: number | undefined;
  readonly bare: boolean;
}

function limitOf(
  group: FilamentGroup,
  control: FilamentControl,
  hot: ReadonlySet<number>,
): Limit | undefined {
  const { part, branch, whole, filaments, fullOn } = control;
  // A control that is wrong as it stands has been spoken of.
  if (filaments.some((filament) => hot.has(filament))) return undefined;
  const over = litOf(group, fullOn).filter(
    (lit) => filaments.includes(lit.branch) && lit.ratio > OVER + SLACK,
  );
  const worst = hottest(over);
  if (!worst) return undefined;
  let keep: number | undefined = 0;
  for (const { branch: filament, rated } of over) {
    const needed = ohmsFor(group, branch, filament, rated / FRESH);
    keep = needed === undefined || keep === undefined ? undefined : Math.max(keep, needed);
  }
  if (keep !== undefined) keep = settable(keep);
  if (keep !== undefined && whole !== undefined && keep > whole) keep = undefined;
  const bare =
    worst.ratio > DESTROYS &&
    !fixedPartsOf(group).some((fixed) => fixed.filaments.includes(worst.branch));
  return { part, worst, keep, bare };
}

/** What the controls of one battery can do at the end of their travel: told once. */
function atExtreme(supply: Part | undefined, limits: readonly Limit[]): Finding {
  const worst = limits.reduce((a, b) => (b.worst.ratio > a.worst.ratio * (1 + 1e-9) ? b : a));
  const parts = limits.map(({ part }) => part);
  const several = limits.length > 1;
  const keeps = limits
    .slice(0, MOST_LIMITS)
    .map(({ part, keep }) =>
      keep === undefined ? `all of ${part.name}` : `${ohms(keep)} of ${part.name}`,
    );
  const rest = limits.length > MOST_LIMITS ? ', and the rest likewise' : '';
  const from = supply ? ` from ${supply.name}` : '';
  const most = `${worst.worst.tube.name} gets ${volts(worst.worst.volts)}${from}, ${percent(
    worst.worst.ratio - 1,
  )} over ${rating(worst.worst)}`;
  return finding({
    check: 'filament-over-voltage',
    severity: limits.some(({ bare }) => bare) ? 'warning' : 'information',
    message: several
      ? `With their resistance all out ${named(parts)} give too much: at ${worst.part.name}'s end ${most}.`
      : `With its resistance all out ${worst.part.name} gives too much: ${most}.`,
    why,
    cure: `On a fresh battery keep ${listed(keeps)} in${rest}.`,
    place: worst.part.place,
    related: limits.flatMap(({ part, keep }) =>
      part === worst.part
        ? []
        : [
            alsoPart(
              part,
              keep === undefined
                ? `Keep all of ${part.name} in on a fresh battery.`
                : `Keep ${ohms(keep)} of ${part.name} in on a fresh battery.`,
            ),
          ],
    ),
    parts: parts.map(({ name }) => name),
  });
}

const MOST_LIMITS = 6;
