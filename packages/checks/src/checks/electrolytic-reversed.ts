import { directCurrent } from '@setwright/analysis';
import type { Circuit, End, Finding, Part } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { exchanged } from '../fixes/exchange.ts';
import type { Study } from '../study.ts';
import { otherJunction, partsAt } from '../tubes/tubes.ts';
import { standingWords } from '../wiring/positions.ts';
import { volts as inVolts } from '../words/filament-words.ts';
import { finding, nameOf } from '../words/finding.ts';

/** An electrolytic bears this much the wrong way. Common practice. */
const MOST_REVERSE = 0.5;
/** No more positions than this are reckoned for it. */
const MOST_POSITIONS = 16;
/** A resistor under a cathode that makes a bias has at least this many ohms. Common practice. */
const LEAST_BIAS_OHMS = 50;

const set = (ends: string): string => `receiver "Lantern Cove Reservoir" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  eliminator B {
    tap B-
    tap B+45 45 V at 2 mA resistance 10 kilohms
  }
  post ANT aerial
  post GND ground
  bus NEG
  wire B- to A- to GND
  switch S1 from A- to NEG closed
  rheostat RH1 20 ohms from NEG
  condenser C4 8 mfd 450 V electrolytic ${ends}
  coil L1 {
    form 3 in
    winding grid 50 turns of 24 DCC tap 10 to ANT from GND
  }
  condenser C1 variable 20 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
  detector stage DET {
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from RH1 to A+
    }
    condenser C3 .001 mfd from V1.plate to NEG
    phones H1 2000 ohms from V1.plate to B+45
  }
}`;

export const electrolyticReversed: Check = {
  id: 'electrolytic-reversed',
  group: 'Batteries',
  severity: 'error',
  summary: 'An electrolytic condenser has direct voltage the wrong way round.',
  why: 'It heats, swells and bursts, and shorts the supply before it does.',
  silent: [
    'The text does not say which end is positive, as with two back to back or one without polarity.',
    'Nothing ties its ends together, so that no voltage can be told.',
    'Half a volt the wrong way does no harm.',
  ],
  source: 'common practice',
  fails: set('positive to B- negative to B+45'),
  passes: set('positive to B+45 negative to B-'),
  needsWholeText: true,
  find(study) {
    const polarized = study.circuit.parts.flatMap((part) => polarityOf(study.circuit, part) ?? []);
    if (polarized.length === 0) return [];
    const found = new Map<Part, Finding>();
    for (const each of polarized) {
      if (isUnderCathode(study.circuit, each))
        found.set(each.part, told(study, each, undefined, ''));
    }
    for (const { where, voltage } of standsOf(study)) {
      for (const each of polarized) {
        if (found.has(each.part)) continue;
        const volts = voltage(each.positive.id, each.negative.id);
        if (volts !== undefined && volts < -MOST_REVERSE)
          found.set(each.part, told(study, each, -volts, where));
      }
    }
    return [...found.values()];
  },
};

interface Polarized {
  readonly part: Part;
  readonly positive: End;
  readonly negative: End;
}

/** A condenser of which the text says where its positive or its negative end goes. */
function polarityOf(circuit: Circuit, part: Part): Polarized | undefined {
  if (part.kind !== 'condenser') return undefined;
  const positive = part.ends.find(({ name }) => name === 'positive');
  const negative = part.ends.find(({ name }) => name === 'negative');
  if (!positive || !negative) return undefined;
  const says = (end: End): boolean =>
    circuit.joins.some(
      ({ from, to, said }) =>
        (from === end.id && !noSide.has(said)) || (to === end.id && said !== 'across'),
    );
  return says(positive) || says(negative) ? { part, positive, negative } : undefined;
}

/** Words that join an end without saying which it is. */
const noSide: ReadonlySet<string> = new Set(['from', 'to', 'across']);

/** The set on, with its tubes out, and at its other positions; one after the other as asked for. */
function* standsOf(study: Study) {
  const { solved, circuit } = study;
  yield { where: '', voltage: solved.voltage };
  const out = solved.solveWithout(study.tubes.map(({ part }) => part.name));
  yield { where: 'with the tubes out of their sockets', voltage: out.voltage };
  for (const { settings } of study.everyPosition.slice(1, MOST_POSITIONS)) {
    const words = standingWords(circuit, study.on.settings, settings);
    yield { where: `with ${words}`, voltage: directCurrent(circuit, settings).voltage };
  }
}

/** Whether a cathode that its resistor lifts above the negative rail is on the negative end. */
function isUnderCathode(circuit: Circuit, { part, positive, negative }: Polarized): boolean {
  if (positive.junction === negative.junction) return false;
  return partsAt(circuit, negative.junction).some((tube) => {
    const cathode = tube.kind === 'tube' && tube.ends.find(({ name }) => name === 'cathode');
    if (!cathode || cathode.junction !== negative.junction) return false;
    return partsAt(circuit, negative.junction).some(
      (resistor) =>
        resistor !== part &&
        resistor.kind === 'resistor' &&
        (resistor.values.resistance?.value ?? 0) >= LEAST_BIAS_OHMS &&
        otherJunction(resistor, negative.junction) === positive.junction,
    );
  });
}

function told(
  { circuit }: Study,
  { part, positive, negative }: Polarized,
  volts: number | undefined,
  where: string,
): Finding {
  const edits = exchanged(circuit, positive, negative);
  const at = where === '' ? '' : `, ${where}`;
  const by =
    volts === undefined
      ? 'the cathode on its negative end stands above its positive end'
      : `its negative end stands ${inVolts(volts)} above its positive end`;
  return finding({
    check: 'electrolytic-reversed',
    severity: 'error',
    message: `${part.name} is the wrong way round: ${by}${at}.`,
    why: electrolyticReversed.why,
    cure: `Exchange ${nameOf(circuit, positive.id)} and ${nameOf(circuit, negative.id)}, and put in a new condenser if it has been under voltage.`,
    place: part.place,
    parts: [part.name],
    fixes: edits ? [{ title: `Turn ${part.name} round`, edits }] : [],
  });
}
