import { type Circuit, type Finding, isSupply, type Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { takenOff } from '../fixes/rewired.ts';
import type { Study } from '../study.ts';
import { type LoopSomewhere, loopsAtAnyPosition } from '../wiring/loops-at-any-position.ts';
import { type SourceLoop, tapsOfLoop } from '../wiring/source-loops.ts';
import { FEW_OHMS, ohmsOfWire } from '../wiring/wire-ohms.ts';
import { finding, listed } from '../words/finding.ts';
import { sentence, standingFirst } from '../words/position-words.ts';
import { tapJunction, tapWords } from '../words/supply-words.ts';
import { linesOfWay, partsOfWay, partWords, wayWords } from '../words/way-words.ts';

/** Less than this, in volts, is a slip of the pencil and no supply. */
const LEAST_VOLTS = 0.3;

/** Two sides of a battery with nothing between them that could hold the current back. */
export const batteryShorted: Check = {
  id: 'battery-shorted',
  group: 'Batteries',
  severity: 'error',
  summary: 'The two sides of a battery or eliminator are joined through less than a few ohms.',
  why: 'A storage battery drives hundreds of amperes through a short: wires glow, the acid boils, and the gas over it explodes. A dry battery is ruined in minutes.',
  silent: [
    'Filaments, heaters, lamps, ballasts and resistors never count, however few ohms they have.',
    'A stabilizing potentiometer across the A battery is a load, not a short.',
    'A charger across the battery is another supply, not a short.',
    'Two posts strapped where no battery is written down short nothing.',
    'A tap whose volts are not known says nothing.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: setWith('wire B- to A- to A+'),
  passes: setWith('wire B- to A-'),
  find(study) {
    const { circuit } = study;
    const ohmsOf = ohmsOfWire.bind(undefined, circuit);
    return loopsAtAnyPosition(study, ohmsOf, FEW_OHMS, isShort).map((short) => told(study, short));
  },
};

/** Whether a closed way leads from one side of a supply to the other, through no other supply. */
function isShort({ others, from, to, volts }: SourceLoop): boolean {
  const isOneSided = from.volts !== 0 && Math.sign(from.volts ?? 0) === Math.sign(to.volts ?? 0);
  return others.length === 0 && !isOneSided && Math.abs(volts) > LEAST_VOLTS;
}

function told(study: Study, { loop, settings }: LoopSomewhere): Finding {
  const { circuit } = study;
  const { supply, steps, volts } = loop;
  const [from, to] = tapsOfLoop(loop);
  const names = [loop.from.end, loop.to.end];
  // The wire on the tap that is not the zero is more likely to be the wrong one.
  const { place, related } =
    steps.length === 0 ? linesOfWay(circuit, to, from, []) : linesOfWay(circuit, from, to, steps);
  const standing = standingFirst(study, settings);
  const way = wayWords(circuit, steps);
  return finding({
    check: 'battery-shorted',
    severity: 'error',
    message: sentence(
      `${standing}${listed(names)} of ${supply.name} are joined ${way}, with ${formatQuantity(Math.abs(volts), 'voltage')} between them.`,
    ),
    why: whyOf(supply),
    cure: cureOf(circuit, loop, names),
    place: place ?? supply.place,
    related,
    parts: [supply.name, ...partsOfWay(steps)],
    fixes:
      steps.length > 0
        ? []
        : [from, to].flatMap((tap) => takenOff(circuit, tap, tap === from ? to : from)),
  });
}

function whyOf(supply: Part): string {
  if (supply.kind === 'eliminator')
    return 'A shorted eliminator gives nothing and burns out its own rectifier and transformer.';
  return supply.words.has('storage')
    ? 'A storage battery drives hundreds of amperes through a short: wires glow and the gas over the acid may explode.'
    : 'A shorted battery feeds nothing, grows hot and is ruined in minutes.';
}

function cureOf(circuit: Circuit, loop: SourceLoop, names: readonly string[]): string {
  const first = loop.steps[0];
  if (first) {
    const part = partWords(circuit, first.part);
    return `Take ${part} out of the way from ${names[0]} to ${names[1]}: one end of it belongs elsewhere.`;
  }
  const strapped = tapsBeside(circuit, loop);
  return strapped.length > 0
    ? `Leave ${listed(strapped)} on one of the two only, ${listed(names, 'or')}.`
    : `Take out the join between ${listed(names)}.`;
}

/** Taps of other supplies on the junction where the two sides meet: one of them was the bridge. */
function tapsBeside(circuit: Circuit, { supply, from }: SourceLoop): readonly string[] {
  const junction = tapJunction(supply, from);
  return (circuit.junctions[junction ?? -1]?.terminals ?? []).flatMap((id) => {
    const part = circuit.partOfEnd.get(id);
    return part && part !== supply && isSupply(part) ? [tapWords(circuit, id)] : [];
  });
}

function setWith(strap: string): string {
  return `
receiver "One tube on its batteries" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45
  }
  ${strap}
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
    phones PH1 2000 ohms to B+45
    condenser C3 .001 mfd from V1.plate to A-
  }
}
`;
}
