import { intermediateWords } from '../../response/signal-words.ts';
import { listed } from '../../text/words.ts';
import { frequencyText } from '../frequency-text.ts';
import type { Grounds } from '../grounds.ts';
import { plainOverlay, soNumber, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';

/** Volts in the aerial that stand for a fair station. Common practice. */
const FAIR = 1e-3;

/** One signal from the aerial to the detector, with its size at each grid. */
export function followStep(grounds: Grounds): TourStep | undefined {
  const { response, style, overlay, circuit } = grounds;
  const stations = response.stations.filter(
    ({ heard }) => heard.stages !== undefined && heard.detectorVolts !== undefined,
  );
  const told = stations[Math.floor((stations.length - 1) / 2)]?.heard;
  if (!told || told.detectorVolts === undefined || response.missing.length > 0) return undefined;
  const crystal = circuit.parts.find(({ kind }) => kind === 'crystal');
  const tubes = (told.stages ?? []).map(({ tube, gridVolts }) => ({
    at: `${tube}.grid`,
    place: tube,
    volts: gridVolts,
  }));
  const all = crystal
    ? [...tubes, { at: crystal.name, place: crystal.name, volts: told.detectorVolts }]
    : tubes;
  if (all.length === 0) return undefined;
  const tell = telling(grounds, 'follow', 'One signal, followed');
  const paths = overlay('radio')?.paths ?? [];
  for (const path of paths) tell.path(path);
  const volts = all.map(({ at, place, volts: times }) => {
    const text = soNumber(
      tell,
      `signal at ${at} of one volt in the aerial at ${frequencyText(told.frequency, style)}`,
      times * FAIR,
      'voltage',
      'the whole set solved, in tune and turned for the most signal; coils that lose what their wire loses',
      { from: 'response', at: told.frequency, place },
    );
    return `${text} at ${at}`;
  });
  const from = circuit.parts.some(({ kind, words }) => kind === 'post' && words.has('aerial'))
    ? 'the aerial'
    : 'the loop';
  tell.say(
    `Of one thousandth of a volt in ${from} at ${frequencyText(told.frequency, style)} there are ${listed(volts)}, everything in tune.`,
  );
  const last = all.at(-1) as (typeof all)[number];
  const { usual } = response;
  tell.say(
    usual && usual.frequency === told.frequency && told.detectorVolts > 0
      ? `That is the most there can be: with coils as the time had them it comes to about ${shareWords(usual.detectorVolts / told.detectorVolts)} of that at ${last.at}.`
      : 'That is the most there can be: coils, forms and leads lose more than their wire.',
  );
  tell.quote(intermediateWords(response, style));
  tell.lesson(
    'follow 1',
    'A detector answers faint signals with the square of their size, so that what helps before it helps twice.',
  );
  return tell.done(paths.length > 0 ? plainOverlay('One signal, followed', [], paths) : undefined);
}

/** A share in words: `half`, `a third`, `nine tenths`. */
export function shareWords(share: number): string {
  const tenths = Math.round(share * 10);
  if (share >= 0.95) return 'all';
  if (share < 0.05) return 'a few hundredths';
  const words = [
    '',
    'a tenth',
    'a fifth',
    'three tenths',
    'two fifths',
    'half',
    'three fifths',
    'seven tenths',
    'four fifths',
    'nine tenths',
  ];
  return words[Math.min(9, Math.max(1, tenths))] ?? 'half';
}
