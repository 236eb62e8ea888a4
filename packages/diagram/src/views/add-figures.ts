import type { Box, Label, Scene } from '../scene.ts';
import type { Figure } from './figures.ts';
import { nearest, type Paper, type Place, placesBetween } from './free-place.ts';
import { type Leader, placeWithLeader } from './leaders.ts';
import { lettered, sizeOf } from './lettered.ts';
import { figureSpots, outerSide, overWire } from './spots.ts';

/** How far a number may be from its part, step by step, in drawing units. */
const DISTANCES: readonly number[] = [10, 18, 26, 34, 44];
/** What chooses first stands nearer: farther off it would take the room of others. */
const NEAR = DISTANCES.slice(0, -1);

/** Numbers near their parts, else with a leader to them; what finds no room at all is told. */
export function addFigures(
  scene: Scene,
  figures: readonly Figure[],
  paper: Paper,
  labels: Label[],
  notes: string[],
): Leader[] {
  let best = paper.trying(() => placed(scene, figures, paper));
  if (best.away.length > 0) {
    // Once more: what found no room chooses first, where that is near its part.
    const first = new Set(best.away);
    const order = [...best.away, ...figures.filter((figure) => !first.has(figure))];
    const again = paper.trying(() => placed(scene, order, paper, first));
    if (again.away.length < best.away.length) best = again;
  }
  for (const { box } of best.labels) paper.take(box);
  labels.push(...best.labels);
  // Last, so that no leader takes the room of a number at its part.
  const leaders: Leader[] = [];
  const crowded: string[] = [];
  for (const { at, texts, meaning } of best.away) {
    const [spot] = figureSpots(scene, at);
    const [led] = texts.flatMap((text) => {
      const place = spot && placeWithLeader(paper, spot, sizeOf(text, 'figure'));
      return place ? [{ text, ...place }] : [];
    });
    if (!led) {
      crowded.push(`${meaning}, ${texts[0] ?? ''}`);
      continue;
    }
    labels.push(lettered(led.text, 'figure', led.box.left, led.box.top, at));
    leaders.push({ at, from: led.from, to: led.to });
  }
  if (crowded.length > 0) notes.push(`No room on the drawing for: ${crowded.join('; ')}.`);
  return leaders;
}

/** Numbers at their parts, in the order in which they choose, and those that find no room there. */
function placed(
  scene: Scene,
  figures: readonly Figure[],
  paper: Paper,
  nearOnly: ReadonlySet<Figure> = new Set(),
): { readonly labels: readonly Label[]; readonly away: readonly Figure[] } {
  const labels: Label[] = [];
  const away: Figure[] = [];
  for (const figure of figures) {
    const place = placeOf(scene, figure, paper, nearOnly.has(figure) ? NEAR : DISTANCES);
    if (!place) {
      away.push(figure);
      continue;
    }
    paper.take(place.box);
    labels.push(lettered(place.text, 'figure', place.box.left, place.box.top, figure.at));
  }
  return { labels, away };
}

/** Where a number stands, and how it is worded there. */
interface PlacedText {
  readonly text: string;
  readonly box: Box;
}

/**
 * Short and near is better than long and far; wholly in the shade of a stage, or out of it, is
 * better than across its edge, where that is not far off.
 */
function placeOf(
  scene: Scene,
  { at, texts, isBand }: Figure,
  paper: Paper,
  distances: readonly number[],
): PlacedText | undefined {
  for (const text of texts) {
    const box = overWire(scene, at, sizeOf(text, 'figure'), paper);
    if (box) return { text, box };
  }
  const [spot] = figureSpots(scene, at);
  if (!spot) return undefined;
  const wanted = {
    side: outerSide(scene, at),
    beyondLines: isBand ?? false,
    // A grid's volts over it would be read as its plate's; a band over its condenser as the bias.
    shunned: /\.grid$/.test(at) || isBand ? 'above' : /\.plate$/.test(at) ? 'below' : undefined,
  } as const;
  // What is far off is looked for only where nothing is nearer.
  const found = texts.map((text) => ({ text, whole: [] as Place[], any: [] as Place[] }));
  for (const [index, farthest] of distances.entries()) {
    for (const { text, whole, any } of found) {
      const from = distances[index - 1] ?? 0;
      const places = placesBetween(paper, spot, sizeOf(text, 'figure'), wanted, from, farthest);
      any.push(...places);
      whole.push(...places.filter(({ box }) => !paper.isOnEdge(box)));
    }
    if (!NEAR.includes(farthest)) continue;
    for (const { text, whole } of found) {
      const place = nearest(whole, farthest);
      if (place) return { text, box: place.box };
    }
  }
  for (const farthest of distances) {
    for (const { text, any } of found) {
      const place = nearest(any, farthest);
      if (place) return { text, box: place.box };
    }
  }
  return undefined;
}
