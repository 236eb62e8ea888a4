import { emitterOf, isSupply, type Part } from '@setwright/circuit';
import type { OverlayPath } from '@setwright/diagram';
import { listed } from '../../text/words.ts';
import type { Grounds } from '../grounds.ts';
import { type Telling, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';
import { named } from '../wiring.ts';

/** Volts across a part that are worth a word. */
const SEEN = 0.02;
/** Amperes into a grid that are worth a word. */
const TAKEN = 1e-6;

/** Where the grid of a tube stands, and the way by which it comes home. */
export function biasStep(grounds: Grounds, tube: Part, id: string): TourStep | undefined {
  const view = grounds.overlay(`bias ${tube.name}`);
  const path = view?.paths[0];
  if (!view || !path) return undefined;
  const tell = telling(grounds, id, `How the grid of ${tube.name} is held`);
  tell.parts(tube.name);
  tell.say(homeWords(tell, tube, path));
  if (path.stopped === undefined) tell.say(biasWords(tell, tube, path));
  const figures = grounds.point.tubes.find((each) => each.tube === tube.name);
  const grid = figures?.gridCurrent?.value ?? 0;
  const bias = figures?.bias?.value;
  if (bias !== undefined && bias < 0 && grid < TAKEN)
    tell.lesson(
      'bias 1',
      `As long as the grid stays negative it takes no current, so nothing is drawn from what drives it${holds(grounds, path) ? '; the battery that holds it gives practically none' : ''}.`,
    );
  else if (grid >= TAKEN) {
    const current = tell.value(tube.name, 'grid-current');
    if (current)
      tell.say(`Standing so, the grid takes ${current}, which loads the circuit that drives it.`);
  } else if (bias !== undefined && bias >= 0)
    tell.lesson(
      'bias 2',
      'So near to zero it just begins to take current on the upper half of a strong signal.',
    );
  if (tell.said() < 2)
    tell.say(
      figures?.freeGrid
        ? `Nothing holds ${tube.name}.grid: it charges up, and where it comes to rest is not to be foretold.`
        : undefined,
    );
  return tell.done(view);
}

function holds({ circuit }: Grounds, { steps }: OverlayPath): boolean {
  return steps.some(({ part }) => {
    const found = circuit.partNamed.get(part);
    return found !== undefined && isSupply(found);
  });
}

/** The way home of a grid, in words. */
export function homeWords(tell: Telling, tube: Part, path: OverlayPath): string {
  const { circuit } = tell.grounds;
  const home = emitterOf(tube)?.id ?? `the filament of ${tube.name}`;
  tell.path(path);
  const parts = [...new Set(path.steps.map(({ part }) => part))].map((name) => {
    const part = circuit.partNamed.get(name);
    return part ? named(part) : name;
  });
  if (path.stopped !== undefined) {
    const by = parts.length > 0 ? ` by ${listed(parts)}` : '';
    return `The grid of ${tube.name} sets out for home${by} and gets no further: ${path.stopped}.`;
  }
  if (parts.length === 0) return `The grid of ${tube.name} is joined straight to ${home}.`;
  return `For direct current the grid of ${tube.name} comes home by ${listed(parts)} to ${home}.`;
}

/** What makes the bias, part by part. */
function biasWords(tell: Telling, tube: Part, path: OverlayPath): string | undefined {
  const bias = tell.value(tube.name, 'bias');
  const home = emitterOf(tube)?.id;
  if (bias === undefined || home === undefined) return undefined;
  const made = contributions(tell, tube, path);
  const from = tube.ends.some(({ name }) => name === 'cathode') ? 'the cathode' : home;
  if (made.length === 0)
    return `Nothing on that way drops volts worth a word, so the bias is ${bias}, counted from ${from}.`;
  const [only, second] = made;
  if (only && !second)
    return `That sets its bias to ${bias}, counted from ${from}, all of it ${only.words}.`;
  return `That sets its bias to ${bias}, counted from ${from}: ${listed(made.map(({ text, words }) => `${text} ${words}`))}.`;
}

/** Volts along a way from a grid home; together they are the bias. */
function contributions(
  tell: Telling,
  tube: Part,
  { steps }: OverlayPath,
): readonly { readonly text: string; readonly words: string }[] {
  const { circuit, point } = tell.grounds;
  return steps.flatMap(({ part: name, in: from, out }) => {
    const part = circuit.partNamed.get(name);
    const volts = point.voltage(from, out);
    if (!part || volts === undefined || Math.abs(volts) < SEEN) return [];
    const text = tell.volts(from, out);
    if (text === undefined) return [];
    return [{ text, words: sourceWords(tube, part) }];
  });
}

function sourceWords(tube: Part, part: Part): string {
  const home = emitterOf(tube);
  const isAtHome = part.ends.some(({ junction }) => junction === home?.junction);
  if (isSupply(part)) return `from ${named(part)}`;
  switch (part.kind) {
    case 'rheostat':
    case 'ballast':
      return `across ${part.name}, which carries filament current`;
    case 'leak':
      return `across ${part.name}, which carries grid current`;
    case 'potentiometer':
      return `by the stand of ${part.name}`;
    case 'resistor':
      if (!isAtHome) return `across ${part.name}`;
      return home?.name === 'cathode'
        ? `across ${part.name}, which carries the tube's own plate current`
        : `across ${part.name}, which carries filament current`;
    default:
      return `across ${part.name}`;
  }
}
