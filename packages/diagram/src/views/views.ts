import type { Circuit, Part } from '@setwright/circuit';
import { naturally } from '../natural-order.ts';
import type { Overlay, OverlayPath } from './overlay.ts';
import { type SetAtWork, setAtWork } from './set-at-work.ts';
import { audioPaths, radioPaths } from './signal-way.ts';
import { biasPaths, filamentPaths, platePaths, tubesWith } from './supply-views.ts';
import { type Change, supposeOverlay } from './suppose-view.ts';

/** A view of a set's drawing: what it is called, in calls and to the eye. */
export interface View {
  readonly id: string;
  readonly title: string;
}

/** What a view may be given besides the set. */
export interface OverlayOptions {
  /** For a suppose: what it changes, in the order in which it is to be lettered. */
  readonly changes?: readonly Change[];
  /** The set at work, made once by `setAtWork` for all views of it; made anew where not given. */
  readonly work?: SetAtWork;
}

/** Makes the overlay of one view. */
type Maker = (circuit: Circuit, id: string, title: string, options: OverlayOptions) => Overlay;

interface KnownView extends View {
  readonly make: Maker;
}

/**
 * The views of a set's drawing, in the order in which to offer them: the whole, the signal, bias,
 * plate supply and filaments for all tubes and for each, every stage, every suppose. Only those
 * that there is something to show in.
 */
export function viewsOf(circuit: Circuit): readonly View[] {
  return knownViews(circuit).map(({ id, title }) => ({ id, title }));
}

/**
 * What a view draws over the set's schematic; undefined for a view that the set does not have.
 * Currents are followed with the set switched on and tuned to the middle of its band. Never throws.
 *
 * @param view an id of `viewsOf`, or `suppose` with a title
 */
export function overlayOf(
  circuit: Circuit,
  view: string,
  options: OverlayOptions = {},
): Overlay | undefined {
  const found = viewNamed(circuit, view);
  return found?.make(circuit, found.id, found.title, options);
}

/** The view that a person means, however they space it and put it in capitals. */
function viewNamed(circuit: Circuit, written: string): KnownView | undefined {
  const views = knownViews(circuit);
  const wanted = written.trim().replace(/\s+/g, ' ');
  const exact = views.find(({ id }) => id === wanted);
  if (exact) return exact;
  const plain = (text: string): string => text.toLowerCase().replaceAll('"', '').trim();
  const title = plain(wanted).replace(/^suppose:? /, '');
  return (
    views.find(({ id }) => plain(id) === plain(wanted)) ??
    circuit.supposes.flatMap((suppose, index) =>
      plain(suppose.title) === title
        ? (views.find(({ id }) => id === `suppose ${index + 1}`) ?? [])
        : [],
    )[0]
  );
}

function knownViews(circuit: Circuit): KnownView[] {
  const has = (kind: Part['kind']): boolean => circuit.parts.some((part) => part.kind === kind);
  const makesSound = has('phones') || has('horn') || has('speaker');
  const isReached =
    has('loop') || circuit.parts.some(({ kind, words }) => kind === 'post' && words.has('aerial'));
  const detects = has('tube') || has('crystal');
  const views: KnownView[] = [{ id: 'whole', title: 'Whole set', make: whole }];
  if (isReached && detects)
    views.push({ id: 'radio', title: 'Radio signal', make: paths(radioPaths) });
  if (makesSound && detects)
    views.push({ id: 'audio', title: 'Audio signal', make: paths(audioPaths) });
  views.push(
    ...ofTubes(circuit, 'bias', 'Grid bias', 'grid', biasPaths),
    ...ofTubes(circuit, 'plate', 'Plate supply', 'plate', platePaths),
  );
  const filaments = tubesWith(circuit.parts, 'filament+');
  if (filaments.length > 0)
    views.push({
      id: 'filaments',
      title: 'Filaments',
      make: paths((work) => filamentPaths(work, filaments)),
    });
  for (const { name, title, parts } of [...circuit.stages].sort((a, b) =>
    naturally(a.name, b.name),
  ))
    views.push({
      id: `stage ${name}`,
      title: title === undefined ? `Stage ${name}` : `Stage ${name}: ${title}`,
      make: (_circuit, id, shown) => ({ ...nothing(id, shown), parts }),
    });
  for (const [index, suppose] of circuit.supposes.entries())
    views.push({
      id: `suppose ${index + 1}`,
      title: `Suppose: ${suppose.title}`,
      make: (_circuit, id, _shown, { changes }) =>
        supposeOverlay(circuit, id, suppose, changes ?? []),
    });
  return views;
}

/** A view of all tubes with an electrode, and one of each. */
function ofTubes(
  circuit: Circuit,
  id: string,
  title: string,
  electrode: string,
  pathsOf: (work: SetAtWork, tubes: readonly Part[]) => readonly OverlayPath[],
): KnownView[] {
  const tubes = tubesWith(circuit.parts, electrode);
  if (tubes.length === 0) return [];
  return [
    { id, title, make: paths((work) => pathsOf(work, tubes)) },
    ...tubes.map((tube) => ({
      id: `${id} ${tube.name}`,
      title: `${title} of ${tube.name}`,
      make: paths((work) => pathsOf(work, [tube])),
    })),
  ];
}

const nothing = (id: string, title: string): Overlay => ({
  id,
  title,
  parts: undefined,
  paths: [],
  failed: [],
  changed: [],
  notes: [],
});

const whole: Maker = (_circuit, id, title) => nothing(id, title);

function paths(find: (work: SetAtWork) => readonly OverlayPath[]): Maker {
  return (circuit, id, title, { work = setAtWork(circuit) }) => {
    const found = find(work);
    const stops = found.flatMap(({ heading, stopped }) =>
      stopped === undefined ? [] : [`${heading}: it goes no further, ${stopped}.`],
    );
    const notes = found.length === 0 ? ['No such path is to be found in this set.'] : stops;
    return {
      ...nothing(id, title),
      parts: found.length === 0 ? undefined : [],
      paths: found,
      notes,
    };
  };
}
