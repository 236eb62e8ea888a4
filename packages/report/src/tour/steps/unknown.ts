import { listed } from '../../text/words.ts';
import type { Grounds } from '../grounds.ts';
import { telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';

/** Names in one sentence at most. */
const MOST = 8;

/** What is original, what was found otherwise, what was meant so, what nobody has said. */
export function unknownStep(grounds: Grounds, missing: readonly string[]): TourStep | undefined {
  const { circuit } = grounds;
  const found = circuit.parts.flatMap(({ name, values, words }) =>
    values.found
      ? [`${name} was found to be ${values.found.text}`]
      : words.has('found open')
        ? [`${name} was found open`]
        : words.has('found short')
          ? [`${name} was found shorted`]
          : [],
  );
  const tell = telling(
    grounds,
    'unknown',
    circuit.waivers.length > 0 || found.length > 0
      ? 'What is meant so, and what is not known'
      : 'What is not known',
  );
  if (found.length > 0) tell.say(`${capital(listed(found.slice(0, MOST)))}.`);
  for (const { check, within, reason } of circuit.waivers.slice(0, 2))
    tell.say(
      `${within === undefined ? 'The text' : `In ${within} the text`} means it so, whatever the check ${check} says: “${reason.replace(/[.!?]$/, '')}”.`,
    );
  if (circuit.unread.length > 0)
    tell.say(
      `${circuit.unread.length === 1 ? 'One line of the text' : `${circuit.unread.length} lines of the text`} could not be read, and what ${circuit.unread.length === 1 ? 'it says' : 'they say'} is not in this tour.`,
    );
  const wanted = [...new Set(missing)];
  if (wanted.length > 0) {
    const shown = wanted.slice(0, MOST);
    const rest = wanted.length - shown.length;
    tell.say(
      `For more to be told the text would have to give ${rest > 0 ? `${shown.join('; ')}; and ${rest} more things` : shown.join('; ')}.`,
    );
  }
  if (tell.said() === 0) return undefined;
  tell.say(
    'Figures are reckoned from what the text says and from published data; a part in a cabinet may have drifted, and only a meter tells.',
  );
  return tell.done(grounds.overlay('whole'));
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
