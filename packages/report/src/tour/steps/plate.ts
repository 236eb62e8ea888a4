import { emitterOf, isSupply, type Part } from '@setwright/circuit';
import type { OverlayPath } from '@setwright/diagram';
import { listed } from '../../text/words.ts';
import { frequencyText } from '../frequency-text.ts';
import type { Grounds } from '../grounds.ts';
import { rowOf, soNumber, type Telling, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';
import { called, isOnIron, makesSound, named, partsAt } from '../wiring.ts';

/** Volts that are worth a word of their own. */
const SEEN = 0.05;

/** The plate's current: in from its tap and home, and the other way home of what is radio in it. */
export function plateStep(grounds: Grounds, tube: Part, id: string): TourStep | undefined {
  const view = grounds.overlay(`plate ${tube.name}`);
  if (!view || view.paths.length === 0) return undefined;
  const tell = telling(grounds, id, `The plate current of ${tube.name}`);
  tell.parts(tube.name);
  const feeds = view.paths.filter(({ kind }) => kind === 'direct');
  const radio = view.paths.find(({ kind }) => kind === 'radio');
  const plate = feeds.find(({ steps, from }) => leadsTo(tube, steps, from, 'plate'));
  const screen = feeds.find(({ steps, from }) => leadsTo(tube, steps, from, 'screen'));
  if (plate) {
    tell.say(feedWords(tell, tube, plate));
    if (plate.stopped === undefined) tell.say(voltWords(tell, tube, plate));
  }
  if (screen) tell.say(screenWords(tell, tube, screen));
  if (radio) tell.say(radioWords(tell, tube, radio, intermediateAt(grounds, tube)));
  else if (plate) tell.say(soundWords(tell, plate));
  if (tell.said() < 5 && radio)
    tell.lesson(
      'plate 1',
      'Two currents share the plate lead, the steady one and the radio one on top of it, and each takes the way that opposes it least.',
    );
  return tell.done(view);
}

function leadsTo(
  { name }: Part,
  steps: OverlayPath['steps'],
  from: string | undefined,
  electrode: string,
): boolean {
  const id = `${name}.${electrode}`;
  return from === id || steps.some(({ in: end }) => end === id);
}

/** The way of the plate current, in words. */
function feedWords(tell: Telling, tube: Part, path: OverlayPath): string {
  const { circuit } = tell.grounds;
  tell.path(path);
  const at = path.steps.findIndex(({ part }) => part === tube.name);
  const names = (steps: OverlayPath['steps']): readonly string[] => [
    ...new Set(
      steps.map(({ part }) => {
        const found = circuit.partNamed.get(part);
        return found ? named(found) : part;
      }),
    ),
  ];
  if (path.stopped !== undefined && at < 0) {
    const by = names(path.steps);
    const post = outsideAt(tell.grounds, path.steps.at(-1)?.out ?? `${tube.name}.plate`);
    if (post)
      return `From ${tube.name}.plate the way leads ${by.length > 0 ? `by ${listed(by)} ` : ''}to ${named(post)}, and what is joined there from outside the text does not tell.`;
    return `From ${tube.name}.plate the way leads ${by.length > 0 ? `by ${listed(by)} ` : ''}no further: ${path.stopped}.`;
  }
  if (path.from !== undefined && at >= 0)
    tell.fact({ kind: 'feeds', tap: path.from, electrode: `${tube.name}.plate` });
  const before = names(at < 0 ? path.steps : path.steps.slice(0, at));
  const after = names(at < 0 ? [] : path.steps.slice(at + 1));
  const from = path.from === undefined ? 'its tap' : called(circuit, path.from);
  const to = path.to === undefined ? undefined : called(circuit, path.to);
  const home =
    to === undefined
      ? ''
      : ` and comes home ${after.length > 0 ? `by ${listed(after)} ` : ''}to ${to}`;
  return `The current sets out from ${from}${before.length > 0 ? `, runs by ${listed(before)}` : ' straight'} to ${tube.name}.plate, through the tube${home}.`;
}

/** A post for loudspeaker or phones on the junction of a terminal. */
function outsideAt({ circuit }: Grounds, terminal: string): Part | undefined {
  const junction = circuit.endNamed.get(terminal)?.junction;
  if (junction === undefined) return undefined;
  return partsAt(circuit, junction).find(
    ({ kind, words }) => kind === 'post' && (words.has('speaker') || words.has('phones')),
  );
}

/** Current and volts of the plate, and what becomes of the tap's volts on the way. */
function voltWords(tell: Telling, tube: Part, path: OverlayPath): string | undefined {
  const { circuit, point } = tell.grounds;
  const emitter = emitterOf(tube)?.id;
  const current = tell.value(tube.name, 'plate-current');
  const volts = tell.value(tube.name, 'plate-voltage');
  if (volts === undefined || emitter === undefined) return undefined;
  const plate = `${tube.name}.plate`;
  const head = current
    ? `It is ${current} at rest, with ${volts} on the plate, counted from ${emitter}`
    : `The plate stands at ${volts}, counted from ${emitter}`;
  const { from, to } = path;
  if (from === undefined || to === undefined) return `${head}.`;
  const lost = point.voltage(from, plate);
  const rise = point.voltage(emitter, to);
  const tap = tell.volts(from, to);
  if (tap === undefined) return `${head}.`;
  const less: string[] = [];
  const isLost = lost !== undefined && lost >= SEEN;
  const lostWords = isLost ? tell.volts(from, plate) : undefined;
  if (lostWords) less.push(`${lostWords} lost on the way`);
  const riseWords = rise !== undefined && rise >= SEEN ? tell.volts(emitter, to) : undefined;
  if (riseWords)
    less.push(`${riseWords} by which ${emitter} itself stands above ${called(circuit, to)}`);
  const why = less.length > 0 ? `, less ${listed(less)}` : '';
  return `${head}: ${called(circuit, from)} gives ${tap} under load${why}.`;
}

function screenWords(tell: Telling, tube: Part, path: OverlayPath): string | undefined {
  const { circuit } = tell.grounds;
  tell.path(path);
  if (path.stopped !== undefined) return `Its screen is fed from nowhere: ${path.stopped}.`;
  const volts = tell.value(tube.name, 'screen-voltage');
  const screen = tube.ends.find(({ name }) => name === 'screen');
  const bypasses = screen ? bypassesAt(tell.grounds, screen.junction) : [];
  if (path.from !== undefined)
    tell.fact({ kind: 'feeds', tap: path.from, electrode: `${tube.name}.screen` });
  const from = path.from === undefined ? 'its tap' : called(circuit, path.from);
  const still =
    bypasses.length > 0
      ? `; ${listed(bypasses.map(named))} ${bypasses.length > 1 ? 'hold' : 'holds'} it still for radio, so that it shields the grid from the plate`
      : '';
  return `Its screen is fed from ${from}${volts ? ` and stands at ${volts}` : ''}${still}.`;
}

/** Fixed condensers on a junction. */
function bypassesAt({ circuit }: Grounds, junction: number): readonly Part[] {
  return partsAt(circuit, junction).filter(
    ({ kind, words, ranges }) =>
      kind === 'condenser' && !words.has('variable') && ranges.capacitance === undefined,
  );
}

/** The radio current's way home from the plate. */
function radioWords(
  tell: Telling,
  tube: Part,
  path: OverlayPath,
  intermediate: number | undefined,
): string | undefined {
  const { circuit, rows, style } = tell.grounds;
  const isBehindMixer = tunedBefore(tell.grounds, tube) !== undefined;
  const what = isBehindMixer ? 'intermediate' : 'radio';
  const parts = path.steps.flatMap(({ part }) => circuit.partNamed.get(part) ?? []);
  const unknown = unsized(tell.grounds, path);
  const isRoundabout = parts.some(
    (part) => isSupply(part) || isOnIron(circuit, part) || makesSound(part),
  );
  if (unknown.length > 0 && isRoundabout) {
    tell.missing(`the capacity of ${listed(unknown.map(({ name }) => name))}`);
    return `Which way the ${what} current takes home cannot be told, for want of the capacity of ${listed(unknown.map(({ name }) => name))}.`;
  }
  tell.path(path);
  const names = [...new Set(parts.map(named))];
  const home = path.to ?? `the filament of ${tube.name}`;
  if (parts.some(isSupply))
    return `The ${what} current on top of it has nothing easier to go home by than ${listed(names)}, through the battery itself, to ${home}.`;
  const condenser = parts.find(({ kind }) => kind === 'condenser');
  if (!condenser)
    return `The ${what} current on top of it goes home by ${listed(names)} to ${home}.`;
  if (intermediate !== undefined) {
    const farads = condenser.values.capacitance?.value;
    const at = frequencyText(intermediate, style);
    const ohms =
      farads !== undefined && farads > 0
        ? soNumber(
            tell,
            `reactance of ${condenser.name} at ${at}`,
            1 / (2 * Math.PI * intermediate * farads),
            'resistance',
            'one over 2π times frequency times capacity',
            { from: 'reactance', part: condenser.name, at: intermediate },
          )
        : undefined;
    return `The ${what} current on top of it goes home another way, by ${listed(names)} to ${home}${ohms ? `; ${condenser.name} opposes it with ${ohms} at ${at}` : ''}.`;
  }
  const [lowest] = rows
    .filter(
      (row) =>
        row.part === condenser.name && row.quantity === 'reactance' && (row.at ?? 0) > 20_000,
    )
    .sort((a, b) => (a.at ?? 0) - (b.at ?? 0));
  const ohms =
    lowest?.at === undefined
      ? undefined
      : tell.value(condenser.name, 'reactance', { at: lowest.at });
  const opposed =
    ohms && lowest?.at !== undefined
      ? `; ${condenser.name} opposes it with ${ohms} at ${frequencyText(lowest.at, style)}`
      : '';
  const also = parts.some((part) => part.kind === 'winding' || part.kind === 'loop')
    ? ''
    : audioWords(tell, condenser);
  return `The ${what} current on top of it goes home another way, by ${listed(names)} to ${home}${opposed}${also}.`;
}

/** Hertz of what a tube behind a mixer amplifies; undefined for any other. */
function intermediateAt(grounds: Grounds, tube: Part): number | undefined {
  const place = grounds.places.find(({ part }) => part === tube);
  return place?.use === 'intermediate' ? tunedBefore(grounds, tube) : undefined;
}

/** Hertz that the transformer before a tube is stated to be tuned to, as it is behind a mixer. */
function tunedBefore({ circuit, places, tuned }: Grounds, tube: Part): number | undefined {
  const place = places.find(({ part }) => part === tube);
  const owners = (place?.arrives ?? []).flatMap(
    ({ part }) => circuit.partNamed.get(part)?.owner ?? [],
  );
  return owners
    .map((name) => circuit.partNamed.get(name)?.values.tuned?.value)
    .find((each) => each !== undefined && each > 0 && tuned.length > 0);
}

/** What a small bypass is to audio. */
function audioWords(tell: Telling, condenser: Part): string {
  const row = rowOf(tell.grounds.rows, condenser.name, 'reactance', { at: 5000 });
  if (row?.value === undefined) return '';
  const ohms = tell.value(condenser.name, 'reactance', { at: 5000 });
  return ohms ? `, and audio with ${ohms} even at ${frequencyText(5000, tell.grounds.style)}` : '';
}

/** Condensers on a way of which the text does not say how large they are. */
function unsized({ circuit }: Grounds, { from, steps }: OverlayPath): readonly Part[] {
  const ends = [from, ...steps.flatMap(({ in: a, out }) => [a, out])];
  const junctions = new Set(ends.flatMap((id) => circuit.endNamed.get(id ?? '')?.junction ?? []));
  const found = [...junctions].flatMap((junction) =>
    partsAt(circuit, junction).filter(
      ({ kind, values, ranges }) =>
        kind === 'condenser' && !values.capacitance && !ranges.capacitance,
    ),
  );
  return [...new Set(found)];
}

/** What the steady current runs through that sounds, where there is no radio left in it. */
function soundWords(tell: Telling, path: OverlayPath): string | undefined {
  const { circuit } = tell.grounds;
  const load = path.steps
    .map(({ part }) => circuit.partNamed.get(part))
    .find(
      (part) => part && (makesSound(part) || isOnIron(circuit, part) || part.kind === 'resistor'),
    );
  if (!load || path.stopped !== undefined) return undefined;
  if (makesSound(load))
    return `All of it runs through ${named(load)}, whose windings have to bear it.`;
  if (load.kind === 'resistor') {
    const across = tell.value(load.name, 'current', { sign: 'none' });
    return across
      ? `All of it passes ${named(load)}, which loses most of the tap's volts on purpose: that is the price of a load without iron.`
      : undefined;
  }
  return `${load.name} is wound to carry it; a break in it takes the plate's volts away.`;
}
