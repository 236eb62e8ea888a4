import { type BenchReading, contradictionsOf, shownAs, spotWords } from '@setwright/bench';
import type { Bench, Circuit, Finding } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { benchExample } from '../examples/bench-example.ts';
import { finding } from '../words/finding.ts';
import { bandWords, partsOfReading } from '../words/reading-words.ts';

/**
 * A band holds nineteen readings of twenty. One that leaves it by less than half of its own width
 * to that side happens to one in some hundreds, and is a hint to look, no more.
 */
const JUST_OUTSIDE = 1.5;

/** A reading of a bench that is not what is to be expected. */
export const readingOutOfRange: Check = {
  id: 'reading-out-of-range',
  group: 'The bench',
  severity: 'warning',
  summary:
    'A reading of a bench that lies outside what is to be expected, the meter’s own loading and accuracy, tolerances and the state of the batteries counted.',
  why: 'The set on the bench is not the set in the text: a part has gone, a wire differs, or the pencil slipped.',
  silent: [
    'A reading within the band for the part tolerances, stated or as made, the meter’s accuracy of full scale, and the state of the battery; 5 % of a battery does not matter where no `actual` is given.',
    'What the meter itself draws is counted: 5.5 V of bias reads 3.6 V behind 5200 ohms on a range of 10 kilohms.',
    'A reading just outside the band, or one of a bench that does not say its meter, is information.',
    'What cannot be told: a point that nothing ties down, a tube of which no data are known, a condenser’s ohms.',
    'What a part that was `found` otherwise explains: the set is taken with its parts as found.',
    'A reading that another one contradicts: that is told first.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: benchExample(
    'meter 1000 ohms per volt 2 %',
    'actual B+90 90 V',
    'reading V2.plate 0 V on 250 V',
  ),
  passes: benchExample(
    'meter 1000 ohms per volt 2 %',
    'actual B+90 90 V',
    'reading V2.plate 87 V on 250 V',
  ),
  find(study) {
    const { circuit } = study;
    if (circuit.benches.length === 0) return [];
    return study.benches.flatMap(({ bench, readings, isMeterSaid, meter }) => {
      const told = contradicted(circuit, bench);
      return readings.flatMap((reading) =>
        told.has(reading.place.start)
          ? []
          : (findingFor(circuit, reading, isMeterSaid ? undefined : meter.words) ?? []),
      );
    });
  },
};

function contradicted(circuit: Circuit, bench: Bench): ReadonlySet<number> {
  return new Set(
    contradictionsOf(circuit, bench).flatMap(({ places }) => places.map(({ start }) => start)),
  );
}

/** @param takenMeter what the readings are taken to be taken with, where the bench does not say */
function findingFor(
  circuit: Circuit,
  reading: BenchReading,
  takenMeter: string | undefined,
): Finding | undefined {
  const { expected, read, place, state } = reading;
  if (!expected) return undefined;
  const times = widthsOut(reading);
  if (!(times > 1)) return undefined;
  const isMild = takenMeter !== undefined || times <= JUST_OUTSIDE;
  const meant = takenMeter === undefined ? '' : ` with ${takenMeter}`;
  return finding({
    check: 'reading-out-of-range',
    severity: isMild ? 'information' : 'warning',
    message: `${capital(spotWords({ circuit }, reading))}: ${shownAs(read, reading)} was read where ${bandWords(expected, reading)} is to be expected${meant}.`,
    why:
      takenMeter === undefined
        ? 'The set on the bench is not the set in the text, or the reading is a slip.'
        : 'The bench does not say what was read with: another meter draws another current, and may show otherwise.',
    cure:
      takenMeter === undefined
        ? `Take it once more${state === 'on' ? ', the controls as the text has them' : ', batteries and tubes out'}; if it stays so, \`setwright suspects\` ranks what may be the matter.`
        : 'Write the meter down: `meter 1000 ohms per volt 2 %`, or `meter 10 megohms 1 %`.',
    place,
    parts: partsOfReading(circuit, reading).map(({ name }) => name),
  });
}

/** How many widths of its band, to its side, a reading lies off; 1 is at the edge. */
function widthsOut({ expected, read }: BenchReading): number {
  if (!expected) return 0;
  const { value, low, high } = expected;
  if (read >= low && read <= high) return 0;
  if (!Number.isFinite(read) || !Number.isFinite(value)) return Number.POSITIVE_INFINITY;
  const width = read > value ? high - value : value - low;
  return Math.abs(read - value) / Math.max(width, Number.MIN_VALUE);
}

function capital(words: string): string {
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}
