import type { GrowingMode } from '@setwright/analysis';
import { formatQuantity } from '@setwright/units';
import { listed } from '../text/words.ts';
import type { UnitStyle } from '../values/quantities.ts';
import { growing, type SetResponse, type StationTold } from './response-of.ts';

/** How quiet a set is at a station, in a word or two. */
export function quietWords({ quiet }: StationTold, style: UnitStyle): string {
  if (!quiet) return 'not known';
  const inTune = growing(quiet.aligned);
  if (inTune === undefined) return 'not known';
  if (inTune > 0) return `squeals${frequencyWords(quiet.aligned.modes, style)}`;
  const apart = growing(quiet.worst.modes);
  if (apart === undefined) return 'not known apart';
  return apart > 0 ? `squeals apart${frequencyWords(quiet.worst.modes.modes, style)}` : 'quiet';
}

function frequencyWords(modes: readonly GrowingMode[], style: UnitStyle): string {
  const [fastest] = modes;
  return fastest ? ` at ${formatQuantity(fastest.frequency, 'frequency', style)}` : '';
}

/** Whether the set oscillates, in a sentence or two. */
export function verdictWords(
  { circuit, stability, stations, missing }: SetResponse,
  style: UnitStyle,
): string {
  const isTubeless = !circuit.parts.some(({ kind }) => kind === 'tube');
  if (missing.length === 0 && isTubeless) return 'It has no tube that could squeal.';
  const howl = growing(stability.audio);
  const tones = stability.audio.modes.map(({ frequency }) =>
    frequency > 0 ? formatQuantity(frequency, 'frequency', style) : 'next to no frequency',
  );
  const howls =
    howl !== undefined && howl > 0
      ? ` At audio frequencies it howls or motorboats${tones.length > 0 ? ` at ${listed(tones)}` : ''}.`
      : '';
  if (missing.length > 0) return `Whether it squeals cannot be told.${howls}`;
  const bad = (kind: 'aligned' | 'worst'): string => {
    const isBad = stations.map(({ quiet }) => {
      const modes = kind === 'aligned' ? quiet?.aligned : quiet?.worst.modes;
      return modes !== undefined && (growing(modes) ?? 0) > 0;
    });
    return stretches(
      stations.map(({ heard }) => formatQuantity(heard.frequency, 'frequency', style)),
      isBad,
    );
  };
  const by = feedersOf(stations);
  const keeps = by.length > 0 ? ` ${listed(by)} ${by.length > 1 ? 'keep' : 'keeps'} it going.` : '';
  switch (stability.verdict) {
    case 'steady':
      return `It is steady: no dial off tune makes it squeal.${howls}`;
    case 'mistuned': {
      const where = bad('worst');
      return `It squeals with its dials apart${where === '' ? '' : ` near ${where}`}, not in tune.${keeps}${howls}`;
    }
    case 'aligned': {
      const where = bad('aligned');
      // What grows at audio frequencies alone is told of by that.
      if (where === '' && howls !== '') return howls.trim();
      return `It oscillates by itself${where === '' ? '' : ` in tune with ${where}`}.${keeps}${howls}`;
    }
    case 'unknown':
      return `Whether it squeals could not be reckoned.${howls}`;
  }
}

/** Some of a row, neighbours taken together: `550 kc, 700 kc to 1000 kc and 1500 kc`. */
function stretches(names: readonly string[], isChosen: readonly boolean[]): string {
  if (names.length > 2 && isChosen.every(Boolean)) return 'the whole band';
  const runs: string[][] = [];
  for (const [index, name] of names.entries()) {
    if (!isChosen[index]) continue;
    const run = isChosen[index - 1] ? runs.at(-1) : undefined;
    if (run) run.push(name);
    else runs.push([name]);
  }
  return listed(runs.flatMap((run) => (run.length > 2 ? [`${run[0]} to ${run.at(-1)}`] : run)));
}

/** The tubes that keep squealing going, at whatever station. */
function feedersOf(stations: readonly StationTold[]): readonly string[] {
  return [
    ...new Set(
      stations.flatMap(({ quiet }) =>
        quiet
          ? [quiet.aligned, quiet.worst.modes].flatMap((found) =>
              (growing(found) ?? 0) > 0 ? found.modes.flatMap(({ tubes }) => tubes ?? []) : [],
            )
          : [],
      ),
    ),
  ].sort();
}

/** What would just cure a set that squeals, in plain words; empty for one that does not. */
export function cureWords({ circuit, cure }: SetResponse, style: UnitStyle): string {
  if (!cure) return '';
  const { margin, quality, usually } = cure;
  const { tubes, seriesResistance, gridPlate } = margin;
  const each = tubes.length > 1 ? 'each of ' : '';
  const grids = listed(tubes.map((tube) => `${tube}.grid`));
  const isScreened = tubes.some((tube) => circuit.partNamed.get(tube)?.tubeType?.screen);
  const ways = [
    ...(seriesResistance !== undefined && seriesResistance > 0
      ? [
          `about ${formatQuantity(seriesResistance, 'resistance', style, 2)} more than it has in the lead of ${each}${grids}`,
        ]
      : []),
    ...(gridPlate !== undefined && gridPlate < 0 && !isScreened
      ? [
          `neutralizing that balances at least ${formatQuantity(-gridPlate, 'capacitance', style, 2)} between grid and plate of ${each}${listed(tubes)}`,
        ]
      : []),
  ];
  const coils =
    usually === undefined
      ? ''
      : usually
        ? ' It squeals with coils of a usual Q of 100 as well.'
        : ' With coils of a usual Q of 100 it is quiet.';
  if (tubes.length === 0 || ways.length === 0) return coils.trim();
  const bound =
    quality === undefined
      ? ` That is with the losses of the wire alone: less will do where coils lose more.${coils}`
      : ` That is with coils of a usual Q of ${quality}.`;
  return `It would just be quiet with ${ways.join(', or with ')}.${bound}`;
}
