import type { Circuit, End, Finding, Part } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { exchanged } from '../fixes/exchange.ts';
import type { Study } from '../study.ts';
import { otherJunction, partsAt, type TubeAt } from '../tubes/tubes.ts';
import { alsoPart, finding } from '../words/finding.ts';

const set = (second: string) => `receiver "Cove Ferry" {
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
    tap C-16.5
  }
  post ANT aerial
  post GND ground
  wire B- to A- to GND to C+
  rheostat RH1 20 ohms from A- set 4 ohms
  rheostat RH2 20 ohms from A+ set 4 ohms
  rheostat RH3 20 ohms from A+ set 4 ohms
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
  output stage AF1 {
    transformer T1 "input transformer" {
      winding primary 800 ohms from V1.plate to B+45
      winding first 3000 ohms from C-16.5 to V2.grid
      winding second 3000 ohms ${second}
    }
    tube V2 71-A {
      filament from A- to RH2
    }
    tube V3 71-A {
      filament from A- to RH3
    }
    transformer T2 "output transformer" {
      winding primary 500 ohms centre to B+90 from V2.plate to V3.plate
      winding secondary 600 ohms
    }
    speaker SP1 2000 ohms across T2.secondary
  }
}
`;

/** Push-pull tubes whose grids go up and down together. */
export const pushPullInStep: Check = {
  id: 'push-pull-in-step',
  group: 'Audio and ratings',
  severity: 'error',
  summary: 'Push-pull tubes whose grids are driven in the same sense.',
  why: 'What the two plates do together cancels in the output transformer: the set is nearly silent while every voltage is right.',
  silent: [
    'One tapped winding with a grid at each end and its return at the tap drives them opposite.',
    'Two windings whose ends say that they are opposite, or one of them `reversed`.',
    'Windings of two transformers, or a grid whose winding is not told: the sense is not known.',
    'Two tubes with their plates side by side work in parallel, and want their grids in step.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: set('from C-16.5 to V3.grid'),
  passes: set('from V3.grid to C-16.5'),
  find(study) {
    return pushPullPairs(study).flatMap(([a, b]) => {
      const drives = [a, b].map((tube) => driveOf(study.circuit, tube));
      const [first, second] = drives;
      if (!first || !second || first.owner !== second.owner || first.sense !== second.sense)
        return [];
      return [told(study, a, b, first, second)];
    });
  },
};

/** Pairs of tubes whose plates pull at the two sides of one winding. */
function pushPullPairs(study: Study): readonly (readonly [TubeAt, TubeAt])[] {
  const { circuit } = study;
  const bySide = new Map<Part, Map<number, TubeAt>>();
  for (const tube of study.tubes) {
    const found = tube.plate && sideOf(circuit, tube.plate.junction);
    if (!found) continue;
    const sides = bySide.get(found.winding) ?? new Map<number, TubeAt>();
    bySide.set(found.winding, sides);
    if (!sides.has(found.side)) sides.set(found.side, tube);
  }
  return [...bySide.values()].flatMap((sides) => {
    const [above, below] = [sides.get(1), sides.get(-1)];
    return above && below ? [[above, below] as const] : [];
  });
}

interface Place {
  readonly winding: Part;
  /** +1 toward the winding's finish from its joined tap, −1 toward its start. */
  readonly side: number;
  readonly end: End;
}

/**
 * Where on a tapped winding a junction is, counted from the one tap that is joined to something.
 * Undefined when no winding is there, when there are several, or when it has no such tap.
 */
function sideOf(circuit: Circuit, junction: number): Place | undefined {
  const windings = partsAt(circuit, junction).filter(isWinding);
  const [winding] = windings;
  if (!winding || windings.length !== 1) return undefined;
  const tapped = winding.taps.flatMap((tap) => {
    const end = winding.ends.find(({ name }) => name === tap.end);
    return end && end.joins.length > 0 && tap.fraction !== undefined && end.junction !== junction
      ? [tap.fraction]
      : [];
  });
  const here = winding.ends.filter((end) => end.junction === junction);
  const [end] = here;
  const fraction = end && here.length === 1 ? fractionOf(winding, end) : undefined;
  const [tap] = tapped;
  if (!end || fraction === undefined || tap === undefined || tapped.length !== 1) return undefined;
  return fraction === tap ? undefined : { winding, side: Math.sign(fraction - tap), end };
}

function isWinding(part: Part): boolean {
  return part.kind === 'winding' || part.kind === 'choke';
}

/** How far along its winding an end is, 0 at the start and 1 at the finish. */
function fractionOf(winding: Part, end: End): number | undefined {
  if (end.name === 'start') return 0;
  if (end.name === 'finish') return 1;
  return winding.taps.find((tap) => tap.end === end.name)?.fraction;
}

interface Drive {
  /** The winding, or the coil or transformer that it belongs to. */
  readonly owner: string;
  readonly winding: Part;
  readonly sense: number;
  readonly grid: End;
}

/** The winding that drives a grid, and in which sense; undefined where that is not known. */
function driveOf(circuit: Circuit, tube: TubeAt): Drive | undefined {
  const { grid } = tube;
  if (!grid) return undefined;
  const junction = windingJunction(circuit, grid.junction);
  const tapped = sideOf(circuit, junction);
  const turn = (winding: Part): number => (winding.winding?.reversed ? -1 : 1);
  const ownerOf = (winding: Part): string => winding.owner ?? winding.name;
  if (tapped) {
    const { winding, side } = tapped;
    return { owner: ownerOf(winding), winding, sense: side * turn(winding), grid };
  }
  const windings = partsAt(circuit, junction).filter((part) => part.kind === 'winding');
  const [winding] = windings;
  if (!winding || windings.length !== 1 || winding.taps.length > 0) return undefined;
  const [start, finish] = winding.ends;
  if (!start || !finish || start.joins.length === 0 || finish.joins.length === 0) return undefined;
  if (start.junction === finish.junction) return undefined;
  const side = finish.junction === junction ? 1 : -1;
  return { owner: ownerOf(winding), winding, sense: side * turn(winding), grid };
}

/** The junction behind a grid stopper, else the grid's own. */
function windingJunction(circuit: Circuit, grid: number): number {
  const here = partsAt(circuit, grid);
  if (here.some(isWinding)) return grid;
  const stopper = here.filter((part) => part.kind === 'resistor');
  const beyond = stopper.length === 1 && stopper[0] && otherJunction(stopper[0], grid);
  return typeof beyond === 'number' ? beyond : grid;
}

function told(study: Study, a: TubeAt, b: TubeAt, first: Drive, second: Drive): Finding {
  const names = `${a.part.name} and ${b.part.name}`;
  const isOne = first.winding === second.winding;
  const [start, finish] = second.winding.ends;
  const edits = !isOne && start && finish && exchanged(study.circuit, start, finish);
  return finding({
    check: 'push-pull-in-step',
    severity: 'error',
    message: isOne
      ? `The grids of ${names} are on the same side of ${first.winding.name}, while their plates pull at opposite ends.`
      : `The grids of ${names} go up together: ${first.winding.name} and ${second.winding.name} drive them in the same sense, while their plates pull at opposite ends.`,
    why: 'What the two plates do together cancels in the output transformer, and hardly a sound comes out.',
    cure: isOne
      ? `Put ${first.grid.id} and ${second.grid.id} at the two ends of ${first.winding.name}, with its tap on the C battery.`
      : `Exchange the two ends of ${second.winding.name}.`,
    place: second.winding.place,
    related: [
      ...(isOne ? [] : [alsoPart(first.winding, `this winding drives ${a.part.name}`)]),
      alsoPart(a.part, 'the one tube of the pair'),
      alsoPart(b.part, 'the other tube of the pair'),
    ],
    parts: [a.part.name, b.part.name, second.winding.name],
    fixes: edits ? [{ title: `Exchange the ends of ${second.winding.name}`, edits }] : [],
  });
}
