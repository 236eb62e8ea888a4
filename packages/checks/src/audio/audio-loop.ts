import type { TubeAtWork } from '@setwright/analysis';
import { directPath, type End, type Part, type Step } from '@setwright/circuit';
import { type JoinsByTerminal, joinsByTerminal } from '../fixes/exchange.ts';
import type { Study } from '../study.ts';
import { isPlateSupply, plateFeeds } from '../supplies/plate-feed.ts';
import { type SupplyNetwork, supplyNetwork } from '../supplies/supply-impedance.ts';
import { partsAt, type TubeAt } from '../tubes/tubes.ts';
import type { AudioLink, AudioLinks } from './audio-links.ts';
import { add, type Complex, determinant, inverse, minus, scaled, times } from './complex.ts';
import { turnsRatio } from './turns-ratio.ts';

/** Inductance of an interstage primary, a horn and an output choke, in henries. Common practice. */
const USUAL_PRIMARY = 10;
const USUAL_HORN = 1;
const USUAL_CHOKE = 30;
/** Ohms of a horn or phones where they are not said. Common practice. */
const USUAL_HORN_OHMS = 2000;
/** A loudspeaker behind its transformer is about so many plate resistances. Common practice. */
const OUTPUT_LOAD = 2;
/** A resistor as high as this in a plate lead is its load, in ohms. Common practice. */
const LEAST_PLATE_RESISTOR = 5000;
/** Frequencies at which loops are tried, in hertz: from putter to squeal. */
const LOWEST = 1;
const HIGHEST = 4000;
const TRIED = 32;
/** A loop is in step where its phase is no more than this from naught, as a share of its size. */
const IN_STEP = Math.tan((20 * Math.PI) / 180);

/** One audio stage, as its supply sees it. */
interface Stage {
  readonly tube: TubeAt;
  readonly rp: number;
  readonly mu: number;
  /** Index of the port that its load hangs on. */
  readonly feed: number;
  /** Index of the port that its grid returns to; undefined where that stands still. */
  readonly home: number | undefined;
  readonly load: (omega: number) => Complex;
  /** Siemens from its plate home, beside the load. */
  readonly shunt: (omega: number) => Complex;
  readonly drives: readonly Drive[];
}

interface Drive {
  readonly to: number;
  /** The grid's volts for one across the primary, by the sign of `sense`. */
  readonly stepUp: number | undefined;
  /** Index into the senses; undefined for a condenser. */
  readonly sense: number | undefined;
  /** For a condenser: the grid's volts for one at the plate, and for one at its return. */
  readonly couples: ((omega: number) => { plate: Complex; home: Complex }) | undefined;
}

/** Audio stages that drive one another, with the supply they share. */
export interface AudioLoop {
  readonly tubes: readonly TubeAt[];
  readonly feeds: readonly number[];
  readonly network: SupplyNetwork;
  /** Transformers whose sense is not said. */
  readonly unknown: readonly Part[];
  /** The most that a signal grows by once round the loop, and at which frequency in hertz. */
  gain(unsaidOhms: number): { readonly times: number; readonly hertz: number };
}

/** More stages than this in a chain are left alone. */
const MOST_STAGES = 8;
/** More transformers than this of unknown sense are left alone. */
const MOST_UNKNOWN = 4;

/**
 * The chains of audio stages of a set. Those of which something that matters is not known are
 * left out.
 */
export function audioLoops(
  study: Study,
  audio: AudioLinks,
  ground: ReadonlySet<number>,
): readonly AudioLoop[] {
  const around: Around = {
    ground,
    work: new Map(study.operating.tubes.map((each) => [each.tube, each])),
    joins: joinsByTerminal(study.circuit),
    feeds: plateFeeds(study.conduction),
    plateTaps: new Set(
      study.circuit.parts.filter(isPlateSupply).flatMap(({ ends }) => ends.map((e) => e.junction)),
    ),
  };
  return chainsOf(audio)
    .slice(0, MOST_CHAINS)
    .flatMap((chain) => loopOf(study, audio, chain, around) ?? []);
}

/** What is gathered once for all chains. */
interface Around {
  readonly ground: ReadonlySet<number>;
  readonly work: ReadonlyMap<string, TubeAtWork>;
  readonly joins: JoinsByTerminal;
  readonly feeds: ReturnType<typeof plateFeeds>;
  readonly plateTaps: ReadonlySet<number>;
}

/** A set with more chains than this is no set of one household: the others are left alone. */
const MOST_CHAINS = 16;

