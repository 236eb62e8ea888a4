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
  { stability, stations, missing }: SetResponse,
  style: UnitStyle,
): string {
  if (missing.length > 0) return 'Whether it squeals cannot be told.';
  const howl = growing(stability.audio);
  const tones = stability.audio.modes.map(({ frequency }) =>
    frequency > 0 ? formatQuantity(frequency, 'frequency', style) : 'next to no frequency',
  );
  const howls =
    howl !== undefined && howl > 0
      ? ` At audio frequencies it howls or motorboats${tones.length > 0 ? ` at ${listed(tones)}` : ''}.`
      : '';
  const bad = (kind: 'aligned' | 'worst'): string => {
    const found = stations.flatMap(({ quiet }) => {
      if (!quiet) return [];
      const modes = kind === 'aligned' ? quiet.aligned : quiet.worst.modes;
      return (growing(modes) ?? 0) > 0 ? [formatQuantity(quiet.frequency, 'frequency', style)] : [];
    });
    return found.length > 2 && found.length === stations.length ? 'the whole band' : listed(found);
  };
  switch (stability.verdict) {
    case 'steady':
      return `It is steady: no dial off tune makes it squeal.${howls}`;
    case 'mistuned': {
      const where = bad('worst');
      return `It squeals with its dials apart${where === '' ? '' : ` near ${where}`}, not in tune.${howls}`;
    }
    case 'aligned': {
      const where = bad('aligned');
      return `It oscillates by itself${where === '' ? '' : ` in tune with ${where}`}.${howls}`;
    }
    case 'unknown':
      return `Whether it squeals could not be reckoned.${howls}`;
  }
}
