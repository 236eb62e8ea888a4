import { formatQuantity } from '@setwright/units';
import { asOn } from './as-on.ts';
import { terminalName } from './assemble.ts';
import { type Conduction, conductionOf, type JoinedBranch } from './conduction.ts';
import { emitterOf } from './emitter.ts';
import { leadsOn } from './leads-on.ts';
import type { Circuit, End, Part, Place } from './model.ts';
import { directPath, type PathOptions, type Step } from './reach.ts';
import type { Settings } from './settings.ts';
import { isSupply, MOST_FILAMENT_VOLTS, openVolts, zeroTap } from './supplies.ts';

/** One part that direct current passes on the way. */
export interface TraceStep {
  readonly part: string;
  /** Full names of the terminals it is entered and left by. */
  readonly from: string;
  readonly to: string;
  readonly passes: true;
  /** Why it passes: `the winding is one length of wire, 3.2 ohms`. */
  readonly because: string;
  /** Where the text says how many. */
  readonly ohms?: number;
  /** For a battery or eliminator: volts of `to` above `from`. */
  readonly volts?: number;
}

/** Where direct current goes from a terminal. */
export interface TracePath {
  /** What the path is: `bias of V3.grid, from filament- to grid`. */
  readonly heading: string;
  /** Empty when both ends of the path are one junction. */
  readonly steps: readonly TraceStep[];
  /** What stops it, after the steps; absent when the path is whole. */
  readonly blocked?: {
    /** Undefined when nothing is there to stop it: the wiring ends. */
    readonly part: string | undefined;
    readonly because: string;
    readonly place: Place;
  };
}

/** No more paths than this are given for a tap that feeds many tubes. */
const MOST_PATHS = 24;

/** What a plate should be led to. */
const A_PLATE_TAP = 'a tap that feeds plates';

/** No more ends than this are tried for the one where a path stops. */
const MOST_ENDS = 200;

/**
 * Where direct current goes from a terminal, with the reason why every part passes it.
 *
 * - A grid: back to its own cathode or filament−, through the C battery where that is the way.
 * - A plate or screen: to the positive tap that feeds it, and from that supply's zero back to the
 *   tube's cathode or filament−.
 * - An end of a filament: round through its battery to the other end.
 * - An end of a crystal: round to its other end, for what it rectifies is direct current.
 * - A tap: to every electrode that it feeds, and from its supply's zero to the filaments.
 * - Any other terminal: to the nearest tap or filament.
 *
 * Ways of few ohms are preferred, and ways through filaments of other tubes are taken only where
 * there is no other. Nothing is found for a terminal that does not exist. Never throws.
 *
 * @param terminal full name of a terminal, such as `V1.grid`.
 * @param settings the set as on where not given.
 */
export function traceDirectCurrent(
  circuit: Circuit,
  terminal: string,
  settings: Settings = asOn(circuit).settings,
): readonly TracePath[] {
  const end = circuit.endNamed.get(terminal);
  const part = circuit.partOfEnd.get(terminal);
  if (!end || !part) return [];
  const conduction = conductionOf(circuit, settings);
  if (isSupply(part)) return ofTap(conduction, part, end);
  if (part.kind === 'crystal') return [ofCrystal(conduction, part, end)];
  if (part.kind !== 'tube') return [toNearestHome(conduction, end)];
  switch (end.name) {
    case 'grid':
      return [ofGrid(conduction, part, end)];
    case 'plate':
    case 'screen':
      return ofPlate(conduction, part, end);
    case 'filament-':
    case 'filament+':
      return ofFilament(conduction, part);
    default:
      return [ofCathode(conduction, part, end)];
  }
}

function ofGrid(conduction: Conduction, tube: Part, grid: End): TracePath {
  const emitter = emitterOf(tube);
  const heading = `bias of ${grid.id}, back to ${emitter?.id ?? `the filament of ${tube.name}`}`;
  const home = emitter?.id ?? `the filament of ${tube.name}`;
  return pathTo(conduction, heading, grid, home, (here) => here === emitter?.junction);
}

