import type { Finding, Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { trfExample } from '../examples/trf-example.ts';
import { bypassed } from '../fixes/edits.ts';
import { handlesRadio } from '../radio/radio-chain.ts';
import { overEveryPosition } from '../radio/radio-positions.ts';
import { isAirWinding, lowestFrequency } from '../radio/radio-use.ts';
import { coilOf, type GridCircuit } from '../radio/radio-wiring.ts';
import type { Study } from '../study.ts';
import { alsoPart, finding, junctionName, listed } from '../words/finding.ts';

/** The way home may have this share of the reactance of the loop that it closes. */
const MOST_SHARE = 1 / 20;
/** A tuned loop that stages share: of its reactance; common practice. */
const MOST_SHARED_TANK = 1 / 200;
/** Grids that stages share: of the reactance of their own capacity; common practice. */
const MOST_SHARED_GRID = 1 / 140;

/** A condenser this large in farads closes a tuned loop by itself: .002 mfd. Common practice. */
const BYPASS = 2e-9;

/** Farads at a grid whose type does not say: 10 mmfd. Common practice. */
const USUAL_GRID = 10e-12;

/** A tuned grid circuit that closes only through what should carry no radio current. */
export const gridRadioReturn: Check = {
  id: 'grid-radio-return',
  group: 'Radio frequency',
  severity: 'warning',
  summary:
    'A tuned grid circuit whose radio current gets home only through a battery, a resistor or an audio winding.',
  why: 'The stage loses gain, tunes broadly and is coupled to whatever shares the way; in a reflex set it is dead.',
  silent: [
    'What another position of a switch, selector or jack cures is only information.',
    'A coil bypassed at its return end to the filament.',
    'A rotor on the coil’s return end: the tuned circuit is closed, and only the grid’s small current takes the way home.',
    'A way with less than a twentieth of the reactance of the loop that it closes, unless stages share it.',
    'Rheostats and other leads of the filaments.',
    'A reflex stage with a bypass of .00025 mfd and more.',
    'A coil of which not enough is said, or parts of unknown size in the way.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: trfExample({ returns: 'C-1.5' }),
  passes: trfExample({
    returns: 'C-1.5',
    returnLines: 'condenser C7 .5 mfd from C-1.5 to NEG',
  }),
  find: (study) => overEveryPosition(study, findAt),
};

function findAt(study: Study): readonly Finding[] {
  const { radio } = study;
  const grids = radio.gridCircuits.filter(
    (each) => handlesRadio(study, each.tube) && !radio.tubesAtRest.has(each.low),
  );
  if (grids.length === 0) return [];
  const loops = grids.flatMap((each) => loopOf(study, each) ?? []);
  const users = new Map<number, number>();
  for (const loop of loops)
    for (const junction of new Set(loop.passed))
      users.set(junction, (users.get(junction) ?? 0) + 1);
  // Coils that return to one point without its bypass are one fault.
  const first = new Map<number, Loop>();
  const more = new Map<Loop, Loop[]>();
  for (const loop of loops) {
    const known = first.get(loop.grid.low);
    if (known) more.set(known, [...(more.get(known) ?? []), loop]);
    else first.set(loop.grid.low, loop);
  }
  return [...first.values()].flatMap(
    (loop) => told(study, loop, more.get(loop) ?? [], users) ?? [],
  );
}

interface Loop {
  readonly grid: GridCircuit;
  /** The condenser whose tuned loop the way closes; undefined where only the grid is beyond. */
  readonly tuner: Part | undefined;
  readonly frequency: number;
  /** Ohms of what it closes, and of the way. */
  readonly reactance: number;
  readonly ohms: number;
  readonly through: readonly Part[];
  /** Junctions on the way that are not at rest, with ohms up to each. */
  readonly passed: readonly number[];
}

function loopOf(study: Study, grid: GridCircuit): Loop | undefined {
  const { circuit, radio } = study;
  const frequency = lowestFrequency(circuit, grid.tube);
  if (frequency === undefined) return undefined;
  const ways = radio.ways(frequency);
  const way = ways.at(grid.low);
  if (!way || !(way.ohms > 0)) return undefined;
  const tuner = tunerOf(study, grid);
  const farads = gridFarads(grid);
  const radians = 2 * Math.PI * frequency;
  const henries = tuner
    ? radio.coil(coilOf(grid.winding))?.windings.find(({ part }) => part === grid.winding)
        ?.inductance.value
    : undefined;
  if (tuner && henries === undefined) return undefined;
  const through = new Set<Part>();
  let before = 0;
  for (const step of way.steps()) {
    const part = circuit.partNamed.get(step.part);
    const here = ways.at(step.junction)?.ohms ?? before;
    if (part && !isAirWinding(circuit, part) && here - before >= way.ohms / 20) through.add(part);
    before = here;
  }
  return {
    grid,
    tuner,
    frequency,
    reactance: henries === undefined ? 1 / (radians * farads) : radians * henries,
    ohms: way.ohms,
    through: [...through].reverse(),
    passed: way
      .steps()
      .flatMap(({ junction }) => ((ways.at(junction)?.ohms ?? 0) > 0 ? [junction] : [])),
  };
}

function gridFarads({ tube }: GridCircuit): number {
  const all = tube.part.tubeType?.capacitances ?? {};
  let sum = 0;
  for (const [pair, farads] of Object.entries(all))
    if (pair.split(' ').includes('grid')) sum += farads;
  return sum > 0 ? sum : USUAL_GRID;
}

/** The tuning condenser from the grid end of the coil to a place at rest: its loop lies open. */
function tunerOf({ circuit, conduction, radio }: Study, grid: GridCircuit): Part | undefined {
  let open: Part | undefined;
  for (const branch of conduction.at[grid.high] ?? []) {
    const part = circuit.partNamed.get(branch.part);
    if (part?.kind !== 'condenser' || !part.words.has('variable')) continue;
    const there = branch.fromJunction === grid.high ? branch.toJunction : branch.fromJunction;
    if (there === grid.low) return undefined;
    if (radio.tubesAtRest.has(there)) open = part;
  }
  return open;
}

function told(
  study: Study,
  loop: Loop,
  alike: readonly Loop[],
  users: ReadonlyMap<number, number>,
): Finding | undefined {
  const { circuit, radio } = study;
  const { grid, tuner, frequency, reactance, ohms, through } = loop;
  const ways = radio.ways(frequency);
  let shared = 0;
  for (const junction of loop.passed)
    if ((users.get(junction) ?? 0) > 1) shared = Math.max(shared, ways.at(junction)?.ohms ?? 0);
  const isHigh = ohms > reactance * MOST_SHARE && !(tuner && closedByCondenser(through));
  const most = reactance * (tuner ? MOST_SHARED_TANK : MOST_SHARED_GRID);
  const isShared = shared > most;
  if ((!isHigh && !isShared) || through.length === 0) return undefined;
  const names = listed(through.map(({ name }) => name));
  const size = formatQuantity(ohms, 'resistance', 'period', 2);
  const what = tuner
    ? `The tuned circuit of ${grid.winding.name} and ${tuner.name} closes only through ${names}`
    : `The grid circuit of ${grid.tube.part.name} gets home only through ${names}`;
  const at = junctionName(circuit, grid.low);
  const home = grid.tube.reference?.id ?? 'its filament';
  const isReflex = grid.tube.roles.includes('audio');
  const value = isReflex ? '.00025 to .0005 mfd' : isShared ? '.5 mfd' : '.002 to .5 mfd';
  return finding({
    check: 'grid-radio-return',
    severity: 'warning',
    message: `${what}: ${size} at ${formatQuantity(frequency, 'frequency')}, against ${formatQuantity(reactance, 'resistance', 'period', 2)} of the loop${isShared ? ', and stages share it' : ''}.`,
    why: isReflex
      ? 'For radio the grid circuit is as good as open, and the set is dead.'
      : isShared
        ? 'The stages work on one another through it, and the circuit tunes broadly.'
        : 'The stage loses gain and tunes broadly.',
    // A leak is no return for a coil: its own lead is missing.
    cure: through.every(({ kind }) => kind === 'leak')
      ? `Join ${at} to ${home}.`
      : `Put a condenser of ${value} from ${at} to ${home}.`,
    place: grid.winding.place,
    related: [
      alsoPart(grid.tube.part, 'the tube whose grid it drives'),
      ...through.map((part) => alsoPart(part, 'in the way of the radio current')),
      ...alike.map((other) => alsoPart(other.grid.winding, 'returns to the same point')),
    ],
    parts: [loop, ...alike].flatMap((each) => [each.grid.winding.name, each.grid.tube.part.name]),
    fixes: through.every(({ kind }) => kind === 'leak')
      ? []
      : bypassed(
          circuit,
          grid.winding,
          isReflex ? '.0005 mfd' : '.5 mfd',
          at,
          grid.tube.reference?.id,
        ),
  });
}

/** A tuned loop closed by a bypass of usual size is closed; it only loses a little of its range. */
function closedByCondenser(through: readonly Part[]): boolean {
  return through.every(
    ({ kind, values }) => kind === 'condenser' && (values.capacitance?.value ?? BYPASS) >= BYPASS,
  );
}
