import type { TunedCircuit } from '@setwright/analysis';
import { readingAtFrequency } from '@setwright/analysis';
import { formatQuantity } from '@setwright/units';
import { listed } from '../../text/words.ts';
import { statedElsewhere } from '../../values/working-bands.ts';
import { frequencyText } from '../frequency-text.ts';
import type { Grounds } from '../grounds.ts';
import type { Place } from '../places.ts';
import { plainOverlay, soNumber, type Telling, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';
import { named } from '../wiring.ts';

/** The tuned circuits on the signal's way to a place that no place before it has. */
export function tunedBefore(
  { tuned, circuit }: Grounds,
  { arrives, leaves, use, part }: Place,
  told: ReadonlySet<TunedCircuit>,
): readonly TunedCircuit[] {
  const passed = new Set(
    [...arrives, ...(use === 'oscillator' ? leaves : [])].map((step) => step.part),
  );
  return tuned.filter((each) => {
    // A resonance beside the one that its coil is there for.
    if (told.has(each) || statedElsewhere(circuit, each) !== undefined) return false;
    const names = each.windings.map(({ edge }) => edge.part);
    if (use === 'oscillator')
      return names.some(
        (name) => circuit.partNamed.get(name)?.stage === part.stage && part.stage !== undefined,
      );
    return names.some((name) => passed.has(name));
  });
}

/** One tuned circuit: what makes it, what it covers, where its dial stands. */
export function tunedStep(grounds: Grounds, tuned: TunedCircuit, id: string): TourStep {
  const { circuit } = grounds;
  const tuner = circuit.partNamed.get(tuned.tuner ?? tuned.beside[0] ?? '');
  const tell = telling(grounds, id, `Tuned circuit of ${tuned.name}`);
  const [only, ...more] = tuned.windings;
  const henries =
    more.length === 0 && only
      ? tell.value(only.edge.part, 'inductance')
      : tell.value(tuned.name, 'inductance');
  const beside = tuned.beside.filter((name) => name !== tuner?.name);
  const across = tuner ? named(tuner) : 'its own capacity';
  const with_ = beside.length > 0 ? `, with ${listed(beside)} beside it` : '';
  const covers = coverWords(tell, tuned);
  tell.say(
    `${tuned.name}${henries ? `, ${henries},` : ''} and ${across}${with_} make a tuned circuit${covers === undefined ? '' : covers}.`,
  );
  if (tuned.lowest.value === undefined)
    tell.say(`What it covers is not known, for want of ${listed(lacksOf(tuned))}.`);
  tell.lesson(
    'tuned 1',
    'In tune the two oppose a current alike, the one storing while the other gives back, so that a small push at the right beat builds up a large voltage.',
  );
  tell.say(dialWords(tell, tuned));
  tell.restorer(sharpWords(tell, tuned));
  if (tuned.stated && tuned.lowest.value !== undefined) {
    const own = tell.value(tuned.name, 'lowest-frequency');
    const fixed = tuned.lowest.value === tuned.highest.value;
    if (fixed && own)
      tell.say(
        `The text says ${tuned.stated.frequency.text}; its values come to ${own}, and what winding and wiring add is in that.`,
      );
  }
  const loaded = tuned.inside.map(({ name }) => name);
  if (loaded.length > 0)
    tell.restorer(
      `${listed(loaded)} inside the circuit ${loaded.length > 1 ? 'broaden' : 'broadens'} it at every station.`,
    );
  if (tell.said() < 2)
    tell.say(`It passes its own frequency on to what follows and leaves the others behind.`);
  const names = [
    ...tuned.windings.map(({ edge }) => edge.part),
    ...(tuner ? [tuner.name] : []),
    ...beside,
  ];
  tell.parts(...names);
  return tell.done(plainOverlay(`Tuned circuit of ${tuned.name}`, names));
}

function coverWords(tell: Telling, { name, lowest, highest }: TunedCircuit): string | undefined {
  if (lowest.value === undefined || highest.value === undefined) return undefined;
  const low = tell.value(name, 'lowest-frequency');
  if (lowest.value === highest.value) return ` that is fixed at ${low}`;
  const high = tell.value(name, 'highest-frequency');
  return ` that covers ${low} to ${high}`;
}

function lacksOf({ inductance, mostCapacity }: TunedCircuit): readonly string[] {
  const missing = [inductance, mostCapacity].flatMap((each) =>
    each.value === undefined ? each.missing : [],
  );
  return missing.length > 0 ? [...new Set(missing)] : ['its sizes'];
}

/** Where the dial stands at both ends of the band. */
function dialWords(tell: Telling, tuned: TunedCircuit): string | undefined {
  const { dials, style } = tell.grounds;
  const column = dials.columns.find(
    ({ of, above }) => above >= 0 && of.circuit.tuner === tuned.tuner,
  );
  const condenser = tuned.tuner;
  if (condenser === undefined) return undefined;
  if (!column) {
    const gang = tell.grounds.circuit.gangs.find(({ members }) => members.includes(condenser));
    const others = gang?.members.filter((name) => name !== condenser) ?? [];
    if (others.length === 0) return undefined;
    const dial = tuned.dial === undefined ? '' : `, on the shaft of ${tuned.dial}`;
    return `${condenser} turns with ${listed(others)}${dial}.`;
  }
  const told = dials.lines.flatMap(({ frequency }) => {
    const reading = readingAtFrequency(column.of, frequency + column.above);
    if (reading === undefined) return [];
    const text = tell.number({
      words: `reading of ${column.name} at ${frequencyText(frequency, style)}`,
      text: formatQuantity(Number(reading.toFixed(1)), 'number', style),
      value: reading,
      because: 'the capacity that tunes it, by the shape of the plates',
      source: { from: 'dial', condenser, at: frequency },
    });
    return [`${text} for ${frequencyText(frequency, style)}`];
  });
  if (told.length === 0) return undefined;
  const first = dials.lines[0]?.frequency ?? 0;
  const last = dials.lines.at(-1)?.frequency ?? 0;
  const [low, high] = [first, last].map((each) =>
    readingAtFrequency(column.of, each + column.above),
  );
  const turns =
    low !== undefined && high !== undefined && low > high
      ? ': a low reading is a short wave and a high frequency'
      : '';
  return `${column.name === condenser ? `The scale of ${condenser}` : column.name} stands at ${listed(told)}${turns}.`;
}

function sharpWords(tell: Telling, tuned: TunedCircuit): string | undefined {
  const { name, tuner, beside } = tuned;
  const { rows, style } = tell.grounds;
  const to = tuner ?? beside[0];
  const found = rows.filter(
    (row) => row.part === name && row.quantity === 'loaded-q' && row.value !== undefined,
  );
  const told = found.flatMap(({ at }) => {
    if (at === undefined) return [];
    const of = { at, ...(to === undefined ? {} : { to }) };
    const q = tell.value(name, 'loaded-q', of);
    const band = tell.value(name, 'bandwidth', of);
    return q && band ? [`a Q of ${q}, ${band} wide, at ${frequencyText(at, style)}`] : [];
  });
  if (told.length === 0) return undefined;
  const loads = tuned.loads.map(({ part }) => part.name);
  const by =
    loads.length > 0
      ? `With ${listed([...new Set(loads)])} loading it, it has`
      : 'By itself it has';
  return `${by} ${listed(told)}, at the best: form, covering and whatever else loads it take from that.`;
}

/** Why several dials must agree, and why they do not read alike. */
export function dialsStep(grounds: Grounds): TourStep | undefined {
  const { dials, circuit, style } = grounds;
  const columns = dials.columns.filter(({ above }) => above === 0);
  const gangs = circuit.gangs.filter(({ members }) => members.length > 1);
  if (columns.length < 2 && gangs.length === 0) return undefined;
  const tell = telling(
    grounds,
    'dials',
    columns.length > 1 ? 'The dials together' : 'One shaft for several circuits',
  );
  const names = columns.map(({ name }) => name);
  if (columns.length > 1)
    tell.say(
      `${listed(names)} are for one station, not for ${columns.length === 2 ? 'two' : columns.length === 3 ? 'three' : columns.length}: each circuit must stand on it, or what one lets through the next keeps out.`,
    );
  for (const gang of gangs.slice(0, 2))
    tell.say(
      `${listed(gang.members)} turn on one shaft; what sets one off from the others is made up by its trimmer or not at all.`,
    );
  const lines = dials.lines.filter(({ readings }) => readings.every((each) => each !== undefined));
  for (const { frequency, readings } of lines.slice(0, 2)) {
    const told = columns.flatMap((column) => {
      const reading = readings[dials.columns.indexOf(column)];
      const condenser = column.of.circuit.tuner;
      if (reading === undefined || condenser === undefined) return [];
      const text = tell.number({
        words: `reading of ${column.name} at ${frequencyText(frequency, style)}`,
        text: formatQuantity(Number(reading.toFixed(1)), 'number', style),
        value: reading,
        because: 'the capacity that tunes it, by the shape of the plates',
        source: { from: 'dial', condenser, at: frequency },
      });
      return [{ name: column.name, text }];
    });
    const [only] = told;
    const off = followWords(tell, frequency);
    if (told.length > 1)
      tell.say(
        `At ${frequencyText(frequency, style)} they read ${listed(told.map(({ name, text }) => `${name} ${text}`))}${off}.`,
      );
    else if (only)
      tell.say(`At ${frequencyText(frequency, style)} ${only.name} reads ${only.text}${off}.`);
  }
  const entrance = circuit.parts.some(({ kind, words }) => kind === 'post' && words.has('aerial'));
  const [first] = columns;
  if (columns.length > 1 && entrance && first)
    tell.lesson(
      'tuned 2',
      `They need not read alike: the aerial works back on ${first.of.circuit.name}, and no two coils are quite the same.`,
    );
  if (tell.said() < 2)
    tell.say('Where each of them stands cannot be told without the sizes of coils and condensers.');
  const parts = columns.flatMap(({ of }) => [
    ...(of.circuit.tuner ? [of.circuit.tuner] : []),
    ...of.circuit.windings.map(({ edge }) => edge.part),
  ]);
  const ganged = gangs.flatMap(({ members }) => members);
  tell.parts(...parts, ...ganged);
  return tell.done(plainOverlay('The dials together', [...parts, ...ganged]));
}

/** How far the circuits on a shaft are off the station that the first of them stands on. */
function followWords(tell: Telling, frequency: number): string {
  const { dials, style } = tell.grounds;
  const line = dials.lines.find((each) => each.frequency === frequency);
  const off = (line?.following.flat() ?? []).filter(
    (each): each is { circuit: string; off: number } => each.off !== undefined,
  );
  const worst = off.reduce<(typeof off)[number] | undefined>(
    (most, each) => (most && Math.abs(most.off) >= Math.abs(each.off) ? most : each),
    undefined,
  );
  if (!worst || Math.abs(worst.off) < FOLLOWS) return '';
  const text = soNumber(
    tell,
    `how far ${worst.circuit} stands off at ${frequencyText(frequency, style)}`,
    Math.abs(worst.off),
    'frequency',
    'the circuits on the shaft at the reading that puts the first in tune, trimmers as one sets them',
    { from: 'following', circuit: worst.circuit, at: frequency },
  );
  return `, and ${worst.circuit} then stands ${text} too ${worst.off > 0 ? 'high' : 'low'}`;
}

/** Hertz off that nobody hears. Common practice. */
const FOLLOWS = 500;