/** Groups of tubes that links join, each in the order of the signal; rings are left out. */
function chainsOf({ links }: AudioLinks): readonly (readonly TubeAt[])[] {
  const next = new Map<TubeAt, Set<TubeAt>>();
  const tubes = new Set<TubeAt>();
  for (const { from, to } of links) {
    for (const [a, b] of [
      [from, to],
      [to, from],
    ] as const) {
      tubes.add(a);
      const here = next.get(a);
      if (here) here.add(b);
      else next.set(a, new Set([b]));
    }
  }
  const chains: TubeAt[][] = [];
  const seen = new Set<TubeAt>();
  for (const tube of tubes) {
    if (seen.has(tube)) continue;
    const chain = new Set([tube]);
    for (const each of chain) for (const other of next.get(each) ?? []) chain.add(other);
    for (const each of chain) seen.add(each);
    if (chain.size > MOST_STAGES) continue;
    const ordered = inOrder(chain, links);
    if (ordered) chains.push(ordered);
  }
  return chains;
}

function inOrder(chain: ReadonlySet<TubeAt>, links: readonly AudioLink[]): TubeAt[] | undefined {
  const own = links.filter(({ from }) => chain.has(from));
  const ordered: TubeAt[] = [];
  const left = new Set(chain);
  while (left.size > 0) {
    const first = [...left].find(
      (tube) => !own.some(({ from, to }) => to === tube && left.has(from)),
    );
    if (!first) return undefined;
    left.delete(first);
    ordered.push(first);
  }
  return ordered;
}

function loopOf(
  study: Study,
  audio: AudioLinks,
  chain: readonly TubeAt[],
  { ground, work, joins, feeds, plateTaps }: Around,
): AudioLoop | undefined {
  const isTap = (junction: number): boolean => feeds.get(junction)?.distance === 0;
  const ports: number[] = [];
  const portOf = (junction: number): number => {
    const at = ports.indexOf(junction);
    return at >= 0 ? at : ports.push(junction) - 1;
  };
  const senses: Sense[] = [];
  const stages: Stage[] = [];
  for (const tube of chain) {
    const at = work.get(tube.part.name);
    const rp = at?.plateResistance?.value;
    const mu = at?.amplification?.value;
    const loaded = loadOf(study, audio, tube, isTap, rp ?? 0);
    if (rp === undefined || mu === undefined || !(rp > 0) || !loaded) return undefined;
    const drives = drivesOf(study, audio, chain, tube, senses, joins);
    if (!drives) return undefined;
    const home = homeOf(study, tube, ground, plateTaps);
    stages.push({
      tube,
      rp,
      mu,
      feed: portOf(loaded.feed),
      home: home === undefined ? undefined : portOf(home),
      load: loaded.load,
      shunt: shuntOf(study, audio, tube, drives),
      drives,
    });
  }
  const network = supplyNetwork(study, ports, ground);
  const unknown = senses.filter(({ sign }) => sign === undefined);
  if (!network || unknown.length > MOST_UNKNOWN) return undefined;
  const combinations = combinationsOf(senses);
  return {
    tubes: chain,
    feeds: stages.map(({ feed }) => ports[feed] ?? -1),
    network,
    unknown: unknown.map(({ transformer }) => transformer),
    gain(unsaidOhms) {
      const frequencies = Array.from(
        { length: TRIED },
        (_, index) => LOWEST * (HIGHEST / LOWEST) ** (index / (TRIED - 1)),
      );
      const impedances = frequencies.map((hertz) =>
        network.impedances(2 * Math.PI * hertz, unsaidOhms),
      );
      let best = { times: 0, hertz: LOWEST };
      for (const signs of combinations) {
        const loops = frequencies.map((hertz, index) =>
          loopGain(stages, ports.length, signs, impedances[index] ?? [], 2 * Math.PI * hertz),
        );
        const found = mostInStep(loops, frequencies);
        if (found.times > best.times) best = found;
      }
      return best;
    },
  };
}

interface Sense {
  readonly transformer: Part;
  /** +1 where the grid goes up with the plate; undefined where the text does not say. */
  readonly sign: number | undefined;
  /** The same by start and finish alone, as if all windings ran the same way round. */
  readonly drawn: number;
}

function combinationsOf(senses: readonly Sense[]): readonly (readonly number[])[] {
  return senses.reduce<readonly (readonly number[])[]>(
    (all, { sign }) =>
      all.flatMap((signs) =>
        sign === undefined
          ? [
              [...signs, 1],
              [...signs, -1],
            ]
          : [[...signs, sign]],
      ),
    [[]],
  );
}

