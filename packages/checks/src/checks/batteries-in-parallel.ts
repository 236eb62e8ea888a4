import {
  type Branch,
  type Circuit,
  type Finding,
  isFilamentSupply,
  type Part,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { takenOff } from '../fixes/rewired.ts';
import type { Study } from '../study.ts';
import { drives, type LoopSomewhere, loopsAtAnyPosition } from '../wiring/loops-at-any-position.ts';
import { type SourceLoop, tapsOfLoop } from '../wiring/source-loops.ts';
import { FEW_OHMS, ohmsOfWire } from '../wiring/wire-ohms.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';
import { sentence, standingFirst } from '../words/position-words.ts';
import { tapWords } from '../words/supply-words.ts';
import { distinct, linesOfWay, partsOfWay, wayWords } from '../words/way-words.ts';

/** Volts within this part of one another count as equal. Common practice. */
const NEARLY_EQUAL = 0.05;
/** Taps with more than this between them, in ohms, are not joined. Common practice. */
const MOST_JOINED_OHMS = 1000;
/** Less than this, in volts, is nothing between two batteries. */
const LEAST_VOLTS = 0.3;

/** Two taps of different volts joined, so that one battery drives the other. */
export const batteriesInParallel: Check = {
  id: 'batteries-in-parallel',
  group: 'Batteries',
  severity: 'error',
  summary:
    'Taps that stand at different volts are joined, or batteries of different make-up are in parallel.',
  why: 'What one battery gives more than the other has nothing to hold it back but the batteries themselves: the stronger runs itself down into the weaker, which grows hot.',
  silent: [
    'Two blocks of equal volts and one kind side by side last the longer for it.',
    'Volts within 5 % of one another count as equal.',
    'A charger or trickle supply across a storage battery is there for that.',
    'Taps with more than a kilohm, or a filament, lamp or ballast, between them are not joined.',
    'A potentiometer or small resistor among filament and bias supplies sets a voltage.',
    'A tap whose volts are not known says nothing.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: setWith('wire B+45 to TOP to B+22'),
  passes: setWith('wire B+45 to TOP'),
  find(study) {
    const { circuit } = study;
    const ohmsOf = ohmsOfJoin.bind(undefined, circuit);
    return loopsAtAnyPosition(study, ohmsOf, MOST_JOINED_OHMS, isFault).map((found) =>
      told(study, found),
    );
  },
};

/** Besides what counts as wire, windings and resistors that hold back too little. */
function ohmsOfJoin(circuit: Circuit, branch: Branch): number | undefined {
  const wire = ohmsOfWire(circuit, branch);
  if (wire !== undefined && wire <= FEW_OHMS) return wire;
  const kind = circuit.partNamed.get(branch.part)?.kind;
  return (kind === 'winding' || kind === 'choke' || kind === 'resistor') &&
    branch.direct.kind === 'conducts'
    ? branch.direct.ohms
    : undefined;
}

function isFault(loop: SourceLoop): boolean {
  if (loop.ohms > FEW_OHMS && !isThroughResistance(loop)) return false;
  if (loop.others.length === 0) {
    // From one side of a battery to the other is a short, and told as one.
    const { from, to } = loop;
    const isOneSided = from.volts !== 0 && Math.sign(from.volts ?? 0) === Math.sign(to.volts ?? 0);
    return isOneSided && Math.abs(loop.volts) > LEAST_VOLTS;
  }
  return !isCharging(loop) && (areUnequal(loop) || areUnlike(loop));
}

/** Among plate batteries; what bias and filament supplies have between them sets a voltage. */
function isThroughResistance(loop: SourceLoop): boolean {
  return [loop.supply, ...loop.others].every(
    (supply) => supply.kind === 'battery' && !isFilamentSupply(supply),
  );
}

function isCharging({ supply, others }: SourceLoop): boolean {
  const supplies = [supply, ...others];
  return (
    supplies.some(({ kind }) => kind === 'eliminator') &&
    supplies.some(({ words }) => words.has('storage'))
  );
}

function areUnequal(loop: SourceLoop): boolean {
  const larger = Math.max(Math.abs(loop.volts), Math.abs(loop.othersVolts));
  return drives(loop) > Math.max(LEAST_VOLTS, NEARLY_EQUAL * larger);
}

/** One of dry cells and one of storage cells: they differ by the hour, whatever they are called. */
function areUnlike({ supply, others }: SourceLoop): boolean {
  const kinds = new Set([supply, ...others].map(chemistry));
  return kinds.has('dry') && kinds.has('storage');
}

function chemistry({ words }: Part): 'dry' | 'storage' | undefined {
  return words.has('storage') ? 'storage' : words.has('dry') ? 'dry' : undefined;
}

function told(study: Study, { loop, settings }: LoopSomewhere): Finding {
  const { circuit } = study;
  const { supply, others, steps } = loop;
  const [from, to] = tapsOfLoop(loop);
  const { place, related } = linesOfWay(circuit, from, to, steps);
  const standing = standingFirst(study, settings);
  const sources = [supply, ...others];
  const at = others.length === 0 ? (place ?? supply.place) : supply.place;
  return finding({
    check: 'batteries-in-parallel',
    severity: areUnequal(loop) && loop.ohms <= FEW_OHMS ? 'error' : 'warning',
    message: sentence(`${standing}${messageOf(circuit, loop)}`),
    why: whyOf(loop),
    cure: cureOf(circuit, loop),
    place: at,
    related: distinct(
      [...others.map((other) => alsoPart(other, `${other.name} is the other.`)), ...related],
      at,
    ),
    parts: [...sources.map(({ name }) => name), ...partsOfWay(steps)].filter(
      (name, index, all) => all.indexOf(name) === index,
    ),
    fixes:
      steps.length > 0 || others.length > 0
        ? []
        : [from, to].flatMap((tap) => takenOff(circuit, tap, tap === from ? to : from)),
  });
}

function whyOf(loop: SourceLoop): string {
  const volts = formatQuantity(drives(loop), 'voltage');
  if (!areUnequal(loop))
    return 'Their volts part as soon as they are used, and then one drives the other.';
  return loop.ohms <= FEW_OHMS
    ? `The ${volts} between them drive as much current as the batteries will give, day and night.`
    : `The ${volts} between them drive ${formatQuantity(drives(loop) / loop.ohms, 'current')} through it, day and night.`;
}

function messageOf(circuit: Circuit, loop: SourceLoop): string {
  const { supply, others, volts, othersVolts, steps } = loop;
  const taps = tapsOfLoop(loop).map((terminal) => tapWords(circuit, terminal));
  if (others.length === 0)
    return `${listed(taps)} are joined ${wayWords(circuit, steps)}, with ${formatQuantity(Math.abs(volts), 'voltage')} of ${supply.name} between them.`;
  const names = listed(others.map(({ name }) => name));
  const give = others.length > 1 ? 'give' : 'gives';
  if (!areUnequal(loop))
    return `${supply.name} (${chemistry(supply) ?? supply.kind}) and ${names} (${others.map(chemistry).find((kind) => kind) ?? 'battery'}) are in parallel.`;
  const across =
    loop.ohms > FEW_OHMS ? `across ${names} ${wayThrough(circuit, steps)}` : `across ${names}`;
  return `${supply.name} lies ${across}: from ${taps[0]} to ${taps[1]} it gives ${formatQuantity(volts, 'voltage')}, and ${names} ${give} ${formatQuantity(othersVolts, 'voltage')}.`;
}

function wayThrough(circuit: Circuit, steps: SourceLoop['steps']): string {
  return wayWords(
    circuit,
    steps.filter(({ direct }) => direct.kind !== 'source'),
  );
}

function cureOf(circuit: Circuit, loop: SourceLoop): string {
  const { supply, others, volts, othersVolts } = loop;
  const taps = tapsOfLoop(loop).map((terminal) => tapWords(circuit, terminal));
  const first = loop.steps.find(({ direct }) => direct.kind !== 'source');
  if (first && loop.ohms > FEW_OHMS)
    return `Give ${first.part} the place it belongs in: it should not lie between two taps.`;
  if (others.length === 0)
    return `Take ${taps[0]} and ${taps[1]} apart, and give each circuit the tap that it wants.`;
  if (!areUnequal(loop))
    return `Use ${supply.name} or ${listed(others.map(({ name }) => name))}, not both.`;
  return Math.sign(volts) === -Math.sign(othersVolts)
    ? `Turn ${supply.name} round, or take its ${taps[1]} off.`
    : `Take ${taps[1]} off, or put blocks of equal volts side by side.`;
}

function setWith(line: string): string {
  return `
receiver "One stage and a detector" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+22 22.5 V
    tap B+45
  }
  bus TOP
  wire B- to A-
  ${line}
  resistor F1 2 ohms from A-
  radio stage RF {
    loop LP1 180 uH 4 ohms from A- to V1.grid
    condenser C1 variable 14 to 365 mmfd across LP1
    tube V1 01-A {
      filament from F1 to A+
      plate to L1.plate.start
    }
  }
  detector stage DET {
    coil L1 {
      winding plate 12 uH 1 ohms to TOP
      winding grid 240 uH 4 ohms from A-
    }
    condenser C2 variable 14 to 365 mmfd across L1.grid
    condenser C3 .00025 mfd from L1.grid.finish to V2.grid
    leak R1 2 meg from V2.grid to A+
    tube V2 01-A {
      filament from F1 to A+
      plate to PH1
    }
    phones PH1 2000 ohms to B+22
    condenser C4 .001 mfd from V2.plate to A-
    condenser C5 .5 mfd from TOP to A-
  }
}
`;
}
