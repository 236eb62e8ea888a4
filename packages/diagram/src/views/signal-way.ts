import { type Part, rolesOf } from '@setwright/circuit';
import type { OverlayPath, OverlayStep, PathKind } from './overlay.ts';
import { joinedSections, type SetAtWork } from './set-at-work.ts';

/** What lies between two junctions for a signal on its way. */
interface Hop {
  readonly to: number;
  /** Ohms, or what stands for them. */
  readonly cost: number;
  readonly steps: readonly OverlayStep[];
}

/** A way found, with what it cost. */
interface Way {
  readonly steps: readonly OverlayStep[];
  readonly junction: number;
  readonly cost: number;
}

/** Where a signal sets out, with what it has passed before. */
interface Start {
  readonly junction: number;
  readonly steps: readonly OverlayStep[];
}

/** A signal's map: every junction with what leads on from it, tubes from grid to plate only. */
type SignalMap = ReadonlyMap<number, readonly Hop[]>;

/** What a tube and a field between windings count for, in ohms: little, for they carry the signal. */
const THROUGH_TUBE = 100;
const THROUGH_FIELD = 100;

/** Ohms of a part whose value the text does not say: a way, though not the first to be taken. */
const NOT_SAID = 5000;

const soundMakers: ReadonlySet<string> = new Set(['phones', 'horn', 'speaker']);

/** The audio frequency that stands for all, in hertz. Common practice. */
const AUDIO = 1000;

/** Hertz up to which something is heard. Common practice. */
const HIGHEST_AUDIO = 20_000;

/** From the aerial or loop through the tubes to the detector, and what is fed back on the way. */
export function radioPaths(work: SetAtWork): OverlayPath[] {
  const { circuit } = work;
  const map = signalMap(work, work.signals().radio);
  const detector = detectorOf(work);
  const starts = entrances(work);
  const paths: OverlayPath[] = [];
  const from = circuit.parts.find(({ kind, words }) => kind === 'post' && words.has('aerial'));
  const goals = detector ? endsOf(detector, detector.kind === 'tube' ? ['grid'] : undefined) : [];
  const way = nearest(map, starts, new Set(goals.map((end) => end.junction)), detector?.name);
  const path = (kind: PathKind, heading: string, steps: readonly OverlayStep[]): OverlayPath => ({
    kind,
    heading,
    ...(from && kind === 'radio' ? { from: from.ends[0]?.id ?? '' } : {}),
    steps: joinedSections(steps),
  });
  if (way && detector) {
    const last = goals.find(({ junction }) => junction === way.junction);
    const other = detector.ends.find((end) => end !== last);
    const through =
      detector.kind !== 'tube' && last && other
        ? [{ part: detector.name, in: last.id, out: other.id }]
        : [];
    paths.push({
      ...path('radio', `radio signal from ${startName(work)} to the detector, ${detector.name}`, [
        ...way.steps,
        ...through,
      ]),
      ...(last && through.length === 0 ? { to: last.id } : {}),
    });
    paths.push(...twins(work, map, starts, way, detector, paths));
    const tubes = [...tubesOn(work, way.steps), ...(detector.kind === 'tube' ? [detector] : [])];
    for (const tube of tubes) {
      const back = feedback(work, map, tube, way.steps);
      if (back) paths.push(path('feedback', `fed back from the plate of ${tube.name}`, back));
    }
    const mixing = oscillation(work, map, way.steps);
    if (mixing) paths.push(mixing);
  }
  return paths;
}

/** From the detector through the audio tubes to the phones or loudspeaker. */
export function audioPaths(work: SetAtWork): OverlayPath[] {
  const { circuit } = work;
  const detector = detectorOf(work);
  if (!detector) return [];
  const map = signalMap(work, AUDIO);
  const starts = audioStarts(work, detector);
  const outputs = circuit.parts.filter(({ kind }) => soundMakers.has(kind));
  const posts = circuit.parts.filter(
    ({ kind, words }) => kind === 'post' && (words.has('speaker') || words.has('phones')),
  );
  let best: { way: Way; output: Part } | undefined;
  for (const output of outputs.length > 0 ? outputs : posts) {
    const goals = new Set(
      output.ends.map((end) => end.junction).filter((net) => !isRail(work, net)),
    );
    const way = nearest(map, starts, goals, undefined);
    // Of several outputs the one behind the most tubes: phones may be plugged in before.
    if (way && (!best || tubesOn(work, way.steps).length > tubesOn(work, best.way.steps).length))
      best = { way, output };
  }
  if (!best) return [];
  const { way, output } = best;
  const into = output.ends.find((end) => end.junction === way.junction);
  const out = output.ends.find((end) => end !== into);
  const last = into && out ? [{ part: output.name, in: into.id, out: out.id }] : [];
  const main: OverlayPath = {
    kind: 'audio',
    heading: `audio signal from the detector, ${detector.name}, to ${output.name}`,
    steps: joinedSections([...way.steps, ...last]),
    ...(last.length === 0 && into ? { to: into.id } : {}),
  };
  return [main, ...twins(work, map, starts, way, output, [main])];
}