/** The largest of the loop's gains where it comes back in step with itself. */
function mostInStep(
  loops: readonly Complex[],
  frequencies: readonly number[],
): { readonly times: number; readonly hertz: number } {
  let best = { times: 0, hertz: frequencies[0] ?? LOWEST };
  for (const [index, [re, im]] of loops.entries()) {
    const hertz = frequencies[index] ?? LOWEST;
    if (re > best.times && Math.abs(im) <= IN_STEP * re) best = { times: re, hertz };
    const before = loops[index - 1];
    if (!before || before[1] * im >= 0) continue;
    const along = before[1] / (before[1] - im);
    const crossing = before[0] + along * (re - before[0]);
    if (crossing > best.times) best = { times: crossing, hertz };
  }
  return best;
}

/**
 * The loop gain at one frequency: one less the determinant of the return differences, so that the
 * set is at the edge of growing where it is one. Volts go from the supply's points through the
 * stages to plate currents, and those through the supply's impedances back to its points.
 */
function loopGain(
  stages: readonly Stage[],
  ports: number,
  signs: readonly number[],
  impedances: readonly (readonly Complex[])[],
  omega: number,
): Complex {
  const none: Complex = [0, 0];
  const currents = stages.map((): Complex[] => Array.from({ length: ports }, () => none));
  for (let port = 0; port < ports; port++) {
    const grids: Complex[] = stages.map(({ home }) => (home === port ? [1, 0] : none));
    for (const [index, stage] of stages.entries()) {
      const feed: Complex = stage.feed === port ? [1, 0] : none;
      const grid = grids[index] ?? none;
      const toFeed = inverse(stage.load(omega));
      const whole = add(add([1 / stage.rp, 0], stage.shunt(omega)), toFeed);
      const driven = minus(times(feed, toFeed), scaled(grid, stage.mu / stage.rp));
      const plate = times(driven, inverse(whole));
      const across = minus(plate, feed);
      const row = currents[index];
      if (row) row[port] = scaled(times(across, toFeed), -1);
      for (const drive of stage.drives) {
        const was = grids[drive.to] ?? none;
        if (drive.couples) {
          const { plate: fromPlate, home } = drive.couples(omega);
          // What its return brings came in outright; through the condenser only a part of it does.
          grids[drive.to] = add(times(was, home), times(plate, fromPlate));
        } else if (drive.stepUp !== undefined && drive.sense !== undefined) {
          const sign = signs[drive.sense] ?? 1;
          grids[drive.to] = add(was, scaled(across, drive.stepUp * sign));
        }
      }
    }
  }
  const matrix = stages.map((_, row) =>
    stages.map(({ feed }, column): Complex => {
      let sum: Complex = row === column ? [1, 0] : none;
      for (let port = 0; port < ports; port++)
        sum = add(sum, times(currents[row]?.[port] ?? none, impedances[port]?.[feed] ?? none));
      return sum;
    }),
  );
  return minus([1, 0], determinant(matrix));
}

interface Loaded {
  /** The junction that the load hangs on, on the supply's side. */
  readonly feed: number;
  readonly load: (omega: number) => Complex;
}

/** What a plate works into on its way to its tap; undefined where there is none or it is unknown. */
function loadOf(
  study: Study,
  audio: AudioLinks,
  tube: TubeAt,
  isTap: (junction: number) => boolean,
  rp: number,
): Loaded | undefined {
  const { circuit, conduction } = study;
  if (!tube.plate) return undefined;
  const path = directPath(conduction, tube.plate.junction, isTap, { throughSources: false });
  if (!path.found) return undefined;
  const first = path.steps.findIndex((step) => isLoad(study, step));
  const step = path.steps[first];
  const part = step && circuit.partNamed.get(step.part);
  if (!step || !part) return undefined;
  let feed = step.junction;
  let last = step.to;
  for (const next of path.steps.slice(first + 1)) {
    if (next.part !== part.name) break;
    feed = next.junction;
    last = next.to;
  }
  const share = Math.abs(along(part, last) - along(part, step.from));
  const { resistance, inductance } = part.values;
  const inductive =
    (ohms: number, henries: number) =>
    (omega: number): Complex => [
      (resistance?.value ?? ohms) * share,
      omega * (inductance?.value ?? henries) * share * share,
    ];
  switch (part.kind) {
    case 'winding': {
      const isInterstage = audio.links.some(
        (link) => link.kind === 'transformer' && link.primary === part,
      );
      if (!isInterstage) return { feed, load: () => [OUTPUT_LOAD * rp, 0] };
      return { feed, load: inductive(0, primaryHenries(study, part)) };
    }
    case 'choke':
      return { feed, load: inductive(0, USUAL_CHOKE) };
    case 'horn':
    case 'phones':
    case 'speaker':
      return { feed, load: inductive(USUAL_HORN_OHMS, USUAL_HORN) };
    default: {
      const ohms = step.direct.kind === 'conducts' ? step.direct.ohms : undefined;
      return ohms === undefined ? undefined : { feed, load: () => [ohms, 0] };
    }
  }
}

