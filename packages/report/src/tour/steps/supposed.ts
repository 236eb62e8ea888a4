import {
  type FaultEffect,
  type Reading,
  shownAs,
  spotWords,
  tubesClicking,
} from '@setwright/bench';
import type { Circuit, Suppose, SupposeEdit } from '@setwright/circuit';
import type { Change } from '@setwright/diagram';
import { bypassWords } from '../../response/signal-words.ts';
import { listed } from '../../text/words.ts';
import type { Grounds, TourViews } from '../grounds.ts';
import { type Telling, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';
import { called } from '../wiring.ts';
import { shareWords } from './follow.ts';

/** Readings that are told of at most. */
const MOST = 3;

/** One `suppose` of the text: what fails, what stays, what is heard, what a meter shows. */
export function supposedStep(
  grounds: Grounds,
  suppose: Suppose,
  index: number,
  views: TourViews,
  id: string,
): TourStep | undefined {
  const { supposed, circuit } = grounds;
  const effect = supposed.effects[index];
  if (!effect) return undefined;
  const title = suppose.title === '' ? `supposition ${index + 1}` : suppose.title;
  const tell = telling(grounds, id, `Suppose: ${title}`);
  const did = listed(suppose.edits.map((edit) => editWords(circuit, edit)));
  tell.say(
    effect.refused.length > 0 ? `Suppose ${did}: ${effect.refused.join('; ')}.` : `Suppose ${did}.`,
  );
  tell.say(heardWords(tell, effect, index));
  tell.say(meterWords(tell, effect, index));
  tell.say(sameWords(tell, effect, index));
  for (const { target } of suppose.edits) {
    const bypass = grounds.response.bypasses.find(({ condenser }) => condenser?.name === target);
    if (bypass && suppose.edits.some(({ verb }) => verb === 'open'))
      tell.quote(bypassWords(bypass, grounds.style));
  }
  if (effect.dangers.length > 0)
    tell.quote(`Switch off at once, for ${effect.dangers.join('; ')}.`);
  const targets = suppose.edits.flatMap(({ target, other }) => [target, other]);
  for (const each of targets)
    if (each !== undefined) tell.parts(circuit.partOfEnd.get(each)?.name ?? each);
  return tell.done(
    views.overlayOf(circuit, `suppose ${index + 1}`, { changes: changesOf(grounds, effect) }),
  );
}

/** An edit as a person tells of it. */
function editWords(circuit: Circuit, edit: SupposeEdit): string {
  const { verb, value, words } = edit;
  const [target, other] = [edit.target ?? '', edit.other ?? ''].map((name) =>
    called(circuit, name),
  );
  const amount = value?.text;
  switch (verb) {
    case 'open':
      return `${target} is open`;
    case 'short':
      return `${target} is shorted`;
    case 'leaky':
      return `${target} leaks${amount ? ` with ${amount}` : ''}`;
    case 'weak':
      return `${target} is weak`;
    case 'gas':
      return `${target} is gassy`;
    case 'change':
      return `${target} is changed${amount ? ` to ${amount}` : ''}`;
    case 'set':
      return `${target} is set to ${amount ?? words.join(' ')}`;
    case 'remove':
      return `${target} is taken out`;
    case 'reverse':
      return `the leads of ${target} are exchanged`;
    case 'swap':
      return `${target} and ${other} are exchanged`;
    case 'join':
      return `${target} is joined to ${other}${amount ? ` through ${amount}` : ''}`;
    case 'turns shorted':
      return `${amount ?? 'some'} turns of ${target} are shorted`;
    case 'damped':
      return `${target} is damped${amount ? ` to a Q of ${amount}` : ''}`;
    case 'plug':
      return `${target} is plugged into ${other}`;
    case 'intermittent':
      return `${target} makes contact now and then`;
    case 'microphonic':
      return `${target} rings when it is tapped`;
    default:
      return `${verb} ${target}`;
  }
}

/** What is heard, with how much of the signal is left. */
function heardWords(tell: Telling, effect: FaultEffect, suppose: number): string {
  const { heard, radio, audio, deadDials, squeals } = effect;
  const isSilent = heard.includes('silent');
  const shares = [
    ...leftWords(tell, 'radio', isSilent && (radio ?? 0) > 1 ? undefined : radio, suppose),
    ...leftWords(tell, 'audio', audio, suppose),
  ];
  const dead =
    deadDials.length > 0
      ? [`${listed(deadDials)} ${deadDials.length > 1 ? 'do' : 'does'} nothing any more`]
      : [];
  const more = [...shares, ...dead].map((words) => `; ${words}`).join('');
  if (heard.length > 0) return `The set ${heardAs(heard)}${more}.`;
  if (squeals === 'dials apart')
    return `In tune it is as before${more}, but with the dials a little apart it squeals.`;
  return `By ear ${more === '' ? 'hardly anything' : 'little'} is noticed${more}.`;
}

/** From so many times the volts on it is told that something is stronger: some two decibels. */
const LOUDER = 1.25;

/** How much is left of the signal before the detector, or of the audio behind it. */
function leftWords(
  tell: Telling,
  of: 'radio' | 'audio',
  share: number | undefined,
  suppose: number,
): readonly string[] {
  if (share === undefined || (share > 0.9 && share < LOUDER)) return [];
  tell.number({
    words: `what is left of the ${of === 'radio' ? 'signal at the detector' : 'audio behind the detector'}`,
    text: `${Number((100 * share).toPrecision(2))} %`,
    value: share,
    because: 'the whole set solved with it, its dials turned for the most signal',
    source: { from: 'left', suppose, of },
  });
  const where = of === 'radio' ? 'at the detector the signal' : 'behind the detector the audio';
  if (share >= LOUDER) return [`${where} is stronger than it was`];
  return [`${where} is ${share < 0.01 ? 'next to nothing' : shareWords(share)} of what it was`];
}

const spoken: Readonly<Record<string, string>> = {
  silent: 'is silent',
  faint: 'is faint',
  weak: 'is weak',
  broad: 'tunes broadly',
  'squeals at short waves': 'squeals at the short waves',
  'squeals all over': 'squeals all over the dial',
  putters: 'putters',
  hums: 'hums',
  'distorts loud': 'distorts on loud notes',
  'distorts all': 'distorts on everything',
  crackles: 'crackles',
  'chokes on strong': 'chokes on strong signals',
  'one dial dead': 'has a dial that does nothing',
  'no regeneration': 'does not regenerate',
  microphonic: 'rings when it is tapped',
  'comes and goes': 'comes and goes',
};

function heardAs(heard: FaultEffect['heard']): string {
  return listed(heard.map((each) => spoken[each] ?? each));
}

/** The readings that give it away. */
function meterWords(tell: Telling, { readings, seenBy }: FaultEffect, suppose: number): string {
  const { chart } = tell.grounds.supposed;
  const told = mostTelling(chart.readings, seenBy).flatMap((at) => {
    const reading = chart.readings[at];
    const now = readings[at];
    if (!reading?.expected || !now) return [];
    const shown = (value: number, faulty: boolean): string =>
      tell.number({
        words: `${faulty ? 'with it' : 'sound'}: ${spotWords(chart, reading)}`,
        text: shownAs(value, reading),
        value,
        because: chart.meter.words,
        source: {
          from: 'reading',
          spot: reading.id,
          which: 'value',
          ...(faulty ? { suppose } : {}),
        },
      });
    return [
      `${spotWords(chart, reading)}, ${shown(now.value, true)} in place of ${shown(reading.expected.value, false)}`,
    ];
  });
  if (told.length === 0)
    return 'No volts, no lead current and no cold ohms leave their band: a meter does not find it.';
  return `A meter shows it: ${told.join('; ')}.`;
}

/** Of what shows it, what is measured with the set on first: nothing has to be lifted for that. */
function mostTelling(readings: readonly Reading[], seenBy: readonly number[]): readonly number[] {
  const distinct = distinctSpots(readings, seenBy);
  const on = distinct.filter((at) => readings[at]?.state === 'on');
  const cold = distinct.filter((at) => readings[at]?.state !== 'on');
  return [...on.slice(0, MOST - Math.min(1, cold.length)), ...cold].slice(0, MOST);
}

/** One of several readings at a spot. */
function distinctSpots(
  readings: readonly Reading[],
  indices: readonly number[],
): readonly number[] {
  const seen = new Set<string>();
  return indices.filter((index) => {
    const reading = readings[index];
    const key = `${reading?.quantity} ${reading?.at} ${reading?.to} ${reading?.across}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** What does not change. */
function sameWords(
  tell: Telling,
  { seenBy, readings, clicks }: FaultEffect,
  suppose: number,
): string | undefined {
  const { chart } = tell.grounds.supposed;
  if (seenBy.length === 0) return undefined;
  const known = chart.readings.filter(
    ({ expected }, at) => expected && readings[at] !== undefined,
  ).length;
  const steady = known - seenBy.length;
  const deaf = tubesClicking(clicks, 'silent');
  const alive = tubesClicking(clicks, 'heard', 'faint');
  const tap =
    deaf.length > 0 && alive.length > 0
      ? `; a tap on the ${alive.length > 1 ? 'grids' : 'grid'} of ${listed(alive)} is still heard, of ${listed(deaf)} not`
      : '';
  if (steady <= 0) return `No reading of its chart stays as it was${tap}.`;
  const count = tell.number({
    words: 'readings of the chart that stay in their band',
    text: String(steady),
    value: steady,
    because: 'every reading of the bench chart worked out with the fault in',
    source: { from: 'steady', suppose },
  });
  return `The other ${count} ${steady === 1 ? 'reading of its chart stays in its band' : 'readings of its chart stay in their bands'}${tap}.`;
}

/** What is lettered on the drawing. */
function changesOf({ supposed }: Grounds, { readings, seenBy }: FaultEffect): readonly Change[] {
  const { chart } = supposed;
  return mostTelling(chart.readings, seenBy)
    .filter((at) => chart.readings[at]?.quantity === 'voltage' || chart.readings[at]?.across)
    .flatMap((at) => {
      const reading = chart.readings[at];
      const now = readings[at];
      if (!reading?.expected || !now) return [];
      return [
        {
          at: reading.across ?? reading.at,
          words: `${shownAs(now.value, reading)}, was ${shownAs(reading.expected.value, reading)}`,
        },
      ];
    });
}
