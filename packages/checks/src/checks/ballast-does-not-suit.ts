import type { Finding, Part } from '@setwright/circuit';
import type { Check } from '../check.ts';
import type { FilamentGroup } from '../filaments/filament-groups.ts';
import { amperes, named } from '../words/filament-words.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';

/** A ballast may differ from what its tubes draw by this much. Common practice. */
const CLOSE_ENOUGH = 0.1;
/** Slack for numbers that are exact on paper. */
const SLACK = 1e-6;

const set = (ballast: string): string => `receiver "Lantern Cove Cartridge" {
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
  ballast K1 ${ballast} from NEG to V1.filament-
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

export const ballastDoesNotSuit: Check = {
  id: 'ballast-does-not-suit',
  group: 'Filaments and controls',
  severity: 'warning',
  summary: 'A ballast is made for another current than its tubes draw.',
  why: 'A ballast gives its own current, whatever the tubes behind it want: they are over-run or starved.',
  silent: [
    'The type of a tube behind it, or its own current, is not stated.',
    'The currents agree within a tenth, as a 60 mA cartridge does for a tube of 63 mA.',
    'A rheostat beside it takes part of the current.',
  ],
  source: 'common practice',
  fails: set('5 V .06 A'),
  passes: set('5 V .25 A'),
  needsWholeText: true,
  find({ filamentGroups }) {
    return filamentGroups.flatMap(unsuited);
  },
};

/** What meets at a point of the filament wiring that no supply is on. */
interface Meeting {
  readonly ballasts: Part[];
  readonly tubes: Part[];
  isFed: boolean;
}

function unsuited(group: FilamentGroup): Finding[] {
  if (!group.branches.some(({ part }) => part.kind === 'ballast')) return [];
  const meetings = meetingsOf(group);
  const told = new Set<Part>();
  return meetings.flatMap(({ ballasts, tubes, isFed }) => {
    const [first] = ballasts;
    if (isFed || !first || tubes.length === 0 || told.has(first)) return [];
    const made = total(ballasts, (part) => part.values.ratedCurrent?.value);
    const drawn = total(tubes, (part) => part.tubeType?.filamentAmperes);
    if (made === undefined || drawn === undefined) return [];
    if (Math.abs(made - drawn) <= CLOSE_ENOUGH * drawn + SLACK) return [];
    for (const ballast of ballasts) told.add(ballast);
    return [differs(ballasts, tubes, made, drawn)];
  });
}

/** The points of a group, those joined by anything but tubes and ballasts taken as one. */
function meetingsOf({ branches, rails }: FilamentGroup): Meeting[] {
  const near = new Map<number, number[]>();
  for (const { part, from, to } of branches) {
    const joins = part.kind !== 'tube' && part.kind !== 'ballast';
    for (const [a, b] of [
      [from, to],
      [to, from],
    ] as const) {
      const here = near.get(a) ?? [];
      near.set(a, here);
      if (joins) here.push(b);
    }
  }
  const meetingAt = new Map<number, Meeting>();
  for (const start of near.keys()) {
    if (meetingAt.has(start)) continue;
    const meeting: Meeting = { ballasts: [], tubes: [], isFed: false };
    const waiting = [start];
    meetingAt.set(start, meeting);
    for (let here = waiting.pop(); here !== undefined; here = waiting.pop()) {
      if (rails.has(here)) meeting.isFed = true;
      for (const there of near.get(here) ?? []) {
        if (meetingAt.has(there)) continue;
        meetingAt.set(there, meeting);
        waiting.push(there);
      }
    }
  }
  for (const { part, from, to } of branches) {
    if (part.kind !== 'tube' && part.kind !== 'ballast') continue;
    for (const point of new Set([from, to])) {
      const meeting = meetingAt.get(point);
      (part.kind === 'tube' ? meeting?.tubes : meeting?.ballasts)?.push(part);
    }
  }
  return [...new Set(meetingAt.values())];
}

function total(parts: readonly Part[], of: (part: Part) => number | undefined): number | undefined {
  let sum = 0;
  for (const part of parts) {
    const value = of(part);
    if (value === undefined || !(value > 0)) return undefined;
    sum += value;
  }
  return sum;
}

function differs(
  ballasts: readonly Part[],
  tubes: readonly Part[],
  made: number,
  drawn: number,
): Finding {
  const first = ballasts[0] as Part;
  const names = listed(ballasts.map(({ name }) => name));
  const one = ballasts.length === 1;
  const said = first.values.ratedCurrent;
  const fixes =
    one && said && said.place.file === first.place.file
      ? [
          {
            title: `Make ${first.name} a ballast for ${amperes(drawn)}`,
            edits: [{ place: said.place, text: amperes(drawn) }],
          },
        ]
      : [];
  return finding({
    check: 'ballast-does-not-suit',
    severity: 'warning',
    message: `${names} ${one ? 'is' : 'are'} made for ${amperes(made)}, but ${named(tubes)} ${
      tubes.length > 1 ? 'draw' : 'draws'
    } ${amperes(drawn)}.`,
    why: ballastDoesNotSuit.why,
    cure: `Fit ${one ? 'a ballast' : 'ballasts'} for ${amperes(drawn)} in place of ${names}.`,
    place: first.place,
    related: [
      ...ballasts.slice(1).map((part) => alsoPart(part, `${part.name} feeds them too.`)),
      ...tubes.map((tube) => alsoPart(tube, `${tube.name} is behind it.`)),
    ],
    parts: [...ballasts, ...tubes].map(({ name }) => name),
    fixes,
  });
}
