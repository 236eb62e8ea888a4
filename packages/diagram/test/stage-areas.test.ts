import { beforeAll, describe, expect, it } from 'vitest';
import {
  type Dressing,
  drawCircuit,
  dress,
  layoutEngine,
  type Scene,
  stagesOf,
} from '../src/index.ts';
import { circuitOf, exampleTexts } from './examples.ts';

const engine = layoutEngine();
const drawings = exampleTexts.flatMap(([name, text]) =>
  (['one', 'page'] as const).map((rows) => [name, rows, text] as const),
);

describe.each(drawings)('the stages of %s, rows: %s', (_name, rows, text) => {
  const circuit = circuitOf(text);
  let scene: Scene;
  let dressing: Dressing;
  beforeAll(async () => {
    scene = await drawCircuit(circuit, engine, { rows });
    dressing = dress(scene, { stages: stagesOf(circuit) });
  });

  it('are shaded as rectangles with few corners, and share no ground', () => {
    const { areas } = dressing;
    for (const { outlines } of areas)
      for (const outline of outlines) expect(outline.length).toBeLessThanOrEqual(16);
    const shared: string[] = [];
    for (let x = 3; x < scene.width; x += 10) {
      for (let y = 3; y < scene.height; y += 10) {
        const stages = areas.filter(({ outlines }) => isIn(outlines, { x, y }));
        if (new Set(stages.map(({ stage }) => stage)).size > 1) shared.push(`${x},${y}`);
      }
    }
    expect(shared).toEqual([]);
  });

  it('are titled with air between the title and all other words', () => {
    const { labels } = dressing;
    for (const { text: words, box } of labels.filter(({ style }) => style === 'caption')) {
      const touching = scene.labels.filter(
        (other) =>
          other.box.left < box.right + 1 &&
          other.box.right > box.left - 1 &&
          other.box.top < box.bottom &&
          other.box.bottom > box.top,
      );
      expect(`${words}: ${touching.map((each) => each.text)}`).toBe(`${words}: `);
    }
  });
});

/** Whether an odd number of closed lines runs round a point: what is in two is in a window. */
function isIn(
  outlines: readonly (readonly { readonly x: number; readonly y: number }[])[],
  at: { readonly x: number; readonly y: number },
): boolean {
  let inside = false;
  for (const outline of outlines) {
    for (const [index, b] of outline.entries()) {
      const a = outline.at(index - 1)!;
      // The sides are level or upright: those upright to the right of the point count.
      if (a.x === b.x && a.x > at.x && a.y > at.y !== b.y > at.y) inside = !inside;
    }
  }
  return inside;
}
