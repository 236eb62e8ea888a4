import type { Finding, Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { revalued } from '../fixes/edits.ts';
import type { Study } from '../study.ts';
import { isPlateSupply } from '../supplies/plate-feed.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** A fresh battery gives this much of what is printed on it. Common practice. */
const FRESH = 1.07;
/** Working voltages that condensers are sold with, in volts. Common practice. */
const usualRatings: readonly number[] = [100, 200, 300, 400, 600, 1000, 1500];
/** What a rating should have in hand. Common practice. */
const IN_HAND = 1.25;

/** A condenser under more volts than it is rated for. */
export const condenserOverVoltage: Check = {
  id: 'condenser-over-voltage',
  group: 'Audio and ratings',
  severity: 'warning',
  summary:
    'A condenser that stands under more volts than its stated rating, tubes cold or battery fresh.',
  why: 'It breaks down sooner or later, and then shorts the supply or puts it on a grid.',
  silent: [
    'A condenser with no rating stated.',
    'A condenser between taps of little difference.',
    'A rating that the voltage of a fresh battery, or of a supply with the tubes cold, stays within.',
    'A condenser whose volts cannot be told: an end that nothing holds, a tap of unknown volts, a divider of unknown resistors.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: setWith('100 V'),
  passes: setWith('200 V'),
  find(study) {
    const rated = study.circuit.parts.filter(
      ({ kind, values }) => kind === 'condenser' && (values.ratedVoltage?.value ?? 0) > 0,
    );
    if (rated.length === 0 || isGuessed(study)) return [];
    const supplies = suppliesByIsland(study);
    return rated.flatMap((condenser) => judged(study, supplies, condenser));
  },
};

/** Whether current runs through a resistor of unknown size, so that the volts are a guess. */
function isGuessed({ circuit, solved }: Study): boolean {
  return solved.assumed.some(({ part }) => {
    const kind = circuit.partNamed.get(part)?.kind;
    return kind === 'resistor' || kind === 'leak' || kind === 'potentiometer';
  });
}

/** The supplies for plates on every island of the set. */
function suppliesByIsland({ circuit, islands }: Study): ReadonlyMap<number, readonly Part[]> {
  const found = new Map<number, Part[]>();
  for (const part of circuit.parts) {
    if (!isPlateSupply(part)) continue;
    const island = islands[part.ends[0]?.junction ?? -1] ?? -1;
    found.set(island, [...(found.get(island) ?? []), part]);
  }
  return found;
}

function judged(
  study: Study,
  supplies: ReadonlyMap<number, readonly Part[]>,
  condenser: Part,
): Finding[] {
  const rating = condenser.values.ratedVoltage;
  const [first, second] = condenser.ends;
  if (!rating || !first || !second) return [];
  const volts = study.solved.voltage(first.id, second.id);
  if (volts === undefined) return [];
  const island = study.islands[first.junction] ?? -1;
  const here = supplies.get(island) ?? [];
  const isMains = here.some(({ kind }) => kind === 'eliminator');
  const most = Math.abs(volts) * (isMains ? 1 : FRESH);
  if (most <= rating.value) return [];
  const wanted = usualRatings.find((usual) => usual >= most * IN_HAND);
  return [
    finding({
      check: 'condenser-over-voltage',
      severity: 'warning',
      message: `${condenser.name} is rated ${formatQuantity(rating.value, 'voltage')} and stands under ${formatQuantity(most, 'voltage')} ${isMains ? 'while the tubes are cold' : 'with a fresh battery'}.`,
      why: 'It breaks down sooner or later, and then shorts the supply or puts it where it does harm.',
      cure: wanted
        ? `Use one rated for ${formatQuantity(wanted, 'voltage')} or more for ${condenser.name}.`
        : `Use one rated for more than ${formatQuantity(most, 'voltage')} for ${condenser.name}, with a quarter in hand.`,
      place: condenser.place,
      related: here.map((supply) => alsoPart(supply, 'it stands under this supply')),
      parts: [condenser.name],
      fixes: wanted ? revalued(condenser, 'ratedVoltage', formatQuantity(wanted, 'voltage')) : [],
    }),
  ];
}

function setWith(rating: string): string {
  return `receiver "Reading lamp" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  eliminator B {
    tap B-
    tap B+90 90 V at 10 mA resistance 4 kilohms
  }
  battery C dry {
    tap C+
    tap C-4.5
  }
  post ANT aerial
  post GND ground
  wire B- to A- to C+ to GND
  rheostat RH1 20 ohms from A+ to V1.filament+ set 4 ohms
  condenser C3 1 mfd ${rating} from B+90 to GND
  detector stage DET {
    coil L1 {
      form 3 in
      winding aerial 12 turns of 24 DCC from GND to ANT
      winding secondary 44 turns of 24 DCC beside aerial spaced 1/4 in from GND
    }
    condenser C1 variable 20 to 500 mmfd rotor to GND stator to L1.secondary.finish
    crystal CR1 from L1.secondary.finish to T1.primary.start
    condenser C2 .001 mfd across T1.primary
  }
  output stage AF {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms to GND
      winding secondary 5000 ohms from C-4.5 to V1.grid
    }
    tube V1 01-A {
      filament from A-
      plate to PH1.start
    }
    phones PH1 2000 ohms from V1.plate to B+90
  }
}
`;
}
