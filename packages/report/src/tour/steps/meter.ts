import type { BenchChart, Reading } from '@setwright/bench';
import { spotWords } from '@setwright/bench';
import { formatQuantity } from '@setwright/units';
import { listed } from '../../text/words.ts';
import type { Grounds } from '../grounds.ts';
import { plainOverlay, type Telling, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';

/** What to expect of a meter at the plates, in the leads and at the grids. */
export function meterStep(grounds: Grounds): TourStep | undefined {
  const { supposed, circuit } = grounds;
  const { chart } = supposed;
  const known = chart.readings.filter(({ expected, state }) => expected && state === 'on');
  if (known.length === 0) return coldStep(grounds);
  const tell = telling(grounds, 'meter', 'What a meter should show');
  const plates = known.filter(
    ({ at, quantity }) => quantity === 'voltage' && at.endsWith('.plate'),
  );
  const told = oncePerSpot(plates)
    .slice(0, 6)
    .map((reading) => readingWords(tell, chart, reading));
  tell.say(
    `With ${chart.meter.words}, ${told.length === 1 ? 'this is' : 'these are'} to be expected${told.length > 0 ? `: ${listed(told)}` : ''}.`,
  );
  const leads = known.filter(({ quantity }) => quantity === 'current');
  const currents = oncePerSpot(leads)
    .slice(0, 5)
    .map((reading) => readingWords(tell, chart, reading));
  if (currents.length > 0)
    tell.say(
      `${sentence(listed(currents))}; currents tell what volts do not, for a tube that draws nothing leaves its plate at the full tap.`,
    );
  tell.say(gridWords(tell, chart, known));
  tell.lesson(
    'meter 1',
    'A pointer meter draws its own current through whatever lies before the point, so behind high resistance it shows less than is there.',
  );
  const names = [
    ...plates.map(({ at }) => at),
    ...leads.flatMap(({ at }) => circuit.partOfEnd.get(at)?.name ?? []),
  ];
  if (tell.said() < 2)
    tell.say('Anything far outside these bands is worth a second look before more is switched on.');
  tell.parts(...plates.flatMap(({ at }) => circuit.partOfEnd.get(at)?.name ?? []));
  return tell.done(plainOverlay('What a meter should show', names));
}

/** A set without a battery is measured cold. */
function coldStep(grounds: Grounds): TourStep | undefined {
  const { supposed, circuit } = grounds;
  const { chart } = supposed;
  const lifted = chart.readings.filter(
    ({ expected, lifted: isLifted }) => isLifted && expected && Number.isFinite(expected.value),
  );
  if (lifted.length === 0) return undefined;
  const tell = telling(grounds, 'meter', 'What a meter should show');
  const told = oncePerSpot(lifted)
    .slice(0, 6)
    .map((reading) => readingWords(tell, chart, reading));
  tell.say(`Cold, with one end lifted: ${listed(told)}.`);
  tell.say(
    'An ohmmeter finds a winding that is open, and no turn that is shorted: for that it is too coarse.',
  );
  const names = lifted.flatMap(({ across }) => across ?? []);
  tell.parts(...names.filter((name) => circuit.partNamed.has(name)));
  return tell.done(plainOverlay('What a meter should show', names));
}

/** Of several readings at one spot the one that the bench took. */
function oncePerSpot(readings: readonly Reading[]): readonly Reading[] {
  const seen = new Map<string, Reading>();
  for (const reading of readings) {
    const key = `${reading.quantity} ${reading.at} ${reading.to} ${reading.lifted}`;
    if (!seen.has(key)) seen.set(key, reading);
  }
  return [...seen.values()];
}

/** A reading with its band: `V1.plate to V1.filament- 66 V (61 to 71 V)`. */
function readingWords(tell: Telling, chart: BenchChart, reading: Reading): string {
  const { id, quantity, expected } = reading;
  if (!expected) return spotWords(chart, reading);
  const of = (which: 'value' | 'low' | 'high'): string =>
    tell.number({
      words: `${which === 'value' ? 'expected' : which === 'low' ? 'least' : 'most'} at ${spotWords(chart, reading)}`,
      text: formatQuantity(
        expected[which],
        quantity,
        tell.grounds.style,
        which === 'value' ? 3 : 2,
      ),
      value: expected[which],
      because: `${chart.meter.words}; ${chart.taken.slice(1).join('; ')}`,
      source: { from: 'reading', spot: id, which },
    });
  const where = reading.lifted && reading.across ? reading.across : spotWords(chart, reading);
  return `${where} ${of('value')} (${spanWords(of('low'), of('high'))})`;
}

/** Two amounts as a span, the unit once where both have it: `61 to 71 V`. */
function spanWords(low: string, high: string): string {
  const unit = / [^\d ]+$/.exec(high)?.[0] ?? '';
  return `${unit !== '' && low.endsWith(unit) ? low.slice(0, -unit.length) : low} to ${high}`;
}

/** Where a meter at a grid misleads most. */
function gridWords(
  tell: Telling,
  chart: BenchChart,
  known: readonly Reading[],
): string | undefined {
  const { point, style } = tell.grounds;
  const grids = oncePerSpot(known).flatMap((reading) => {
    const { at, to, quantity, expected } = reading;
    if (quantity !== 'voltage' || !at.endsWith('.grid') || to === undefined || !expected) return [];
    const there = point.voltage(at, to);
    return there === undefined ? [] : [{ reading, shown: expected.value, there }];
  });
  const worst = grids.sort((a, b) => Math.abs(b.shown - b.there) - Math.abs(a.shown - a.there))[0];
  if (!worst) return undefined;
  const { reading, shown, there } = worst;
  const off = Math.abs(shown - there);
  if (off < 0.05 || off < 0.05 * Math.abs(there)) return undefined;
  const shows = tell.number({
    words: `expected at ${spotWords(chart, reading)}`,
    text: formatQuantity(shown, 'voltage', style),
    value: shown,
    because: chart.meter.words,
    source: { from: 'reading', spot: reading.id, which: 'value' },
  });
  const is = tell.volts(reading.at, reading.to ?? '');
  return `At ${reading.at} it shows ${shows} where ${is} are: the meter is a leak itself there.`;
}

const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