function ofPlate(conduction: Conduction, tube: Part, plate: End): readonly TracePath[] {
  const { circuit } = conduction;
  const forPlates = tapsAt(circuit, (volts) => volts > MOST_FILAMENT_VOLTS);
  const positive = tapsAt(circuit, (volts) => volts > 0);
  const heading = `feed of ${plate.id}`;
  const options = { throughSources: false } as const;
  let goals = forPlates;
  let feed = pathTo(conduction, heading, plate, A_PLATE_TAP, (here) => goals.has(here), options);
  if (feed.blocked) {
    // A plate may be fed from the A battery on purpose.
    const lower = pathTo(
      conduction,
      heading,
      plate,
      A_PLATE_TAP,
      (here) => positive.has(here),
      options,
    );
    if (!lower.blocked) {
      feed = lower;
      goals = positive;
    }
  }
  if (feed.blocked) return [feed];
  const last = feed.steps.at(-1)?.to ?? plate.id;
  const tap = goals.get(circuit.endNamed.get(last)?.junction ?? -1)?.[0];
  if (!tap) return [feed];
  const named: TracePath = { ...feed, heading: `${heading} from ${called(circuit, tap.id)}` };
  return [named, ofReturn(conduction, tap.supply, tube)];
}

/** From a supply's zero back to a tube's cathode or filament−. */
function ofReturn(conduction: Conduction, supply: Part, tube: Part): TracePath {
  const zero = endOfTap(supply, zeroTap(supply)?.end);
  const emitter = emitterOf(tube);
  const heading = `return from ${emitter?.id ?? tube.name} to ${
    zero ? called(conduction.circuit, zero.id) : supply.name
  }`;
  if (!zero || !emitter) return stopped(heading, tube, 'it has no such terminal');
  const goal = called(conduction.circuit, zero.id);
  return pathTo(conduction, heading, emitter, goal, (junction) => junction === zero.junction, {
    skip: new Set([supply.name]),
  });
}

function ofCathode(conduction: Conduction, tube: Part, cathode: End): TracePath {
  const { circuit } = conduction;
  const zeros = new Set(
    circuit.parts.flatMap((part) => endOfTap(part, zeroTap(part)?.end)?.junction ?? []),
  );
  const goal = 'the negative tap of a battery';
  const heading = `return of ${cathode.id}`;
  return pathTo(conduction, heading, cathode, goal, (junction) => zeros.has(junction), {
    throughSources: false,
    skip: new Set([tube.name]),
  });
}

/** Round from one end of a filament through its battery to the other. */
function ofFilament(conduction: Conduction, tube: Part): readonly TracePath[] {
  const { circuit } = conduction;
  const negative = tube.ends.find((end) => end.name === 'filament-');
  const positive = tube.ends.find((end) => end.name === 'filament+');
  const heading = `filament current of ${tube.name}`;
  if (!negative || !positive) return [stopped(heading, tube, 'it has no such terminal')];
  const taps = tapsAt(circuit, () => true);
  const isTap = (junction: number): boolean => taps.has(junction);
  const skip = new Set([tube.name]);
  const direct = { throughSources: false, skip, passes: notThroughTubes(circuit) };
  // A string leads through other filaments; anything else that does has a lead open.
  for (const options of [direct, { throughSources: false, skip }]) {
    const out = search(conduction, positive, isTap, options);
    const back = search(conduction, negative, isTap, options);
    if (!out.found || !back.found || out.junction === back.junction) continue;
    const goal = back.junction;
    const between = directPath(conduction, out.junction, (junction) => junction === goal, {
      passes: (branch) => branch.direct.kind === 'source',
    });
    if (!between.found) continue;
    const steps = [...out.steps, ...between.steps, ...reversed(negative, back.steps)];
    return [{ heading, steps: merged(conduction, steps) }];
  }
  for (const end of [positive, negative]) {
    const path = pathTo(conduction, heading, end, 'a battery', isTap, direct);
    if (path.blocked) return [path];
  }
  return [stopped(heading, tube, 'both its ends lead to one tap, or to two supplies apart')];
}

/** What a tap feeds, and the way from its supply's zero to the filaments. */
function ofTap(conduction: Conduction, supply: Part, tap: End): readonly TracePath[] {
  const { circuit } = conduction;
  const paths: TracePath[] = [];
  const options = { throughSources: false, passes: notThroughTubes(circuit) };
  const zero = endOfTap(supply, zeroTap(supply)?.end);
  const isElectrode = (junction: number): boolean =>
    (circuit.junctions[junction]?.terminals ?? []).some(
      (id) => circuit.partOfEnd.get(id)?.kind === 'tube',
    );
  const nothing = directPath(conduction, tap.junction, () => false, options);
  const reached = nothing.found ? new Set<number>() : nothing.reached;
  for (const junction of reached) {
    if (paths.length >= MOST_PATHS) break;
    if (!isElectrode(junction)) continue;
    const ids = (circuit.junctions[junction]?.terminals ?? []).filter(
      (id) => circuit.partOfEnd.get(id)?.kind === 'tube',
    );
    const heading = `${called(circuit, tap.id)} to ${ids.slice(0, MOST_PATHS).join(', ')}`;
    paths.push(pathTo(conduction, heading, tap, 'it', (here) => here === junction, options));
  }
  if (zero && zero !== tap) {
    const filaments = new Set(
      circuit.parts.flatMap((part) =>
        part.kind === 'tube' ? (emitterOf(part)?.junction ?? []) : [],
      ),
    );
    const heading = `return to ${called(circuit, zero.id)}, from the filaments`;
    paths.push(
      pathTo(conduction, heading, zero, 'a filament', (here) => filaments.has(here), {
        skip: new Set([supply.name]),
      }),
    );
  }
  return paths;
}