/** Other tubes that the signal passes side by side with those of the way found, as in push-pull. */
function twins(
  work: SetAtWork,
  map: SignalMap,
  starts: readonly Start[],
  way: Way,
  goal: Part,
  known: readonly OverlayPath[],
): OverlayPath[] {
  const [first] = known;
  if (!first) return [];
  const seen = new Set(first.steps.map(({ part }) => part));
  const found: OverlayPath[] = [];
  const lastTube = goal.kind === 'tube' ? ['grid'] : undefined;
  const goals = new Set(
    endsOf(goal, lastTube)
      .map(({ junction }) => junction)
      .filter((net) => !isRail(work, net)),
  );
  for (const tube of work.circuit.parts) {
    if (tube.kind !== 'tube' || seen.has(tube.name) || tube === goal) continue;
    const grid = tube.ends.find(({ name }) => name === 'grid');
    const plate = tube.ends.find(({ name }) => name === 'plate');
    if (!grid || !plate || isRail(work, grid.junction) || isOscillator(work, tube)) continue;
    const before = nearest(map, starts, new Set([grid.junction]), tube.name);
    if (!before) continue;
    const through = { part: tube.name, in: grid.id, out: plate.id };
    const after = nearest(
      map,
      [{ junction: plate.junction, steps: [] }],
      goals,
      goal.kind === 'tube' ? goal.name : undefined,
    );
    // Side by side means: as many tubes from start to goal as on the way found.
    const steps = [...before.steps, through, ...(after?.steps ?? [])];
    if (!after || tubesOn(work, steps).length !== tubesOn(work, way.steps).length) continue;
    found.push({
      kind: first.kind,
      heading: `${first.heading}, through ${tube.name}`,
      steps: joinedSections(steps),
    });
  }
  return found;
}

/** From a tube's plate to a winding that works on a coil which the signal passed before it. */
function feedback(
  work: SetAtWork,
  map: SignalMap,
  tube: Part,
  steps: readonly OverlayStep[],
): readonly OverlayStep[] | undefined {
  const { circuit } = work;
  const upTo = steps.findIndex(({ part }) => part === tube.name);
  const before = upTo < 0 ? steps : steps.slice(0, upTo);
  const passed = new Map<string, string>();
  for (const { part } of before) {
    const owner = circuit.partNamed.get(part)?.owner;
    if (owner !== undefined) passed.set(owner, part);
  }
  const plate = tube.ends.find(({ name }) => name === 'plate');
  const grid = tube.ends.find(({ name }) => name === 'grid');
  if (!plate || !grid) return undefined;
  const ticklers = circuit.parts.filter(
    ({ kind, owner, name }) =>
      kind === 'winding' && passed.has(owner ?? '') && !before.some(({ part }) => part === name),
  );
  const goals = new Map(
    ticklers.flatMap((winding) =>
      winding.ends.map((end) => [end.junction, { winding, end }] as const),
    ),
  );
  for (const net of goals.keys()) if (isRail(work, net)) goals.delete(net);
  const plain = withoutTubesAndFields(map);
  const way = nearest(
    plain,
    [{ junction: plate.junction, steps: [] }],
    new Set(goals.keys()),
    undefined,
  );
  const goal = way && goals.get(way.junction);
  if (!way || !goal) return undefined;
  const on = circuit.partNamed.get(passed.get(goal.winding.owner ?? '') ?? '');
  const far = goal.winding.ends.find((end) => end !== goal.end);
  const target =
    on && spanOf(work, on, on.ends.find(({ junction }) => !isRail(work, junction))?.id);
  if (!far || !on || !target) return undefined;
  return [
    ...(grid ? [{ part: tube.name, in: grid.id, out: plate.id }] : []),
    ...way.steps,
    { part: goal.winding.name, in: goal.end.id, out: far.id },
    { part: on.name, in: target.cold, out: target.hot, coupled: true },
  ];
}

