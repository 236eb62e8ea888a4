import {
  emitterOf,
  isSupply,
  type Part,
  rolesOf,
  type TracePath,
  traceDirectCurrent,
} from '@setwright/circuit';
import { naturally } from '../natural-order.ts';
import { type OverlayPath, type OverlayStep, turnedAbout } from './overlay.ts';
import { type SetAtWork, signalHome } from './set-at-work.ts';
import { radioPaths, tubesOn } from './signal-way.ts';

/** The tubes of a set by name, those with a given end. */
export function tubesWith(parts: readonly Part[], end: string): Part[] {
  return parts
    .filter(({ kind, ends }) => kind === 'tube' && ends.some(({ name }) => name === end))
    .sort((a, b) => naturally(a.name, b.name));
}

const stepsOf = ({ steps }: TracePath): OverlayStep[] =>
  steps.map(({ part, from, to }) => ({ part, in: from, out: to }));

/** From each grid home to its own cathode or negative filament end. */
export function biasPaths(work: SetAtWork, tubes: readonly Part[]): OverlayPath[] {
  const { circuit, conduction } = work;
  return tubes.flatMap((tube) => {
    const grid = tube.ends.find(({ name }) => name === 'grid');
    const emitter = emitterOf(tube);
    if (!grid) return [];
    return traceDirectCurrent(circuit, grid.id, conduction.settings).map(
      (path): OverlayPath => ({
        kind: 'direct',
        heading: path.heading,
        from: grid.id,
        steps: stepsOf(path),
        ...(path.blocked ? { stopped: path.blocked.because } : emitter ? { to: emitter.id } : {}),
      }),
    );
  });
}

/**
 * From the B supply through each plate and screen and home again, as the current runs from plus to
 * minus; and where radio passes a tube, the way that it takes home from the plate.
 */
export function platePaths(work: SetAtWork, tubes: readonly Part[]): OverlayPath[] {
  const { circuit } = work;
  const carriers = new Set(radioTubes(work));
  return tubes.flatMap((tube) => {
    const feeds = ['plate', 'screen'].flatMap((name) => feedOf(work, tube, name));
    const plate = tube.ends.find(({ name }) => name === 'plate');
    const home =
      plate && carriers.has(tube.name)
        ? signalHome(work, plate.id, work.signals().radio)
        : undefined;
    // Radio that comes home by direct current's own way needs no line of its own.
    if (!plate || !home || home.steps.length === 0) return feeds;
    const { steps, to } = home;
    const heading = `radio from ${plate.id} home to ${circuit.endNamed.get(to)?.id ?? to}`;
    return [...feeds, { kind: 'radio', heading, from: plate.id, steps, to }];
  });
}

/** The tubes whose plates carry radio: those it passes, and the one it ends in. */
function radioTubes(work: SetAtWork): string[] {
  const paths = radioPaths(work);
  const passed = paths.flatMap(({ steps }) => tubesOn(work, steps));
  const last = paths.flatMap(({ kind, to }) =>
    kind === 'radio' && to !== undefined ? (work.circuit.partOfEnd.get(to) ?? []) : [],
  );
  const said = work.circuit.parts.filter(
    (part) => part.kind === 'tube' && rolesOf(work.circuit, part).includes('oscillator'),
  );
  return [...passed, ...last, ...said].map(({ name }) => name);
}

function feedOf(work: SetAtWork, tube: Part, electrode: string): OverlayPath[] {
  const { circuit, conduction } = work;
  const end = tube.ends.find(({ name }) => name === electrode);
  const emitter = emitterOf(tube);
  if (!end) return [];
  const [feed, home] = traceDirectCurrent(circuit, end.id, conduction.settings);
  if (!feed) return [];
  if (feed.blocked) {
    const { heading, blocked } = feed;
    const steps = stepsOf(feed);
    return [{ kind: 'direct', heading, from: end.id, steps, stopped: blocked.because }];
  }
  const tap = feed.steps.at(-1)?.to ?? end.id;
  const through = emitter ? [{ part: tube.name, in: end.id, out: emitter.id }] : [];
  const back = home ? stepsOf(home) : [];
  const supply = home && zeroBehind(work, tap);
  return [
    {
      kind: 'direct',
      heading: feed.heading,
      from: tapAt(work, tap) ?? tap,
      steps: [...turnedAbout(stepsOf(feed)), ...through, ...back],
      ...(home?.blocked ? { stopped: home.blocked.because } : supply ? { to: supply } : {}),
    },
  ];
}

/** The tap of a supply on the junction of a terminal. */
function tapAt({ circuit }: SetAtWork, terminal: string): string | undefined {
  const net = circuit.endNamed.get(terminal)?.junction;
  const ids = circuit.junctions[net ?? -1]?.terminals ?? [];
  return ids.find((id) => {
    const part = circuit.partOfEnd.get(id);
    return part !== undefined && isSupply(part);
  });
}

/** The zero tap of the supply that feeds a terminal's junction. */
function zeroBehind(work: SetAtWork, terminal: string): string | undefined {
  const { circuit } = work;
  const supply = circuit.partOfEnd.get(tapAt(work, terminal) ?? '');
  const zero = supply?.supplyTaps.find(({ volts }) => volts === 0) ?? supply?.supplyTaps[0];
  return supply?.ends.find(({ name }) => name === zero?.end)?.id;
}

/** Round from the filament supply through each filament, as the current runs from plus to minus. */
export function filamentPaths(work: SetAtWork, tubes: readonly Part[]): OverlayPath[] {
  const { circuit, conduction } = work;
  return tubes.flatMap((tube): OverlayPath[] => {
    const [path] = traceDirectCurrent(circuit, `${tube.name}.filament+`, conduction.settings);
    if (!path) return [];
    const steps = stepsOf(path);
    const { heading, blocked } = path;
    if (blocked) {
      const from = steps[0]?.in ?? `${tube.name}.filament+`;
      return [{ kind: 'direct', heading, from, steps, stopped: blocked.because }];
    }
    const at = steps.findIndex(({ part }) => isSource(work, part));
    const source = steps[at];
    if (!source) return [];
    const through = {
      part: tube.name,
      in: `${tube.name}.filament+`,
      out: `${tube.name}.filament-`,
    };
    // Told from the filament to the battery's plus, through it and back; the current runs against.
    const plus = turnedAbout(steps.slice(0, at));
    const minus = turnedAbout(steps.slice(at + 1));
    return [
      {
        kind: 'direct',
        heading,
        from: source.in,
        steps: [...plus, through, ...minus],
        to: source.out,
      },
    ];
  });
}

function isSource({ circuit }: SetAtWork, part: string): boolean {
  const found = circuit.partNamed.get(part);
  return found !== undefined && isSupply(found);
}
