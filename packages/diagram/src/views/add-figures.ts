import type { Label, Scene } from '../scene.ts';
import { letterSize, textWidth } from '../text-width.ts';
import type { Figure } from './figures.ts';
import { type Paper, placeNear } from './free-place.ts';
import { lettered } from './lettered.ts';
import { figureSpots, outerSide, overWire } from './spots.ts';

/** Numbers near their parts; what finds no room is told. */
export function addFigures(
  scene: Scene,
  figures: readonly Figure[],
  paper: Paper,
  labels: Label[],
  notes: string[],
): void {
  const crowded: string[] = [];
  for (const { at, texts, meaning } of figures) {
    const [box] = figureSpots(scene, at);
    const side = outerSide(scene, at);
    const shunned = at.endsWith('.grid') ? 'above' : at.endsWith('.plate') ? 'below' : undefined;
    // Short and near is better than long and far.
    const placed = [10, 18, 26, 34, 44]
      .flatMap((farthest) => texts.map((text) => ({ text, farthest })))
      .flatMap(({ text, farthest }) => {
        const width = textWidth(text, 'figure');
        const place =
          overWire(scene, at, { width, height: letterSize.figure }, paper) ??
          (box && placeNear(paper, box, width, letterSize.figure, farthest, side, shunned));
        return place ? [{ text, place }] : [];
      })[0];
    if (!placed) {
      crowded.push(`${meaning}, ${texts[0] ?? ''}`);
      continue;
    }
    paper.take(placed.place);
    const { left, top } = placed.place;
    labels.push(lettered(placed.text, 'figure', left, top, at));
  }
  if (crowded.length > 0) notes.push(`No room on the drawing for: ${crowded.join('; ')}.`);
}
