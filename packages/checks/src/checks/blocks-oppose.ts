import {
  type Conduction,
  type Finding,
  isFilamentSupply,
  type Part,
  type Settings,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { turnedRound } from '../fixes/rewired.ts';
import type { Study } from '../study.ts';
import { type SupplyPassed, suppliesFromFilaments } from '../supplies/supplies-on-way.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { joinsBetween } from '../wiring/joins-between.ts';
import { judgedOverPositions, standingWords } from '../wiring/positions.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';
import { tapWords } from '../words/supply-words.ts';
import { distinct } from '../words/way-words.ts';

/** A block that stands against the rest of its stack. */
interface Opposed {
  readonly turned: SupplyPassed;
  /** The block that it meets with the same sign. */
  readonly neighbour: SupplyPassed;
  readonly tubes: TubeAt[];
  /** Volts that the plates get from the stack, and what they would get with all blocks right. */
  gets: number;
  wants: number;
}

/** Two blocks of a B stack joined plus to plus. */
export const blocksOppose: Check = {
  id: 'blocks-oppose',
  group: 'Batteries',
  severity: 'error',
  summary:
    'Two blocks of a B stack are joined with like signs, so that they cancel instead of adding.',
  why: '45 less 45 is nothing, and 45 stands where 90 should be: the set is dead or weak, nothing reads negative, and the good block drives the other backwards.',
  silent: [
    'Blocks of equal volts side by side help one another.',
    'Batteries stacked for more bias feed no plate.',
    'A small cell that holds a meter back is no block.',
    'Two B batteries that share their minus and feed different tubes do not stand in one stack.',
    'A battery of which the volts are not known says nothing.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: setWith('wire P1 to P2', 'M2'),
  passes: setWith('wire P1 to M2', 'P2'),
  find(study) {
    const judged = judgedOverPositions(
      study,
      (conduction) => new Set(opposedAt(conduction, study.tubes).keys()),
    );
    if (judged.size === 0) return [];
    return [...opposedAt(study.conduction, study.tubes)].map(([block, opposed]) =>
      told(study, opposed, judged.get(block)?.curedBy),
    );
  },
};

/** The blocks that are turned round among others on the way to some plate. */
function opposedAt(conduction: Conduction, tubes: readonly TubeAt[]): ReadonlyMap<Part, Opposed> {
  const found = new Map<Part, Opposed>();
  if (conduction.circuit.parts.filter(isBlock).length < 2) return found;
  const suppliesTo = suppliesFromFilaments(conduction, tubes);
  for (const tube of tubes) {
    const stack = (tube.plate ? (suppliesTo(tube.plate.junction) ?? []) : []).filter(({ supply }) =>
      isBlock(supply),
    );
    if (!stack.some(({ volts }) => volts > 0)) continue;
    const gets = stack.reduce((sum, { volts }) => sum + volts, 0);
    const wants = stack.reduce((sum, { volts }) => sum + Math.abs(volts), 0);
    for (const [index, turned] of stack.entries()) {
      if (turned.volts >= 0) continue;
      const neighbour = stack[index - 1] ?? stack[index + 1];
      const before = found.get(turned.supply);
      if (!before) {
        if (neighbour) found.set(turned.supply, { turned, neighbour, tubes: [tube], gets, wants });
        continue;
      }
      before.tubes.push(tube);
      if (wants > before.wants) Object.assign(before, { gets, wants });
    }
  }
  return found;
}

/** A battery for plates, counted upward from its minus: a C battery is counted downward. */
function isBlock(part: Part): boolean {
  return (
    part.kind === 'battery' &&
    !isFilamentSupply(part) &&
    part.supplyTaps.every(({ volts }) => volts === undefined || volts >= 0)
  );
}

function told(study: Study, opposed: Opposed, curedBy: Settings | undefined): Finding {
  const { circuit } = study;
  const { turned, neighbour, tubes, gets, wants } = opposed;
  const isFirst =
    turned.entered !== neighbour.left && !meets(study, neighbour.left, turned.entered);
  const [own, other] = isFirst
    ? [turned.left, neighbour.entered]
    : [turned.entered, neighbour.left];
  const joins = joinsBetween(circuit, own, other).map(({ join }) => join);
  const place =
    (joins.find(({ said }) => said === 'wire') ?? joins[0])?.place ?? turned.supply.place;
  const block = turned.supply.name;
  const plates = tubes.length === 1 ? 'the plate' : 'the plates';
  const names = listed(tubes.map(({ part }) => part.name));
  return finding({
    check: 'blocks-oppose',
    severity: curedBy ? 'information' : 'error',
    message: `${block} stands against ${neighbour.supply.name}, ${tapWords(circuit, own)} on ${tapWords(circuit, other)}: ${plates} of ${names} ${tubes.length === 1 ? 'gets' : 'get'} ${formatQuantity(gets, 'voltage')} where the blocks would give ${formatQuantity(wants, 'voltage')}.`,
    why: `The set is dead or weak, and ${neighbour.supply.name} drives ${block} backwards.`,
    cure: curedBy
      ? `Nothing, if it is meant: they add with ${standingWords(circuit, study.on.settings, curedBy)}.`
      : `Turn ${block} round: exchange ${tapWords(circuit, turned.entered)} and ${tapWords(circuit, turned.left)}.`,
    place,
    related: distinct(
      [
        ...joins.map((join) => ({ place: join.place, message: 'This joins the two blocks.' })),
        alsoPart(turned.supply, `${block} is the block that is turned.`),
        alsoPart(neighbour.supply, `${neighbour.supply.name} stands right.`),
        ...tubes.map(({ part }) => alsoPart(part, `${part.name} is fed by them.`)),
      ],
      place,
    ),
    parts: [block, neighbour.supply.name, ...tubes.map(({ part }) => part.name)],
    fixes: curedBy ? [] : turnedRound(circuit, turned.supply, turned.entered, turned.left),
  });
}

function meets({ circuit }: Study, a: string, b: string): boolean {
  const junction = circuit.endNamed.get(a)?.junction;
  return junction !== undefined && junction === circuit.endNamed.get(b)?.junction;
}

function setWith(wire: string, top: string): string {
  return `
receiver "One tube on two blocks" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B1 dry {
    tap M1 0 V
    tap P1 22.5 V
  }
  battery B2 dry {
    tap M2 0 V
    tap P2 22.5 V
  }
  wire M1 to A-
  ${wire}
  resistor F1 4 ohms from A-
  detector stage DET {
    coil L1 {
      winding grid 240 uH 4 ohms from A-
    }
    condenser C1 variable 14 to 365 mmfd across L1.grid
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from F1 to A+
      plate to PH1
    }
    phones PH1 2000 ohms to ${top}
    condenser C3 .001 mfd from V1.plate to A-
  }
}
`;
}