/** Round from one end of a crystal to the other. */
function ofCrystal(conduction: Conduction, crystal: Part, end: End): TracePath {
  const other = crystal.ends.find((each) => each !== end);
  const heading = `what ${crystal.name} rectifies, from ${end.id} round to ${other?.id ?? 'its other end'}`;
  if (!other) return stopped(heading, crystal, 'it has no other end');
  return pathTo(conduction, heading, end, other.id, (here) => here === other.junction, {
    skip: new Set([crystal.name]),
  });
}

function toNearestHome(conduction: Conduction, end: End): TracePath {
  const { circuit } = conduction;
  const taps = tapsAt(circuit, () => true);
  const filaments = new Set(
    circuit.parts.flatMap((part) =>
      part.kind === 'tube'
        ? part.ends.filter(({ name }) => name.startsWith('filament')).map((each) => each.junction)
        : [],
    ),
  );
  return pathTo(
    conduction,
    `from ${end.id}`,
    end,
    'a battery or a filament',
    (junction) => taps.has(junction) || filaments.has(junction),
    { throughSources: false },
  );
}

interface TapAt {
  readonly id: string;
  readonly supply: Part;
}

/** The taps of all supplies whose volts are wanted, by junction. Taps of unknown volts are. */
function tapsAt(
  circuit: Circuit,
  wanted: (volts: number) => boolean,
): ReadonlyMap<number, readonly TapAt[]> {
  const found = new Map<number, TapAt[]>();
  for (const supply of circuit.parts) {
    for (const tap of supply.supplyTaps) {
      const volts = openVolts(supply, tap) ?? Number.POSITIVE_INFINITY;
      const end = endOfTap(supply, tap.end);
      if (!end || !wanted(volts)) continue;
      const here = found.get(end.junction);
      if (here) here.push({ id: end.id, supply });
      else found.set(end.junction, [{ id: end.id, supply }]);
    }
  }
  return found;
}

function endOfTap(supply: Part, name: string | undefined): End | undefined {
  return name === undefined ? undefined : supply.ends.find((end) => end.name === name);
}

function called(circuit: Circuit, id: string): string {
  return terminalName(id, circuit.partOfEnd.get(id));
}

function notThroughTubes(circuit: Circuit): (branch: JoinedBranch) => boolean {
  return (branch) => circuit.partNamed.get(branch.part)?.kind !== 'tube';
}

/** The way of fewest ohms that leads through no filament, else any. */
function search(
  conduction: Conduction,
  from: End,
  isGoal: (junction: number) => boolean,
  options: PathOptions,
): ReturnType<typeof directPath> {
  const plain = directPath(conduction, from.junction, isGoal, {
    prefer: 'ohms',
    passes: notThroughTubes(conduction.circuit),
    ...options,
  });
  if (plain.found || options.passes) return plain;
  const any = directPath(conduction, from.junction, isGoal, { prefer: 'ohms', ...options });
  return any.found ? any : plain;
}

/**
 * The path from a terminal to the nearest goal, or as far as it goes.
 *
 * @param goal what the path should come to, in words
 */
function pathTo(
  conduction: Conduction,
  heading: string,
  from: End,
  goal: string,
  isGoal: (junction: number) => boolean,
  options: PathOptions = {},
): TracePath {
  const { circuit } = conduction;
  const path = search(conduction, from, isGoal, options);
  if (path.found) return { heading, steps: merged(conduction, path.steps) };
  const own = circuit.partOfEnd.get(from.id);
  const blocker = path.blockers.find(
    (each) => each.part !== own?.name && leadsOn(conduction, each, path.reached, isGoal),
  );
  const part = blocker && circuit.partNamed.get(blocker.part);
  const end = farthestEnd(conduction, from, path.reached, options);
  const isPastBlocker = end.isZero && end.distance > (blocker?.distance ?? 0);
  if (blocker && part && !isPastBlocker) {
    const towards = search(conduction, from, (here) => here === blocker.junction, options);
    return {
      heading,
      steps: towards.found ? merged(conduction, towards.steps) : [],
      blocked: { part: blocker.part, because: blocker.because, place: part.place },
    };
  }
  const steps = merged(conduction, end.steps);
  const last = steps.at(-1)?.to ?? from.id;
  const owner = circuit.partOfEnd.get(last);
  return {
    heading,
    steps,
    blocked: {
      part: undefined,
      because:
        steps.length === 0 && circuit.junctions[from.junction]?.terminals.length === 1
          ? `nothing leads on from ${from.id}`
          : `it ends at ${called(circuit, last)}, and nothing joins that to ${goal}`,
      place: owner?.place ?? own?.place ?? circuit.place,
    },
  };
}

