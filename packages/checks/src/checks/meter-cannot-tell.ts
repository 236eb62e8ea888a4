import { type BenchReading, type Meter, shownAs, spotWords } from '@setwright/bench';
import type { Circuit, Finding } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { benchExample } from '../examples/bench-example.ts';
import { finding } from '../words/finding.ts';
import { partsOfReading } from '../words/reading-words.ts';

/** Right and nothing look alike where the meter may be off by this part of what it should show. */
const BLIND = 0.5;
/** The meter takes most of it away when it leaves less than this part of what is there. */
const DRAWN_DOWN = 0.5;
/** Volts and amperes of the sound set below which nobody looks for anything. */
const LEAST = { voltage: 0.05, current: 1e-6 } as const;

/** A reading that would be the same with something wrong as with all right. */
export const meterCannotTell: Check = {
  id: 'meter-cannot-tell',
  group: 'The bench',
  severity: 'hint',
  summary:
    'A reading whose meter may be off by so much, or draws so much, that it could not tell right from nothing at all.',
  why: 'A reading that would be the same with a part gone speaks neither for the set nor against it.',
  silent: [
    'A bench that does not say its meter.',
    'A reading of which half is more than the meter may be off by: then it tells something from nothing.',
    'A point where nothing is to be expected, such as a grid at its own filament’s volts.',
    'Ohms, which are read on a scale of their own.',
    'What cannot be told beforehand.',
  ],
  source: 'common practice: the accuracy of a pointer instrument is a share of its full scale',
  needsWholeText: true,
  fails: benchExample('meter 1000 ohms per volt 2 %', 'reading T2.primary 2 V on 250 V'),
  passes: benchExample('meter 1000 ohms per volt 2 %', 'reading T2.primary 1.9 V on 10 V'),
  find(study) {
    const { circuit } = study;
    if (circuit.benches.length === 0) return [];
    return study.benches.flatMap(({ readings, isMeterSaid, meter }) =>
      isMeterSaid ? readings.flatMap((each) => findingFor(circuit, each, meter) ?? []) : [],
    );
  },
};

function findingFor(circuit: Circuit, reading: BenchReading, meter: Meter): Finding | undefined {
  const { quantity, expected, unloaded, error, leastError, range, fittingScale, place } = reading;
  if (quantity === 'resistance' || !expected || unloaded === undefined) return undefined;
  if (error === undefined || leastError === undefined) return undefined;
  const isThere = Math.abs(unloaded);
  if (isThere < LEAST[quantity] || error < BLIND * Math.abs(expected.value)) return undefined;
  const spot = spotWords({ circuit }, reading);
  const isDrawnDown = Math.abs(expected.value) < DRAWN_DOWN * isThere;
  const isFarScale =
    range !== undefined && fittingScale !== undefined && range > fittingScale * (1 + 1e-9);
  // On the scale that fits it is as blind: it is the meter's own draw or its accuracy.
  if (!isDrawnDown && !isFarScale) return undefined;
  const off = formatQuantity(error, quantity, 'period', 2);
  return finding({
    check: 'meter-cannot-tell',
    severity: 'hint',
    message: isDrawnDown
      ? `${capital(spot)}: the meter draws down the ${shownAs(unloaded, reading)} that are there to ${shownAs(expected.value, reading)}, and may be off by ${off}.`
      : `${capital(spot)}: ${shownAs(expected.value, reading)} is to be read on a scale of ${formatQuantity(range ?? 0, quantity)}, on which the meter may be off by ${off}.`,
    why: 'It would read the same with nothing there at all, so that it does not tell right from wrong.',
    cure:
      isDrawnDown || fittingScale === undefined
        ? cureForDraw(meter, quantity)
        : `Read it again on the scale of ${formatQuantity(fittingScale, quantity)}, where it may be off by ${formatQuantity(leastError, quantity, 'period', 2)}; begin on the higher one, and go down when nothing is wrong.`,
    place,
    parts: partsOfReading(circuit, reading).map(({ name }) => name),
  });
}

function cureForDraw({ isPointer }: Meter, quantity: 'voltage' | 'current'): string {
  return quantity === 'voltage' && isPointer
    ? 'Read it with a meter of 10 megohms, or read the plate current of the tube instead, which tells the same.'
    : 'Read the plate current of the tube instead, which tells the same.';
}

function capital(words: string): string {
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}