/** From an oscillator's tube to the first tube on the signal's way that hears it. */
function oscillation(
  work: SetAtWork,
  map: SignalMap,
  steps: readonly OverlayStep[],
): OverlayPath | undefined {
  const oscillator = work.circuit.parts.find(
    (part) => part.kind === 'tube' && isOscillator(work, part),
  );
  const plate = oscillator?.ends.find(({ name }) => name === 'plate');
  const grid = oscillator?.ends.find(({ name }) => name === 'grid');
  const mixer = tubesOn(work, steps).find((tube) => rolesOf(work.circuit, tube).includes('mixer'));
  const goal = mixer?.ends.find(({ name }) => name === 'grid');
  if (!oscillator || !plate || !grid || !goal || mixer === oscillator) return undefined;
  const way = nearest(
    map,
    [{ junction: plate.junction, steps: [] }],
    new Set([goal.junction]),
    undefined,
  );
  if (!way) return undefined;
  return {
    kind: 'oscillator',
    heading: `oscillation from ${oscillator.name} to ${mixer?.name}`,
    steps: joinedSections([{ part: oscillator.name, in: grid.id, out: plate.id }, ...way.steps]),
    to: goal.id,
  };
}

function withoutTubesAndFields(map: SignalMap): SignalMap {
  return new Map([...map].map(([net, hops]) => [net, hops.filter(({ steps }) => isPlain(steps))]));
}

const isPlain = (steps: readonly OverlayStep[]): boolean =>
  steps.length === 1 && !steps[0]?.in.endsWith('.grid');

/** The tubes that steps lead through, in order. */
export function tubesOn({ circuit }: SetAtWork, steps: readonly OverlayStep[]): Part[] {
  return steps.flatMap(({ part }) => {
    const found = circuit.partNamed.get(part);
    return found?.kind === 'tube' ? [found] : [];
  });
}

const isOscillator = (work: SetAtWork, tube: Part): boolean => {
  const roles = rolesOf(work.circuit, tube);
  return roles.includes('oscillator') && !roles.includes('mixer');
};

const endsOf = (part: Part, names: readonly string[] | undefined) =>
  part.ends.filter(({ name }) => !names || names.includes(name));

/**
 * What makes audio of radio: the tube of the last stage that is said to detect; a crystal; where
 * nothing is said, the first tube with a leak at a condenser in its grid lead, else the last one
 * that radio comes to.
 */
function detectorOf(work: SetAtWork): Part | undefined {
  const { circuit } = work;
  const tubes = circuit.parts.filter(({ kind }) => kind === 'tube');
  const said = tubes.filter((tube) => {
    const roles = rolesOf(work.circuit, tube);
    return roles.includes('detector') && !roles.includes('mixer');
  });
  const crystal = circuit.parts.find(({ kind }) => kind === 'crystal');
  if (said.length > 0 && !crystal) return said.at(-1);
  if (crystal) return crystal;
  const leaky = tubes.find((tube) => {
    const net = tube.ends.find(({ name }) => name === 'grid')?.junction;
    const on = (kind: string): boolean =>
      circuit.parts.some((part) => part.kind === kind && part.ends.some((e) => e.junction === net));
    return net !== undefined && on('condenser') && (on('leak') || on('resistor'));
  });
  return leaky ?? lastReached(work, tubes);
}

/** The tube that radio comes to through the most others. */
function lastReached(work: SetAtWork, tubes: readonly Part[]): Part | undefined {
  const map = signalMap(work, work.signals().radio);
  const starts = entrances(work);
  let last: Part | undefined;
  let most = -1;
  for (const tube of tubes) {
    if (isOscillator(work, tube)) continue;
    const grids = new Set(endsOf(tube, ['grid']).map(({ junction }) => junction));
    const way = nearest(map, starts, grids, tube.name);
    const passed = way ? tubesOn(work, way.steps).length : -1;
    if (passed > most) [last, most] = [tube, passed];
  }
  return last;
}

