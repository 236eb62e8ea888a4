import type { Part } from '@setwright/circuit';
import { STANDARD_AERIAL } from '../usual-values.ts';
import type { NetworkDraft } from './network-draft.ts';
import { AERIAL_INDUCTANCE, AERIAL_RESISTANCE } from './usual-signal-values.ts';

/** Where a set's signal comes in. */
export interface Entrance {
  /** The aerial post or the loop. */
  readonly part: string;
  /** The series piece that its electromotive force stands in. */
  readonly series: string;
}

/**
 * Takes up an aerial between its post and ground: its capacity, resistance and inductance in
 * series, as the post states them, else those of a standard dummy aerial. A set without a post for
 * an aerial hears by its loop. Undefined where it has neither.
 *
 * @param wanted the post or loop, of several; the first where not given
 */
export function addAerial(draft: NetworkDraft, wanted: string | undefined): Entrance | undefined {
  const { circuit, assumed } = draft;
  const posts = circuit.parts.filter(({ kind, words }) => kind === 'post' && words.has('aerial'));
  const loops = circuit.parts.filter(({ kind }) => kind === 'loop');
  const chosen = [...posts, ...loops].find(({ name }) => name === wanted) ?? posts[0] ?? loops[0];
  if (!chosen) return undefined;
  if (chosen.kind === 'loop') return loopEntrance(draft, chosen);
  const end = chosen.ends[0];
  if (!end) return undefined;
  const said = chosen.values.capacitance?.value;
  const ohms = chosen.values.resistance?.value ?? AERIAL_RESISTANCE;
  if (said === undefined) assumed.add('a standard dummy aerial: 200 mmfd, 20 µH, 25 ohms');
  else if (chosen.values.resistance === undefined)
    assumed.add(`20 µH and 25 ohms in the aerial at ${chosen.name}`);
  const post = draft.pointOf(end.junction);
  const middle = draft.fresh();
  const series = `${chosen.name} aerial`;
  const origin = { part: chosen.name, from: 'ground', to: end.id };
  draft.series.push({
    pieces: [{ from: middle, to: post, name: series, ohms: () => ohms, isSteady: true, origin }],
    henries: [[AERIAL_INDUCTANCE]],
  });
  const farads = said !== undefined && said > 0 ? said : STANDARD_AERIAL;
  draft.capacities.push({ from: 0, to: middle, farads, origin });
  return { part: chosen.name, series };
}

function loopEntrance(draft: NetworkDraft, loop: Part): Entrance | undefined {
  for (const { pieces } of draft.series) {
    const own = pieces.find(({ origin }) => origin?.part === loop.name);
    if (own) return { part: loop.name, series: own.name };
  }
  return undefined;
}
