import { directPath, type Finding, isSupply, type Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import { audioLinks } from '../audio/audio-links.ts';
import { type AudioLoop, audioLoops } from '../audio/audio-loop.ts';
import type { Check } from '../check.ts';
import { sampleSet } from '../examples/sample-set.ts';
import type { Study } from '../study.ts';
import { filamentGround } from '../supplies/supply-impedance.ts';
import { aboutTimes } from '../words/about.ts';
import { ohms } from '../words/filament-words.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';

/** A loop that gives once what was put in grows; with a sense unknown it must be three times. */
const GROWS = 1;
const GROWS_PERHAPS = 3;
/** Within so much of the edge it "may": the estimate takes transformers as ideal. */
const EDGE = 1.25;
/** A tired battery has so many ohms; what needs more to howl needs no word. Common practice. */
const TIRED = 1000;
/** Resistances of a battery that are tried, in ohms, and how fast they are made larger. */
const FRESH = 10;
const STEP = 1.3;

/** Audio stages that set one another off through a resistance in their common plate supply. */
export const motorboats: Check = {
  id: 'motorboats',
  group: 'Audio and ratings',
  severity: 'warning',
  summary: 'Audio stages coupled through a shared supply resistance so that they putter or howl.',
  why: 'What the last plate draws shakes the supply of the first: once round the loop it comes back larger, and the set putters or howls while good tubes are blamed.',
  silent: [
    'The loop gives less than it was given at every audio frequency.',
    'The sense of a transformer is not said: below three times; above it is information, for one of the two ways round is quiet.',
    'The sense counts as said where all four ends of a transformer are named, or a winding is said to be reversed.',
    'A battery whose resistance is not said: only what resistance would start it, where a tired block has as much.',
    'An eliminator whose resistance is not said, a transformer without ratio, a tube without data.',
    'One stage alone, and stages that share nothing.',
  ],
  source:
    'common practice; loop gain from plate resistance, amplification and ratio at the operating point, with transformers taken as ideal but for their primary inductance (10 henries where not said), a horn as one henry, and no strays: it errs toward alarm',
  needsWholeText: true,
  fails: withLamp('1 kilohm'),
  passes: withLamp('2 ohms'),
  find(study) {
    const audio = audioLinks(study);
    if (audio.links.length === 0) return [];
    const ground = filamentGround(study);
    if (ground.size === 0) return [];
    return audioLoops(study, audio, ground).flatMap((loop) => judged(study, loop, ground));
  },
};

function judged(study: Study, loop: AudioLoop, ground: ReadonlySet<number>): Finding[] {
  const isKnown = loop.unknown.length === 0;
  const limit = isKnown ? GROWS : GROWS_PERHAPS;
  // Cells that are as good as new must not be what is found.
  const { times, hertz } = loop.gain(0);
  if (times > limit) return [grows(study, loop, ground, times, hertz, isKnown)];
  const battery = loop.network.unsaid[0];
  if (!battery) return [];
  for (let tried = FRESH; tried <= TIRED; tried *= STEP) {
    if (loop.gain(tried).times <= limit) continue;
    return [wouldGrow(loop, battery, tried, isKnown)];
  }
  return [];
}

function grows(
  study: Study,
  loop: AudioLoop,
  ground: ReadonlySet<number>,
  times: number,
  hertz: number,
  isKnown: boolean,
): Finding {
  const shared = sharedParts(study, loop, ground);
  const [main] = shared;
  const names = listed(loop.tubes.map(({ part }) => part.name));
  const isCertain = isKnown && times > GROWS * EDGE;
  const through = main
    ? `through ${isSupply(main.part) ? `the resistance of ${main.part.name}` : main.part.name} (${ohms(main.ohms)})`
    : 'through their common supply';
  const sense = isKnown
    ? ''
    : `, in one of the two senses that ${listed(loop.unknown.map(({ name }) => name))} may have`;
  const place = main?.part.place ?? loop.tubes[0]?.part.place ?? study.circuit.namePlace;
  return finding({
    check: 'motorboats',
    severity: isCertain ? 'warning' : 'information',
    message: `${names} are coupled ${through}: round that loop a signal ${isCertain ? 'comes' : 'may come'} back ${aboutTimes(times)} as large near ${formatQuantity(hertz, 'frequency', 'period', 1)}${sense}.`,
    why: 'It putters or howls, and good tubes are blamed for it.',
    cure:
      main && !isSupply(main.part)
        ? `Take ${main.part.name} out of the common lead once the set is proved; 1 to 4 mfd from the tap behind it to the filaments helps.`
        : 'Put 1 to 4 mfd from each tap to the filaments, use a fresh battery, or give the first stage a tap of its own.',
    place,
    related: [
      ...loop.tubes.map(({ part }) => alsoPart(part, `${part.name} is in the loop`)),
      ...loop.unknown.map((part) => alsoPart(part, 'its sense is not known')),
    ],
    parts: [...(main ? [main.part.name] : []), ...loop.tubes.map(({ part }) => part.name)],
  });
}

function wouldGrow(loop: AudioLoop, battery: Part, tried: number, isKnown: boolean): Finding {
  const names = listed(loop.tubes.map(({ part }) => part.name));
  return finding({
    check: 'motorboats',
    severity: 'information',
    message: `The resistance of ${battery.name} is not said: from about ${formatQuantity(tried, 'resistance', 'period', 1)} on ${names} ${isKnown ? 'would' : 'may'} set one another off through it.`,
    why: 'A block that ages past this makes the set putter or howl long before it is weak.',
    cure: `Measure ${battery.name} loaded and unloaded and write its resistance down, or put 1 to 4 mfd from each tap to the filaments.`,
    place: battery.place,
    related: loop.tubes.map(({ part }) => alsoPart(part, `${part.name} is in the loop`)),
    parts: [battery.name],
  });
}

/** Parts that the plate currents of two stages or more have in common, the highest ohms first. */
function sharedParts(
  { circuit, conduction }: Study,
  { feeds }: AudioLoop,
  ground: ReadonlySet<number>,
): readonly { readonly part: Part; readonly ohms: number }[] {
  const counted = new Map<string, { times: number; ohms: number }>();
  for (const feed of feeds) {
    const path = directPath(conduction, feed, (junction) => ground.has(junction), {
      prefer: 'ohms',
      passes: ({ part }) => circuit.partNamed.get(part)?.kind !== 'tube',
    });
    const passed = new Map<string, number>();
    for (const { part, direct } of path.found ? path.steps : [])
      if (direct.kind !== 'blocks')
        passed.set(part, Math.max(passed.get(part) ?? 0, direct.ohms ?? 0));
    for (const [name, value] of passed) {
      const before = counted.get(name);
      counted.set(name, {
        times: (before?.times ?? 0) + 1,
        ohms: Math.max(value, before?.ohms ?? 0),
      });
    }
  }
  return [...counted]
    .flatMap(([name, { times, ohms: value }]) => {
      const part = circuit.partNamed.get(name);
      return part && times > 1 && value > 0 ? [{ part, ohms: value }] : [];
    })
    .sort((a, b) => b.ohms - a.ohms);
}

/** The sample set with a lamp in its B lead, and transformers of known sense, one turned round. */
function withLamp(size: string): string {
  return sampleSet(
    [
      'wire B- to A- to C+ to GND',
      `wire A- to C+ to GND\n  resistor R9 "limiter" ${size} from B- to A-`,
    ],
    [
      'winding primary 14 H 800 ohms from V1.plate',
      'winding primary 14 H 800 ohms reversed from V1.plate',
    ],
    [
      'secondary 5000 ohms from C-9 to V3.grid',
      'secondary 5000 ohms start to C-9 finish to V3.grid',
    ],
    [
      'winding primary 14 H 800 ohms from V2.plate to B+90',
      'winding primary 14 H 800 ohms start to V2.plate finish to B+90',
    ],
  );
}