/** Where radio comes in: at the aerial post, else through the loop. */
function entrances({ circuit, rails }: SetAtWork): Start[] {
  const aerials = circuit.parts.filter(({ kind, words }) => kind === 'post' && words.has('aerial'));
  if (aerials.length > 0)
    return aerials.flatMap(({ ends }) => ends.map(({ junction }) => ({ junction, steps: [] })));
  return circuit.parts.flatMap((loop) => {
    const [a, b] = loop.ends;
    if (loop.kind !== 'loop' || !a || !b) return [];
    return [
      [a, b],
      [b, a],
    ].flatMap(([cold, hot]) =>
      cold && hot && rails.roleOf(hot.junction) === 'signal'
        ? [{ junction: hot.junction, steps: [{ part: loop.name, in: cold.id, out: hot.id }] }]
        : [],
    );
  });
}

function startName({ circuit }: SetAtWork): string {
  const aerial = circuit.parts.find(({ kind, words }) => kind === 'post' && words.has('aerial'));
  return aerial?.name ?? circuit.parts.find(({ kind }) => kind === 'loop')?.name ?? 'the aerial';
}

/** Audio begins in the detector: it comes out at the plate, or at the crystal's far end. */
function audioStarts(work: SetAtWork, detector: Part): Start[] {
  if (detector.kind === 'tube') {
    const grid = detector.ends.find(({ name }) => name === 'grid');
    const plate = detector.ends.find(({ name }) => name === 'plate');
    if (!grid || !plate) return [];
    const steps = [{ part: detector.name, in: grid.id, out: plate.id }];
    return [{ junction: plate.junction, steps }];
  }
  const [a, b] = detector.ends;
  if (!a || !b) return [];
  const radio = radioEnd(work, detector);
  const [into, out] = radio === b.id ? [b, a] : [a, b];
  return [
    { junction: out.junction, steps: [{ part: detector.name, in: into.id, out: out.id }] },
  ].filter(({ junction }) => !isRail(work, junction));
}

/** The end at which radio reaches a crystal. */
function radioEnd(work: SetAtWork, crystal: Part): string | undefined {
  const goals = new Set(crystal.ends.map(({ junction }) => junction));
  const way = nearest(signalMap(work, work.signals().radio), entrances(work), goals, crystal.name);
  return crystal.ends.find(({ junction }) => junction === way?.junction)?.id;
}

const isRail = ({ rails }: SetAtWork, net: number): boolean =>
  ['low', 'high'].includes(rails.roleOf(net));

/** Everything that leads a signal of a frequency in hertz from one junction to another. */
function signalMap(work: SetAtWork, frequency: number): SignalMap {
  const { circuit, conduction } = work;
  const { set, tuning } = work.signals();
  const map = new Map<number, Hop[]>();
  const netOf = (end: string): number | undefined => circuit.endNamed.get(end)?.junction;
  const oneWay = (from: number, hop: Hop): void => {
    const hops = map.get(from);
    if (hops) hops.push(hop);
    else map.set(from, [hop]);
  };
  const known = new Set<string>();
  const both = (part: string, from: string, to: string, ohms: number): void => {
    known.add(part);
    const [a, b] = [netOf(from), netOf(to)];
    if (a === undefined || b === undefined || a === b || !Number.isFinite(ohms)) return;
    oneWay(a, { to: b, cost: ohms + 1, steps: [{ part, in: from, out: to }] });
    oneWay(b, { to: a, cost: ohms + 1, steps: [{ part, in: to, out: from }] });
  };
  const isPart = (name: string | undefined): boolean => {
    const kind = circuit.partNamed.get(name ?? '')?.kind;
    return kind !== undefined && kind !== 'tube' && kind !== 'battery' && kind !== 'eliminator';
  };
  const radians = 2 * Math.PI * frequency;
  const { conductances, capacities, series } = set.network;
  for (const { origin, siemens } of conductances)
    if (origin && isPart(origin.part)) both(origin.part, origin.from, origin.to, 1 / siemens);
  for (const { origin, farads, condenser, isStray } of capacities) {
    const own = tuning.get(condenser ?? '') ?? farads;
    if (origin && !isStray && isPart(origin.part) && own > 0)
      both(origin.part, origin.from, origin.to, 1 / (radians * own));
  }
  for (const { pieces, henries } of series) {
    for (const [index, { origin, ohms }] of pieces.entries()) {
      const size = Math.hypot(ohms(frequency), radians * (henries[index]?.[index] ?? 0));
      if (origin && isPart(origin.part)) both(origin.part, origin.from, origin.to, size);
    }
  }
  for (const { direct, part, from, to } of conduction.branches) {
    const contacts = circuit.partNamed.get(part)?.contacts.length ?? 0;
    if (direct.kind === 'conducts' && contacts > 0) both(part, from, to, 0);
  }
  for (const { name, ends } of circuit.parts) {
    const [first, second] = ends;
    if (known.has(name) || !isPart(name) || !first || !second) continue;
    both(name, first.id, second.id, NOT_SAID);
  }
  for (const part of circuit.parts) {
    if (part.kind === 'tube' && !isOscillator(work, part)) {
      const grid = part.ends.find(({ name }) => name === 'grid');
      const plate = part.ends.find(({ name }) => name === 'plate');
      if (!grid || !plate) continue;
      const steps = [{ part: part.name, in: grid.id, out: plate.id }];
      oneWay(grid.junction, { to: plate.junction, cost: THROUGH_TUBE, steps });
    }
    if (part.kind === 'winding' && carriesField(work, part, frequency))
      addFields(work, part, oneWay);
  }
  // Nothing leads a signal on from a rail.
  for (const net of map.keys()) if (isRail(work, net)) map.delete(net);
  return map;
}

