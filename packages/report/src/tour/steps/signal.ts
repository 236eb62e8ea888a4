import type { Part } from '@setwright/circuit';
import type { OverlayPath, OverlayStep } from '@setwright/diagram';
import { listed } from '../../text/words.ts';
import type { Grounds } from '../grounds.ts';
import type { Place } from '../places.ts';
import { plainOverlay, type Telling, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';
import { endOf, isOnIron, makesSound, named } from '../wiring.ts';
import { couplingOf } from './aerial.ts';
import { gainWords } from './gains.ts';

const uses: Readonly<Record<Place['use'], string>> = {
  radio: 'radio',
  mixer: 'radio',
  intermediate: 'intermediate',
  detector: 'radio',
  audio: 'audio',
  oscillator: 'radio',
};

/** The signal through one tube that amplifies: in, how much, out, and over to the next. */
export function signalStep(grounds: Grounds, place: Place, id: string): TourStep {
  const { part, twins, use, arrives, leaves, next } = place;
  const what = uses[use];
  const tell = telling(
    grounds,
    id,
    twins.length > 0
      ? `${listed([part.name, ...twins.map(({ name }) => name)])} in push-pull`
      : `${part.name}, ${titleOf(grounds, place)}`,
  );
  const path = pathThrough(place, what === 'audio' ? 'audio' : 'radio');
  tell.path(path);
  tell.say(
    `The ${what} signal comes to ${part.name}.grid ${arrivalWords(tell, arrives)}${twins.length > 0 ? `, and the other way about to ${listed(twins.map(({ name }) => `${name}.grid`))}` : ''}.`,
  );
  tell.say(slopeWords(tell, place));
  tell.say(loadWords(tell, place));
  const sound = outputName(grounds, leaves);
  const nextTwins = grounds.places.find(
    (each) => each.part === next && each.use === 'audio',
  )?.twins;
  const ends = next
    ? next.kind === 'tube'
      ? [next, ...(nextTwins ?? [])].map(({ name }) => `${name}.grid`)
      : [next.name]
    : sound === undefined
      ? []
      : [sound];
  const gains = ends.length > 0 ? gainWords(tell, part.name, ...ends) : undefined;
  if (gains)
    tell.say(
      `From ${part.name}.grid to ${gains.to} the signal is multiplied by ${gains.times}${gains.bound}${use === 'intermediate' ? '; what mixing loses is not in it' : ''}.`,
    );
  const lesson = lessonOf(grounds, place);
  if (tell.said() < 5 && lesson) tell.lesson(lesson.about, lesson.words);
  tell.parts(part.name, ...twins.map(({ name }) => name));
  const twinPaths = twins.length > 0 ? (grounds.overlay('audio')?.paths ?? []) : [];
  return tell.done(
    plainOverlay(
      listed([part.name, ...twins.map(({ name }) => name)]),
      [],
      twinPaths.length > 0 ? twinPaths : [path],
    ),
  );
}

/** The piece of the signal's way that belongs to a place. */
export function pathThrough(place: Place, kind: 'radio' | 'audio'): OverlayPath {
  const { part, arrives, leaves } = place;
  const [from, to] = [endOf(part, 'grid'), endOf(part, 'plate')];
  const through: readonly OverlayStep[] =
    from && to ? [{ part: part.name, in: from.id, out: to.id }] : [];
  return {
    kind,
    heading: `${kind} signal through ${part.name}`,
    steps: [...arrives, ...through, ...leaves],
  };
}

function titleOf({ circuit }: Grounds, { part, use }: Place): string {
  const stage = circuit.stages.find(({ name }) => name === part.stage);
  const isShared =
    circuit.parts.filter((each) => each.kind === 'tube' && each.stage === part.stage).length > 1;
  if (stage?.title !== undefined && !isShared)
    return stage.roles.includes('radio') && stage.roles.includes('audio')
      ? `${stage.title}, at ${use === 'audio' ? 'audio' : 'radio'} frequency`
      : stage.title;
  return use === 'audio'
    ? 'audio amplifier'
    : use === 'intermediate'
      ? 'intermediate amplifier'
      : 'radio amplifier';
}

/** What a signal passes just before a grid: `from L1.grid, by R1`. */
export function arrivalWords(tell: Telling, arrives: readonly OverlayStep[]): string {
  const at = arrives.findLastIndex(({ coupled }) => coupled);
  const last = at < 0 ? arrives : arrives.slice(at);
  const names = [...new Set(last.map(({ part }) => part))];
  const [first, ...rest] = names;
  if (first === undefined) return 'straight from where it comes in';
  const { circuit } = tell.grounds;
  const through = rest.map((name) => namedIn(tell, name));
  const part = circuit.partNamed.get(first);
  const isSource = at >= 0 || part?.kind === 'winding' || part?.kind === 'loop';
  if (isSource) return `from ${first}${through.length > 0 ? ` through ${listed(through)}` : ''}`;
  return `through ${listed([namedIn(tell, first), ...through])}`;
}

function namedIn({ grounds }: Telling, name: string): string {
  const part = grounds.circuit.partNamed.get(name);
  return part ? named(part) : name;
}

/** How the grid governs the plate, and what that is worth. */
function slopeWords(tell: Telling, { part, twins }: Place): string | undefined {
  const gm = tell.value(part.name, 'transconductance');
  const rp = tell.value(part.name, 'plate-resistance');
  const mu = tell.value(part.name, 'amplification');
  if (gm === undefined || rp === undefined) return undefined;
  const isHigh = part.tubeType?.screen === true || part.tubeType?.pentode === true;
  const ceiling =
    mu === undefined || isHigh
      ? ''
      : `; its amplification factor of ${mu} is the most that the tube by itself can give`;
  const alike = twins.length > 0 ? `Each of them works` : 'The tube works';
  return `${alike} with a mutual conductance of ${gm} and a plate resistance of ${rp}${ceiling}.`;
}

/** What the plate works into, and how the signal goes over to the next. */
function loadWords(tell: Telling, { part, leaves, next, twins }: Place): string | undefined {
  const { circuit, overlay } = tell.grounds;
  const at = leaves.findIndex(({ coupled }) => coupled);
  const [first] = leaves;
  const load = first && circuit.partNamed.get(first.part);
  const over = at > 0 ? leaves[at] : undefined;
  const from = at > 0 ? leaves[at - 1] : undefined;
  if (over && from) {
    const primary = circuit.partNamed.get(from.part);
    const owner = circuit.partNamed.get(primary?.owner ?? '');
    if (primary && isOnIron(circuit, primary)) {
      const ratio = owner?.values.ratio;
      const turns =
        ratio && owner
          ? `, ${tell.number({
              words: `ratio of ${owner.name}`,
              text: ratio.text.replace(/^ratio\s+/, ''),
              value: ratio.value,
              because: 'as the text says, whole winding to whole winding',
              source: { from: 'text', part: owner.name, slot: 'ratio' },
            })},`
          : '';
      const into = next ? 'the next grid' : (outputName(tell.grounds, leaves) ?? 'what follows');
      return `${twins.length > 0 ? 'Their plates work' : 'Its plate works'} into ${from.part}, and ${over.part} takes the audio over through the iron${turns} to ${into}; direct current does not cross.`;
    }
    const k = couplingOf(tell, from.part, over.part);
    return `Its plate works into ${from.part}; ${over.part} takes the signal up by its field${k ? `, with a coupling of ${k}` : ''}, and no wire carries it over.`;
  }
  if (!load) return undefined;
  if (load.kind === 'condenser') {
    const feed = overlay(`plate ${part.name}`)?.paths.find(({ kind }) => kind === 'direct');
    const loads = (feed?.steps ?? [])
      .slice(
        0,
        feed?.steps.findIndex((step) => step.part === part.name),
      )
      .map((step) => step.part);
    const own = loads.at(-1);
    const ohms = own === undefined ? undefined : ohmsWords(tell, own);
    return `Its plate works into ${own ? `${namedIn(tell, own)}${ohms ?? ''}` : 'its feed'}; ${namedIn(tell, load.name)} hands the audio on and keeps the plate's direct volts off ${next ? 'the next grid' : (outputName(tell.grounds, leaves) ?? 'what follows')}.`;
  }
  const sound = leaves
    .map((step) => circuit.partNamed.get(step.part))
    .find((each) => each && makesSound(each));
  if (sound && load === sound) return `Its plate works straight into ${named(sound)}.`;
  if (sound) {
    const between = leaves
      .slice(
        0,
        leaves.findIndex((step) => step.part === sound.name),
      )
      .map((step) => namedIn(tell, step.part));
    return `Its plate works into ${named(sound)}, by way of ${listed([...new Set(between)])}.`;
  }
  return `Its plate works into ${listed([...new Set(leaves.map((step) => step.part))])}.`;
}

function ohmsWords(tell: Telling, name: string): string | undefined {
  const part = tell.grounds.circuit.partNamed.get(name);
  const said = part?.values.resistance;
  if (!said || part.kind === 'winding') return undefined;
  return `, ${tell.number({
    words: `resistance of ${name}`,
    text: said.text,
    value: said.value,
    because: 'as the text says',
    source: { from: 'text', part: name, slot: 'resistance' },
  })}`;
}

/** The phones or loudspeaker that a way ends in. */
function outputName({ circuit }: Grounds, leaves: readonly OverlayStep[]): string | undefined {
  const sound = leaves
    .map((step): Part | undefined => circuit.partNamed.get(step.part))
    .find((part) => part && makesSound(part));
  return sound?.name;
}

/** What is to be learnt here by those who are new to it. */
function lessonOf(
  { circuit, rows }: Grounds,
  { use, leaves, part, twins }: Place,
): { readonly about: string; readonly words: string } | undefined {
  if (twins.length > 0)
    return {
      about: 'push-pull',
      words: `What ${part.name} and ${listed(twins.map(({ name }) => name))} draw at rest runs opposite ways round the iron and cancels there; what they draw from the signal adds up.`,
    };
  const over = leaves.find(({ coupled }) => coupled);
  if (!over) return undefined;
  if (use === 'radio' || use === 'intermediate')
    return {
      about: 'tuned coupling',
      words: `How much is gained is not the ratio of the turns: it comes of the tuned ${over.part} and of how closely it is coupled.`,
    };
  const winding = circuit.partNamed.get(over.part);
  if (!winding || !isOnIron(circuit, winding)) return undefined;
  const gains = rows.flatMap(({ part: from, quantity, at, value }) =>
    from === part.name && quantity === 'gain' && (at ?? Number.POSITIVE_INFINITY) < 20_000
      ? [{ at, value: value ?? 0 }]
      : [],
  );
  const [lowest, ...others] = gains.sort((a, b) => (a.at ?? 0) - (b.at ?? 0));
  const isWeakest =
    lowest && others.length > 0 && others.every((each) => each.value > lowest.value);
  return {
    about: 'step-up',
    words: `${over.part} steps up voltage into a grid that takes no current; nothing is matched there${isWeakest ? ', and the low notes are raised least' : ''}.`,
  };
}