interface FarthestEnd {
  readonly steps: readonly Step[];
  readonly distance: number;
  /** Whether it is the zero of a battery that the way leads through. */
  readonly isZero: boolean;
}

/**
 * Where a way that leads nowhere ends: at the zero of the farthest battery that it leads through,
 * for from there it ought to go home; without one at the farthest junction.
 */
function farthestEnd(
  conduction: Conduction,
  from: End,
  reached: ReadonlySet<number>,
  options: PathOptions,
): FarthestEnd {
  const { circuit } = conduction;
  const zeros = new Set(
    circuit.parts.flatMap((part) => endOfTap(part, zeroTap(part)?.end)?.junction ?? []),
  );
  const wayTo = (junction: number): readonly Step[] => {
    const way = search(conduction, from, (here) => here === junction, options);
    return way.found ? way.steps : [];
  };
  const ways = [...reached].filter((junction) => zeros.has(junction)).map(wayTo);
  const toZeros = ways.filter((steps) => steps.at(-1)?.direct.kind === 'source');
  // What was reached last is farthest in the order of the search.
  const steps = toZeros.length > 0 ? toZeros : [...reached].slice(-MOST_ENDS).map(wayTo);
  let farthest: FarthestEnd = { steps: [], distance: 0, isZero: false };
  for (const way of steps) {
    const distance = new Set(way.map(({ part }) => part)).size;
    if (distance > farthest.distance)
      farthest = { steps: way, distance, isZero: toZeros.length > 0 };
  }
  return farthest;
}

function stopped(heading: string, part: Part, because: string): TracePath {
  return { heading, steps: [], blocked: { part: part.name, because, place: part.place } };
}

/** The same steps walked the other way, ending at a terminal's junction. */
function reversed(goal: End, steps: readonly Step[]): Step[] {
  return steps
    .map((step, index) => {
      const junction = steps[index - 1]?.junction ?? goal.junction;
      const direct =
        step.direct.kind === 'source' && step.direct.volts !== undefined
          ? { ...step.direct, volts: -step.direct.volts }
          : step.direct;
      return { ...step, from: step.to, to: step.from, direct, junction };
    })
    .reverse();
}

/** Steps in words; the sections of one winding, or two taps of one battery, become one step. */
function merged(conduction: Conduction, steps: readonly Step[]): TraceStep[] {
  const told: TraceStep[] = [];
  for (let index = 0; index < steps.length; ) {
    const first = steps[index] as Step;
    let last = first;
    let ohms: number | undefined = 0;
    let volts: number | undefined = 0;
    for (; steps[index]?.part === first.part; index++) {
      last = steps[index] as Step;
      const { direct } = last;
      if (direct.kind === 'blocks') continue;
      ohms = direct.ohms === undefined || ohms === undefined ? undefined : ohms + direct.ohms;
      const across = direct.kind === 'source' ? direct.volts : 0;
      volts = across === undefined || volts === undefined ? undefined : volts + across;
    }
    const isSource = first.direct.kind === 'source';
    told.push({
      part: first.part,
      from: first.from,
      to: last.to,
      passes: true,
      because: inWords(conduction.circuit, first, ohms, isSource ? volts : undefined),
      ...(ohms === undefined ? {} : { ohms }),
      ...(isSource && volts !== undefined ? { volts } : {}),
    });
  }
  return told;
}

function inWords(
  circuit: Circuit,
  step: Step,
  ohms: number | undefined,
  volts: number | undefined,
): string {
  const { because } = step.direct;
  const isContact = (circuit.partNamed.get(step.part)?.contacts.length ?? 0) > 0;
  if (step.direct.kind === 'source')
    return volts === undefined ? because : `${because}, ${formatQuantity(volts, 'voltage')}`;
  return ohms === undefined || isContact
    ? because
    : `${because}, ${formatQuantity(ohms, 'resistance')}`;
}
