import type { Label, Scene } from '../scene.ts';
import { letterSize, textWidth } from '../text-width.ts';
import type { Figure } from './figures.ts';
import { type Paper, placeNear } from './free-place.ts';
import { type Leader, placeWithLeader } from './leaders.ts';
import { lettered } from './lettered.ts';
import { figureSpots, outerSide, overWire } from './spots.ts';

/** How far a number may be from its part, step by step, in drawing units. */
const DISTANCES: readonly number[] = [10, 18, 26, 34, 44];

/** Numbers near their parts, else with a leader to them; what finds no room at all is told. */
export function addFigures(
  scene: Scene,
  figures: readonly Figure[],
  paper: Paper,
  labels: Label[],
  notes: string[],
): Leader[] {
  let best = placed(scene, figures, paper);
  if (best.away.length > 0) {
    // Once more: what found no room chooses first, where that is near its part.
    for (const { box } of best.labels) paper.give(box);
    const first = new Set(best.away);
    const others = figures.filter((figure) => !first.has(figure));
    const again = placed(scene, [...best.away, ...others], paper, first);
    if (again.away.length < best.away.length) best = again;
    else {
      for (const { box } of again.labels) paper.give(box);
      for (const { box } of best.labels) paper.take(box);
    }
  }
  labels.push(...best.labels);
  // Last, so that no leader takes the room of a number at its part.
  const leaders: Leader[] = [];
  const crowded: string[] = [];
  for (const { at, texts, meaning } of best.away) {
    const [spot] = figureSpots(scene, at);
    const [led] = texts.flatMap((text) => {
      const size = { width: textWidth(text, 'figure'), height: letterSize.figure };
      const place = spot && placeWithLeader(paper, spot, size);
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
  const height = letterSize.figure;
  for (const figure of figures) {
    const { at, texts } = figure;
    const [box] = figureSpots(scene, at);
    const side = outerSide(scene, at);
    const shunned = at.endsWith('.grid') ? 'above' : at.endsWith('.plate') ? 'below' : undefined;
    // Short and near is better than long and far.
    const [label] = (nearOnly.has(figure) ? DISTANCES.slice(0, 4) : DISTANCES)
      .flatMap((farthest) => texts.map((text) => ({ text, farthest })))
      .flatMap(({ text, farthest }) => {
        const width = textWidth(text, 'figure');
        const place =
          overWire(scene, at, { width, height }, paper) ??
          (box && placeNear(paper, box, width, height, { farthest, side, shunned }));
        return place ? [lettered(text, 'figure', place.left, place.top, at)] : [];
      });
    if (!label) {
      away.push(figure);
      continue;
    }
    paper.take(label.box);
    labels.push(label);
  }
  return { labels, away };
}
