import type { Part } from '@setwright/circuit';
import { listed } from '../../text/words.ts';
import { frequencyText } from '../frequency-text.ts';
import type { Grounds } from '../grounds.ts';
import { plainOverlay, saidNumber, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';
import { makesSound, named } from '../wiring.ts';

/** What speaks, what runs in it, and from which note to which. */
export function outputStep(grounds: Grounds): TourStep | undefined {
  const { circuit, overlay, response, places } = grounds;
  const way = overlay('audio')?.paths.find(({ kind }) => kind === 'audio');
  const sound =
    way?.steps
      .map(({ part }) => circuit.partNamed.get(part))
      .findLast((part): part is Part => part !== undefined && makesSound(part)) ??
    circuit.parts.find(makesSound);
  if (!sound) return undefined;
  const tell = telling(grounds, 'output', `${sound.name} speaks`);
  tell.parts(sound.name);
  const last = places.findLast(({ isOnWay }) => isOnWay);
  const feed = circuit.parts
    .filter(({ kind }) => kind === 'tube')
    .find(({ name }) =>
      overlay(`plate ${name}`)?.paths.some(
        ({ kind, steps, stopped }) =>
          kind === 'direct' &&
          stopped === undefined &&
          steps.some(({ part }) => part === sound.name) &&
          steps.some(({ in: end }) => end === `${name}.plate`),
      ),
    );
  const ohms = saidNumber(tell, sound.name, 'resistance', `resistance of ${sound.name}`);
  const what = `${named(sound)}${ohms ? `, ${ohms},` : ''}`;
  if (feed) {
    const current = tell.value(feed.name, 'plate-current');
    tell.say(
      `${what} hangs in the plate lead of ${feed.name}: ${current ? `${current} of steady current runs` : 'its steady current runs'} in it with the audio on top, so that it has a right and a wrong way round.`,
    );
    const path = overlay(`plate ${feed.name}`)?.paths.find(({ kind }) => kind === 'direct');
    tell.path(path);
  } else if (way && last) {
    const by = way.steps.slice(
      way.steps.findLastIndex(({ part }) => circuit.partNamed.get(part)?.kind === 'tube') + 1,
    );
    const names = [...new Set(by.map(({ part }) => part))].filter((name) => name !== sound.name);
    const isBattery = circuit.parts.some(({ kind }) => kind === 'tube');
    tell.say(
      `${what} is fed ${names.length > 0 ? `through ${listed(names)}` : `straight from ${last.part.name}`}${isBattery && last.part.kind === 'tube' ? ', and no steady plate current runs in it' : ''}.`,
    );
  } else tell.say(`${what} is to make the sound, but no way from a detector to it was found.`);
  const { audio } = response;
  if (audio && audio.output === sound.name) {
    const edge = (which: 'low' | 'high', words: string): string =>
      tell.number({
        words,
        text: frequencyText(Number(audio[which].toPrecision(2)), grounds.style),
        value: audio[which],
        because:
          'the whole set solved from the detector on; what diaphragm and horn do is not in it',
        source: { from: 'audio', edge: which },
      });
    const low = edge('low', `lowest note of ${sound.name}, 6 decibels down`);
    const high = edge('high', `highest note of ${sound.name}, 6 decibels down`);
    const isLowest = audio.low <= (audio.points[0]?.frequency ?? 0);
    tell.say(
      `From ${low}${isLowest ? ' or less' : ''} to ${high} its current stays above half of what it is in the middle; what its diaphragm makes of that no circuit tells.`,
    );
  }
  if (way) tell.path(way);
  if (tell.said() < 2)
    tell.say(`How far up and down it speaks cannot be told from what the text says.`);
  return tell.done(
    way
      ? plainOverlay(`${sound.name} speaks`, [], [way])
      : plainOverlay(`${sound.name} speaks`, [sound.name]),
  );
}