/** Iron hands on what can be heard, a coil on air what cannot. */
function carriesField({ circuit }: SetAtWork, winding: Part, frequency: number): boolean {
  const owner = circuit.partNamed.get(winding.owner ?? '');
  const isIron = owner?.kind === 'transformer' && !owner.words.has('air');
  return isIron === frequency <= HIGHEST_AUDIO;
}

/** From every end of a winding to every end of those beside it on the same form or iron. */
function addFields(work: SetAtWork, winding: Part, add: (from: number, hop: Hop) => void): void {
  for (const other of work.circuit.parts) {
    if (other.kind !== 'winding' || other.owner !== winding.owner || other === winding) continue;
    for (const into of winding.ends) {
      const near = spanOf(work, winding, into.id);
      if (!near) continue;
      for (const out of other.ends) {
        const far = spanOf(work, other, out.id);
        if (!far || isRail(work, out.junction)) continue;
        add(into.junction, {
          to: out.junction,
          cost: THROUGH_FIELD,
          steps: [
            { part: winding.name, in: into.id, out: near.cold },
            { part: other.name, in: far.cold, out: out.id, coupled: true },
          ],
        });
      }
    }
  }
}

/** The far end of a winding from one of its ends: where it lies on a rail, if it does anywhere. */
function spanOf(
  work: SetAtWork,
  winding: Part,
  hot: string | undefined,
): { readonly hot: string; readonly cold: string } | undefined {
  if (hot === undefined) return undefined;
  const others = winding.ends.filter(({ id }) => id !== hot);
  const grounded = others.find(({ junction }) =>
    ['low', 'high'].includes(work.rails.roleOf(junction)),
  );
  const whole = others.find(({ name }) => name === 'start' || name === 'finish');
  const cold = grounded ?? whole;
  return cold && { hot, cold: cold.id };
}

/** Dijkstra's search from several starts; `skip` is a tube that is not led through. */
function nearest(
  map: SignalMap,
  starts: readonly Start[],
  goals: ReadonlySet<number>,
  skip: string | undefined,
): Way | undefined {
  const best = new Map<number, Way & { readonly before: number | undefined }>();
  const open = new Set<number>();
  for (const { junction, steps } of starts) {
    if (best.has(junction)) continue;
    best.set(junction, { steps, junction, cost: 0, before: undefined });
    open.add(junction);
  }
  while (open.size > 0) {
    let here = -1;
    let least = Number.POSITIVE_INFINITY;
    for (const net of open) {
      const cost = best.get(net)?.cost ?? 0;
      if (cost < least) [here, least] = [net, cost];
    }
    if (here < 0) return undefined;
    open.delete(here);
    if (goals.has(here)) {
      const steps: OverlayStep[] = [];
      for (let at: number | undefined = here; at !== undefined; ) {
        const way: (Way & { before: number | undefined }) | undefined = best.get(at);
        steps.unshift(...(way?.steps ?? []));
        at = way?.before;
      }
      return { steps, junction: here, cost: least };
    }
    for (const { to, cost, steps } of map.get(here) ?? []) {
      if (skip !== undefined && steps.some(({ part }) => part === skip)) continue;
      const known = best.get(to);
      if (known && known.cost <= least + cost) continue;
      best.set(to, { steps, junction: to, cost: least + cost, before: here });
      open.add(to);
    }
  }
  return undefined;
}
