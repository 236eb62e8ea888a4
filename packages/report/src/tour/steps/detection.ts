import type { Part } from '@setwright/circuit';
import type { Grounds } from '../grounds.ts';
import type { Place } from '../places.ts';
import { plainOverlay, saidNumber, type Telling, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';
import { comesFromTuned, endOf, farEnd, type GridLeak, gridLeakOf, named } from '../wiring.ts';
import { homeWords } from './bias.ts';
import { arrivalWords, pathThrough } from './signal.ts';

/** How a place makes audio, or a difference, of what comes to it. */
export function detectionStep(grounds: Grounds, place: Place, id: string): TourStep | undefined {
  const { part, use } = place;
  if (part.kind === 'crystal') return crystalStep(grounds, place, id);
  const found = gridLeakOf(grounds.circuit, part);
  const isGrid = found !== undefined && comesFromTuned(grounds.circuit, found, part);
  const tell = telling(
    grounds,
    id,
    use === 'mixer' ? `${part.name} mixes` : `${part.name} detects`,
  );
  tell.parts(part.name);
  const isBehindMixer = grounds.places.some((each) => each.use === 'mixer' && each.isOnWay);
  const what = isBehindMixer ? 'intermediate' : 'radio';
  if (use === 'mixer') mixing(tell, place);
  else
    tell.say(`The ${what} signal comes to ${part.name}.grid ${arrivalWords(tell, place.arrives)}.`);
  const bias = grounds.overlay(`bias ${part.name}`);
  if (isGrid) byGrid(tell, place, found);
  else byPlate(tell, place);
  const oscillation = grounds.overlay('radio')?.paths.find(({ kind }) => kind === 'oscillator');
  if (use === 'mixer')
    return tell.done(
      plainOverlay(
        `${part.name} mixes`,
        [],
        [pathThrough(place, 'radio'), ...(oscillation ? [oscillation] : [])],
      ),
    );
  if (isGrid && bias) return tell.done(bias);
  return tell.done(plainOverlay(`${part.name} detects`, [], [pathThrough(place, 'radio')]));
}

/** Grid condenser and leak: the grid rectifies, the plate only follows. */
function byGrid(tell: Telling, { part, use }: Place, { condenser, leak }: GridLeak): void {
  const { overlay } = tell.grounds;
  const grid = endOf(part, 'grid');
  const path = overlay(`bias ${part.name}`)?.paths[0];
  tell.parts(condenser.name, ...(leak ? [leak.name] : []));
  if (!leak) {
    tell.say(
      `${named(condenser)} keeps direct current from the grid and no leak lets it recover: it will charge up and block.`,
    );
    return;
  }
  const ohms = saidNumber(tell, leak.name, 'resistance', `resistance of ${leak.name}`);
  const bias = tell.value(part.name, 'bias');
  const what = use === 'mixer' ? 'the difference of the two' : 'the audio';
  tell.say(
    `Here the grid rectifies: its current rises more on the upward swing of the signal than it falls on the downward one, so that ${condenser.name} charges, the grid goes more negative on the average, and ${what} appears on it.`,
  );
  if (tell.grounds.level === 'newcomer' || use !== 'mixer')
    tell.say(
      `${named(leak)}${ohms ? `, ${ohms},` : ''} sets where the grid rests${bias ? `, ${bias} with no signal,` : ''} and lets it recover; the plate only follows, and its current falls when a signal comes.`,
    );
  if (path && path.stopped === undefined && use !== 'mixer') {
    const home = homeWords(tell, part, path);
    tell.restorer(home);
  }
  const far = grid && farEnd(leak, grid.junction);
  tell.say(sideWords(tell, part, leak, far?.id));
}

/** Which side of the filament a leak goes to, and whether the type wants it there. */
function sideWords(
  tell: Telling,
  tube: Part,
  leak: Part,
  far: string | undefined,
): string | undefined {
  const { point } = tell.grounds;
  const wanted = tube.tubeType?.detector?.returnTo;
  const minus = endOf(tube, 'filament-')?.id;
  if (far === undefined || minus === undefined || wanted === undefined) return undefined;
  if (wanted === 'cathode') {
    const cathode = endOf(tube, 'cathode')?.id;
    const volts = cathode === undefined ? undefined : point.voltage(far, cathode);
    return volts !== undefined && Math.abs(volts) < 0.1
      ? `${leak.name} returns to the cathode, as is usual with a tube of type ${tube.tubeType?.name}.`
      : undefined;
  }
  const volts = point.voltage(far, minus);
  if (volts === undefined) return undefined;
  const text = tell.volts(far, minus);
  const side = volts > 1 ? 'A+' : 'A-';
  const is = side === 'A+' ? 'positive' : 'negative';
  const at = text && Math.abs(volts) > 0.02 ? `, ${text} from ${minus}` : '';
  return side === wanted
    ? `${leak.name} returns to the ${is} side of the filament${at}: that is where the data of the ${tube.tubeType?.name} want it, and not every type wants it there.`
    : `${leak.name} returns to the ${is} side of the filament${at}, where the data of the ${tube.tubeType?.name} name the other side.`;
}

/** Neither condenser nor leak: the bend of the plate's curve detects. */
function byPlate(tell: Telling, { part }: Place): void {
  const bias = tell.value(part.name, 'bias');
  const current = tell.value(part.name, 'plate-current');
  tell.say(
    `${part.name} has no grid condenser with a leak, so its grid does not detect: what detects is the bend in the plate's curve, and plate current rises with a signal.`,
  );
  if (bias && current)
    tell.say(
      `At rest its grid stands at ${bias} and ${current} flow; the further down on the bend, the better it detects a weak signal.`,
    );
}

/** A crystal. */
function crystalStep(grounds: Grounds, place: Place, id: string): TourStep {
  const { circuit } = grounds;
  const { part, arrives, leaves } = place;
  const tell = telling(grounds, id, `${part.name} detects`);
  const [one, other] = part.ends;
  const through = one && other ? [{ part: part.name, in: one.id, out: other.id }] : [];
  const path = { ...pathThrough(place, 'radio'), steps: [...arrives, ...through] };
  tell.path(path);
  tell.say(`The radio signal comes to ${named(part)} ${arrivalWords(tell, arrives)}.`);
  tell.say(
    `${part.name} lets current through more easily one way than the other, so that what is left behind it has an average that goes up and down with the audio.`,
  );
  const tap = arrives.at(-1);
  const winding = tap && circuit.partNamed.get(tap.part);
  const at = winding?.taps.find(({ end }) => tap?.out.endsWith(`.${end}`));
  if (winding && at)
    tell.say(
      `It hangs on ${tap?.out} and not on the whole of ${winding.name}, so that it and what follows load the tuned circuit less.`,
    );
  const behind = leaves[0] && circuit.partNamed.get(leaves[0].part);
  const across =
    behind &&
    circuit.parts.find(
      ({ kind, ends, words }) =>
        kind === 'condenser' &&
        !words.has('variable') &&
        ends.length === 2 &&
        behind.ends.length >= 2 &&
        ends.every(({ junction }) => behind.ends.some((end) => end.junction === junction)),
    );
  if (across && behind) {
    const size = saidNumber(tell, across.name, 'capacitance', `capacity of ${across.name}`);
    tell.say(
      `${named(across)}${size ? `, ${size},` : ''} takes the radio current past ${named(behind)}; the audio has to go through.`,
    );
    tell.parts(across.name);
  }
  const isAlone = !circuit.parts.some(({ kind }) => kind === 'tube');
  if (isAlone && behind)
    tell.lesson(
      'detection 1',
      `There is no battery: all the power that moves ${behind.name} came in from the aerial.`,
    );
  return tell.done(plainOverlay(`${part.name} detects`, across ? [across.name] : [], [path]));
}

/** Two frequencies at one grid. */
function mixing(tell: Telling, place: Place): void {
  const { overlay, circuit, tuned } = tell.grounds;
  const path = overlay('radio')?.paths.find(({ kind }) => kind === 'oscillator');
  const { part } = place;
  if (path) {
    tell.path(path);
    const from = path.steps
      .map((step) => circuit.partNamed.get(step.part))
      .find((each) => each?.kind === 'tube');
    const by = path.steps.find(({ coupled }) => coupled)?.part;
    tell.say(
      `Two signals come to ${part.name}.grid: the station ${arrivalWords(tell, place.arrives)}, and the oscillation of ${from?.name ?? 'the oscillator'}${by ? `, put in by ${by}` : ''}.`,
    );
  } else
    tell.say(
      `The station comes to ${part.name}.grid ${arrivalWords(tell, place.arrives)}; no way for an oscillation to get there was found.`,
    );
  const next = place.leaves.find(({ coupled }) => coupled);
  const stated = tuned.find(
    ({ stated: said, windings }) =>
      said && next && windings.some(({ edge }) => edge.part === next.part),
  );
  const owner = circuit.partNamed.get(circuit.partNamed.get(next?.part ?? '')?.owner ?? '');
  if (owner) {
    const said = stated
      ? saidNumber(tell, owner.name, 'tuned', `tuning of ${owner.name}`)
      : undefined;
    tell.say(
      `${named(owner)}${said ? `, tuned to ${said},` : ''} picks the difference of the two out of its plate circuit.`,
    );
  }
}

/** The oscillator of a superheterodyne. */
export function oscillatorStep(grounds: Grounds, place: Place, id: string): TourStep {
  const { circuit, overlay, dials } = grounds;
  const { part } = place;
  const tell = telling(grounds, id, `${part.name} oscillates`);
  tell.parts(part.name);
  const path = overlay('radio')?.paths.find(({ kind }) => kind === 'oscillator');
  const stage = circuit.parts.filter((each) => each.stage === part.stage);
  const windings = stage.filter(({ kind }) => kind === 'winding').map(({ name }) => name);
  const [plate] = path?.steps.slice(1) ?? [];
  const grid = endOf(part, 'grid');
  const own = windings.find((name) =>
    circuit.partNamed.get(name)?.ends.some(({ junction }) => junction === grid?.junction),
  );
  if (plate && own && windings.includes(plate.part))
    tell.say(
      `${part.name} feeds itself: ${plate.part} in its plate lead works by its field on ${own} at its grid, the right way round, and what it gives is more than the circuit loses.`,
    );
  else tell.say(`${part.name} is there to oscillate by itself, beside the station.`);
  const column = dials.columns.find(({ above }) => above > 0);
  if (path) {
    tell.path(path);
    const pick = path.steps.find(({ coupled }) => coupled)?.part;
    if (pick) tell.say(`${pick} takes a little of it to the mixer.`);
  }
  if (column) {
    const { tuner } = column.of.circuit;
    tell.say(
      `${column.name} keeps ${tuner === undefined ? 'it' : `${tuner}'s circuit`} above the station by what the intermediate amplifier is tuned to; most stations come in at a second place of that dial too, as far below.`,
    );
  }
  return tell.done(
    path
      ? plainOverlay(`${part.name} oscillates`, windings, [path])
      : plainOverlay(`${part.name} oscillates`, [part.name, ...windings]),
  );
}
