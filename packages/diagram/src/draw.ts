import type { Circuit } from '@setwright/circuit';
import { crowdedNets } from './crowded.ts';
import type { LayoutEngine } from './layout-engine.ts';
import { type LayoutMemory, layoutMemory, type Recalling, remembering } from './layout-memory.ts';
import { inNaturalOrder } from './natural-circuit.ts';
import { netNames } from './net-names.ts';
import { withoutPoles, withPoles } from './poles.ts';
import { findRails } from './rails.ts';
import { misread } from './read-back.ts';
import {
  type Drawn,
  drawInRows,
  frameOf,
  type Known,
  rowsForPage,
  withUsualWords,
} from './rounds.ts';
import { worthOnPage } from './row-breaks.ts';
import type { Scene } from './scene.ts';
import { toScene } from './to-scene.ts';

/** How a drawing is to be made. */
export interface DrawOptions {
  /**
   * `page` breaks long sets into rows for a page; `one` keeps the signal path in one line; a number
   * is so many rows where the set can be broken so, else one.
   */
  readonly rows?: 'page' | 'one' | number;
  /** Layouts of earlier drawings: what they hold is not laid out again. */
  readonly memory?: LayoutMemory;
}

/** So many ways to break a set into rows are drawn, to see which fills a page best. */
const mostTried = 2;

/**
 * Draws a circuit. The same set gives the same drawing, in whatever order its text stands. A
 * junction that cannot be drawn as a wire, or not so that it is clear, is drawn as named symbols
 * instead, so that the drawing always says what the text says.
 */
export async function drawCircuit(
  given: Circuit,
  engine: LayoutEngine,
  options: DrawOptions = {},
): Promise<Scene> {
  const circuit = inNaturalOrder(withPoles(given));
  const named = new Set<number>();
  const recalling = remembering(engine, options.memory ?? layoutMemory());
  const names = netNames(circuit);
  const rails = findRails(circuit);
  let best: Scene | undefined;
  let fewest = Number.POSITIVE_INFINITY;
  for (let attempt = 0; ; attempt++) {
    const scene = await drawWith(circuit, recalling, { rails, names }, named, options);
    const lost = misread(circuit, scene);
    const crowded = crowdedNets(scene);
    // To say something else than the text is worse than to say it badly.
    const wrong = lost.length * 1000 + crowded.size;
    if (!best || wrong < fewest) [best, fewest] = [scene, wrong];
    const more = circuit.junctions
      .map(({ index }) => index)
      .filter((net) => lost.includes(net) || crowded.has(names[net] ?? ''))
      .filter((net) => !named.has(net) && rails.roleOf(net) === 'signal');
    if (more.length === 0 || attempt >= 3) return withoutPoles(given, best);
    for (const net of more) named.add(net);
  }
}

async function drawWith(
  circuit: Circuit,
  engine: Recalling,
  known: Known,
  named: ReadonlySet<number>,
  options: DrawOptions,
): Promise<Scene> {
  const frame = frameOf(circuit, known, named);
  const whole = [{ from: 0, to: frame.whole.cells.length, enters: undefined, leaves: undefined }];
  const { rows } = options;
  const choices =
    rows === 'one'
      ? [whole]
      : rowsForPage(frame, rows === 'page' ? undefined : rows).slice(0, mostTried);
  let [best = whole] = choices;
  let most = 0;
  let homes: Drawn['homes'] | undefined;
  // With the usual words at every part, so that a change of a value does not change the rows.
  const likely = withUsualWords(frame);
  for (const spans of choices.length > 1 ? choices : []) {
    const drawn = await drawInRows(likely, spans, engine);
    const worth = worthOnPage(drawn.width, drawn.height, drawn.widths);
    if (worth <= most * 1.001) continue;
    best = spans;
    homes = drawn.homes;
    most = worth;
  }
  const { canvas } = await drawInRows(frame, best, engine, homes);
  return toScene(circuit, frame.names, canvas);
}
