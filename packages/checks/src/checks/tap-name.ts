import { type Finding, type Fix, isSupply, type Part, type SupplyTap } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { finding } from '../words/finding.ts';

/** A name within this part of the volts is right: a fresh 45 V block gives 47. Common practice. */
const NEAR = 0.05;
/** Blocks were tapped in steps of so many volts, three of which make 67.5. Common practice. */
const BLOCK_STEP = 22.5;
/** Cells of dry batteries, in volts: bias taps stand in steps of one or three of them. */
const CELL_VOLTS = 1.5;

/** A tap called one thing and stated to be another. */
export const tapName: Check = {
  id: 'tap-name',
  group: 'Batteries',
  severity: 'warning',
  summary: 'A tap whose name contradicts its stated voltage or its sign.',
  why: 'The lead goes to the post by its name, and everything computed goes by the volts: one of the two is wrong, and the set will not do what the numbers say.',
  silent: [
    'A name that cuts the half volt off is right: B+67 at 67.5 V, B+112 at 112.5 V, B+22 at 22.5 V.',
    'Within 5 % a name is right: a fresh block of 47 V is still B+45.',
    'A name without a number says nothing of the volts: B+DET, and A+ at 6.3 V.',
    'A number may be counted from any bare plus or minus of the same supply: C-4.5 from C+, wherever the zero is.',
    'B- need not be zero: with bias from the B battery it lies below it.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: setWith('tap B+45 22.5 V'),
  passes: setWith('tap B+45 45 V'),
  find({ circuit }) {
    return circuit.parts.filter(isSupply).flatMap((supply) => {
      // Counted once for a supply, so that many taps cost no more than few.
      const references = bareTaps(supply);
      return supply.supplyTaps.flatMap((tap) => told(supply, tap, references));
    });
  },
};

/** Volts that a tap's number may be counted from: the supply's zero, and taps without a number. */
function bareTaps(supply: Part): readonly number[] {
  const bare = supply.supplyTaps.flatMap((tap) =>
    numberOf(tap.end) === undefined && tap.volts !== undefined ? [tap.volts] : [],
  );
  return [...new Set([0, ...bare])];
}

/** The signed number at the end of a tap's name. */
function numberOf(name: string): number | undefined {
  const found = /([-+])(\d+(?:\.\d+)?)$/.exec(name);
  return found ? Number(`${found[1]}${found[2]}`) : undefined;
}

function told(supply: Part, tap: SupplyTap, references: readonly number[]): readonly Finding[] {
  const { volts, said } = tap;
  if (volts === undefined || said === undefined || !Number.isFinite(volts)) return [];
  const number = numberOf(tap.end);
  if (number === undefined) return wrongSign(supply, tap);
  if (references.some((reference) => agrees(number, volts - reference))) return [];
  const isSignOnly = references.some((reference) => agrees(-number, volts - reference));
  const meant = voltsOfName(number);
  return [
    finding({
      check: 'tap-name',
      severity: 'warning',
      message: isSignOnly
        ? `${tap.end} of ${supply.name} is called ${number < 0 ? 'negative' : 'positive'} and stated as ${written(volts)}.`
        : `${tap.end} of ${supply.name} is stated as ${written(volts)}.`,
      why: 'The lead is joined by the name and the volts are computed from the number; one of the two is wrong.',
      cure: `Write ${written(meant)}, or give the tap the name that its volts want.`,
      place: tap.place,
      parts: [supply.name],
      fixes: [stating(tap, meant)],
    }),
  ];
}

/** A plus below a minus of the same supply. */
function wrongSign(supply: Part, tap: SupplyTap): readonly Finding[] {
  const { volts } = tap;
  if (volts === undefined || !tap.end.endsWith('+')) return [];
  const minus = supply.supplyTaps.find((other) => other.end === `${tap.end.slice(0, -1)}-`);
  if (minus?.volts === undefined || volts >= minus.volts) return [];
  return [
    finding({
      check: 'tap-name',
      severity: 'warning',
      message: `${tap.end} of ${supply.name}, at ${written(volts)}, lies below ${minus.end}, at ${written(minus.volts)}.`,
      why: 'Whoever joins the leads by their names puts this supply in backwards.',
      cure: `Exchange the volts of ${tap.end} and ${minus.end}.`,
      place: tap.place,
      related: [{ place: minus.place, message: `${minus.end} stands here.` }],
      parts: [supply.name],
      fixes: exchanging(tap, minus),
    }),
  ];
}

/** Whether a name's number says these volts, or says them with the half volt cut off. */
function agrees(number: number, volts: number): boolean {
  return Math.abs(volts - number) <= NEAR * Math.abs(number) || Math.trunc(volts) === number;
}

/** The volts that a name's number stands for: 67.5 of B+67. */
function voltsOfName(number: number): number {
  const withHalf = number + Math.sign(number) * 0.5;
  const step = number > 0 ? BLOCK_STEP : CELL_VOLTS;
  return Number.isInteger(number) && withHalf % step === 0 && number % step !== 0
    ? withHalf
    : number;
}

function stating(tap: SupplyTap, volts: number): Fix {
  const edits = tap.said ? [{ place: tap.said.place, text: written(volts) }] : [];
  return { title: `Make ${tap.end} ${written(volts)}`, edits };
}

function exchanging(a: SupplyTap, b: SupplyTap): readonly Fix[] {
  if (!a.said || !b.said) return [];
  return [
    {
      title: `Exchange the volts of ${a.end} and ${b.end}`,
      edits: [
        { place: a.said.place, text: b.said.text },
        { place: b.said.place, text: a.said.text },
      ],
    },
  ];
}

function written(volts: number): string {
  return formatQuantity(volts, 'voltage');
}

function setWith(tap: string): string {
  return `
receiver "One tube with phones" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    ${tap}
  }
  wire B- to A-
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