function isLoad({ circuit }: Study, { part: name, direct }: Step): boolean {
  const part = circuit.partNamed.get(name);
  const owner = part?.owner === undefined ? undefined : circuit.partNamed.get(part.owner);
  switch (part?.kind) {
    case 'winding':
      return owner?.kind === 'transformer' && !owner.words.has('air');
    case 'choke':
      return !part.words.has('air');
    case 'horn':
    case 'phones':
    case 'speaker':
      return true;
    case 'resistor':
    case 'leak':
      return direct.kind === 'conducts' && (direct.ohms ?? 0) >= LEAST_PLATE_RESISTOR;
    default:
      return false;
  }
}

/** Henries of a primary that does not state its own, by the secondary's and the ratio. */
function primaryHenries({ circuit }: Study, primary: Part): number {
  const transformer =
    primary.owner === undefined ? undefined : circuit.partNamed.get(primary.owner);
  const other = circuit.parts.find(
    (part) => part.owner === primary.owner && part !== primary && part.values.inductance,
  );
  const ratio = transformer && other && turnsRatio(transformer, primary, other);
  const henries = other?.values.inductance?.value;
  return ratio && henries ? henries / (ratio * ratio) : USUAL_PRIMARY;
}

/** How far along its part a terminal is, 0 at the start and 1 at the finish. */
function along(part: Part, terminal: string): number {
  const name = terminal.slice(part.name.length + 1);
  if (name === 'finish' || terminal === part.ends.at(1)?.id) return 1;
  return part.taps.find((tap) => tap.end === name)?.fraction ?? 0;
}

/** What a plate drives; undefined where a ratio or a condenser is not known. */
function drivesOf(
  study: Study,
  audio: AudioLinks,
  chain: readonly TubeAt[],
  tube: TubeAt,
  senses: Sense[],
  joins: JoinsByTerminal,
): readonly Drive[] | undefined {
  const drives: Drive[] = [];
  for (const link of audio.links) {
    if (link.from !== tube) continue;
    const to = chain.indexOf(link.to);
    const drive =
      link.kind === 'transformer'
        ? throughTransformer(study, audio, link, to, senses, joins)
        : throughCondenser(study, link, to);
    if (!drive) return undefined;
    drives.push(drive);
  }
  return drives;
}

function throughTransformer(
  { circuit }: Study,
  { groups }: AudioLinks,
  link: Extract<AudioLink, { readonly kind: 'transformer' }>,
  to: number,
  senses: Sense[],
  joins: JoinsByTerminal,
): Drive | undefined {
  const { primary, secondary, from, to: driven } = link;
  const transformer =
    primary.owner === undefined ? undefined : circuit.partNamed.get(primary.owner);
  if (!transformer) return undefined;
  const ratio = turnsRatio(transformer, primary, secondary);
  const plate = spanOf(primary, groups.of, from.plate);
  const grid = spanOf(secondary, groups.of, driven.grid);
  if (ratio === undefined || !plate?.span || !grid?.span) return undefined;
  const reversed = [primary, secondary].filter(({ winding }) => winding?.reversed).length;
  const isSaid =
    reversed > 0 || [...plate.ends, ...grid.ends].every((end) => isEndNamed(joins, end));
  const drawn = Math.sign(plate.span * grid.span) * (reversed % 2 === 1 ? -1 : 1);
  // Of a pair of tubes on one transformer the second goes by the first.
  const known = senses.findIndex((each) => each.transformer === transformer);
  if (known < 0) senses.push({ transformer, sign: isSaid ? drawn : undefined, drawn });
  const relative = known < 0 ? 1 : drawn * (senses[known]?.drawn ?? drawn);
  return {
    to,
    sense: known < 0 ? senses.length - 1 : known,
    stepUp: (relative * ratio * Math.abs(grid.span)) / Math.abs(plate.span),
    couples: undefined,
  };
}

