import { listed } from '../../text/words.ts';
import { AUDIO_END, frequencyText } from '../frequency-text.ts';
import type { Telling } from '../telling.ts';

/** Gains as a sentence has them. */
export interface GainWords {
  /** The end that they are told of. */
  readonly to: string;
  /** `5.1 volts at 550 kc and 9.58 volts at 1500 kc`. */
  readonly volts: string;
  /** `5.1 at 550 kc and 9.58 at 1500 kc`. */
  readonly times: string;
  /** What is to be said of how good they are, with a comma before it. */
  readonly bound: string;
}

/** What a signal is raised by from one place to another, at the frequencies that are told of. */
export function gainWords(
  tell: Telling,
  from: string,
  ...ends: readonly string[]
): GainWords | undefined {
  const { rows, style } = tell.grounds;
  const to = ends.find((end) => rows.some((row) => row.part === from && row.to === end)) ?? ends[0];
  const found = rows.filter(
    (row) =>
      row.part === from && row.quantity === 'gain' && (row.to === to || row.to === undefined),
  );
  const known = found.filter((row) => row.value !== undefined && row.to === to);
  if (known.length === 0) {
    for (const row of found)
      if (row.value === undefined)
        for (const each of row.missing) tell.missing(`${each} (for the gain from ${from})`);
    return undefined;
  }
  const told = known.flatMap(({ at, to: end }) => {
    const text = tell.value(from, 'gain', {
      ...(at === undefined ? {} : { at }),
      ...(end === undefined ? {} : { to: end }),
    });
    return text === undefined || at === undefined ? [] : [{ text, at: frequencyText(at, style) }];
  });
  const isRadio = known.some(({ at }) => (at ?? 0) >= AUDIO_END);
  return {
    to: to ?? '',
    volts: listed(told.map(({ text, at }) => `${text} V at ${at}`)),
    times: listed(told.map(({ text, at }) => `${text} at ${at}`)),
    bound: isRadio ? ', at the most: the coils are taken to lose what their wire loses' : '',
  };
}