/** From the end of a winding in a tube's group to its other joined end, as a part of the whole. */
function spanOf(
  winding: Part,
  groupOf: readonly number[],
  electrode: End | undefined,
): { readonly span: number; readonly ends: readonly [End, End] } | undefined {
  if (!electrode) return undefined;
  const near = winding.ends.find(
    ({ junction }) => groupOf[junction] === groupOf[electrode.junction],
  );
  const tapped = winding.ends.filter(
    (end) => end.name !== 'start' && end.name !== 'finish' && end.joins.length > 0,
  );
  const far =
    tapped.find((end) => end !== near) ??
    winding.ends.find((end) => end !== near && (end.name === 'start' || end.name === 'finish'));
  if (!near || !far) return undefined;
  return { span: along(winding, far.id) - along(winding, near.id), ends: [near, far] };
}

/** Whether the text names an end by its own name, as one does who looks which end it is. */
function isEndNamed(joins: JoinsByTerminal, end: End): boolean {
  return joins
    .at(end.id)
    .some(
      ({ to, said }) =>
        (to === end.id && said !== 'across') ||
        said === 'start' ||
        said === 'finish' ||
        said === 'wire',
    );
}

function throughCondenser(
  { circuit }: Study,
  { condenser, to: driven }: Extract<AudioLink, { readonly kind: 'condenser' }>,
  to: number,
): Drive | undefined {
  const farads = condenser.values.capacitance?.value;
  const junction = driven.grid?.junction;
  if (farads === undefined || !(farads > 0) || junction === undefined) return undefined;
  let siemens = 0;
  for (const part of partsAt(circuit, junction)) {
    const ohms = part.values.resistance?.value;
    if ((part.kind === 'leak' || part.kind === 'resistor') && ohms !== undefined && ohms > 0)
      siemens += 1 / ohms;
  }
  if (!(siemens > 0)) return undefined;
  return {
    to,
    stepUp: undefined,
    sense: undefined,
    couples(omega) {
      const through: Complex = [0, omega * farads];
      const whole = inverse(add(through, [siemens, 0]));
      return { plate: times(through, whole), home: scaled(whole, siemens) };
    },
  };
}

/** Siemens from a plate home beside its load: leaks behind condensers, a speaker behind one. */
function shuntOf(
  { circuit }: Study,
  { groups }: AudioLinks,
  tube: TubeAt,
  drives: readonly Drive[],
): (omega: number) => Complex {
  const group = tube.plate && groups.of[tube.plate.junction];
  const speakers = circuit.parts.flatMap((part) => {
    const farads = part.values.capacitance?.value;
    const [first, second] = part.ends;
    if (part.kind !== 'condenser' || farads === undefined || !first || !second) return [];
    const [a, b] = [groups.of[first.junction], groups.of[second.junction]];
    if (a === b || (a !== group && b !== group)) return [];
    const far = a === group ? second.junction : first.junction;
    const speaker = partsAt(circuit, far).find(
      ({ kind }) => kind === 'horn' || kind === 'speaker' || kind === 'phones',
    );
    return speaker ? [{ farads, speaker }] : [];
  });
  const hasLeak = drives.some(({ couples }) => couples);
  return (omega) => {
    let sum: Complex = hasLeak ? [LEAK_SIEMENS, 0] : [0, 0];
    for (const { farads, speaker } of speakers) {
      const { resistance, inductance } = speaker.values;
      const ohms = resistance?.value ?? USUAL_HORN_OHMS;
      const reactance = omega * (inductance?.value ?? USUAL_HORN) - 1 / (omega * farads);
      sum = add(sum, inverse([ohms, reactance]));
    }
    return sum;
  };
}

/** The next grid's leak beside a plate resistor, siemens: half a megohm. Common practice. */
const LEAK_SIEMENS = 2e-6;

/**
 * The point of the plate supply that a grid returns to, by way of a C battery or not. Undefined
 * where it returns to what stands still.
 */
function homeOf(
  { circuit, conduction }: Study,
  { grid }: TubeAt,
  ground: ReadonlySet<number>,
  plateTaps: ReadonlySet<number>,
): number | undefined {
  if (!grid) return undefined;
  const isGoal = (junction: number): boolean => ground.has(junction) || plateTaps.has(junction);
  const path = directPath(conduction, grid.junction, isGoal, {
    passes: ({ part: name, direct }) => {
      const part = circuit.partNamed.get(name);
      if (!part || part.kind === 'tube') return false;
      return direct.kind !== 'source' || !isPlateSupply(part);
    },
  });
  return path.found && !ground.has(path.junction) ? path.junction : undefined;
}
